"""Lays a document out line by line with Pango, drawn by cairo."""

import math

import cairo
import gi

gi.require_version("Pango", "1.0")
gi.require_version("PangoCairo", "1.0")
from gi.repository import Pango, PangoCairo

from blocks import Figure, Formula, Heading, Lines, PageBreak, Right, Space, Table, Text

GAP = 24  # between two columns, points
LINE = 0.6  # width of a ruled line, points


class Sheet:
    """A document being laid out: the page, the column and the height that have been reached."""

    def __init__(self, document, file):
        self.style = document.style
        self.surface = cairo.PDFSurface(str(file), *self.style.page)
        self.pen = cairo.Context(self.surface)
        self.pen.set_line_width(LINE)
        self.page = 0
        for spread in document.spreads:
            self.size = self.style.size * spread.scale
            self.columns = spread.columns
            self.start_page()
            for block in spread.blocks:
                LAYOUTS[type(block)](self, block)
        self.surface.finish()

    # Pages and columns.

    def start_page(self):
        if self.page:
            self.surface.show_page()
        self.page += 1
        self.column = -1
        for parts, y in ((self.style.head, 24), (self.style.foot, self.style.page[1] - 40)):
            self.running(parts, y)
        if self.style.side:
            self.upwards(self.style.side)
        self.start_column()

    def start_column(self):
        self.column += 1
        if self.column == self.columns:
            self.start_page()
            return
        top, right, bottom, left = self.style.margins
        self.width = (self.style.page[0] - left - right - GAP * (self.columns - 1)) / self.columns
        self.left = left + self.column * (self.width + GAP)
        self.top = top
        self.y = top
        self.bottom = self.style.page[1] - bottom

    def need(self, height):
        if self.y + height > self.bottom and self.y > self.top:
            self.start_column()

    # Letters.

    def layout(self, text, size=None, width=None, bold=False):
        layout = PangoCairo.create_layout(self.pen)
        font = Pango.FontDescription()
        font.set_family(self.style.font)
        font.set_size(round((size or self.size) * Pango.SCALE * 72 / 96))
        font.set_weight(Pango.Weight.BOLD if bold else Pango.Weight.NORMAL)
        layout.set_font_description(font)
        if width is not None:
            layout.set_width(round(width * Pango.SCALE))
        layout.set_markup(text, -1)
        return layout

    def put(self, layout, x, y, anchor="start"):
        """The first line's baseline at y."""
        wide = layout.get_size()[0] / Pango.SCALE
        x -= {"start": 0, "middle": wide / 2, "end": wide}[anchor]
        self.pen.move_to(x, y - layout.get_baseline() / Pango.SCALE)
        PangoCairo.show_layout(self.pen, layout)
        return wide

    def running(self, parts, y):
        _, right, _, left = self.style.margins
        width = self.style.page[0]
        places = ((left, "start"), (width / 2, "middle"), (width - right, "end"))
        for part, (x, anchor) in zip(parts, places):
            if part == "Turn over" and self.page % 2 == 0:
                continue
            if part:
                self.put(self.layout(part.replace("{page}", str(self.page)), 9), x, y + 10, anchor)

    def upwards(self, text):
        self.pen.save()
        self.pen.move_to(16, self.style.page[1] * 0.7)
        self.pen.rotate(-math.pi / 2)
        PangoCairo.show_layout(self.pen, self.layout(text, 7))
        self.pen.restore()

    # Blocks.

    def advance(self):
        return self.size * self.style.leading

    def text(self, block):
        indent = self.style.columns[block.column]
        layout = self.layout(block.text, width=self.width - self.style.inset - indent)
        layout.set_justify(self.style.justified)
        for number, line in enumerate(layout.get_lines_readonly()):
            self.need(self.advance())
            self.y += self.advance()
            baseline = self.y - self.size * 0.3
            if number == 0:
                for column, label in block.labels:
                    self.put(self.layout(label, bold=column == 0), self.left + self.style.columns[column], baseline)
            self.pen.move_to(self.left + indent, baseline)
            PangoCairo.show_layout_line(self.pen, line)
        if block.marks:
            end = indent + line.get_extents()[1].width / Pango.SCALE
            marks = self.layout(block.marks)
            if end + 6 + marks.get_size()[0] / Pango.SCALE > self.width:
                self.need(self.advance())
                self.y += self.advance()
            self.put(marks, self.left + self.width, self.y - self.size * 0.3, "end")
        self.y += 4

    def right(self, block):
        self.need(self.advance())
        self.y += self.advance()
        self.put(self.layout(block.text, bold=block.bold), self.left + self.width, self.y - self.size * 0.3, "end")
        self.y += 4

    def formula(self, block):
        self.need(4 * self.size)
        middle = self.y + 2 * self.size
        left, over, under, right = (self.layout(text) for text in (block.left, block.over, block.under, block.right))
        wide = [layout.get_size()[0] / Pango.SCALE for layout in (left, over, under, right)]
        fraction = max(wide[1], wide[2]) + 4
        x = self.left + (self.width - wide[0] - fraction - wide[3]) / 2
        self.put(left, x, middle + self.size * 0.3)
        self.put(over, x + wide[0] + fraction / 2, middle - self.size * 0.35, "middle")
        self.put(under, x + wide[0] + fraction / 2, middle + self.size, "middle")
        self.put(right, x + wide[0] + fraction, middle + self.size * 0.3)
        self.stroke([(x + wide[0], middle), (x + wide[0] + fraction, middle)])
        self.y += 4 * self.size

    def lines(self, block):
        for number in range(block.count):
            self.need(2 * self.size)
            self.y += 2 * self.size
            end = self.left + self.width
            if block.marks and number + 1 == block.count:
                end -= self.put(self.layout(block.marks), end, self.y - 2, "end") + 4
            if block.kind == "rule":
                self.stroke([(self.left, self.y), (end, self.y)])
            elif block.kind == "dots":
                dots = int((end - self.left) / (self.layout("." * 100).get_size()[0] / Pango.SCALE / 100))
                self.put(self.layout("." * dots), self.left, self.y - 2)
        self.y += 4

    def figure(self, block):
        self.need(block.height + 12 + 2 * self.size)
        left, top = self.left + (self.width - block.width) / 2, self.y + 6
        for stroke in block.strokes:
            self.stroke([(left + x, top + y) for x, y in stroke])
        for x, y, anchor, text in block.letters:
            self.put(self.layout(text, self.size * 0.85), left + x, top + y, anchor)
        self.y = top + block.height + 6
        if block.caption:
            self.y += self.advance()
            self.put(self.layout(block.caption), self.left + self.width / 2, self.y - self.size * 0.3, "middle")
        self.y += 6

    def table(self, block):
        if block.widths:
            edges = [0]
            for share in block.widths:
                edges.append(edges[-1] + share * self.width)
        else:
            longest = max(self.layout(cell).get_size()[0] for row in block.rows for cell in row) / Pango.SCALE
            edges = [number * (longest + 12) for number in range(len(block.rows[0]) + 1)]
        self.y += 6
        for row in block.rows:
            cells = [self.layout(cell, width=edges[n + 1] - edges[n] - 10) for n, cell in enumerate(row)]
            height = max(cell.get_size()[1] for cell in cells) / Pango.SCALE + 6
            self.need(height)
            left = self.left + (self.width - edges[-1]) / 2
            for at, cell in enumerate(cells):
                self.box(left + edges[at], self.y, edges[at + 1] - edges[at], height)
                self.pen.move_to(left + edges[at] + 5, self.y + 3)
                PangoCairo.show_layout(self.pen, cell)
            self.y += height
        self.y += 6

    def heading(self, block):
        size = block.scale * self.style.size
        self.need(2 * size)
        self.y += 1.6 * size
        self.put(self.layout(block.text, size, bold=True), self.left + self.width / 2, self.y, "middle")
        self.y += 0.6 * size

    def space(self, block):
        self.y += block.height

    def page_break(self, _):
        if self.y > self.top:
            self.start_page()

    # Strokes.

    def stroke(self, points):
        self.pen.new_path()
        for x, y in points:
            self.pen.line_to(x, y)
        self.pen.stroke()

    def box(self, x, y, width, height):
        self.pen.new_path()
        self.pen.rectangle(x, y, width, height)
        self.pen.stroke()


LAYOUTS = {
    Text: Sheet.text,
    Right: Sheet.right,
    Formula: Sheet.formula,
    Lines: Sheet.lines,
    Figure: Sheet.figure,
    Table: Sheet.table,
    Heading: Sheet.heading,
    Space: Sheet.space,
    PageBreak: Sheet.page_break,
}


class Press:
    def __enter__(self):
        return self

    def __exit__(self, *_):
        pass

    def print(self, document, file):
        Sheet(document, file)
