"""Lays out the third hand's papers as web pages, which Chromium prints."""

from html import escape
import re
import subprocess

import chromium_press
from third_hand import Formula, Item, Options, Raw, Room, Rows, Spread

STYLE = """@page { size: %s; margin: 18mm 20mm; } body { margin: 0; font: %dpt/1.35 "Liberation Sans"; }
.item { display: flex; margin: 5pt 0; } .item > span { flex: none; box-sizing: border-box; } .item > .text { flex: 1; }
.item > .first { align-self: flex-start; } .item > .last { align-self: flex-end; } .item > .margin { align-self: center; }
.first, .last, .margin { padding-left: 4mm; } .below { text-align: right; }
.spread { display: flex; margin: 10pt 0 5pt; break-after: avoid; } .spread span { flex: 1; } .bold { font-weight: bold; }
.spread span + span { text-align: center; } .spread span + span + span { text-align: right; }
.options { display: grid; grid-template-columns: repeat(4, 1fr); margin: 3pt 0; }
.rule { height: 8mm; } .ruled { border-bottom: 0.5pt solid black; }
table { width: 100%%; border-collapse: collapse; } td, th { border: 0.5pt solid #777; padding: 3pt 5pt; vertical-align: top; text-align: left; }
tr { break-inside: avoid; } td + td + td, th + th + th { text-align: center; } .page { break-before: page; }
math { display: block; margin: 5pt 0; }"""


def marked(text):
    return re.sub(r"&lt;(/?(?:i|b|sup|sub))&gt;", r"<\1>", escape(text))


def item(block):
    out, filled = "", 0
    for n, (place, text) in enumerate(block.labels):
        after = block.labels[n + 1][0] if n + 1 < len(block.labels) else block.at
        out += f'<span style="width:{after - filled}mm;padding-left:{place - filled}mm">{escape(text)}</span>'
        filled = after
    if filled < block.at:
        out += f'<span style="width:{block.at - filled}mm"></span>'
    inline = " " + escape(block.marks).replace(" ", "&nbsp;") if block.where == "inline" else ""
    out += f'<span class="text">{marked(block.text)}{inline}</span>'
    if block.marks and block.where in ("first", "last", "margin"):
        out += f'<span class="{block.where}">{escape(block.marks)}</span>'
    below = f'<div class="below">{escape(block.marks)}</div>' if block.where == "below" else ""
    return f'<div class="item">{out}</div>{below}'


def piece(block):
    if isinstance(block, Item):
        return item(block)
    if isinstance(block, Spread):
        cells = "".join(f"<span>{marked(text)}</span>" for text in (block.left, block.middle, block.right))
        return f'<div class="spread{" bold" if block.bold else ""}">{cells}</div>'
    if isinstance(block, Options):
        return f'<div class="options" style="margin-left:{block.at}mm">{"".join(f"<span>{escape(text)}</span>" for text in block.texts)}</div>'
    if isinstance(block, Formula):
        return f"<math><mfrac><mi>{block.over}</mi><mi>{block.under}</mi></mfrac><mi>{block.rest}</mi></math>"
    if isinstance(block, Rows):
        heads = "".join(f"<th>{escape(text)}</th>" for text in block.heads)
        rows = "".join(f"<tr>{''.join(f'<td>{marked(cell)}</td>' for cell in row)}</tr>" for row in block.cells)
        return f'<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>'
    if isinstance(block, Room):
        return f'<div class="rule{" ruled" if block.ruled else ""}"></div>' * block.lines
    return block.html if isinstance(block, Raw) else '<div class="page"></div>'


def two_on_a_sheet(file):
    """Puts each two pages side by side."""
    small = file.with_name(f"{file.stem}-small.pdf")
    file.rename(small)
    text = rf"\documentclass[a4paper,landscape]{{article}}\usepackage{{pdfpages}}\begin{{document}}\includepdf[pages=-,nup=2x1]{{{small.name}}}\end{{document}}"
    subprocess.run(["pdflatex", "-interaction=batchmode", f"-jobname={file.stem}", text], cwd=file.parent, stdout=subprocess.DEVNULL, check=True)
    for other in (small, file.with_suffix(".log"), file.with_suffix(".aux")):
        other.unlink()


class Press(chromium_press.Press):
    def print_paper(self, sheet, file):
        body = "".join(map(piece, sheet["blocks"]))
        number = '<span class="pageNumber"></span>'
        line = '<div style="width:100%;margin:0 20mm;font:9pt sans-serif;text-align:center">{}</div>'
        head, foot = line.format(sheet["head"]), line.format(sheet["foot"].replace("N", number))
        self.print_page(f'<!DOCTYPE html><meta charset="utf-8"><style>{STYLE % (sheet["page"], sheet["size"])}</style>{body}', head, foot, file)
        if sheet["page"] == "A5":
            two_on_a_sheet(file)
