"""Every call that touches the store's folder is made to fail, or the program is killed at it."""

import collections
import re

from trials import COMMANDS, Trial, has_raw_text

FAILURES = {
    "pwrite64": ("ENOSPC", "EIO"), "write": ("ENOSPC", "EIO"), "fdatasync": ("EIO",), "fsync": ("EIO",),
    "openat": ("EACCES", "EMFILE"), "unlink": ("EACCES",), "rename": ("EACCES", "ENOSPC"), "link": ("EACCES", "ENOSPC"),
    "linkat": ("EACCES",), "ftruncate": ("EIO",), "pread64": ("EIO",),
}
STEP = 37
KNOWN = ("kept.backup", "out.backup")
LEFT = re.compile(r"\.\w{6}$|restoring|layout")
TRACED = ("strace", "-f", "-qq", "--seccomp-bpf")  # the program stops at the calls that are asked for alone
CALL = re.compile(r"^(?:\d+ +)?(\w+)\(")


def calls_of(binary, base, words):
    """How the command goes undisturbed: (call, which one of its kind) for each that touches the folder; the trial's
    state after it and what it printed."""
    with Trial(binary, base) as trial:
        log = trial.folder / "calls.log"
        code, out, messages = trial.run(
            *words, before=(*TRACED, "-y", "-o", str(log), "-e", "trace=" + ",".join(FAILURES)))
        if code != 0:
            raise AssertionError(f"inkturn {' '.join(words)} failed undisturbed: {messages}")
        seen = collections.Counter()
        calls = []
        for line in log.read_text(errors="replace").splitlines():
            found = CALL.match(line)
            if not found:
                continue
            seen[found[1]] += 1
            if str(trial.folder) in line and "calls.log" not in line:
                calls.append((found[1], seen[found[1]]))
        return calls, trial.state()


def disturbed(binary, base, name, call, number, how, before, after):
    """What went wrong, if anything."""
    words = COMMANDS[name]
    with Trial(binary, base) as trial:
        code, _, messages = trial.run(
            *words, before=(*TRACED, "-o", "/dev/null", "-e", f"trace={call}", "-e",
                            f"inject={call}:{how}:when={number}"))
        killed = "signal" in how
        if code < 0 and not killed:
            return f"it crashed by signal {-code}"
        raw = has_raw_text(messages)
        if raw:
            return f"it says {raw!r}: {messages}"
        faults = trial.is_sound()
        if faults:
            return f"the store is not sound after it: {faults}"
        state = trial.state()
        if state not in (before, after):
            return "the store is neither as before nor as after it"
        if code == 0 and not killed and state != after:
            return "exit 0, and the change is not stored"
        if code > 0 and not killed and state != before and "is stored" not in messages:
            return f"exit {code}, and the change is stored without a word of it: {messages}"
        if code > 0 and not killed and state == before and before != after and "is stored" in messages:
            return f"it says that the change is stored, and it is not: {messages}"
        out = trial.folder / "out.json"
        if out.exists() and name == "export" and out.read_text() != before:
            return "a part of the file was left under its name"
        rest = [path.name for path in trial.folder.iterdir() if path.name not in KNOWN and LEFT.search(path.name)]
        if rest and not killed and call not in ("unlink", "unlinkat"):  # what can't be removed stays
            return f"left behind: {rest}"
        code, _, messages = trial.run("log", "pure-1", "1=1", "2=1", "3=1", "4=1", "--candidate", "K30", "--date",
                                      "2026-11-24")
        return "" if code == 0 else f"the next command fails: {messages}"


def trials(binary, base, step):
    """Every `step`th fault of every command: (what was done, a function that tries it)."""
    with Trial(binary, base) as trial:
        before = trial.state()
    place = 0
    for name, words in COMMANDS.items():
        calls, after = calls_of(binary, base, words)
        for call, number in calls:
            hows = [f"error={error}" for error in FAILURES[call]] + ["signal=KILL"]
            for how in hows:
                place += 1
                if place % step == 0:
                    yield (f"{name}: {call} {number} {how}",
                           lambda n=name, c=call, k=number, h=how, a=after: disturbed(binary, base, n, c, k, h, before, a))
