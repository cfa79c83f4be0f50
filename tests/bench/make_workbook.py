#!/usr/bin/env python3
"""Makes up a class's workbook, wide.xlsx, and the same cells as wide.csv: a row a candidate, a column a part.

    make_workbook.py FOLDER CANDIDATES PARTS

Always the same one. Needs openpyxl (Debian package python3-openpyxl).
"""

import csv
import pathlib
import random
import sys

import openpyxl

folder, candidates, parts = pathlib.Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
dice = random.Random(42)
maxima = [dice.randint(1, 4) for _ in range(parts)]
rows = [["candidate", *(f"{i // 3 + 1}{'abc'[i % 3]}" for i in range(parts))], ["max", *maxima]]
for number in range(1, candidates + 1):
    rows.append([f"c{number:04}", *(most if dice.random() < 0.76 else dice.randint(0, most) for most in maxima)])

book = openpyxl.Workbook(write_only=True)
sheet = book.create_sheet("Marks")
for row in rows:
    sheet.append(row)
book.save(folder / "wide.xlsx")
with open(folder / "wide.csv", "w", newline="", encoding="utf-8") as out:
    csv.writer(out).writerows(rows)
