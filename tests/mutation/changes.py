"""One small change at a time to a C++ source: what is put in place of what, and where."""

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Change:
    file: str  # from the top of the tree
    line: int  # from 1
    column: int  # from 0
    old: str
    new: str
    kind: str
    before: str  # the line as it stands
    after: str  # the line as changed, both without blanks at the ends


BLANKED = re.compile(r'//[^\n]*|/\*.*?\*/|R"\(.*?\)"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'', re.DOTALL)
# Lines whose change says nothing: they change no behaviour, or hold in the debug build alone.
LEFT_OUT = re.compile(r"\s*(#|template\b|using\b|namespace\b|assert\(|static_assert\(|extern\b|friend\b)")

SWAPPED = {  # what stands between blanks, so that no bracket of a template is taken for a comparison
    " < ": [" <= ", " > "], " > ": [" >= ", " < "], " <= ": [" < "], " >= ": [" > "],
    " == ": [" != "], " != ": [" == "], " && ": [" || "], " || ": [" && "],
    " + ": [" - "], " - ": [" + "], " += ": [" -= "], " -= ": [" += "],
}
NAMES = {
    "std::min(": "std::max(", "std::max(": "std::min(", "std::min<": "std::max<", "std::max<": "std::min<",
    "std::min_element": "std::max_element", "std::max_element": "std::min_element",
    "std::lower_bound": "std::upper_bound", "std::upper_bound": "std::lower_bound",
    "std::any_of": "std::all_of", "std::all_of": "std::any_of",
    ".front()": ".back()", ".back()": ".front()",
}
KINDS = {" < ": "comparison", " > ": "comparison", " <= ": "comparison", " >= ": "comparison",
         " == ": "condition", " != ": "condition", " && ": "logic", " || ": "logic"}
NUMBER = re.compile(r"(?<![\w.'])(\d[\d']*\.\d+|\d[\d']*)(?![\w.'])")
STATEMENT = re.compile(r"\s*(continue;|break;|return\b.*;|throw\b.*;|(?:\+\+|--)[\w.\->\[\]*]+;"
                       r"|[\w.:\->\[\]*()]+\(.*\);|[\w.\->\[\]*()]+ [-+*/|&]?= .*;)\s*$")
STARTS_AFTER = re.compile(r"([{};:]|\)|\belse)\s*$")
CONDITION = re.compile(r"\b(?:if|while) \(")


def code_of(text):
    """The same text, as long, with comments, strings and characters blanked."""
    return BLANKED.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)


def closing(code, opened):
    """Where the bracket that opens there closes."""
    depth = 0
    for at in range(opened, len(code)):
        depth += (code[at] in "([{") - (code[at] in ")]}")
        if depth == 0:
            return at
    return len(code)


def neighbours(number):
    """One more and one less; of what has a fraction a hundredth."""
    plain = number.replace("'", "")
    if "." in plain and float(plain) != int(float(plain)):
        places = max(2, len(plain.split(".")[1]))
        return [f"{float(plain) + step:.{places}f}" for step in (0.01, -0.01)]
    if "." in plain:
        return [f"{float(plain) + step:.1f}" for step in (1, -1)]
    return [str(int(plain, 10) + 1)] + ([str(int(plain, 10) - 1)] if int(plain, 10) > 0 else [])


def swapped_rows(code, opened):
    """The two first rows of a table change places, and the two last: (from, to, new text) each."""
    end = closing(code, opened)
    rows, start, at = [], opened + 1, opened + 1
    while at < end:
        if code[at] in "([{":
            at = closing(code, at)
        elif code[at] == ",":
            rows.append((start, at))
            start = at + 1
        at += 1
    rows.append((start, end))
    pairs = {(0, 1), (len(rows) - 2, len(rows) - 1)} if len(rows) > 1 else set()
    return [(rows[a], rows[b]) for a, b in sorted(pairs)]


def found_in(text, header):
    """(from, to, new text, kind) for all that may be changed; of a header its constants alone."""
    code = code_of(text)
    starts = [0] + [at + 1 for at, letter in enumerate(code) if letter == "\n"]
    for start in starts:
        line = code[start:code.find("\n", start)] if "\n" in code[start:] else code[start:]
        if LEFT_OUT.match(line) or not line.strip():
            continue
        constant = re.match(r"\s*(static |inline )*constexpr\b.*[={]", line)
        if header and not constant:
            continue
        for found in NUMBER.finditer(line):
            for new in neighbours(found.group(1)):
                yield start + found.start(1), start + found.end(1), new, "constant"
        if header:
            continue
        written = text[start:start + len(line)]
        yield from (one for one in operators_in(line, start) if one[3] != "sum" or '"' not in written)
        before = code[:start].rstrip()
        # A function that ends without its last return is no function: only a return that comes early is taken away.
        early = before.endswith((")", "else")) or not re.match(r"\s*return\b.*\S;", line)
        if STATEMENT.match(line) and STARTS_AFTER.search(before) and early:
            indent = len(line) - len(line.lstrip())
            yield start + indent, start + len(line.rstrip()), ";", "statement"
        for found in CONDITION.finditer(line):
            opened = start + found.end() - 1
            end = closing(code, opened)
            inner = text[opened + 1:end]
            if ";" not in code[opened:end] and not re.match(r"(const )?auto\b", inner):
                yield opened + 1, end, f"!({inner})", "condition"
    if not header:
        for found in re.finditer(r"constexpr std::array[^=;{]*?(?:\w+)?(?: = )?(\{+)", code):
            opened = found.end() - 1
            for (a, b), (c, d) in swapped_rows(code, opened):
                yield a, d, text[c:d] + text[b:c] + text[a:b], "order"


def operators_in(line, start):
    for old, news in SWAPPED.items():
        at = line.find(old)
        while at >= 0:
            for new in news:
                yield start + at, start + at + len(old), new, KINDS.get(old, "sum")
            at = line.find(old, at + 1)
    for old, new in NAMES.items():
        at = line.find(old)
        while at >= 0:
            yield start + at, start + at + len(old), new, "end of a range"
            at = line.find(old, at + 1)


def changes_of(file, text):
    """All changes of a file in the order of its text, each once."""
    seen = set()
    for begin, end, new, kind in sorted(found_in(text, file.endswith(".hpp"))):
        if (begin, end, new) in seen or text[begin:end] == new:
            continue
        seen.add((begin, end, new))
        line = text.count("\n", 0, begin) + 1
        start = text.rfind("\n", 0, begin) + 1
        stop = text.find("\n", end)
        changed = text[start:begin] + new + text[end:stop]
        yield Change(file, line, begin - start, text[begin:end], new, kind,
                     " ".join(text[start:stop].split()), " ".join(changed.split()))


def changed(text, change):
    """The whole text with the change in place."""
    start = 0
    for _ in range(change.line - 1):
        start = text.index("\n", start) + 1
    at = start + change.column
    assert text[at:at + len(change.old)] == change.old
    return text[:at] + change.new + text[at + len(change.old):]
