"""What a page shows of an output: all of it, chosen lines of it, or JSON with one element a list."""

import difflib
import json
import re

LABEL = re.compile(r"^[A-Z]?\d")
GAP = "..."
WIDTH = 110


def runs_of(shown):
    """The runs of lines that `...` parts. The first and the last are empty where a gap is at that end."""
    runs = [[]]
    for line in shown:
        if line.strip() == GAP:
            runs.append([])
        else:
            runs[-1].append(line)
    return runs


def is_shortened(shown, printed):
    """Whether `shown` is `printed` with lines left out at each `...`, and nowhere else."""
    runs = runs_of(shown)
    if len(runs) == 1:
        return shown == printed
    head, *middle, tail = runs
    if printed[:len(head)] != head:
        return False
    at, last = len(head), len(printed) - len(tail)
    for run in middle:
        while at + len(run) <= last and printed[at:at + len(run)] != run:
            at += 1
        at += len(run)
    return at <= last and printed[last:] == tail


def likeness(run, lines):
    return sum(difflib.SequenceMatcher(None, *pair, autojunk=False).ratio() for pair in zip(run, lines))


def shortened_anew(shown, printed):
    """The lines of `printed` that are most like those shown, with the gaps where they were."""
    runs = runs_of(shown)
    if len(runs) == 1:
        return printed
    head, *middle, tail = runs
    lines = printed[:len(head)]
    at, last = len(head), max(len(head), len(printed) - len(tail))
    for number, run in enumerate(middle):
        room = last - sum(map(len, middle[number:]))
        start = max(range(at, max(at, room) + 1), key=lambda place: likeness(run, printed[place:place + len(run)]))
        lines += [GAP] + printed[start:start + len(run)]
        at = start + len(run)
    return lines + [GAP] + printed[last:]


def cut(value):
    """JSON with the first element of each list."""
    if isinstance(value, dict):
        return {key: cut(member) for key, member in value.items()}
    return [cut(element) for element in value[:1]] if isinstance(value, list) else value


def laid_out(value, indent=0, lead=0):
    """JSON in lines as full as may be; a member that is longer than one stands alone. `lead` is what stands before it
    on its line."""
    line = json.dumps(value, ensure_ascii=False)
    if indent + lead + len(line) < WIDTH or not value or not isinstance(value, (dict, list)):
        return line
    start, end = ("{", "}") if isinstance(value, dict) else ("[", "]")
    names = [json.dumps(key, ensure_ascii=False) + ": " for key in value] if isinstance(value, dict) else [""] * len(value)
    members = value.values() if isinstance(value, dict) else value
    lines, may_go_on = [], False
    for name, member in zip(names, members):
        text = name + laid_out(member, indent + 2, len(name))
        if may_go_on and "\n" not in text and indent + len(lines[-1]) + len(text) + 4 < WIDTH:
            lines[-1] += ", " + text
        else:
            lines.append(text)
        may_go_on = "\n" not in text
    inner = (indent + 2) * " "
    return start + "\n" + ",\n".join(inner + text for text in lines) + "\n" + indent * " " + end


def keys_of(value):
    """All keys but labels of parts."""
    if isinstance(value, dict):
        for key, member in value.items():
            if not LABEL.match(key):
                yield key
            yield from keys_of(member)
    elif isinstance(value, list):
        for element in value:
            yield from keys_of(element)
