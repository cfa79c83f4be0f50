"""Where words stand on the pages of a PDF."""

import html
import re
import subprocess

WORD = r'<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>'
SLACK = 0.6  # points by which a strip may cut into the box of a word: the letters are smaller


def words_of(file, pattern):
    """The words that hold the pattern: (page from 1, box, what was found)."""
    said = subprocess.run(["pdftotext", "-bbox", file, "-"], capture_output=True, text=True, check=True).stdout
    found = []
    for page, text in enumerate(said.split("<page ")[1:], 1):
        for *box, word in re.findall(WORD, text):
            if token := re.search(pattern, html.unescape(word)):
                found.append((page, tuple(map(float, box)), token[0]))
    return found


def inside(page, box, strip):
    left, top, right, bottom = box
    across = strip["left"] - SLACK <= left and right <= strip["right"] + SLACK
    return strip["page"] == page and across and strip["top"] - SLACK <= top and bottom <= strip["bottom"] + SLACK


def touches(page, box, strip):
    """Whether the strip shows something of the middle of the word."""
    left, top, right, bottom = box
    middle = (bottom - top) / 4
    across = strip["left"] < right - SLACK and left + SLACK < strip["right"]
    return strip["page"] == page and across and strip["top"] < bottom - middle and top + middle < strip["bottom"]
