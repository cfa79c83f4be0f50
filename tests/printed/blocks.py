"""What a printed paper is made of, before an engine lays it out.

Texts hold the tags that HTML and Pango share: b, i, sub, sup.
"""

from dataclasses import dataclass, field


@dataclass
class Text:
    """A paragraph. Labels hang in the columns before it; marks stand at the right edge of its last line, or below."""

    text: str
    column: int = 0  # where its lines start
    labels: list = field(default_factory=list)  # (column, text)
    marks: str = ""


@dataclass
class Right:
    """A line of its own at the right edge."""

    text: str
    bold: bool = False


@dataclass
class Formula:
    """A displayed formula: left, a fraction, right."""

    left: str
    over: str
    under: str
    right: str


@dataclass
class Lines:
    """Lines to write on, of dots or ruled, or as much blank space; marks stand at the end of the last one."""

    kind: str
    count: int
    marks: str = ""


@dataclass
class Figure:
    """Strokes are lists of points, letters are (x, y, anchor, text); points, y downwards."""

    width: float
    height: float
    strokes: list
    letters: list
    caption: str


@dataclass
class Table:
    rows: list
    widths: list = None  # shares of the width; nothing: narrow columns of numbers, in the middle
    head: bool = False


@dataclass
class Heading:
    text: str
    scale: float = 1.0


@dataclass
class Space:
    height: float  # points


class PageBreak:
    pass


@dataclass
class Spread:
    """Blocks that start on a new page, in one column or two."""

    blocks: list
    columns: int = 1
    scale: float = 1.0  # of the letters


@dataclass
class Style:
    font: str
    size: float  # points
    leading: float
    page: tuple  # width and height, points
    margins: tuple  # top, right, bottom, left
    columns: tuple  # x of the number, of (a), of (i), of the text behind (i)
    inset: float  # what the text leaves free at the right for the marks
    justified: bool
    head: tuple  # left, middle, right; {page} is the page's number
    foot: tuple
    side: str  # printed upwards in the left margin


@dataclass
class Document:
    style: Style
    spreads: list
