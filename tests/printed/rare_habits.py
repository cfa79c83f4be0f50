"""Invented question papers with what is rare in print: marks in boxes, crop marks at the page's edges, lines across two columns, marks far
left of the label, worded marks that touch the text."""

from random import Random

from habits import Owned, Title, Row, Writer

ENGINES = ("latex", "writer")
PRINTS = {  # forms of marks, and where they stand
    "boxed": (("{}", "{} marks", "({})", "{} pts"), "end"),
    "crop": (("[{}]", "({})", "({} marks)", "{}"), "end"),
    "across": (("[{}]", "({})", "[{} marks]"), "end"),
    "far": (("[{}]", "({})", "({} marks)", "{} marks", "{}"), "far left"),
    "touching": (("({} marks)", "[{} marks]", "[Marks: {}]", "({} pts)"), "glued"),
}


class Across:
    """A block as wide as the page between blocks in columns."""

    def __init__(self, block):
        self.block = block


class RareWriter(Writer):
    def __init__(self, seed, index):
        super().__init__(f"rare {seed}", index)
        random = Random(f"rare print {seed} {index}")
        self.print = list(PRINTS)[index // 4 % len(PRINTS)]
        self.engine = ENGINES[index // 2 % len(ENGINES)] if self.print != "crop" else "latex"
        forms, self.place = PRINTS[self.print]
        self.form = random.choice(forms)
        if self.print in ("boxed", "crop") and self.form == "{}" and self.numbers == "{}":
            self.numbers = "{}."
        self.numbers = "{}" if self.print == "across" and len(self.number(7)) > 5 else self.numbers
        self.wide = len(self.number(7)) > 5
        self.columns = self.print == "across"
        self.total = self.total if self.place == "end" else ""
        self.blanket = self.table = self.several = self.plus = False
        self.restart = self.restart and self.numbers in ("{}", "{}.", "{})")
        self.sections = self.sections or self.columns
        self.choice = self.choice and not self.sections

    def exhibit(self, owner):
        return [] if self.columns else super().exhibit(owner)

    def body(self):
        blocks = super().body()
        return [widened(block) for block in blocks] if self.columns else blocks

    def paper(self):
        sheet, body, truth = super().paper()
        sheet.look[self.print] = True
        truth["habits"]["print"] = self.print
        return sheet, body, truth


def widened(block):
    """Headings, and what is asked in all parts of a question, go across both columns."""
    if isinstance(block, Title):
        return Across(block)
    first = block.blocks[0] if isinstance(block, Owned) else None
    if isinstance(first, Row) and not first.marks and len(block.blocks) > 2:
        return Owned(block.owner, [Across(first)] + block.blocks[1:])
    return block
