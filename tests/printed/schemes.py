"""Mark schemes for invented papers: a table of labels, answers, codes and marks."""

from random import Random

from blocks import Document, Heading, Spread, Table
from words import facts

NUMBERED = ("label, answer, codes, marks", "label, answer, codes", "label, answer, codes, marks, notes", "label, answer, marks")


def has_scheme(index):
    return index % 4 == index // 4 % 2  # of both engines


def codes_for(random, marks):
    codes = []
    while marks:
        worth = 2 if marks > 2 and random.random() < 0.1 else 1
        kind = random.choice(("M", "M", "A", "A", "B", "dM"))
        after = random.choice(("", "", "", "ft", "cao")) if kind == "A" else ""
        codes.append(f"{kind}{worth}{after}")
        marks -= worth
    return codes


def write_scheme(writer):
    """The document, and the codes of each part; parts without marks in the paper have none."""
    random = Random(f"scheme {writer.index} {writer.sum}")
    kind = NUMBERED[writer.index // 4 % len(NUMBERED)]
    columns = kind.split(", ")
    row_a_code = random.random() < 0.5
    space = random.choice((" ", ""))
    whole_label = random.random() < 0.6
    titles = {"label": "Question", "answer": "Answer", "codes": "Mark", "marks": "Total", "notes": "Guidance"}
    rows = [[titles[column] for column in columns]]
    truth = {}
    last_question = ""
    for part in writer.parts:
        marks = part["marks"] or 2
        codes = codes_for(random, marks)
        question, subs = split_label(part["part"])
        truth[part["part"]] = " ".join(codes) if "codes" in columns else ""
        label = space.join(([question] if whole_label or question != last_question else []) + [f"({sub})" for sub in subs])
        last_question = question
        owner = next(n for n, given in writer.tokens.given.items() if part["token"] in given)
        groups = [[code] for code in codes] if row_a_code else [codes]
        for at, group in enumerate(groups):
            cells = {
                "label": label if at == 0 else "",
                "answer": f"{' '.join(facts(random, 1))} zs{owner:02}",
                "codes": "\n".join(group),
                "marks": str(marks) if at == 0 else "",
                "notes": random.choice(("or better", "seen or used", "", "allow f(3) here")),
            }
            rows.append([cells[column] for column in columns])
    shares = {"label": 0.16, "answer": 0.5, "codes": 0.13, "marks": 0.1, "notes": 0.25}
    whole = sum(shares[column] for column in columns)
    table = Table(rows, [shares[column] / whole for column in columns], head=True)
    return Document(writer.style, [Spread([Heading("Mark scheme", 1.4), table], scale=0.85)]), truth


def split_label(label):
    """`A3bii` as `A3` and its sub-parts; letters before romans, a lone i after a number is a roman."""
    digits = max(at for at, letter in enumerate(label) if letter.isdigit()) + 1
    question, letters = label[:digits], label[digits:]
    if letters[:1] in tuple("abcdefgh"):
        return question, [letter for letter in (letters[0], letters[1:]) if letter]
    return question, [letters] if letters else []
