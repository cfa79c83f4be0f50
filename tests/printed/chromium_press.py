"""Lays a document out as HTML and has headless Chromium print it."""

import base64
import html
import pathlib
import sys
import tempfile

sys.path.append(str(pathlib.Path(__file__).absolute().parent.parent / "browser"))

from chromium import Browser

from blocks import Figure, Formula, Heading, Lines, PageBreak, Right, Space, Table, Text


def marked_up(text):
    return text.replace("\n", "<br>")


def text_block(block, style):
    start = style.columns[block.column]
    parts = []
    edges = [column for column, _ in block.labels] + [block.column]
    for (column, label), after in zip(block.labels, edges[1:]):
        width = style.columns[after] - style.columns[column]
        bold = "font-weight:bold;" if column == 0 else ""
        parts.append(f'<span class="label" style="{bold}width:{width:.2f}pt">{label}</span>')
    hang = style.columns[edges[0]] - start
    marks = f'<span class="marks">{block.marks}</span>' if block.marks else ""
    return (
        f'<p style="padding-left:{start:.2f}pt;text-indent:{hang:.2f}pt">'
        f"{''.join(parts)}{marked_up(block.text)} {marks}</p>"
    )


def right_block(block, style):
    weight = "bold" if block.bold else "normal"
    return f'<div class="right" style="font-weight:{weight}">{block.text}</div>'


def formula_block(block, style):
    fraction = f'<span class="fraction"><span>{block.over}</span><span>{block.under}</span></span>'
    return f'<div class="formula">{block.left}{fraction}{block.right}</div>'


def lines_block(block, style):
    height = style.size * 2
    if block.kind == "dots":
        line = '<div class="dots"></div>'
        last = f'<div class="last"><span class="dots"></span><span>&#160;{block.marks}</span></div>'
        return line * (block.count - 1) + (last if block.marks else line)
    edge = "border-bottom:0.6pt solid black;" if block.kind == "rule" else ""
    return f'<div style="height:{height:.1f}pt;{edge}break-inside:avoid"></div>' * block.count


def figure_block(block, style):
    strokes = "".join(
        f'<polyline points="{" ".join(f"{x:.1f},{y:.1f}" for x, y in stroke)}" fill="none" stroke="black" stroke-width="0.8"/>'
        for stroke in block.strokes
    )
    letters = "".join(
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{style.size * 0.85:.1f}">{html.escape(text)}</text>'
        for x, y, anchor, text in block.letters
    )
    return (
        f'<figure><svg width="{block.width}pt" height="{block.height}pt" viewBox="0 0 {block.width} {block.height}">'
        f"{strokes}{letters}</svg><div>{block.caption}</div></figure>"
    )


def table_block(block, style):
    rows = "".join("<tr>" + "".join(f"<td>{marked_up(cell)}</td>" for cell in row) + "</tr>" for row in block.rows)
    if block.head:
        rows = rows.replace("<tr>", "<thead><tr>", 1).replace("</tr>", "</tr></thead>", 1)
    columns = "".join(f'<col style="width:{share:.0%}">' for share in block.widths or ())
    kind = "wide" if block.widths else "numbers"
    return f'<table class="{kind}"><colgroup>{columns}</colgroup>{rows}</table>'


def heading_block(block, style):
    return f'<h2 style="font-size:{block.scale * style.size:.1f}pt">{block.text}</h2>'


def space_block(block, style):
    return f'<div style="height:{block.height}pt"></div>'


def page_break(block, style):
    return '<div style="break-after:page"></div>'


BLOCKS = {
    Text: text_block,
    Right: right_block,
    Formula: formula_block,
    Lines: lines_block,
    Figure: figure_block,
    Table: table_block,
    Heading: heading_block,
    Space: space_block,
    PageBreak: page_break,
}


# As many dots as there is room for: those cut off would still be in the file.
FILL_DOTS = """
for (const line of document.querySelectorAll(".dots")) {
  const width = line.getBoundingClientRect().width;
  const dots = document.createElement("span");
  dots.textContent = ".".repeat(100);
  line.append(dots);
  dots.textContent = ".".repeat(Math.floor(100 * width / dots.getBoundingClientRect().width));
}"""


def section_of(spread, style):
    columns = "columns:2;column-gap:24pt;" if spread.columns == 2 else ""
    blocks = "".join(BLOCKS[type(block)](block, style) for block in spread.blocks)
    return f'<section style="{columns}font-size:{spread.scale * style.size:.2f}pt">{blocks}</section>'


def page_of(document):
    style = document.style
    top, right, bottom, left = style.margins
    sections = "".join(section_of(spread, style) for spread in document.spreads)
    side = f'<div class="side">{style.side}</div>' if style.side else ""
    return f"""<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>Paper</title><style>
@page {{ size: {style.page[0]}pt {style.page[1]}pt; margin: {top}pt {right}pt {bottom}pt {left}pt; }}
body {{ margin: 0; font: {style.size}pt/{style.leading} "{style.font}"; orphans: 1; widows: 1; }}
section + section {{ break-before: page; }} section {{ column-fill: auto; }}
p {{ margin: 0 0 4pt; padding-right: {style.inset}pt; text-align: {"justify" if style.justified else "left"}; }}
p::after {{ content: ""; display: block; clear: both; }}
.label {{ display: inline-block; text-indent: 0; text-align: left; }}
.marks {{ float: right; margin-right: -{style.inset}pt; text-indent: 0; padding-left: 6pt; }}
.right {{ text-align: right; margin: 2pt 0 4pt; }}
.formula {{ text-align: center; margin: 6pt 0; break-inside: avoid; }}
.fraction {{ display: inline-block; vertical-align: middle; text-align: center; }}
.fraction span {{ display: block; padding: 0 3pt; }} .fraction span + span {{ border-top: 0.6pt solid black; }}
.dots {{ overflow: hidden; white-space: nowrap; line-height: 2; flex: 1; min-width: 0; }}
.last {{ display: flex; line-height: 2; }}
figure {{ margin: 6pt 0; text-align: center; break-inside: avoid; }}
table {{ border-collapse: collapse; margin: 6pt auto; }} tr {{ break-inside: avoid; }}
td {{ border: 0.6pt solid black; padding: 2pt 6pt; vertical-align: top; }} .numbers td {{ text-align: center; }}
.wide {{ width: 100%; table-layout: fixed; }}
h2 {{ text-align: center; margin: 6pt 0; }}
.side {{ position: fixed; left: -{left - 12}pt; top: 200pt; font-size: 7pt; }}
.side {{ writing-mode: vertical-rl; rotate: 180deg; }}
</style><body>{side}{sections}<script>{FILL_DOTS}</script></body></html>"""


def running(parts, style):
    number = '<span class="pageNumber"></span>'
    cells = "".join(
        f'<span style="flex:1;text-align:{align}">{part.replace("{page}", number)}</span>'
        for part, align in zip(parts, ("left", "center", "right"))
    )
    _, right, _, left = style.margins
    return (
        f'<div style="display:flex;width:100%;font:9pt {style.font};margin:4pt {right}pt 4pt {left}pt">{cells}</div>'
    )


class Press:
    """Headless Chromium that prints."""

    def __init__(self):
        self.folder = tempfile.TemporaryDirectory()
        self.browser = Browser()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        try:
            self.browser.__exit__()
        finally:
            self.folder.cleanup()

    def print(self, document, file):
        style = document.style
        self.print_page(page_of(document), running(style.head, style), running(style.foot, style), file)

    def print_page(self, text, head, foot, file):
        """Prints HTML; what runs at the head and the foot of each page is HTML too."""
        page = pathlib.Path(self.folder.name, "paper.html")
        page.write_text(text, encoding="utf-8")
        self.browser.open(page)
        printed = self.browser.devtools("Page.printToPDF", preferCSSPageSize=True, displayHeaderFooter=True, headerTemplate=head, footerTemplate=foot)
        file.write_bytes(base64.b64decode(printed["data"]))
