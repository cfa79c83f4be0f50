"""What a page shows of an output: all of it, chosen lines of it, or JSON with one element a list."""

import difflib
import json

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


def laid_out(value, indent=0, room=WIDTH):
    """JSON with each object and list on one line where it fits there."""
    line = json.dumps(value, ensure_ascii=False)
    if len(line) <= room - indent or not value or not isinstance(value, (dict, list)):
        return line
    inner = "  " + indent * " "
    if isinstance(value, list):
        members = [laid_out(element, indent + 2, room - 1) for element in value]
        return "[\n" + ",\n".join(inner + member for member in members) + "\n" + indent * " " + "]"
    members = []
    for key, member in value.items():
        name = json.dumps(key, ensure_ascii=False) + ": "
        members.append(inner + name + laid_out(member, indent + 2, room - 1 - len(name)))
    return "{\n" + ",\n".join(members) + "\n" + indent * " " + "}"


def keys_of(value):
    if isinstance(value, dict):
        for key, member in value.items():
            yield key
            yield from keys_of(member)
    elif isinstance(value, list):
        for element in value:
            yield from keys_of(element)
