"""Prints an export of three invented papers with topics, and pictures of most of their questions and mark schemes."""
import base64
import json
import struct
import zlib


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(seed):
    width, height = 300, 60 + seed
    rows = b"".join(b"\0" + bytes((x * seed + y) % 256 for x in range(width)) for y in range(height))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


PARTS = {"1": ("vectors", 5), "2a": ("series", 4), "2b": ("vectors", 4), "3": ("integration", 6), "4": ("vectors", 7)}
papers, pictures = [], []
for number in range(1, 4):
    name = f"pure-{number}"
    papers.append({"paper": name, "title": f"Pure, paper {number}", "subject": "pure",
                   "duration_seconds": 2400 if number == 3 else None, "retry_by": "question",
                   "parts": [{"part": part, "marks": marks, "topic": topic, "codes": ""}
                             for part, (topic, marks) in PARTS.items()]})
    for question in (1, 2, 4) if number < 3 else (1, 4):
        shows = ["question", "scheme"] if question != 4 else ["question"]
        pictures += [{"paper": name, "question": str(question), "shows": show,
                      "bytes": base64.b64encode(png(10 * number + question + 3 * len(show))).decode()} for show in shows]
print(json.dumps({"format": "inkturn export", "version": 2, "papers": papers, "candidates": [], "exams": [],
                  "classes": [], "pictures": pictures}))
