"""What is shown within a question; each holds a token."""

from blocks import Figure, Formula, Table


def formula(random, token):
    return Formula(
        f"{token}&#160;&#160; <i>y</i> = f({random.randint(2, 9)}) + ",
        f"<i>x</i><sup>{random.randint(2, 4)}</sup> + {random.randint(2, 20)}",
        f"{random.randint(2, 9)}<i>x</i>",
        f" − f({random.randint(2, 9)})",
    )


def table(random, token, narrow):
    """Numbers, of which the first row or the first column counts from 1."""
    if random.random() < 0.4:
        rows = [["day", "tons"]] + [[str(day), str(random.randint(1, 40))] for day in range(1, 5)]
    else:
        wide = 3 if narrow else random.randint(4, 6)
        rows = [["lamp"] + [str(lamp) for lamp in range(1, wide + 1)]]
        rows += [[colour] + [str(random.randint(1, 30)) for _ in range(wide)] for colour in ("red", "blue")]
    rows[-1][-1] = token
    return Table(rows)


def figure(random, token, caption, narrow):
    """A curve over two axes with their numbers."""
    width, height = (180, 120) if narrow else random.choice(((220, 140), (260, 170), (180, 120)))
    left, floor = 24, height - 20
    wide, high = width - 40, height - 34
    steps = random.randint(4, 6)
    letters = [(left + n * wide / steps, floor + 12, "middle", str(n)) for n in range(steps + 1)]
    letters += [(left - 6, floor - n * high / steps, "end", str(n)) for n in range(1, steps + 1)]
    letters.append((width * 0.4, 16, "start", token))
    letters.append((width * 0.6, height * 0.8, "start", f"({random.randint(2, 9)}, {random.randint(2, 9)})"))
    bend = random.uniform(0.4, 2.5)
    curve = [(left + n / 24 * wide, floor - (n / 24) ** bend * high) for n in range(25)]
    axes = [[(left, 6), (left, floor)], [(left, floor), (width - 6, floor)]]
    return Figure(width, height, axes + [curve], letters, caption)
