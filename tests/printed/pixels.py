"""Pictures as rows of gray bytes, and where a piece of a page is found in one."""

import io
import re
import subprocess

import cairo

RESOLUTION = 150  # dots an inch
FAINT = 200  # what is as light counts as white: a picture may end before the faint edge of its last letter


def visible(value):
    return value if value < FAINT else 255


class Gray:
    def __init__(self, width, height, data):
        self.width, self.height, self.data = width, height, data

    def row(self, y, left, right):
        start = y * self.width
        return self.data[start + left : start + right]

    def crop(self, left, top, right, bottom):
        return Gray(right - left, bottom - top, b"".join(self.row(y, left, right) for y in range(top, bottom)))


class Picture(Gray):
    """A picture that may have fewer levels of gray than the page it was cut from."""

    def __init__(self, width, height, data):
        levels = sorted(set(data))
        if len(levels) > 16:
            levels = range(256)
        nearest = [min(levels, key=lambda level: abs(level - value)) for value in range(256)]
        self.as_here = bytes(map(visible, nearest))
        super().__init__(width, height, data.translate(bytes(map(visible, range(256)))))

    def holds(self, piece):
        """Whether the piece of a page stands in it, pixel for pixel."""
        piece = Gray(piece.width, piece.height, piece.data.translate(self.as_here))
        rows = [piece.row(y, 0, piece.width) for y in range(piece.height)]
        fullest = max(range(piece.height), key=lambda y: len(set(rows[y])))
        at = self.data.find(rows[fullest])
        while at >= 0:
            top, left = at // self.width - fullest, at % self.width
            right = left + piece.width
            fits = 0 <= top and top + piece.height <= self.height and right <= self.width
            if fits and all(self.row(top + y, left, right) == row for y, row in enumerate(rows)):
                return True
            at = self.data.find(rows[fullest], at + 1)
        return False


def drawn_page(file, page):
    """A page (from 1) as pdftoppm draws it."""
    run = ["pdftoppm", "-gray", "-r", str(RESOLUTION), "-f", str(page), "-l", str(page), file]
    said = subprocess.run(run, capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", said)
    return Gray(int(head[1]), int(head[2]), said[head.end() :])


def read_png(content):
    surface = cairo.ImageSurface.create_from_png(io.BytesIO(content))
    width, height = surface.get_width(), surface.get_height()
    assert surface.get_stride() == 4 * width
    return Picture(width, height, bytes(surface.get_data())[::4])  # the three colours are the same
