"""Several programs at once on one store: nothing that was reported is lost, and nobody is told a raw reason."""

import itertools
import random
from concurrent.futures import ThreadPoolExecutor

from trials import COMMANDS, Trial, has_raw_text

STEP = 4
WRITERS = 8
READERS = 4
READING = (("today",), ("plan",), ("sitting", "list"), ("class", "retries"), ("export", "-o", "-"))


def crowd(binary, base, seed):
    """Eight that write and four that read: each sitting that was reported is there, each once."""
    with Trial(binary, base) as trial:
        draw = random.Random(seed)

        def write(number):
            kept = []
            for day in range(1, 6):
                code, _, messages = trial.run("log", "pure-1", "1=1", "2=1", "3=1", "4=1", "--date", f"2026-11-{day + 14}",
                                              "--candidate", f"W{number}")
                if code == 0:
                    kept.append(day)
                elif code != 1 or has_raw_text(messages) or "another program" not in messages:
                    return f"writer {number}: exit {code}: {messages}", kept
            return "", kept

        def read(_):
            for _ in range(8):
                code, _, messages = trial.run(*draw.choice(READING), "--candidate", "K07")
                if code != 0 and ("another program" not in messages or has_raw_text(messages)):
                    return f"reader: exit {code}: {messages}"
            return ""

        with ThreadPoolExecutor(max_workers=WRITERS + READERS) as pool:
            writing = [pool.submit(write, number) for number in range(WRITERS)]
            reading = [pool.submit(read, number) for number in range(READERS)]
            writers = [one.result() for one in writing]
            readers = [one.result() for one in reading]
        wrong = [words for words, _ in writers if words] + [words for words in readers if words]
        if wrong:
            return wrong[0]
        for number, (_, kept) in enumerate(writers):
            out = trial.run("sitting", "list", "--candidate", f"W{number}", "--json")[1] if kept else ""
            for day in kept:
                if out.count(f'"2026-11-{day + 14}"') != 1:
                    return f"writer {number}: the sitting of day {day} was reported and is not on file once"
        return trial.is_sound()


def alone(binary, base, names):
    """What is on file after the commands, one after another; nothing of one that is refused."""
    with Trial(binary, base) as trial:
        codes = [trial.run(*COMMANDS[name])[0] for name in names]
        return codes, trial.state()


def pair(binary, base, one, other, delay):
    """Two at once: the store ends as after one and then the other, in either order."""
    orders = [alone(binary, base, names) for names in ((one, other), (other, one))]
    with Trial(binary, base) as trial:
        before = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", "trace=fdatasync,pread64", "-e",
                  f"inject=pread64:delay_enter={delay}")
        with ThreadPoolExecutor(max_workers=2) as pool:
            first = pool.submit(trial.run, *COMMANDS[one], before=before)
            second = pool.submit(trial.run, *COMMANDS[other])
            results = [first.result(), second.result()]
        for code, _, messages in results:
            if code < 0 or has_raw_text(messages):
                return f"exit {code}: {messages}"
        state = trial.state()
        possible = {after for _, after in orders} | {
            alone(binary, base, [name])[1] for name, (code, _, _) in zip((other, one), results) if code != 0}
        if all(code == 0 for code, _, _ in results) and state not in {after for _, after in orders}:
            return "both are reported, and the store is as after neither order"
        if state not in possible | {alone(binary, base, [])[1]}:
            return "the store is as after no order"
        return trial.is_sound()


def trials(binary, base, step):
    for seed in range(12 // step):
        yield f"a crowd, {seed}", lambda s=seed: crowd(binary, base, s)
    pairs = [names for names in itertools.permutations(COMMANDS, 2) if not {"restore", "export", "backup"} & set(names)]
    for place, (one, other) in enumerate(pairs):
        if place % step == 0:
            yield f"{one} and {other}", lambda a=one, b=other: pair(binary, base, a, b, 2000)
