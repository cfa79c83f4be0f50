"""Texts of made-up tasks, and the tokens that tell whose a printed word is."""

NOUNS = (
    "lantern kettle ferry orchard barrel windmill ladder quarry bakery canal beacon glacier weaver tandem pulley saddle trellis"
    " cistern granary lighthouse tannery sluice turret compass bellows wagon anvil hammock"
).split()

FACTS = (
    "A {a} beside the {b} holds {n} litres and loses {m} litres each hour.",
    "The height of the {a} is <i>h</i> metres, where <i>h</i> = {n} + {m}<i>t</i>.",
    "The keeper of the {b} counts {n} lamps on the first evening and {m} on the second.",
    "A function is given by f(<i>x</i>) = {m}<i>x</i><sup>2</sup> + {n} for every <i>x</i> below f({m}).",
    "Each {a} weighs {n} grams, to the nearest {m} grams, and none is lighter than f({m}).",
    "Two paths lead from the {a} to the {b}; the longer of them measures {n} metres (see [{m}]).",
    "Of the visitors {n} came for the {a}, {m} for the {b} and the others for neither of the two.",
    "The {a} turns {m} times a minute, which takes the cart {n} centimetres up the track to the {b}.",
    "The points P<sub>1</sub>({m}, {n}) and P<sub>2</sub>({n}, {m}) lie on the wall of the {b}.",
    "When the {a} is full, its keeper sends {n} crates down to the {b} and keeps {m} back (about 3 marks on the gauge).",
    "The rope between them is {n} metres long and hangs so low that\n{m} boats wait in front of the {b}.",
    "They sell tickets in two colours, and on most days about\n{n} of them are blue, at {m} pence each.",
)

TASKS = (
    "Find how many of the {a}s are needed after {n} days",
    "Show that f({m}) = {n} and that the {a} stays below the {b}",
    "Write down the mass of the {a} to {m} significant figures",
    "Work out the greatest number of crates that the {b} can take at once, and give a reason",
    "Explain why the {a} cannot reach the {b} before noon",
    "Draw a line on the figure to show where the {a} stands",
    "Calculate the time that the {a} takes for {n} turns, in seconds",
    "Give the least value of <i>t</i> for which <i>t</i><sup>{m}</sup> is above {n}",
    "State one thing that was assumed about the {b}",
    "Describe how the answer changes if the {a} is {m} times as heavy",
)

BACKWARD = (
    "Use the result of\npart ({letter}) to",
    "Hence, or from\n({letter}) and the table, find a second value and",
    "Without using part ({letter}),",
    "As in ({letter}) above,",
)


class Tokens:
    """Words that stand nowhere else; those of owner 0 belong to no question."""

    def __init__(self):
        self.given = {}

    def next(self, owner):
        mine = self.given.setdefault(owner, [])
        mine.append(f"zq{owner:02}k{len(mine) + 1}")
        return mine[-1]


def fill(random, template):
    a, b = random.sample(NOUNS, 2)
    return template.format(a=a, b=b, n=random.randint(11, 98), m=random.randint(2, 9))


def facts(random, count):
    return [fill(random, template) for template in random.sample(FACTS, count)]


def stem(random, tokens, owner, count):
    """Sentences with a token at the start, between them and at the end; the first token, and all of it."""
    words = [tokens.next(owner)]
    for sentence in facts(random, count):
        words += [sentence, tokens.next(owner)]
    return words[0], " ".join(words) + "."


def task(random, tokens, owner, earlier=""):
    """What a part asks, with its first token before it; `earlier` is the letter of a part that it may refer to."""
    first = tokens.next(owner)
    words = fill(random, random.choice(TASKS))
    if earlier and random.random() < 0.4:
        start = random.choice(BACKWARD).format(letter=earlier)
        words = f"{start} {words[0].lower()}{words[1:]}"
    if random.random() < 0.4:
        words = f"{facts(random, 1)[0]} {words}"
    return first, f"{first} {words} {tokens.next(owner)}."
