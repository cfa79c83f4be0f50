"""Lays out the third hand's papers with groff."""

import re
import subprocess

from third_hand import Formula, Item, NewPage, Options, Room, Rows, Spread

WIDTH = 165  # mm, of the text with its marks
INSET = 20  # mm, that the text leaves free for marks beside it
HEAD = r""".pl 11.69i
.po 0.85i
.ps %(size)d
.vs %(leading)d
.ll %(width)s
.lt %(width)s
.ad l
.nh
.de HD
'sp 0.5i
.tl '%(head)s'''
'sp 0.3i
..
.de FT
'sp 0.15i
.tl ''%(foot)s''
'bp
..
.wh 0 HD
.wh -0.8i FT
"""


def mm(length):
    return f"{length / 25.4:.3f}i"


def troff(text):
    text = text.replace("\\", r"\e").replace("\n", " ").replace("½", r"\(12")
    text = re.sub(r"<i>(.*?)</i>", r"\\fI\1\\fR", text)
    text = re.sub(r"<sup>(.*?)</sup>", r"\\u\\s-2\1\\s+2\\d", text)
    return re.sub(r"<sub>(.*?)</sub>", r"\\d\\s-2\1\\s+2\\u", text).replace("'", r"\(aq")


def beside(marks):
    return f".sp -1v\n.tl '''{marks}'\n"


def item(block):
    is_beside = block.marks and block.where in ("first", "last", "margin")
    first = block.labels[0][0] if block.labels else block.at
    out = f".br\n.ne 3v\n.sp 0.4v\n.ll {mm(WIDTH - (INSET if is_beside else 0))}\n"
    if is_beside and block.where != "last":
        out += f".tl '''{block.marks}'\n.sp -1v\n"
    out += f".in {mm(block.at)}\n.ti {mm(first)}\n"
    line = ""
    for n, (_, text) in enumerate(block.labels):
        after = block.labels[n + 1][0] if n + 1 < len(block.labels) else block.at
        line += f"{text}\\h'|{mm(after - first)}'"
    inline = f" {block.marks}".replace(" ", r"\ ").replace(r"\ ", " ", 1) if block.marks and block.where == "inline" else ""
    out += f"\\&{line}{troff(block.text)}{inline}\n.br\n.in 0\n.ll {mm(WIDTH)}\n"
    if block.where == "last" and block.marks:
        out += beside(block.marks)
    if block.where == "below" and block.marks:
        out += f".tl '''{block.marks}'\n"
    return out


def piece(block):
    if isinstance(block, Item):
        return item(block)
    if isinstance(block, Spread):
        font = (r"\fB", r"\fR") if block.bold else ("", "")
        cells = (f"{font[0]}{troff(text)}{font[1]}" if text else "" for text in (block.left, block.middle, block.right))
        return ".br\n.ne 4v\n.sp 0.8v\n.tl '" + "'".join(cells) + "'\n.sp 0.3v\n"
    if isinstance(block, Options):
        step = (WIDTH - block.at) / len(block.texts)
        line = "".join(f"\\h'|{mm(n * step)}'{text}" for n, text in enumerate(block.texts))
        return f".br\n.in {mm(block.at)}\n\\&{line}\n.br\n.in 0\n"
    if isinstance(block, Formula):
        return f".br\n.sp 0.5v\n.EQ\n{{ {block.over} }} over {{ {block.under} }} ~ {block.rest}\n.EN\n.sp 0.5v\n"
    if isinstance(block, Rows):
        out = ".br\n.sp\n.TS\nl lw(4.6i) r.\n" + "\t".join(block.heads) + "\n"
        for label, text, marks in block.cells:
            out += f"{label}\tT{{\n{troff(text)}\nT}}\t{marks}\n.sp 0.3v\n"
        return out + ".TE\n"
    if isinstance(block, Room):
        rule = f"\\l'{mm(WIDTH)}\\(ul'" if block.ruled else "\\&"
        return ".br\n" + f".sp 0.8v\n{rule}\n.br\n" * block.lines
    return ".bp\n"


def print_paper(sheet, file):
    foot = sheet["foot"].replace("N", "%")
    text = HEAD % {"size": sheet["size"], "leading": sheet["size"] + 3, "width": mm(WIDTH), "head": troff(sheet["head"]), "foot": foot}
    text += "".join(map(piece, sheet["blocks"]))
    made = subprocess.run(["groff", "-K", "utf8", "-e", "-t", "-Tpdf", "-P-pa4"], input=text.encode(), capture_output=True, check=True)
    file.write_bytes(made.stdout)
