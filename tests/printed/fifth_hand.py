"""Invented question papers in the habits of a fifth hand: what schools and boards print round their questions, which no other hand here does."""

from third_hand import NOBODY, Item, NewPage, Raw, Room, Spread, Teacher
from words import stem

ENGINES = ("chromium",)
LINES = "The keepers met in the hall of the tannery and spoke for an hour about the sluice. Some wanted a new gate of oak, others a turret".split()


class Fifth(Teacher):
    def cover(self, time):
        self.total = self.asked
        return [Spread(left="Saltmarsh Evening College", right="Works of Numbers", bold=True), Spread(left=time, right=f"Total marks: {self.asked}"), Item(f"Answer all questions. {self.tokens.next(NOBODY)}")]

    def several(self, most=4, marks=6):
        random = self.random
        count = random.randint(1, most)
        letters = "abcdef"[:count] if count > 1 else [""]
        return [(letter, random.randint(1, marks)) for letter in letters]


class Booklet(Fifth):
    """Two pages of a booklet side by side on a sheet."""

    def body(self):
        random = self.random
        self.page = "A5"
        label, form = random.choice(("{}", "{}.", "{})")), random.choice(("[{}]", "({})", "({} marks)"))
        blocks = []
        for n in range(1, self.count + 2):
            leaves, lead = self.several(), [(0, label.format(n))]
            if leaves[0][0] and random.random() < 0.6:
                blocks += [Item(stem(random, self.tokens, n, 1)[1], 8, lead)] + self.extra()
                lead = []
            for letter, marks in leaves:
                blocks.append(Item(self.words(n), 16 if letter else 8, lead + ([(8, f"({letter})")] if letter else []), self.number(marks, form), "last"))
                blocks += [Room(random.randint(1, 4), True)] if random.random() < 0.5 else []
                lead = []
            self.question(str(n), leaves)
        return blocks


class Board(Fifth):
    """A cover with a bar code, boxes to fill in and a table of the questions' marks; a bar code line at each page's foot; totals."""

    def cover(self, time):
        self.total = self.asked
        bars = "".join(f'<i style="display:inline-block;height:9mm;width:{self.random.randint(1, 4) / 4}mm;margin-right:.5mm;background:black"></i>' for _ in range(60))
        heads = "".join(f"<td>{question['question']}</td>" for question in self.questions)
        sums = "".join(f"<td>{sum(part['marks'] for part in self.parts if part['part'] in question['parts'])}</td>" for question in self.questions)
        boxes = '<table style="width:60mm"><tr>' + "<td>&nbsp;</td>" * 5 + "</tr></table>"
        return [
            Raw(f"<div>Centre number {boxes} Candidate number {boxes}</div>"),
            Spread(left="Saltmarsh Evening College", bold=True),
            Spread(left=time, right="Paper reference WN/2B"),
            Raw(f"<ul><li>Use black ink.</li><li>There are {len(self.questions)} questions.</li><li>The total mark for this paper is {self.asked}.</li>"
                f"<li>The marks for <b>each</b> question are shown in brackets. {self.tokens.next(NOBODY)}</li></ul>"),
            Raw(f"<table><tr><td>Question</td>{heads}<td>Total</td></tr><tr><td>Maximum</td>{sums}<td>{self.asked}</td></tr><tr><td>Mark</td>{'<td></td>' * (len(self.questions) + 1)}</tr></table>"),
            Raw(f"<div style='margin-top:20mm'>{bars}<br>* W N 2 B 0 1 2 4 *</div>"),
            NewPage(),
        ]

    def body(self):
        random = self.random
        self.foot = "*WN2B0N24*"
        form = random.choice(("({})", "[{}]"))
        total = random.choice(("(Total for Question {} is {} marks)", "(Total {1} marks)", "Q{}: {}", "Total Question {}: {}"))
        blocks = []
        for n in range(1, self.count + 3):
            leaves, lead = self.several(3), [(0, str(n))]
            for letter, marks in leaves:
                blocks.append(Item(self.words(n), 16 if letter else 8, lead + ([(8, f"({letter})")] if letter else [])))
                blocks += [Room(random.randint(2, 6), True), Spread(right=form.format(marks))]
                lead = []
            of_all = sum(marks for _, marks in leaves)
            blocks.append(Raw(f'<div style="text-align:right;font-weight:bold">{total.format(n, of_all)}</div>'))
            self.question(str(n), leaves, of_all)
            blocks += [NewPage()] if random.random() < 0.5 and n < self.count + 2 else []
        return blocks


class LeftMargin(Fifth):
    """Marks in a column at the left, before the numbers."""

    def body(self):
        random = self.random
        form, head = random.choice((("{}", "Marks"), ("[{}]", ""), ("({})", "Marks"), ("{}", "Marks")))
        label = random.choice(("{}.", "{}", "Q{}"))
        blocks = [Item("", 12, [(0, head)])] if head else []
        for n in range(1, self.count + 2):
            leaves, lead = self.several(), [(12, label.format(n))]
            if leaves[0][0] and random.random() < 0.5:
                blocks.append(Item(stem(random, self.tokens, n, 1)[1], 22, lead))
                lead = []
            for letter, marks in leaves:
                blocks.append(Item(self.words(n), 30 if letter else 22, [(0, form.format(marks))] + lead + ([(22, f"({letter})")] if letter else [])))
                lead = []
            self.question(str(n), leaves)
        return blocks


class German(Fifth):
    """In another language."""

    times = (("Bearbeitungszeit: 60 Minuten", 60), ("Zeit: 90 Minuten", 90), ("Arbeitszeit: 45 Minuten", 45))

    def cover(self, time):
        self.total = self.asked
        return [Spread(middle="Abendschule Salzmarsch", bold=True), Spread(left=time, right=f"Gesamt: {self.asked} Punkte")]

    def body(self):
        random = self.random
        self.unit = "Punkte"
        head = random.choice(("Aufgabe {}", "Aufgabe {}:", "{}. Aufgabe"))
        stated = random.choice(("({} {unit})", "[{} {unit}]", "{} {unit}", ""))
        form = random.choice(("({} {unit})", "[{} P.]", "{} P.", "({})"))
        letters = random.choice(("{})", "({})"))
        blocks = []
        for n in range(1, self.count + 1):
            leaves = self.several()
            total = sum(marks for _, marks in leaves)
            beside = self.number(total, stated) if stated or leaves[0][0] else self.number(total, form)
            blocks.append(Spread(left=f"{head.format(n)} {self.tokens.next(n)}", right=beside, bold=True))
            for letter, marks in leaves:
                text = f"Der Kahn braucht {random.randint(11, 98)} Stunden bis zur Schleuse. Wie viele Fässer trägt er, und warum? {self.tokens.next(n)}"
                blocks.append(Item(text, 8, [(0, letters.format(letter))] if letter else [], self.number(marks, form) if letter else "", "last"))
            self.question(str(n), leaves, total if stated and leaves[0][0] else None)
        return blocks


class Sourced(Fifth):
    """Passages in boxes, with their lines numbered or with paragraphs numbered, before and after the questions."""

    def source(self, name, owner):
        random = self.random
        numbered = random.random() < 0.5
        lines = [" ".join(random.sample(LINES, 12)) for _ in range(random.randint(6, 16))]
        rows = "".join(f'<div style="display:flex"><span style="flex:1">{line}</span><span>{n if numbered and n % 5 == 0 else ""}</span></div>' for n, line in enumerate(lines, 1))
        return Raw(f'<div style="border:0.6pt solid black;padding:3mm;margin:3mm 0"><b>Source {name}</b>: from the keepers\' book, {random.randint(1801, 1899)} {self.tokens.next(owner)}{rows}</div>')

    def body(self):
        random = self.random
        form = random.choice(("[{} marks]", "({})", "[{}]"))
        label = random.choice(("{}", "{}."))
        after = random.random() < 0.5
        blocks = []
        for n in range(1, self.count + 1):
            leaves = self.several(3, 12)
            name = "ABCDEFG"[n - 1]
            lead = [(0, label.format(n))]
            blocks += [Item(f"Read Source {name} and answer what follows. {self.tokens.next(n)}", 10, lead)]
            lead = []
            blocks += [] if after else [self.source(name, n)]
            for k, (letter, marks) in enumerate(leaves):
                text = f"According to Source {name} (lines {random.randint(1, 4)} to {random.randint(5, 9)}), who wanted the gate? {self.words(n)}"
                blocks.append(Item(text, 18 if letter else 10, [(10, f"({letter})")] if letter else [], form.format(marks).replace("1 marks", "1 mark") if marks == 1 else form.format(marks), "last"))
                blocks += [Room(random.randint(2, 8), True)] if random.random() < 0.6 else []
            self.question(str(n), leaves)
        if after:
            blocks += [Spread(middle=random.choice(("END OF QUESTIONS", "End of paper"))), NewPage(), Spread(middle=f"Insert {self.tokens.next(NOBODY)}", bold=True)]
            blocks += [self.source("ABCDEFG"[n], NOBODY) for n in range(self.count)]
        return blocks


class AnswerLines(Fifth):
    """Answers on a dotted line with a unit and the marks at its end; a box with each question's marks at the page's foot."""

    def body(self):
        random = self.random
        form = random.choice(("[{}]", "({})"))
        name = random.choice(("Answer", "x =", "", "Answer:"))
        box = random.choice((True, False))
        blocks = []
        for n in range(1, self.count + 3):
            leaves, lead = self.several(3, 4), [(0, str(n))]
            for letter, marks in leaves:
                blocks.append(Item(self.words(n), 16 if letter else 8, lead + ([(8, f"({letter})")] if letter else [])))
                blocks.append(Room(random.randint(1, 3), False))
                unit = random.choice(("", "cm", "kg", "%", "litres"))
                blocks.append(Spread(right=f"{name} {'.' * random.randint(20, 40)} {unit} {form.format(marks)}"))
                lead = []
            of_all = sum(marks for _, marks in leaves)
            if box:
                blocks.append(Raw(f'<div style="display:flex;justify-content:flex-end"><table style="width:30mm"><tr><td>Q{n}</td><td>&nbsp;&nbsp;&nbsp;</td><td>/ {of_all}</td></tr></table></div>'))
            self.question(str(n), leaves)
            blocks += [NewPage()] if random.random() < 0.3 and n < self.count + 2 else []
        return blocks


TEACHERS = (Booklet, Board, LeftMargin, German, Sourced, AnswerLines)
