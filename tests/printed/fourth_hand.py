"""Invented question papers in the habits of a fourth hand: five teachers, each with ways that the third hand doesn't have."""

from third_hand import NOBODY, ROMANS, Formula, Item, NewPage, Options, Room, Rows, Spread, Teacher
from words import facts, stem

RULES = (
    "Write your name on every sheet.",
    "Use black ink. Pencil may be used for drawings only.",
    "A calculator is allowed in all questions.",
    "Show every step, as marks are given for method.",
    "Hand in all rough work.",
)


class Fourth(Teacher):
    times = Teacher.times + (("Allowed time: 1 hour and 15 minutes", 75), ("TIME ALLOWED: THREE HOURS", 180), ("Length of paper: 50 minutes", 50), ("2 hours", 120))

    def cover(self, time):
        random = self.random
        self.total = self.asked
        stated = random.choice(("Total marks: {}", "There are {} marks in all.", "This paper has {} marks.", "Out of {} marks", "MAXIMUM MARKS {}"))
        stated = stated if "Out of" not in stated else "Total: {}"
        blocks = [Spread(left="Saltmarsh Evening College", right=f"Form {random.choice('45')}B {self.tokens.next(NOBODY)}"), Spread(left=random.choice(("Spring test", "Mock paper 2", "End-of-term examination")), bold=True)]
        blocks += [Item(time)] if time else []
        blocks.append(Item(stated.format(self.asked)))
        if random.random() < 0.5:
            blocks.append(Item(random.choice(("Instructions", "Please read this first", "Rules"))))
            number = random.choice(("{}.", "{}", "({})", "•"))
            blocks += [Item(rule, 7, [(0, number.format(n))]) for n, rule in enumerate(RULES[: random.randint(3, 5)], 1)]
            blocks += [NewPage()] if random.random() < 0.5 else []
        return blocks


class Workbook(Fourth):
    """The whole label at every part, room to write after each, marks under that room; a line for the question's result."""

    def body(self):
        random = self.random
        label = random.choice(("{}{}", "{}.{}", "{}{})", "{} {}", "{}({})"))
        form = random.choice(("____ / {}", "/{}", "[{}]", "({} {unit})"))
        result = random.choice(("", "Question {} total: ____ / {}", "Total for question {}: {} marks"))
        blocks = []
        for n in range(1, self.count + 1):
            leaves = [(letter, random.randint(1, 6)) for letter in "abcde"[: random.randint(1, 4)]]
            leaves = leaves if len(leaves) > 1 else [("", leaves[0][1])]
            for letter, marks in leaves:
                lead = label.format(n, letter) if letter else str(n)
                blocks += [Item(self.words(n), 14, [(0, lead)]), Room(random.randint(1, 5), random.random() < 0.7), Spread(right=self.number(marks, form))]
            total = sum(marks for _, marks in leaves) if result and leaves[0][0] else None
            blocks += [Spread(right=result.format(n, total))] if total else []
            self.question(str(n), leaves, total)
        return blocks


class Decimals(Fourth):
    """Parts counted 1.1, 1.2 and 1.2.1, with marks in brackets at the edge and the question's total at its heading or its end."""

    def body(self):
        random = self.random
        head = random.choice(("QUESTION {}", "Question {}", "Question {}: works of the harbour"))
        form = random.choice(("({})", "[{}]", "({})"))
        stated = random.choice(("[{}]", "({})", ""))
        blocks = []
        for n in range(1, self.count + 1):
            leaves, letters = [], "abcdefgh"[: random.randint(2, 5)]
            blocks.append(Spread(left=head.format(n), bold=True))
            if random.random() < 0.6:
                blocks += [Item(stem(random, self.tokens, n, 1)[1])] + self.extra()
            for m, letter in enumerate(letters, 1):
                deep = random.random() < 0.25
                if deep:
                    blocks.append(Item(stem(random, self.tokens, n, 1)[1], 14, [(0, f"{n}.{m}")]))
                for k in range(1, random.randint(2, 3) + 1 if deep else 2):
                    marks = random.randint(1, 6)
                    leaves.append((letter + (ROMANS[k - 1] if deep else ""), marks))
                    at, lead = (28, (14, f"{n}.{m}.{k}")) if deep else (14, (0, f"{n}.{m}"))
                    blocks.append(Item(self.words(n), at, [lead], self.number(marks, form), "last"))
            total = sum(marks for _, marks in leaves)
            blocks += [Spread(right=stated.format(total))] if stated else []
            self.question(str(n), leaves, total if stated else None)
        return blocks


class Essayist(Fourth):
    """Long questions with their marks in the text, either the one or the other at the end."""

    def body(self):
        random = self.random
        label = random.choice(("{}", "{}.", "{})", "Question {}"))
        form = random.choice(("[{} marks]", "({} marks)", "({})", "[{}]"))
        where = random.choice(("inline", "below", "last"))
        is_choice = random.random() < 0.6
        each, blocks = random.choice((12, 16, 20)), []
        at = 24 if len(label) > 4 else 10
        for n in range(1, self.count + 2):
            is_last = is_choice and n > self.count - 1
            if not is_last and random.random() < 0.6:
                blocks.append(Item(" ".join(facts(random, 2)) + f" {self.tokens.next(n)}", at, [(0, label.format(n))]))
                lead = []
            else:
                lead = [(0, label.format(n))]
            if is_last and n == self.count:
                blocks.append(Item(f"Answer either Question {n} or Question {n + 1}. {self.tokens.next(NOBODY)}"))
            marks = each if is_last else random.randint(4, 10)
            leaves = [("", marks)]
            if not is_last and random.random() < 0.5:
                leaves = [("a", marks), ("b", random.randint(4, 10))]
            for letter, own in leaves:
                labels = lead + ([(at, f"({letter})")] if letter else [])
                blocks.append(Item(self.words(n) + " Give reasons for what you say, and name what speaks against it.", at + 8 if letter else at, labels, form.format(own), where))
                lead = []
            self.question(str(n), leaves)
            blocks += [Room(random.randint(3, 8), True)] if random.random() < 0.4 else []
            blocks += [Spread(middle="OR")] if is_last and n == self.count and random.random() < 0.5 else []
        if is_choice:
            among = [question["question"] for question in self.questions[-2:]]
            self.choice = {"count": 1, "questions": among, "asked": sum(part["marks"] for part in self.parts) - each}
        return blocks


class Linguist(Fourth):
    """Exercises with numbered sentences that have no marks of their own."""

    def body(self):
        random = self.random
        head = random.choice(("Exercise {}", "Task {}", "{}.", "Exercise {}."))
        stated = random.choice(("({} {unit})", "[{} {unit}]", "{} {unit}", "____ / {}"))
        item = random.choice(("{}.", "{})", "({})", "{}"))
        blocks = []
        for n in range(1, self.count + 2):
            count = random.randint(3, 8)
            marks = count * random.randint(1, 2)
            blocks.append(Spread(left=f"{head.format(n)} Complete the sentences. {self.tokens.next(n)}", right=self.number(marks, stated), bold=True))
            for k in range(1, count + 1):
                blocks.append(Item(f"{facts(random, 1)[0]} {self.tokens.next(n)} ..............", 16, [(8, item.format(k))]))
            self.question(str(n), [("", marks)])
        return blocks


class Scientist(Fourth):
    """Marks right after the label or before its text, tables of measurements, captions, totals in brackets at the end."""

    def body(self):
        random = self.random
        label = random.choice(("{}.", "{}", "Q{}", "Problem {}."))
        form = random.choice(("[{}]", "({} {unit})", "[{} {unit}]"))
        letters = random.choice(("({})", "{})", "{}."))
        at = 24 if len(label) > 4 else 10
        blocks = []
        for n in range(1, self.count + 1):
            leaves = [(letter, random.randint(1, 8)) for letter in "abcdef"[: random.randint(2, 5)]]
            blocks.append(Item(stem(random, self.tokens, n, 2)[1], at, [(0, label.format(n))]))
            if random.random() < 0.4:
                blocks += [Options([str(random.randint(11, 99)) for _ in range(4)], at), Item(f"Table {n}: what was measured {self.tokens.next(n)}", at + 20)]
            blocks += self.extra()
            for letter, marks in leaves:
                blocks.append(Item(f"{self.number(marks, form)} {self.words(n)}", at + 8, [(at, letters.format(letter))]))
            total = sum(marks for _, marks in leaves)
            blocks.append(Spread(right=random.choice((f"[Total: {total}]", f"(Total {total} marks)"))))
            self.question(str(n), leaves, total)
            blocks += [NewPage()] if random.random() < 0.2 and n < self.count else []
        return blocks


TEACHERS = (Workbook, Decimals, Essayist, Linguist, Scientist)
