"""Allocations of a command fail in turn: that one alone, or all from there on."""

import pathlib
import subprocess

from trials import COMMANDS, Trial, has_raw_text

STEP = 701
STEP_OF_ALL = 23  # a command makes some ten thousand
BEFORE_MAIN = 20  # by these the program has not begun, and may end as it likes
LIBRARY = "allocation.so"
OTHERS = {
    "today": ("today", "--candidate", "K07"), "sitting list": ("sitting", "list", "--json"), "check": ("check",),
    "class topics": ("class", "topics", "--class", "12A"), "undo": ("undo", "--yes"), "sit": ("sit", "pure-2", "--events", "times"),
    "facts add": ("facts", "add", "facts.csv", "--subject", "other"),
}


def build_library(base):
    """Beside the store of the base, so that each trial has it."""
    source = pathlib.Path(__file__).resolve().parent / "allocation.cpp"
    subprocess.run(["c++", "-std=c++17", "-O1", "-shared", "-fPIC", "-o", str(base / LIBRARY), str(source)], check=True)


def before(trial, **set_to):
    return ("env", f"LD_PRELOAD={trial.folder / LIBRARY}", *(f"{name}={value}" for name, value in set_to.items()))


def undisturbed(binary, base, words):
    """How many allocations there are, and what is on file afterwards."""
    with Trial(binary, base) as trial:
        count = trial.folder / "count"
        code, _, messages = trial.run(*words, before=before(trial, INKTURN_COUNT=count))
        if code != 0:
            raise AssertionError(f"inkturn {' '.join(words)} failed undisturbed: {messages}")
        return int(count.read_text()), trial.state()


def bytes_on_file(trial):
    """The store's, and of a journal that is to be rolled back, where there is one."""
    return [path.read_bytes() for path in (trial.store, trial.folder / "store-journal") if path.exists()]


def disturbed(binary, base, words, number, is_rest, after, state_before):
    """What went wrong, if anything."""
    with Trial(binary, base) as trial:
        files = {path.name for path in trial.folder.iterdir()}
        was = bytes_on_file(trial)
        how = {"INKTURN_FAIL_ON": "1"} if is_rest else {}
        code, out, messages = trial.run(*words, before=before(trial, INKTURN_FAIL_AT=number, **how))
        if (code < 0 or code > 127) and number > BEFORE_MAIN:
            return f"it crashed ({code}): {messages}"
        raw = has_raw_text(messages + out)
        if raw and number > BEFORE_MAIN:
            return f"it says {raw!r}: {messages}"
        if code > 0 and not messages.strip() and number > BEFORE_MAIN:
            return f"exit {code} without a word"
        if bytes_on_file(trial) == was:
            if code == 0 and state_before != after:
                return "exit 0, and the change is not stored"
        else:
            wrong = what_is_stored(trial, code, messages, state_before, after)
            if wrong:
                return wrong
        left = {path.name for path in trial.folder.iterdir()} - files - {"store-journal", "out.json", "out.backup"}
        return f"left behind: {sorted(left)}" if code > 0 and any(name.startswith(".") for name in left) else ""


def what_is_stored(trial, code, messages, state_before, after):
    faults = trial.is_sound()
    if faults:
        return f"the store is not sound after it: {faults}"
    state = trial.state()
    if state not in (state_before, after):
        return "the store is neither as before nor as after it"
    if code == 0 and state != after:
        return "exit 0, and the change is not stored"
    if code > 0 and state != state_before and "is stored" not in messages:
        return f"exit {code}, and the change is stored without a word of it: {messages}"
    return ""


def trials(binary, base, step):
    build_library(base)
    step = max(step, STEP_OF_ALL)
    with Trial(binary, base) as trial:
        state_before = trial.state()
    place = 0
    for name, words in {**COMMANDS, **OTHERS}.items():
        count, after = undisturbed(binary, base, words)
        for number in range(1, count + 1):
            for is_rest in (False, True):
                place += 1
                if place % step == 0:
                    yield (f"{name}: allocation {number} of {count}{' and all after it' if is_rest else ''}",
                           lambda w=words, k=number, r=is_rest, a=after:
                           disturbed(binary, base, w, k, r, a, state_before))
