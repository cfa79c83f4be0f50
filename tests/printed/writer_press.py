"""Lays out papers with LibreOffice Writer."""

import re
import subprocess
from xml.sax.saxutils import escape

from habits import Dots, Fraction, Grid, Owned, Row, Side, Title, colour_of
from rare_habits import Across

SPACES = {
    "office": "urn:oasis:names:tc:opendocument:xmlns:office:1.0",
    "style": "urn:oasis:names:tc:opendocument:xmlns:style:1.0",
    "text": "urn:oasis:names:tc:opendocument:xmlns:text:1.0",
    "table": "urn:oasis:names:tc:opendocument:xmlns:table:1.0",
    "fo": "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0",
}
INDENT = (0, 0.9, 1.8, 2.7)  # cm, of each level
WIDTH = 16  # cm, of the text
FAR_LEFT = -2.4  # cm, where marks before the text begin
TWO = '<text:section text:style-name="two" text:name="all %d">'


def marked(text):
    text = escape(text.replace("FRACTION", "1½"))
    for tag, style in (("i", "it"), ("sup", "up"), ("sub", "low"), ("b", "bold")):
        text = re.sub(f"&lt;{tag}&gt;(.*?)&lt;/{tag}&gt;", rf'<text:span text:style-name="{style}">\1</text:span>', text)
    return text.replace("\n", " ")


def ink(owner):
    return f'<style:text-properties fo:color="#{"%02x%02x%02x" % colour_of(owner)}"/>' if owner else ""


class Styles:
    """Automatic styles of paragraphs, each written once."""

    def __init__(self):
        self.made = {}
        self.owner = 0

    def name(self, left=0.0, first=0.0, tabs=(), more="", right=True):
        key = (left, first, tuple(tabs), more, right, self.owner)
        return self.made.setdefault(key, f"P{len(self.made)}")

    def xml(self, width):
        out = ""
        for (left, first, tabs, more, right, owner), name in self.made.items():
            stops = "".join(f'<style:tab-stop style:position="{at - left:.2f}cm"/>' for at in tabs)
            stops += f'<style:tab-stop style:position="{width - left:.2f}cm" style:type="right"/>' if right else ""
            out += (
                f'<style:style style:name="{name}" style:family="paragraph"><style:paragraph-properties fo:margin-left="{left:.2f}cm"'
                f' fo:text-indent="{first:.2f}cm" fo:margin-bottom="0.2cm" {more}><style:tab-stops>{stops}</style:tab-stops>'
                f"</style:paragraph-properties>{ink(owner)}</style:style>"
            )
        return out


class Setter:
    def __init__(self, sheet):
        self.styles = Styles()
        self.breaks = False
        self.look = sheet.look
        self.size = sheet.size
        self.sections = 0  # that ended

    def paragraph(self, content, **style):
        more = style.pop("more", "")
        if self.breaks:
            more += ' fo:break-before="page"'
            self.breaks = False
        return f'<text:p text:style-name="{self.styles.name(more=more, **style)}">{content}</text:p>'

    def row(self, block):
        wide = 2.4 if self.look["wide"] else 0
        place = lambda level: INDENT[level] + (wide if level else 0)
        at = place(block.level) if block.level else 0
        labels = sorted(block.labels)
        first = place(labels[0][0]) if labels else at
        stops = sorted({place(level) for level, _ in labels[1:]} | {at})
        content = "".join(escape(text) + "<text:tab/>" for _, text in labels)
        text, marks = marked(block.text), escape(block.marks)
        if marks and self.look.get("boxed"):
            marks = f'<text:span text:style-name="boxed">{marks}</text:span>'
        above = ""
        if marks and block.place == "far left":
            stops.append(first)
            first = FAR_LEFT
            content = f"{marks}<text:tab/>" + content
        if marks and block.place == "left":
            content = f"{marks} " + content
        if marks and block.place == "above":
            above = self.paragraph(marks, more='fo:keep-with-next="always"')
        if marks and block.place == "label":
            text = f"{marks} {text}"
        if marks and block.place == "glued":
            text += marks
        if marks and block.place == "end":
            text += f"<text:tab/>{marks}"
        return above + self.paragraph(content + text, left=at, first=first - at, tabs=[stop for stop in sorted(stops) if stop > first])

    def grid(self, rows, widths, name="narrow"):
        columns = "".join(f'<table:table-column table:style-name="w{width}"/>' for width in widths)
        cell = lambda content: f'<table:table-cell table:style-name="cell">{content}</table:table-cell>'
        lines = "".join(f'<table:table-row table:style-name="row">{"".join(map(cell, cells))}</table:table-row>' for cells in rows)
        return f'<table:table table:style-name="{name}">{columns}{lines}</table:table>'

    def table(self, blocks):
        out, rows = "", []
        plain = lambda text, more="": self.paragraph(text, right=False, more=more)
        for block in blocks + [None]:
            if isinstance(block, Row):
                labels = " ".join(escape(text) for _, text in block.labels)
                rows.append([plain(labels), plain(marked(block.text)), plain(escape(block.marks), 'fo:text-align="end"')])
            elif isinstance(block, Side):
                rows.append([plain(""), plain(""), plain(escape(block.text), 'fo:text-align="end"')])
            else:
                if rows:
                    out += self.grid(rows, (2, 11, 3), "wide") + self.paragraph("")
                rows = []
                out += self.piece(block) if block else ""
        return out

    def owned(self, block):
        self.styles.owner = block.owner
        made = (self.table if self.look["table"] else lambda blocks: "".join(map(self.piece, blocks)))(block.blocks)
        self.styles.owner = 0
        return made

    def piece(self, block):
        if isinstance(block, Across):
            self.sections += 1
            return f"</text:section>{self.piece(block.block)}{TWO % self.sections}"
        if isinstance(block, Owned):
            return self.owned(block)
        if isinstance(block, Row):
            return self.row(block)
        if isinstance(block, Side):
            return self.paragraph(escape(block.text), more='fo:text-align="end"', right=False)
        if isinstance(block, Title):
            span = f'<text:span text:style-name="bold">{escape(block.text)}</text:span>'
            return self.paragraph(span, more='fo:text-align="center"', right=False)
        if isinstance(block, Fraction):
            over = f'<text:span text:style-name="under">{escape(block.over)}</text:span>'
            lines = [over, f"{escape(block.under)} {escape(block.rest)}"]
            tail = f"<text:tab/>{block.number}" if block.number else ""
            first = self.paragraph(lines[0], left=6)
            return first + self.paragraph(lines[1] + tail, left=6)
        if isinstance(block, Grid):
            cells = [[self.paragraph(marked(cell), right=False) for cell in row] for row in block.rows]
            return self.grid(cells, (2,) * len(block.rows[0])) + self.paragraph("")
        if isinstance(block, Dots):
            owner, self.styles.owner = self.styles.owner, 0
            line = self.paragraph(("." if not block.spaced else ". ") * (95 if not block.spaced else 60), right=False)
            self.styles.owner = owner
            return line * block.count
        self.breaks = True
        return ""


def page_text(text):
    return escape(text).replace("PAGE", "<text:page-number/>")


def print_paper(sheet, body, file):
    setter = Setter(sheet)
    content = "".join(map(setter.piece, sheet.blocks))
    inner = "".join(map(setter.piece, body))
    if sheet.look["columns"]:
        inner = f"{TWO % 0}{inner}</text:section>"
    far = 2.5 if sheet.look.get("far") else 0
    width = (WIDTH - 1) / 2 if sheet.look["columns"] else WIDTH - far
    spans = {
        "it": 'fo:font-style="italic"',
        "up": 'style:text-position="super 58%"',
        "low": 'style:text-position="sub 58%"',
        "bold": 'fo:font-weight="bold"',
        "boxed": 'fo:border="0.5pt solid #000000" fo:padding="0.05cm"',
        "under": 'style:text-underline-style="solid"',
    }
    styles = "".join(
        f'<style:style style:name="{name}" style:family="text"><style:text-properties {text}/></style:style>' for name, text in spans.items()
    )
    for wide in (2, 3, 11):
        styles += f'<style:style style:name="w{wide}" style:family="table-column"><style:table-column-properties style:column-width="{wide}cm"/></style:style>'
    styles += '<style:style style:name="narrow" style:family="table"><style:table-properties style:width="8cm" table:align="center"/></style:style>'
    styles += '<style:style style:name="wide" style:family="table"><style:table-properties style:width="16cm" table:align="left"/></style:style>'
    styles += '<style:style style:name="cell" style:family="table-cell"><style:table-cell-properties fo:border="0.5pt solid #000000" fo:padding="0.1cm"/></style:style>'
    styles += '<style:style style:name="row" style:family="table-row"><style:table-row-properties fo:keep-together="always"/></style:style>'
    styles += '<style:style style:name="two" style:family="section"><style:section-properties><style:columns fo:column-count="2" fo:column-gap="1cm"/></style:section-properties></style:style>'
    styles += (
        '<style:page-layout style:name="pl"><style:page-layout-properties fo:page-width="21cm" fo:page-height="29.7cm" fo:margin-top="1.5cm"'
        f' fo:margin-bottom="1.5cm" fo:margin-left="{2.5 + far:.1f}cm" fo:margin-right="2.5cm"/>'
        '<style:header-style><style:header-footer-properties fo:min-height="1cm"/></style:header-style>'
        '<style:footer-style><style:header-footer-properties fo:min-height="1cm"/></style:footer-style></style:page-layout>'
    )
    names = " ".join(f'xmlns:{name}="{url}"' for name, url in SPACES.items())
    lines = '<text:linenumbering-configuration text:number-lines="true" text:increment="5" text:number-position="left" text:offset="0.5cm"/>'
    head, foot = page_text(sheet.look["head"]), page_text(sheet.look["foot"])
    text = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document {names} office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.text">'
        '<office:styles><style:default-style style:family="paragraph"><style:text-properties style:font-name="Liberation Serif"'
        f' fo:font-family="Liberation Serif" fo:font-size="{sheet.size}pt"/></style:default-style>{lines if sheet.look["lines"] else ""}</office:styles>'
        f"<office:automatic-styles>{styles}{setter.styles.xml(width)}</office:automatic-styles>"
        f'<office:master-styles><style:master-page style:name="Standard" style:page-layout-name="pl"><style:header><text:p>{head}</text:p></style:header>'
        f"<style:footer><text:p>{foot}</text:p></style:footer></style:master-page></office:master-styles>"
        f"<office:body><office:text>{content}{inner}</office:text></office:body></office:document>"
    )
    file.with_suffix(".fodt").write_text(text)


def to_pdf(files, profile):
    """Turns what print_paper() wrote into PDFs beside it."""
    sources = [file.with_suffix(".fodt") for file in files]
    command = ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "pdf", "--outdir", files[0].parent]
    subprocess.run([*command, *sources], check=True, capture_output=True)
