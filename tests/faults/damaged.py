"""Stores whose bytes were changed, cut or mixed: every command ends soon, by itself, in plain words."""

import random
import subprocess

from trials import Trial, has_raw_text

STEP = 10
COUNT = 400
READING = (("today",), ("plan",), ("export", "-o", "-"), ("sitting", "show", "1"), ("check",), ("class", "retries"))
WRITING = (("log", "pure-2", "1=1", "2=2", "3=3", "4=1", "--candidate", "K07"), ("plan", "--again"),
           ("candidate", "erase", "K07", "--yes"), ("check", "--repair"), ("undo", "--yes"))


def harmed(data, draw):
    data = bytearray(data)
    how = draw.randrange(5)
    if how == 0:
        for _ in range(draw.choice((1, 3, 30))):
            data[draw.randrange(len(data))] = draw.randrange(256)
    elif how == 1:
        return bytes(data[:draw.randrange(1, len(data))])
    elif how == 2:
        start = draw.randrange(len(data) // 4096) * 4096
        data[start:start + 4096] = bytes(4096)
    elif how == 3:
        one, other = (draw.randrange(1, len(data) // 4096) * 4096 for _ in range(2))
        data[one:one + 4096], data[other:other + 4096] = data[other:other + 4096], data[one:one + 4096]
    else:
        start = draw.randrange(100)
        data[start:start + 4] = draw.randbytes(4)
    return bytes(data)


def ends_well(trial, words):
    try:
        code, _, messages = trial.run(*words)
    except subprocess.TimeoutExpired:
        return f"{' '.join(words)}: it doesn't end"
    if code < 0 or code > 2:
        return f"{' '.join(words)}: exit {code}: {messages}"
    raw = has_raw_text(messages)
    return f"{' '.join(words)}: it says {raw!r}: {messages}" if raw else ""


def damage(binary, base, seed):
    draw = random.Random(seed)
    with Trial(binary, base) as trial:
        trial.store.write_bytes(harmed(trial.store.read_bytes(), draw))
        for words in draw.sample(READING, 3) + draw.sample(WRITING, 2):
            wrong = ends_well(trial, words)
            if wrong:
                return wrong
    return ""


def trials(binary, base, step):
    for seed in range(0, COUNT, step):
        yield f"seed {seed}", lambda s=seed: damage(binary, base, s)
