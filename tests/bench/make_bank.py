#!/usr/bin/env python3
"""Writes a bank of questions for the bench: bank.json, 10,000 questions in 1,000 papers on 40 topics, and pictures.json, 15
questions with a picture of each and of its mark scheme, some 75 KB apiece.

    make_bank.py FOLDER
"""

import base64
import json
import pathlib
import random
import struct
import sys
import zlib

WIDTH, HEIGHT = 1200, 500


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def picture(dice):
    """A PNG of noise, which doesn't compress."""
    rows = b"".join(b"\0" + dice.randbytes(WIDTH // 8) for _ in range(HEIGHT))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", WIDTH, HEIGHT, 1, 0, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


def paper(name, parts, duration=None):
    return {"paper": name, "title": "", "subject": "pure", "duration_seconds": duration, "retry_by": "question",
            "parts": [{"part": part, "marks": marks, "topic": topic, "codes": ""} for part, marks, topic in parts]}


def parts_of_paper(dice):
    for question in range(1, 11):
        topic = f"topic {dice.randrange(40)}"
        for letter in ("",) if dice.random() < 0.3 else "abc"[:dice.randint(2, 3)]:
            yield f"{question}{letter}", dice.randint(1, 7), topic if dice.random() < 0.8 else f"topic {dice.randrange(40)}"


def document(papers, pictures=()):
    return {"format": "inkturn export", "version": 2, "papers": papers, "candidates": [], "exams": [], "classes": [],
            **({"pictures": list(pictures)} if pictures else {})}


def main():
    folder = pathlib.Path(sys.argv[1])
    dice = random.Random(19)
    bank = [paper(f"bank-{number}", list(parts_of_paper(dice)), dice.choice((None, 5400, 7200))) for number in range(1000)]
    (folder / "bank.json").write_text(json.dumps(document(bank)))
    shown = [paper(f"shown-{number}", [(str(question), dice.randint(4, 9), "vectors") for question in (1, 2, 3)])
             for number in range(5)]
    pictures = [{"paper": one["paper"], "question": str(question), "shows": shows,
                 "bytes": base64.b64encode(picture(dice)).decode()}
                for one in shown for question in (1, 2, 3) for shows in ("question", "scheme")]
    (folder / "pictures.json").write_text(json.dumps(document(shown, pictures)))


main()
