"""Blocks of a Markdown page, with the remark for the player that stands before each."""

import re
import shlex

REMARK = "<!-- play:"
FENCE = re.compile(r"^(`{3,})(\w*)$")


class Refusal(Exception):
    """What is wrong with a page, for whoever writes it."""


class Remark:
    """`<!-- play: store=me today=2026-11-25 -->`: words, a command or a reason, then commands that are not shown."""

    KNOWN = {"store", "today", "files", "continues", "exit", "shortened", "shows", "makes", "sql", "tables"}

    def __init__(self, text, line):
        head, *rest = text.strip().split("\n")
        self.line = line
        self.unshown = [command for command in rest if command.strip()]
        self.reason = self.prints = None
        if "not played:" in head:
            head, self.reason = head.split("not played:", 1)
        elif "prints:" in head:
            head, self.prints = head.split("prints:", 1)
        self.words = {}
        for word in shlex.split(head):
            key, _, value = word.partition("=")
            if key not in self.KNOWN:
                raise Refusal(f"line {line}: '{key}' means nothing to the player")
            self.words[key] = value

    def __contains__(self, key):
        return key in self.words

    def get(self, key, default=""):
        return self.words.get(key, default)


class Block:
    """Lines of a page, `first` to `end`, which is the line after; both count from 0."""

    def __init__(self, lines, first, end, info, indent, remark):
        self.lines, self.first, self.end = lines, first, end
        self.info, self.indent, self.remark = info, indent, remark

    @property
    def number(self):
        return self.first + 1


def paragraph_end(lines, at):
    """Where an indented block ends: before the last empty lines."""
    end = at
    while at < len(lines) and (not lines[at].strip() or lines[at].startswith("    ")):
        at += 1
        if lines[at - 1].strip():
            end = at
    return end


def remark_at(lines, at):
    text = []
    start = at
    while "-->" not in lines[at]:
        text.append(lines[at])
        at += 1
        if at == len(lines):
            raise Refusal(f"line {start + 1}: this remark has no end")
    text.append(lines[at].split("-->")[0])
    return Remark("\n".join(text)[len(REMARK):], start + 1), at + 1


def blocks_of(lines):
    """All blocks of code in a page's lines. A remark that stands before none is refused."""
    found, remark, at, in_list = [], None, 0, False
    while at < len(lines):
        line = lines[at]
        fence = FENCE.match(line)
        if line.startswith(REMARK):
            if remark:
                raise Refusal(f"line {remark.line}: this remark stands before no block")
            remark, at = remark_at(lines, at)
            continue
        if fence:
            end = at + 1
            while end < len(lines) and lines[end] != fence[1]:
                end += 1
            if end == len(lines):
                raise Refusal(f"line {at + 1}: this block has no end")
            found.append(Block(lines[at + 1:end], at + 1, end, fence[2], "", remark))
            remark, at = None, end + 1
            continue
        if line.startswith("    ") and (at == 0 or not lines[at - 1].strip() or remark) and not in_list:
            end = paragraph_end(lines, at)
            found.append(Block([text[4:] for text in lines[at:end]], at, end, "", "    ", remark))
            remark, at = None, end
            continue
        if line.strip():
            if remark:
                raise Refusal(f"line {remark.line}: this remark stands before no block")
            in_list = bool(re.match(r"^\s*([-*]|\d+\.) ", line)) or (in_list and line.startswith(" "))
        at += 1
    if remark:
        raise Refusal(f"line {remark.line}: this remark stands before no block")
    return found


def commands_of(lines):
    """Commands, each as its lines, in a block that shows nothing else."""
    command = []
    for line in lines:
        if not line.strip() and not command:
            continue
        command.append(line)
        if not line.endswith("\\"):
            yield command
            command = []
    if command:
        yield command


def exchanges_of(block):
    """Commands behind `$ `, each with the lines that it is shown to print."""
    exchanges, in_command = [], False
    for line in block.lines:
        if in_command:
            exchanges[-1][0].append(line)
        elif line.startswith("$ "):
            exchanges.append(([line[2:]], []))
        elif not exchanges:
            raise Refusal(f"line {block.number}: output before the first command")
        else:
            exchanges[-1][1].append(line)
            continue
        in_command = line.endswith("\\")
    return exchanges
