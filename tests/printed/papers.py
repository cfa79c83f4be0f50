"""Invented question papers: what stands in them, and what a reader has to find."""

from random import Random

from blocks import Document, Heading, Lines, PageBreak, Right, Space, Spread, Style, Table, Text
from exhibits import figure, formula, table
from words import FACTS, Tokens, facts, fill, stem, task

ENGINES = ("chromium", "pango")
FONTS = ("Liberation Serif", "Liberation Sans", "DejaVu Serif", "DejaVu Sans", "STIXGeneral")
PAGES = ((595.28, 841.89), (612.0, 792.0))  # A4, Letter
NUMBERS = ("{}", "{}.", "Q{}", "{:02}", "full", "full close")
LETTERS = (  # of letters and of roman numerals: {0} as in the label, {1} in capitals
    ("({0})", "({0})"),
    ("({0})", "{0}."),
    ("{0}.", "{0}."),
    ("({0})", "({0})"),
    ("{0}", "{0}"),
    ("{0})", "{0})"),
    ("({1})", "({0})"),
)
BRACKETS = ("({})", "[{}]", "{} marks", "({} marks)", "[{} marks]")
TOTALS = (
    "",
    "(Total for Question {q} is {m} marks)",
    "[Total {m}]",
    "",
    "(Total {m} marks)",
    "Total for Question {q}: {m} marks",
    "",
    "[{m}]",
    "({m} marks)",
)
FAULTS = ("question total", "paper total", "lost marks")
DURATIONS = {
    "Time: 1 hour 30 minutes": 90,
    "Time allowed: 1 h 30 min": 90,
    "Time: 90 minutes": 90,
    "Time allowed: 2 hours": 120,
    "Time: 1½ hours": 90,
    "Time 1 hour": 60,
    "Time: one hour and a half": 90,
    "Time: 1 hour 40": 100,
    "Time allowed: 45 minutes": 45,
    "Duration: 1 hour 45 minutes": 105,
    "": None,
}
PAPER_TOTALS = (
    "The total mark for this paper is {}.",
    "Total marks: {}",
    "Full marks: {}",
    "The maximum mark for this paper is {}.",
    "[Total: {} marks]",
    "The total number of marks for this paper is {}.",
    "",
)
ROMAN = ("i", "ii", "iii", "iv", "v", "vi")
NOBODY = 0


def plural(text, marks):
    return text.replace("marks", "mark") if marks == 1 else text


class Writer:
    """Writes one paper; the same for the same seed and index."""

    def __init__(self, seed, index):
        self.random = Random(f"{seed} {index}")
        self.index = index
        self.tokens = Tokens()
        self.engine = ENGINES[index % 2]
        self.fault = FAULTS[index // 9 % 3] if index % 9 == 4 else None
        turn = index // 2
        self.numbers = NUMBERS[turn % len(NUMBERS)]
        self.letters = LETTERS[self.random.randrange(len(LETTERS))]
        self.bracket = BRACKETS[turn % len(BRACKETS)]
        self.total = TOTALS[turn % len(TOTALS)]
        if self.fault == "question total" and not self.total:
            self.total = TOTALS[1]
        self.two_columns = index % 13 == 6
        self.place = self.random.choice(("last line", "last line", "own line", "answer line"))
        self.answers = self.random.choice(("", "dots", "rule", "blank")) if self.place != "answer line" else "dots"
        if self.two_columns:
            self.place, self.answers = "last line", ""
        self.sections = index % 11 == 7
        self.restart = self.sections and index // 11 % 2 == 0
        self.style = self.choose_style()
        self.parts = []  # label, marks, token on the label's line
        self.questions = []
        self.figures = 0

    def choose_style(self):
        random = self.random
        size = random.choice((9, 10, 10.5, 11, 12, 13)) if not self.two_columns else random.choice((9, 9.5))
        width, height = PAGES[self.index // 4 % 2]
        side = random.choice((45, 56, 70))
        widths = (random.choice((2.2, 2.6, 3)), random.choice((2, 2.4)), 2.2)
        if self.numbers.startswith("full"):
            widths = (6.2, 0, 0)
        columns = [0]
        for wide in widths:
            columns.append(columns[-1] + wide * size)
        code = f"P{random.randint(10, 99)}/{random.randint(1, 4)}"
        return Style(
            font=FONTS[(self.index // 2 + self.index // 20) % len(FONTS)],
            size=size,
            leading=random.choice((1.25, 1.35, 1.5)),
            page=(width, height),
            margins=(random.choice((60, 72)), side, random.choice((62, 75)), side),
            columns=tuple(columns),
            inset=0 if self.place == "answer line" or self.two_columns else random.choice((0, 0, 40)),
            justified=random.random() < 0.4,
            head=random.choice((("", "", ""), ("", "{page}", ""), (code, "", "{page}"), (f"Tasks {code}", "", "Name"))),
            foot=random.choice(
                (("", "{page}", ""), ("Works of Numbers 7", "", "Turn over"), (code, "{page}", "[Turn over"), ("", "", ""))
            ),
            side="DO NOT WRITE IN THIS MARGIN" if self.index % 10 == 3 and side >= 56 else "",
        )

    # What belongs to a question.

    def stated(self, marks):
        return plural(self.bracket.format(marks), marks)

    def labels(self, number, *subs):
        """The number and the sub-parts in their columns, or the whole label in one."""
        if not self.numbers.startswith("full"):
            forms = zip(self.letters, subs)
            return self.numbers.format(number), [form.format(sub, sub.upper()) for form, sub in forms if sub]
        space = " " if self.numbers == "full" else ""
        return space.join([str(number)] + [f"({sub})" for sub in subs if sub]), []

    def exhibit(self, owner, chance):
        """A figure, a table or a formula, or none of them."""
        if self.random.random() > chance:
            return []
        token = self.tokens.next(owner)
        kind = self.random.choice(("figure", "table", "formula"))
        if kind == "formula":
            return [formula(self.random, token)]
        if kind == "table":
            return [table(self.random, token, self.two_columns)]
        self.figures += 1
        caption = f"Figure {self.figures}" if self.random.random() < 0.7 else ""
        return [figure(self.random, token, caption, self.two_columns)]

    def answer(self, marks):
        """Lines to write on and marks on lines of their own, as the paper has them; None: the marks are not printed here."""
        random = self.random
        stated = self.stated(marks) if marks else ""
        if self.place == "answer line":
            return [Lines("dots", random.randint(1, 3), stated)]
        lines = [Lines(self.answers, random.randint(2, 6))] if self.answers else []
        if self.place == "last line" or not marks:
            return lines
        broken = [PageBreak()] if random.random() < 0.06 else []
        return broken + ([Right(stated)] + lines if random.random() < 0.5 else lines + [Right(stated)])

    def ask(self, owner, label, column, labels, marks, total_alone, lost, earlier):
        """A part with what is shown in it and its marks, unless the question's total alone states them or they are lost."""
        token, text = task(self.random, self.tokens, owner, earlier)
        self.parts.append({"part": label, "marks": None if lost else marks, "token": token})
        printed = None if lost or total_alone else marks
        exhibit = self.exhibit(owner, 0.12)
        here = self.stated(printed) if printed and self.place == "last line" else ""
        if not exhibit:
            return [Text(text, column, labels, here)] + self.answer(printed)
        closing = Text(f"{fill(self.random, FACTS[0])} {self.tokens.next(owner)}.", column, [], here)
        return [Text(text, column, labels), *exhibit, closing] + self.answer(printed)

    def shape(self):
        """The sub-parts of a question: (letter, roman, marks)."""
        random = self.random
        mark = lambda: random.choice((1, 1, 2, 2, 3, 3, 4, 5, 6))
        kind = random.choice(("single", "single", "letters", "letters", "letters", "romans", "deep", "deep"))
        if kind == "single":
            return [("", "", random.randint(2, 9))]
        if kind == "romans":
            return [("", roman, mark()) for roman in ROMAN[: random.randint(2, 4)]]
        count = 9 if kind == "letters" and random.random() < 0.05 else random.randint(2, 4)
        leaves = []
        for letter in "abcdefghi"[:count]:
            deep = kind == "deep" and (random.random() < 0.5 or letter == "b")
            romans = ROMAN[: random.randint(2, 3)] if deep else ("",)
            leaves += [(letter, roman, mark()) for roman in romans]
        return leaves

    def hung(self, pending, number, letter, roman, last_letter):
        """The labels of a part, in their columns; those of a letter or number that was printed before are left out."""
        whole, subs = self.labels(number, letter, roman)
        if self.numbers.startswith("full"):
            return [(0, whole)]
        if letter and letter == last_letter:
            return [(2, subs[-1])]
        return pending + [(1 + n, text) for n, text in enumerate(subs)]

    def fault_in(self, leaves):
        """With the fault that was asked for: sub-parts, the total as printed, the one that lost its marks."""
        if len(leaves) == 1:
            leaves = [("a", "", leaves[0][2]), ("b", "", 3)]
        total = sum(marks for *_, marks in leaves)
        if self.fault == "question total":
            return leaves, total + self.random.choice((-1, 1, 2)), None
        return leaves, total, self.random.randrange(len(leaves) - 1)  # of the last the total could be taken for its marks

    def sub_parts(self, owner, number, name, leaves, lost, pending, total_alone):
        """The parts of a question one after the other; `pending` are labels that no text has taken yet."""
        random = self.random
        full = self.numbers.startswith("full")
        blocks = []
        last_letter = ""
        for at, (letter, roman, marks) in enumerate(leaves):
            labels = self.hung(pending, number, letter, roman, last_letter)
            if roman and letter != last_letter and not full and random.random() < 0.6:
                blocks.append(Text(f"{self.tokens.next(owner)} {facts(random, 1)[0]}", 2, labels[:-1]))
                labels = labels[-1:]
            column = 1 if full else 1 + bool(letter) + bool(roman)
            earlier = chr(ord(letter) - 1) if letter > "a" else ""
            blocks += self.ask(owner, f"{name}{letter}{roman}", column, labels, marks, total_alone, at == lost, earlier)
            pending, last_letter = [], letter
            if random.random() < 0.05 and not self.two_columns and at + 1 < len(leaves):
                blocks.append(PageBreak())
                if random.random() < 0.5:
                    blocks.append(Text(f"<b>Question {number} continued</b> {self.tokens.next(owner)}"))
        return blocks

    def question(self, owner, number, section):
        random = self.random
        name = f"{section}{number}"
        leaves, lost = self.shape(), None
        printed = sum(marks for *_, marks in leaves)
        if self.fault in ("question total", "lost marks") and not self.fault_at and number == 2:
            leaves, printed, lost = self.fault_in(leaves)
            self.fault_at = name
        self.sum += sum(marks for *_, marks in leaves)
        single = len(leaves) == 1
        total_alone = single and (self.total in ("[{m}]", "({m} marks)") or bool(self.total) and random.random() < 0.3)
        first = len(self.parts)

        labels = [(0, self.labels(number)[0])]
        with_stem = random.random() < (0.5 if single else 1 if self.numbers.startswith("full") else 0.7)
        blocks = []
        if with_stem:
            opening, text = stem(random, self.tokens, owner, random.randint(1, 4))
            blocks = [Text(text, 1, labels)] + ([] if single else self.exhibit(owner, 0.5))
        if single:
            blocks += self.ask(owner, name, 1, [] if with_stem else labels, leaves[0][2], total_alone, False, "")
            if with_stem:
                self.parts[-1]["token"] = opening
        else:
            blocks += self.sub_parts(owner, number, name, leaves, lost, [] if with_stem else labels, total_alone)
        if self.total:
            blocks.append(Right(plural(self.total.format(q=number, m=printed), printed), bold=random.random() < 0.5))
        mine = [part["part"] for part in self.parts[first:]]
        total = printed if self.total else None
        self.questions.append({"question": name, "parts": mine, "total": total, "tokens": self.tokens.given[owner]})
        return blocks

    # What belongs to none.

    def cover(self, duration, total):
        random = self.random
        nobody = lambda: self.tokens.next(NOBODY)
        blocks = [Heading(f"Works of Numbers, Paper {random.randint(1, 4)}", 1.6), Heading(f"{nobody()} Autumn series")]
        blocks += [Text(f"<b>{text}</b>" if random.random() < 0.5 else text) for text in (duration, total) if text]
        if random.random() < 0.25:  # for the examiner to fill in
            rows = [[str(n + 1), ""] for n in range(len(self.questions))]
            blocks.append(Table([["Question", "Mark"], *rows, ["Total", ""]]))
        numbered = random.random() < 0.5
        rules = (
            f"Answer all the questions {nobody()}.",
            "Write your name and number in the boxes at the top of this page.",
            f"The marks for each part are shown in brackets, such as {BRACKETS[self.index % 2].format(3)}.",
            "You may use a calculator. Give answers to 3 significant figures.",
            f"Leave blank pages blank {nobody()}.",
        )
        blocks.append(Text("<b>Instructions</b>"))
        for n, rule in enumerate(rules):
            blocks.append(Text(rule, 1, [(0, f"{n + 1}." if numbered else "•")]))
        return blocks

    def sheet(self):
        """Small print in two columns."""
        random = self.random
        lines = [Heading("Rules that you may use")]
        for n in range(random.randint(24, 60)):
            rule = f"<i>w</i> = f({random.randint(1, 9)}) + {n}<i>r</i><sup>2</sup>"
            lines.append(Text(f"The {n + 2}th wheel: {rule} ({n % 7 + 1})"))
        lines.append(Text(f"End of the rules {self.tokens.next(NOBODY)}."))
        return Spread(lines, 2, 0.7)

    def appendix(self):
        """A list like one of questions, after the last of them."""
        lines = [Heading("Appendix")]
        for n in range(1, self.random.randint(4, 9)):
            text = f"The wheel number {n} has {n + 6} spokes {self.tokens.next(NOBODY)}."
            lines.append(Text(text, 1, [(0, f"{n}.")], f"({n})"))
        return Spread(lines)

    def body(self):
        random = self.random
        count = random.randint(5, 9)
        self.sum = 0
        self.fault_at = None
        blocks = []
        number = 0
        gap = random.choice((10, 16, 24))
        for at in range(count):
            if self.sections and at in (0, count // 2):
                letter = "A" if at == 0 else "B"
                blocks.append(Heading(f"Section {letter}", 1.2))
                number = 0 if self.restart else number
            number += 1
            blocks += self.question(at + 1, number, ("A" if at < count // 2 else "B") if self.restart else "")
            new_page = not self.two_columns and random.random() < 0.15
            blocks.append(PageBreak() if new_page and at + 1 < count else Space(gap))
        return blocks

    def paper(self):
        random = self.random
        body = self.body()
        total = self.sum + (random.choice((-2, 1, 5)) if self.fault == "paper total" else 0)
        form = random.choice(PAPER_TOTALS[:-1] if self.fault else PAPER_TOTALS)
        duration = random.choice([text for text, minutes in DURATIONS.items() if not minutes or 0.5 <= minutes / total <= 3])
        cover = self.cover(duration, form.format(total))
        columns = 2 if self.two_columns else 1
        spreads = [Spread(body, columns)]
        if columns == 2 or random.random() < 0.75:
            spreads.insert(0, Spread(cover))
        else:
            body[:0] = cover + [Space(20)]
        if random.random() < 0.3:
            spreads.insert(random.choice((len(spreads) - 1, len(spreads))), self.sheet())
        if random.random() < 0.2:
            body.append(Heading("END OF QUESTIONS"))
            spreads.append(self.appendix())
        if random.random() < 0.25:
            spreads.append(Spread([Space(200), Heading(f"BLANK PAGE {self.tokens.next(NOBODY)}")]))
        minutes = DURATIONS[duration]
        truth = {
            "engine": self.engine,
            "style": {key: getattr(self, key) for key in ("numbers", "letters", "bracket", "total", "place", "answers", "two_columns")},
            "duration_seconds": minutes * 60 if minutes else None,
            "total": total if form else None,
            "parts": self.parts,
            "questions": self.questions,
            "nobody": self.tokens.given.get(NOBODY, []),
            "fault": {"kind": self.fault, "question": self.fault_at} if self.fault else None,
        }
        return Document(self.style, spreads), truth
