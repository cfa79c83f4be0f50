#!/usr/bin/env python3
"""Writes a made-up class: make_class.py FOLDER CANDIDATES

FOLDER/paper.csv     the parts of each of the twelve papers: 14 questions in 42 parts
FOLDER/class.csv     a row a part, candidate by candidate
FOLDER/shuffled.csv  the same rows in no order

The same on every machine; the papers were sat a week apart, the twelfth a week before TODAY.
"""

import datetime
import pathlib
import random
import sys

PAPERS = 12
QUESTIONS = 14
TODAY = datetime.date(2026, 11, 20)
REASONS = ["method", "recall", "slip", "misread", "unfinished", ""]


def below(dice, count):
    return int(dice.random() * count)


def inks(dice, maximum):
    """Marks in time, in overtime and corrected, and the reason of a loss: about one part in four has one."""
    if dice.random() < 0.76:
        return f"{maximum},0,0,"
    if dice.random() < 0.05:
        return "-,,,unfinished"
    in_time = below(dice, maximum)
    overtime = below(dice, maximum - in_time) if dice.random() < 0.3 else 0
    corrected = below(dice, maximum - in_time - overtime + 1)
    return f"{in_time},{overtime},{corrected},{REASONS[below(dice, len(REASONS))]}"


def main():
    folder, candidates = pathlib.Path(sys.argv[1]), int(sys.argv[2])
    dice = random.Random(20260907)
    parts = [(f"{question}{letter}", 2 + below(dice, 5)) for question in range(1, QUESTIONS + 1) for letter in "abc"]
    days = [TODAY - datetime.timedelta(weeks=PAPERS - paper) for paper in range(PAPERS)]
    rows = [
        f"c{candidate:04},paper-{paper + 1:02},{day},{label},{inks(dice, maximum)}\n"
        for candidate in range(candidates)
        for paper, day in enumerate(days)
        for label, maximum in parts
    ]
    header = "candidate,paper,date,part,in_time,overtime,corrected,reason\n"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "paper.csv").write_text("part,marks\n" + "".join(f"{label},{maximum}\n" for label, maximum in parts))
    (folder / "class.csv").write_text(header + "".join(rows))
    dice.shuffle(rows)
    (folder / "shuffled.csv").write_text(header + "".join(rows))


if __name__ == "__main__":
    main()
