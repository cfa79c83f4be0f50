"""Invented question papers in other habits than papers.py has: other labels, other forms and places of marks, other covers."""

from dataclasses import dataclass, field
from random import Random

from words import Tokens, facts, fill, stem, task


@dataclass
class Row:
    """A paragraph with labels before it: `level` is the column of its text, 0 to 3."""

    text: str
    level: int = 0
    labels: list = field(default_factory=list)  # (level, text)
    marks: str = ""
    place: str = "end"  # end, line, left, above, glued, label
    middle: bool = False  # the label stands at half the height of its row


@dataclass
class Side:
    """A line of its own at the right edge."""

    text: str


@dataclass
class Title:
    text: str


@dataclass
class Fraction:
    """A displayed formula with a number of its own or none."""

    over: str
    under: str
    rest: str
    number: str = ""


@dataclass
class Grid:
    rows: list


@dataclass
class Dots:
    count: int
    spaced: bool


class Break:
    pass


@dataclass
class Owned:
    """The blocks of a question, by its place in the paper from 1: their ink has a colour of its own."""

    owner: int
    blocks: list


TAKEN = (  # from white, of red, green and blue
    (255, 255, 100),
    (255, 100, 255),
    (100, 255, 255),
    (255, 100, 100),
    (100, 255, 100),
    (100, 100, 255),
    (255, 180, 100),
    (255, 100, 180),
    (180, 255, 100),
    (100, 255, 180),
    (180, 100, 255),
    (100, 180, 255),
)


def colour_of(owner):
    """Red, green and blue, 0 to 255: of its own for each question of a page."""
    return tuple(255 - taken for taken in TAKEN[owner % len(TAKEN)])


@dataclass
class Sheet:
    """What a press lays out."""

    blocks: list
    size: int  # points, 10 to 12
    look: dict  # table, columns, head, foot, lines, wide, outlines


ENGINES = ("latex", "writer", "latex", "writer", "latex rewritten", "writer rewritten")
# How marks are printed, and where they may stand.
FORMS = (
    ("[{}]", ("end", "line", "left", "above", "glued", "label")),
    ("({})", ("end", "line")),
    ("[{} marks]", ("end", "line", "label")),
    ("({} marks)", ("end", "line", "label")),
    ("{} marks", ("end", "line")),
    ("/{}", ("end",)),
    ("____/{}", ("end",)),
    ("{} p.", ("end",)),
    ("{} P.", ("end", "line")),
    ("({} p.)", ("end",)),
    ("[Marks: {}]", ("end", "line")),
    ("(Marks: {})", ("end",)),
    ("Marks: {}", ("line",)),
    ("[{}] AO2", ("end",)),
    ("{}", ("end",)),
    ("{{{}}}", ("end",)),
    ("[{}m]", ("end",)),
    ("(out of {})", ("end",)),
    ("({} pts)", ("end", "label")),
)
NUMBERS = ("{}", "{}.", "{})", "Q{}", "Question {}", "Question {word}", "{roman}.", "A.{}", "{}.", "({})", "Task {}", "{}", "decimal")
LETTERS = (("({0})", "({0})"), ("{0})", "{0})"), ("({0})", "{0}."), ("{0}.", "{0}."), ("({1})", "({0})"))
TOTALS = ("", "", "", "[Total: {m}]", "(Total {m} marks)", "Question {q} total: {m} marks", "Total {m}", "Sum: {m} marks")
DURATIONS = (
    ("Time allowed: 1 hour 30 minutes", 90),
    ("Time: 1½ hours", 90),
    ("Time: FRACTION hours", 90),
    ("Duration: ninety minutes", 90),
    ("Time allowed: 1:30 hours", 90),
    ("Working time: 75 minutes|Reading time: 10 minutes", 75),
    ("Reading time: 5 minutes|Writing time: 1 hour 45 minutes", 105),
    ("09:15 to 10:45", 90),
    ("Time: 13.00 – 14.30", 90),
    ("Length: two and a half hours", 150),
    ("You have forty-five minutes.", 45),
    ("Time allowed: two hours", 120),
    ("This paper lasts 1 h 15.", 75),
    ("100 minutes", 100),
    ("Time: 2h", 120),
    ("", None),
)
PAPER_TOTALS = (
    "There are {m} marks in all.",
    "Total marks: {m}",
    "This paper is worth {m} marks.",
    "{m} marks",
    "The paper is marked out of {m}.",
    "Marks available: {m}",
    "TABLE",
    "",
)
NOBODY = 0
WORDS = "One Two Three Four Five Six Seven Eight Nine Ten Eleven Twelve".split()
ROMANS = "i ii iii iv v vi vii viii ix x xi xii".split()


class Writer:
    """Writes one paper; the same for the same seed and index."""

    def __init__(self, seed, index):
        self.random = random = Random(f"other {seed} {index}")
        self.tokens = Tokens()
        self.engine = ENGINES[index // 2 % len(ENGINES)]
        self.form, places = random.choice(FORMS)
        self.place = random.choice(places)
        self.numbers = random.choice(NUMBERS)
        self.letters = random.choice(LETTERS)
        self.total = random.choice(TOTALS) if self.place not in ("left", "above") else ""
        self.blanket = random.random() < 0.08
        self.table = self.place == "end" and random.random() < 0.18 and self.form != "____/{}"
        self.wide = len(self.number(7)) > 5
        self.columns = not self.table and not self.wide and self.place in ("end", "line") and random.random() < 0.1
        self.restart = self.numbers in ("{}", "{}.", "{})") and random.random() < 0.25
        self.sections = self.restart or random.random() < 0.15
        self.choice = not self.sections and random.random() < 0.2
        self.several = self.form in ("[{}]", "({})", "({} marks)") and self.place == "end" and random.random() < 0.15
        self.plus = self.form in ("[{}]", "({})") and not self.several and random.random() < 0.1
        self.parts, self.questions = [], []

    def stated(self, marks):
        text = self.form.format(marks).replace(" ", "\N{NO-BREAK SPACE}")
        return text.replace("marks", "mark").replace("pts", "pt") if marks == 1 else text

    def number(self, n):
        style = self.numbers if self.numbers != "decimal" else "{}"
        return style.format(n, word=WORDS[n - 1], roman=ROMANS[n - 1].upper())

    def shape(self):
        random = self.random
        mark = lambda: random.randint(1, 6)
        kind = random.choice(("single", "letters", "letters", "deep", "list"))
        if self.blanket or kind == "list" and self.numbers == "decimal":
            kind = "single"
        if kind in ("single", "list"):
            return kind, [("", "", random.randint(2, 9))]
        leaves = []
        for letter in "abcde"[: random.randint(2, 5)]:
            romans = ROMANS[: random.randint(2, 3)] if kind == "deep" and random.random() < 0.5 else ("",)
            leaves += [(letter, roman, mark()) for roman in romans]
        return kind, leaves

    def labels(self, n, letter, roman, before):
        """What is printed before a part; labels printed before are left out."""
        if self.numbers == "decimal":
            text = f"{n}" + (f".{ord(letter) - 96}" if letter else "") + (f".{ROMANS.index(roman) + 1}" if roman else "")
            return [(0, text)]
        made = [] if before[0] == n else [(0, self.number(n))]
        if letter and before[1] != letter:
            made.append((1, self.letters[0].format(letter, letter.upper())))
        return made + ([(2, self.letters[1].format(roman, roman))] if roman else [])

    def row(self, text, level, labels, marks, owner):
        """A part's rows; the marks may be in two pieces."""
        random = self.random
        if marks is None or self.blanket:
            return [Row(text, level, labels)]
        if self.several and marks > 2 and random.random() < 0.4:
            first = random.randint(1, marks - 1)
            more = f"{fill(random, 'State the height of the {a}')} {self.tokens.next(owner)}."
            return [Row(text, level, labels, self.stated(first)), Row(more, level, [], self.stated(marks - first))]
        if self.plus and marks > 2 and random.random() < 0.5:
            return [Row(text, level, labels, self.stated(f"{marks - 1}+1"))]
        if self.place == "line":
            return [Row(text, level, labels), Side(self.stated(marks))]
        return [Row(text, level, labels, self.stated(marks), self.place)]

    def exhibit(self, owner):
        random = self.random
        kind = random.choice(("fraction", "fraction", "table", "none", "none", "none"))
        if kind == "fraction":
            number = f"({random.randint(1, 4)})" if random.random() < 0.3 and not self.form.startswith("(") else ""
            return [Fraction(f"{random.randint(2, 9)}x + {random.randint(2, 9)}", "x", f"= {random.randint(11, 99)}", number)]
        if kind == "table":
            return [Grid([[str(random.randint(1, 40)) for _ in range(4)] for _ in range(3)])]
        return []

    def question(self, owner, n, section):
        random = self.random
        kind, leaves = self.shape()
        if self.choice:  # questions to choose from have equal marks
            leaves[-1] = (*leaves[-1][:2], 90 - sum(leaf[2] for leaf in leaves[:-1]))
        name = f"{section}{n}" if not self.numbers.startswith("A.") else f"A{n}"
        blocks = []
        before = [None, None]
        first = len(self.parts)
        text = stem(random, self.tokens, owner, random.randint(1, 3))[1]
        if kind == "list":
            blocks.append(Row(text, 1, self.labels(n, "", "", before)))
            before[0] = n
            for letter in "abcd":
                label = self.letters[0].format(letter, letter.upper())
                blocks.append(Row(f"the {fill(random, '{a} of {n} boats')} {self.tokens.next(owner)}", 2, [(1, label)]))
            place, self.place = self.place, "end" if self.place == "label" else self.place
            blocks += self.row(f"Choose one and say why {self.tokens.next(owner)}.", 1, [], leaves[0][2], owner)
            self.place = place
            self.parts.append({"part": name, "marks": leaves[0][2]})
        elif kind == "single" or random.random() < 0.6 or self.numbers == "decimal":
            if kind == "single":
                text = f"{text} {task(random, self.tokens, owner)[1]}"
                blocks += self.row(text, 1, self.labels(n, "", "", before), 1 if self.blanket else leaves[0][2], owner)
                self.parts.append({"part": name, "marks": 1 if self.blanket else leaves[0][2]})
            else:
                blocks += [Row(text, 1, self.labels(n, "", "", before))] + self.exhibit(owner)
                before[0] = n
        if kind in ("letters", "deep"):
            for letter, roman, marks in leaves:
                if roman == "i" and random.random() < 0.5:
                    blocks.append(Row(f"{facts(random, 1)[0]} {self.tokens.next(owner)}.", 2, self.labels(n, letter, "", before)))
                    before = [n, letter]
                words = task(random, self.tokens, owner)[1]
                level = 1 + bool(letter) + bool(roman) if self.numbers != "decimal" else 1
                blocks += self.row(words, level, self.labels(n, letter, roman, before), marks, owner)
                before = [n, letter]
                self.parts.append({"part": name + letter + roman, "marks": marks})
                if random.random() < 0.15 and not self.table and not self.columns:
                    blocks.append(Dots(random.randint(1, 4), random.random() < 0.5))
        mine = self.parts[first:]
        total = sum(part["marks"] for part in mine)
        states = bool(self.total) and not self.blanket and not (len(mine) == 1 and random.random() < 0.5)
        if states:
            text = self.total.format(q=n, m=total)
            blocks.append(Side(text.replace("1 marks", "1 mark") if total == 1 else text))
        labels = [part["part"] for part in mine]
        tokens = self.tokens.given[owner]
        self.questions.append({"question": name, "parts": labels, "total": total if states else None, "tokens": tokens})
        return blocks

    def cover(self, duration, total, rules):
        random = self.random
        blocks = [Title(f"Saltmarsh Evening College {self.tokens.next(NOBODY)}"), Title("Works of Numbers")]
        blocks += [Row(text) for text in duration.split("|") if text]
        if total == "TABLE":
            grid = [["Question", "Marks"]] + [[q["question"], str(self.sum_of(q))] for q in self.questions]
            blocks.append(Grid(grid + [["Total", str(self.sum)]]))
        elif total:
            blocks.append(Row(total.format(m=self.sum)))
        numbered = random.random() < 0.4
        for n, rule in enumerate(rules, 1):
            blocks.append(Row(rule, 1, [(0, f"{n}." if numbered else "•")]))
        return blocks

    def sum_of(self, question):
        marks = {part["part"]: part["marks"] for part in self.parts}
        return sum(marks[label] for label in question["parts"])

    def body(self):
        random = self.random
        count = random.randint(10, 12) if self.blanket else random.randint(4, 8)
        blocks, n = [], 0
        digits = self.restart and random.random() < 0.5
        for at in range(count):
            section = ""
            if self.sections:
                second = at >= count // 2
                if at in (0, count // 2):
                    blocks.append(Title(f"Section {'21'[not second] if digits else 'AB'[second]} {self.tokens.next(NOBODY)}"))
                    n = 0 if self.restart else n
                section = "AB"[second] if self.restart else ""
            n += 1
            blocks.append(Owned(at + 1, self.question(at + 1, n, section)))
            if random.random() < 0.12 and not self.columns and not self.table and at + 1 < count:
                blocks.append(Break())
        return blocks

    def paper(self):
        random = self.random
        body = self.body()
        self.sum = sum(part["marks"] for part in self.parts)
        rules = ["Write your name at the top.", "You may use a calculator.", "Give answers to 3 significant figures."]
        choice = None
        if self.choice:
            chosen = random.randint(2, len(self.questions) - 1)
            choice = {"count": chosen, "questions": [q["question"] for q in self.questions]}
            word = random.choice((WORDS[chosen - 1].lower(), str(chosen), WORDS[chosen - 1].upper()))
            rules.insert(0, random.choice((f"Answer any {word} questions.", f"Answer {word} of the questions.")))
        else:
            rules.insert(0, "Answer all questions.")
        if self.blanket:
            rules.append("Each question carries 1 mark.")
        count = self.sum if not choice else chosen * self.sum // len(self.questions)
        duration, minutes = random.choice([(text, minutes) for text, minutes in DURATIONS if not minutes or 0.5 <= minutes / count <= 3])
        total = "" if choice else random.choice(PAPER_TOTALS)
        cover = self.cover(duration, total, rules)
        apart = not self.columns and random.random() < 0.5
        look = {
            "table": self.table,
            "columns": self.columns,
            "head": random.choice(("", "WN/2 Works of Numbers", "PAGE")),
            "foot": random.choice(("PAGE", "", "Turn over")),
            "lines": random.random() < 0.08,
            "wide": self.wide,
            "outlines": self.engine.endswith("rewritten"),
        }
        sheet = Sheet(cover + ([Break()] if apart else []), random.choice((10, 11, 12)), look)
        truth = {
            "engine": self.engine,
            "habits": {key: getattr(self, key) for key in HABITS},
            "look": look,
            "duration_seconds": minutes and minutes * 60,
            "total": self.sum if total else None,
            "choice": choice,
            "parts": self.parts,
            "questions": self.questions,
            "nobody": self.tokens.given[NOBODY],
        }
        return sheet, body, truth


HABITS = "form place numbers letters total blanket table columns restart sections choice several plus".split()
