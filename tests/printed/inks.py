"""The ink of each question on the pages of a paper in which each has a colour of its own."""

import re
import subprocess

from habits import colour_of
from pixels import RESOLUTION, drawn_page

LIKE = 0.1  # by which the shades of a pixel may differ from its question's
DARK = 90  # the least that a pixel differs from white to have a shade


def shade_of(colour):
    """What a colour takes from white, as shares."""
    lost = [255 - value for value in colour]
    return tuple(value / sum(lost) for value in lost) if max(lost) >= DARK else None


def owner_of(pixel, shades):
    shade = shade_of(pixel)
    if not shade:
        return None
    distance, owner = min((sum(abs(a - b) for a, b in zip(shade, own)), owner) for owner, own in shades.items())
    return owner if distance < LIKE else None


def coloured_page(file, page):
    run = ["pdftoppm", "-r", str(RESOLUTION), "-cropbox", "-f", str(page), "-l", str(page), file]
    said = subprocess.run(run, capture_output=True, check=True).stdout
    head = re.match(rb"P6\s+(\d+)\s+(\d+)\s+255\s", said)
    return int(head[1]), int(head[2]), said[head.end() :]


def bands_of(file, page, owners):
    """Runs of rows with the ink of a question: (owner, piece of the gray page). Questions a few apart share a colour: `owners` are
    those on the page."""
    shades = {owner: shade_of(colour_of(owner)) for owner in owners}
    width, height, data = coloured_page(file, page)
    known = {}
    open_bands, bands = {}, []
    for y in range(height + 1):
        row = data[3 * width * y : 3 * width * (y + 1)]
        extents = {}
        for x, pixel in enumerate(zip(row[::3], row[1::3], row[2::3])):
            if min(pixel) > 255 - DARK:
                continue
            if pixel not in known:
                known[pixel] = owner_of(pixel, shades)
            if (owner := known[pixel]) is not None:
                left, right = extents.get(owner, (x, x))
                extents[owner] = (min(left, x), max(right, x))
        for owner in set(open_bands) - set(extents):
            bands.append((owner, *open_bands.pop(owner), y))
        for owner, (left, right) in extents.items():
            old_left, old_right, top = open_bands.get(owner, (left, right, y))
            open_bands[owner] = (min(left, old_left), max(right, old_right), top)
    gray = drawn_page(file, page)
    return [(owner, top, gray.crop(left, top, right + 1, bottom)) for owner, left, right, top, bottom in bands]
