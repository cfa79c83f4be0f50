"""Text, and Markdown as docs/ use it, as lines of mdoc(7) that mandoc -Tlint finds nothing wrong with."""

import re
import textwrap

WIDTH = 76


def ascii_of(plain):
    return "".join(c if c.isascii() else f"\\[u{ord(c):04X}]" for c in plain)


def escaped(plain):
    return ascii_of(plain.replace("\\", "\\e"))


def guarded(line):
    """A line that is no macro, whatever it begins with."""
    return "\\&" + line if line[:1] in (".", "'") else line


def sentences(plain):
    return re.split(r"(?<=[A-Za-z0-9)\"'`*\]][.?!])\s+|(?<=[.?!][)\"'])\s+", " ".join(plain.split()))


def inline(plain):
    """Markdown's code, strong and emphasised text and links, within a line."""
    pieces = re.split(r"(`[^`]+`)", plain)
    out = []
    for piece in pieces:
        if piece.startswith("`"):
            out.append("\\fB" + escaped(piece[1:-1]).replace("-", "\\-") + "\\fP")
        else:
            piece = re.sub(r"\[([^\]]+)\]\([^)]*\)", r"\1", piece)
            piece = escaped(piece)
            piece = re.sub(r"\*\*([^*]+)\*\*", r"\\fB\1\\fP", piece)
            out.append(re.sub(r"(?<![\w*])\*([^*\s][^*]*)\*", r"\\fI\1\\fP", piece))
    return "".join(out)


def laid_out(plain, convert):
    lines = []
    for sentence in sentences(plain):
        lines += textwrap.wrap(convert(sentence), WIDTH, break_long_words=False, break_on_hyphens=False)
    return [guarded(line) for line in lines]


def text(plain):
    return laid_out(plain, escaped)


def macro(name, plain):
    return [f".{name} {escaped(plain)}"]


def heading(kind, plain):
    return [f".{kind} {escaped(plain)}"]


def displayed(lines):
    while lines and not lines[0].strip():
        lines = lines[1:]
    body = [guarded(escaped(line)) if line.strip() else "" for line in lines]
    return [".Bd -literal", *body, ".Ed"]


def items(rows, convert):
    lines = [".Bl -tag -width Ds"]
    for tag, said in rows:
        lines += [f".It {tag}", *laid_out(said, convert)]
    return lines + [".El"]


def listed(rows):
    return items(rows, escaped)


def cells_of(line):
    return [cell.strip().replace("\\|", "|") for cell in re.split(r"(?<!\\)\|", line.strip().strip("|"))]


def table(lines):
    """A list, a row an item: its first cell, then the others."""
    rows = [cells_of(line) for line in lines if not re.fullmatch(r"[|\s:-]+", line)]
    out = [".Bl -tag -width Ds"]
    for first, *others in rows[1:]:
        said = ". ".join(cell.rstrip(".") for cell in others if cell)
        out += [".It " + (inline(first).strip() or "\\&"), *laid_out(said + "." if said else "\\&", inline)]
    return out + [".El"]


def bullets(lines):
    items_found = []
    for line in lines:
        if line.startswith("- "):
            items_found.append(line[2:])
        else:
            items_found[-1] += " " + line.strip()
    out = [".Bl -bullet"]
    for one in items_found:
        out += [".It", *laid_out(one, inline)]
    return out + [".El"]


def blocks_of(markdown):
    """Blocks of lines: those of a fence with its marks, others up to an empty line."""
    markdown = re.sub(r"<!--.*?-->\n?", "", markdown, flags=re.DOTALL)
    block, fenced = [], False
    for line in markdown.split("\n") + [""]:
        if line.startswith("```"):
            if block and not fenced:
                yield block
                block = []
            fenced = not fenced
            block.append(line)
            if not fenced:
                yield block
                block = []
        elif line.strip() or fenced:
            block.append(line)
        elif block:
            yield block
            block = []


def block_lines(block):
    if block[0].startswith("```"):
        return displayed(block[1:-1])
    if block[0].startswith("    "):
        return displayed([line[4:] for line in block])
    if block[0].startswith("|"):
        return table(block)
    if block[0].startswith("- "):
        return bullets(block)
    return laid_out(" ".join(block), inline)


def from_markdown(markdown, is_first):
    """A page of docs/ as part of a section: its title, unless it is the first, and its headings as subsections."""
    lines = []
    for block in blocks_of(markdown):
        level = len(block[0]) - len(block[0].lstrip("#"))
        if level == 0:
            new = block_lines(block)
            is_text = not new[0].startswith(".B")  # a list or a display makes its own space
            lines += ([".Pp"] if lines and is_text and not lines[-1].startswith(".Ss") else []) + new
        elif level > 1 or not is_first:
            lines.append(".Ss " + inline(block[0].lstrip("# ")))
            block = block[1:]
            if block:
                lines += block_lines(block)
    return lines
