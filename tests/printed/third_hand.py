"""Invented question papers in the habits of a third hand: four teachers, each with ways of their own."""

from dataclasses import dataclass, field
from random import Random

from words import Tokens, facts, fill, stem, task

NOBODY = 0
ROMANS = "i ii iii iv".split()
COUNTS = "ZERO ONE TWO THREE FOUR FIVE SIX SEVEN".split()


@dataclass
class Item:
    """A paragraph whose text begins `at`, with labels before it; places in millimetres from the text's left edge."""

    text: str
    at: float = 0
    labels: list = field(default_factory=list)  # (place, text)
    marks: str = ""
    where: str = ""  # last, first, below, inline, margin: beside the last or first line, on a line of its own, in the text, right of all text


@dataclass
class Spread:
    """A line with something at its left, middle and right."""

    left: str = ""
    middle: str = ""
    right: str = ""
    bold: bool = False


@dataclass
class Options:
    """Answers to choose from, side by side."""

    texts: list
    at: float


@dataclass
class Formula:
    over: str
    under: str
    rest: str


@dataclass
class Rows:
    """A table of three columns."""

    cells: list
    heads: tuple


@dataclass
class Room:
    """Space to write in, ruled or blank."""

    lines: int
    ruled: bool


class NewPage:
    pass


@dataclass
class Raw:
    """What only a web page prints, as its HTML."""

    html: str


class Teacher:
    """What all four do: blocks are written to `blocks`, parts and questions to the truth."""

    times = (("Time: 3 Hours", 180), ("Time: 1 hr 30 min", 90), ("Duration: 2 hours", 120), ("Time allowed: 60 minutes", 60), ("Time: 45 min.", 45))

    def __init__(self, seed, index):
        self.random = Random(f"third {seed} {index}")
        self.tokens = Tokens()
        self.blocks, self.parts, self.questions = [], [], []
        self.choice, self.total = None, None
        self.count = self.random.randint(3, 6)
        self.unit = self.random.choice(("marks", "marks", "points", "pts"))
        self.table = False
        self.foot = None  # one of its own
        self.page = "A4"  # A5: two of them side by side on a sheet

    def number(self, marks, form):
        text = form.format(marks, unit=self.unit)
        return text.replace(self.unit, self.unit[:-1]) if marks == 1 else text

    def words(self, owner):
        text = task(self.random, self.tokens, owner)[1]
        return text if self.random.random() < 0.6 else f"{facts(self.random, 1)[0]} {text}"

    def question(self, label, parts, total=None):
        made = [{"part": label + part, "marks": marks} for part, marks in parts]
        self.parts += made
        owner = len(self.questions) + 1
        self.questions.append({"question": label, "parts": [part["part"] for part in made], "total": total, "tokens": self.tokens.given[owner]})

    def write(self):
        body = self.body()
        marks = sum(part["marks"] for part in self.parts)
        self.asked = self.choice["asked"] if self.choice else marks
        time, minutes = self.random.choice([one for one in self.times if 0.5 <= one[1] / self.asked <= 3] or [("", None)])
        self.blocks = self.cover(time) + body
        choice = {key: self.choice[key] for key in ("count", "questions")} if self.choice else None
        return {
            "blocks": self.blocks,
            "foot": self.foot or self.random.choice(("", "Page N", "- N -", "N", "Page N of the paper")),
            "page": self.page,
            "head": self.random.choice(("", "", "WN-204 / Works of Numbers", "Name: ______________")),
            "size": self.random.choice((10, 11, 12)),
        }, {
            "duration_seconds": minutes and minutes * 60,
            "total": self.total,
            "choice": choice,
            "parts": self.parts,
            "questions": self.questions,
            "nobody": self.tokens.given.get(NOBODY, []),
        }

    def cover(self, time):
        self.total = self.asked
        stated = self.random.choice(("Max. Marks: {}", "Maximum marks: {}", "Total: {} marks", "Full marks: {}"))
        return [
            Spread(middle=f"Saltmarsh Evening College {self.tokens.next(NOBODY)}", bold=True),
            Spread(middle="Works of Numbers II"),
            Spread(left=time, right=stated.format(self.asked)),
        ]

    def extra(self):
        """What may stand between a question's text and its parts."""
        random = self.random
        if random.random() < 0.25:
            return [Formula(f"{random.randint(2, 9)}x - {random.randint(2, 9)}", f"{random.randint(2, 9)} + x", f"= {random.randint(11, 99)}")]
        return []


class Headed(Teacher):
    """Each question under a heading that says its marks; parts with theirs in the text or at its edge."""

    def body(self):
        random = self.random
        heading = random.choice(("Question {}", "Problem {}", "Exercise {}", "{}.", "Question {}:"))
        stated = random.choice(("({} {unit})", "[{} {unit}]", "{} {unit}"))
        form = random.choice(("({} {unit})", "[{}]", "({})", "[{} {unit}]"))
        where = random.choice(("inline", "last", "last", "below"))
        letters = random.choice(("{})", "({})", "{}."))
        beside = random.random() < 0.5
        blocks = []
        for n in range(1, self.count + 1):
            leaves = [(letter, random.randint(1, 8)) for letter in "abcdef"[: random.randint(1, 4)]]
            leaves = leaves if len(leaves) > 1 else [("", leaves[0][1])]
            total = sum(marks for _, marks in leaves)
            text = self.number(total, stated)
            blocks.append(Spread(left=heading.format(n) + ("" if beside else " " + text), right=text if beside else "", bold=True))
            if leaves[0][0] or random.random() < 0.5:
                blocks += [Item(stem(random, self.tokens, n, random.randint(1, 2))[1])] + self.extra()
            if not leaves[0][0]:
                blocks.append(Item(self.words(n)))
            else:
                blocks += [Item(self.words(n), 8, [(1, letters.format(letter))], self.number(marks, form), where) for letter, marks in leaves]
            if random.random() < 0.4:
                blocks.append(Room(random.randint(2, 6), random.random() < 0.6))
            self.question(str(n), leaves, total if leaves[0][0] else None)
        return blocks


class Quiz(Teacher):
    """Many short questions, some with answers to choose from."""

    times = Teacher.times + (("You have 20 minutes.", 20), ("Time: half an hour", 30))

    def body(self):
        random = self.random
        label = random.choice(("{}.", "{})", "{}", "Q{}.", "Q{}"))
        form = random.choice(("({} {unit})", "[{}]", "({})", "___ / {}", "{} {unit}", "({unit}: {})"))
        where = random.choice(("first", "last", "inline", "margin")) if form[0] in "([" else "first"
        option = random.choice(("{}) ", "({}) ", "{}. "))
        case = random.choice((str.upper, str.lower))
        blocks = []
        for n in range(1, 2 * self.count + 1):
            marks = random.randint(1, 4)
            blocks.append(Item(self.words(n), 9, [(0, label.format(n))], self.number(marks, form), where))
            kind = random.random()
            if kind < 0.4:
                texts = [option.format(case(letter)) + str(random.randint(11, 99)) for letter in "abcd"]
                blocks.append(Options(texts, 9))
            elif kind < 0.6:
                blocks += [Item(f"the {fill(random, '{a} of {n} boats')} {self.tokens.next(n)}", 16, [(9, option.format(case(letter)))]) for letter in "abcd"]
            elif kind < 0.8:
                blocks.append(Room(random.randint(2, 4), True))
            self.question(str(n), [("", marks)])
        return blocks


class Lecturer(Teacher):
    """Sections, deep parts, a choice; marks in brackets beside the first or the last line."""

    def body(self):
        random = self.random
        label = random.choice(("{}.", "{}", "Q.{}", "Q{}."))
        form = random.choice(("[{}]", "({})", "[{}M]", "({} {unit})", "{}"))
        where = random.choice(("last", "first", "margin", "last"))
        is_section = random.random() < 0.5
        is_choice = random.random() < 0.5
        self.count += 2
        half = self.count // 2 if is_section else 0
        blocks = []
        each = 20
        for n in range(1, self.count + 1):
            if is_section and n in (1, half + 1):
                name = "AB"[n > half]
                blocks.append(Spread(middle=f"SECTION {name} {self.tokens.next(NOBODY)}", bold=True))
                if is_choice:
                    left = self.count - half
                    blocks.append(Spread(middle="Attempt all questions." if name == "A" else f"Attempt any {COUNTS[left - 1]} questions from Section B."))
            leaves = self.leaves(each if is_choice else None)
            lead = [(0, label.format(n))]
            if leaves[0][0] and random.random() < 0.5:
                blocks += [Item(stem(random, self.tokens, n, random.randint(1, 3))[1], 10, lead)] + self.extra()
                lead = []
            before = ""
            for name, marks in leaves:
                labels = list(lead)
                if name and name[0] != before:
                    labels.append((10, f"({name[0]})"))
                if name[1:]:
                    labels.append((18, f"({name[1:]})"))
                at = (26 if name[1:] else 18) if name else 10
                blocks.append(Item(self.words(n), at, labels, self.number(marks, form), where))
                lead, before = [], name[:1]
            self.question(str(n), leaves)
            if random.random() < 0.15 and n < self.count:
                blocks += [Spread(right=random.choice(("P.T.O.", "[Turn over"))), NewPage()]
        if is_choice:
            among = [question["question"] for question in self.questions[half:]]
            asked = len(among) - 1
            self.choice = {"count": asked, "questions": among, "asked": each * (half + asked)}
            if not is_section:
                blocks.insert(0, Spread(middle=f"Attempt any {COUNTS[asked]} questions."))
        return blocks

    def leaves(self, sum_of_all):
        random = self.random
        names = []
        for letter in "abcd"[: random.randint(1, 4)]:
            names += [letter + roman for roman in (ROMANS[: random.randint(2, 3)] if random.random() < 0.3 else [""])]
        names = names if len(names) > 1 else [""]
        marks = [random.randint(1, 9) for _ in names]
        if sum_of_all:
            marks = [random.randint(1, 4) for _ in names[1:]] if names[1:] else []
            marks.insert(0, sum_of_all - sum(marks))
            random.shuffle(marks)
        return list(zip(names, marks))


class Tabler(Teacher):
    """All questions in a table: number, question, marks."""

    def body(self):
        random = self.random
        self.table = True
        label = random.choice(("{}{}", "{} {}", "{}.{}", "{} ({})"))
        heads = random.choice((("No.", "Question", "Marks"), ("", "", "Marks"), ("Q", "Question", "Mark"), ("Number", "Question", "Points")))
        form = random.choice(("{}", "{}", "({})", "/{}", "[{}]", "{} {unit}"))
        rows = []
        for n in range(1, self.count + 3):
            leaves = [(letter, random.randint(1, 9)) for letter in "abcd"[: random.randint(1, 3)]]
            leaves = leaves if len(leaves) > 1 else [("", leaves[0][1])]
            if leaves[0][0] and random.random() < 0.3:
                rows.append([str(n), stem(random, self.tokens, n, 1)[1], ""])
            for letter, marks in leaves:
                text = label.format(n, letter) if letter else str(n)
                rows.append([text, self.words(n), self.number(marks, form)])
            self.question(str(n), leaves)
        total = sum(part["marks"] for part in self.parts)
        if random.random() < 0.5:
            rows.append(["", f"Total {self.tokens.next(NOBODY)}" if random.random() < 0 else "Total", str(total)])
        return [Rows(rows, heads)]


TEACHERS = (Headed, Quiz, Lecturer, Tabler)


def write(seed, index, teachers=TEACHERS, engines=("groff", "chromium")):
    teacher = teachers[index // len(engines) % len(teachers)](seed, index)
    sheet, truth = teacher.write()
    engine = engines[index % len(engines)]
    truth = {"engine": f"third {engine}", "habits": {"teacher": type(teacher).__name__}, "look": {"grey": True}, **truth}
    return engine, sheet, truth
