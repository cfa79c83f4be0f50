"""A power cut at every call: what was not synced by then is lost, all of it or any part.

The calls on the store's folder are read from strace with what they write. A file's name is on the disk once its folder
was synced; what is in it once it was synced itself.
"""

import random
import re

from trials import COMMANDS, Trial

STEP = 60
TRACED = "openat,pwrite64,write,fdatasync,fsync,ftruncate,unlink,rename,link,linkat,close"
LINE = re.compile(r'^(?:\d+ +)?(\w+)\((.*)\) += (-?\d+)')
PATH = re.compile(r'^\d+<([^>]*)>')
TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')


def text_in(arguments, place=0):
    found = TEXT.findall(arguments)
    return bytes.fromhex(found[place].replace("\\x", "")) if len(found) > place else b""


def recorded(binary, base, words):
    """The calls, as (what, file, further), and the states before and after."""
    with Trial(binary, base) as trial:
        before = trial.state()
        log = trial.folder / "calls.log"
        code, _, messages = trial.run(*words, before=("strace", "-f", "-qq", "-y", "-xx", "-s", "200000", "-o", str(log), "-e",
                                                      "trace=" + TRACED))
        if code != 0:
            raise AssertionError(f"inkturn {' '.join(words)}: {messages}")
        text = log.read_text(errors="replace")
        log.unlink()
        folder = str(trial.folder)
        calls = []
        for line in text.splitlines():
            found = LINE.match(line)
            if not found or int(found[3]) < 0:
                continue
            call, arguments = found[1], found[2]
            opened = PATH.match(arguments)
            path = decoded(opened[1]) if opened else ""
            if call == "openat" and "O_CREAT" in arguments:
                name = text_in(arguments).decode(errors="replace")
                if name.startswith(folder):
                    calls.append(("make", name[len(folder) + 1:], None))
            elif call in ("unlink", "rename"):
                name = text_in(arguments).decode(errors="replace")
                if name.startswith(folder):
                    other = text_in(arguments, 1).decode(errors="replace")
                    calls.append((call, name[len(folder) + 1:], other[len(folder) + 1:]))
            elif path.startswith(folder):
                name = path[len(folder) + 1:]
                if call == "pwrite64":
                    calls.append(("write", name, (int(arguments.rsplit(",", 1)[1]), text_in(arguments))))
                elif call == "ftruncate":
                    calls.append(("cut", name, int(arguments.rsplit(",", 1)[1])))
                elif call in ("fdatasync", "fsync"):
                    calls.append(("sync", name, None))
        return calls, before, trial.state()


def decoded(path):
    return re.sub(r"\\x([0-9a-f]{2})", lambda found: chr(int(found[1], 16)), path)


class Disk:
    """What is on it for certain, and what was asked for since."""

    def __init__(self, files):
        self.sure = {name: bytearray(data) for name, data in files.items()}
        self.waiting = []

    def take(self, call):
        what, name, _ = call
        if what != "sync":
            self.waiting.append(call)
            return
        is_folder = name == ""
        settled = [one for one in self.waiting
                   if (one[0] in ("make", "unlink", "rename")) == is_folder and (is_folder or one[1] == name)]
        self.waiting = [one for one in self.waiting if one not in settled]
        apply(self.sure, settled)

    def after_cut(self, draw):
        """Some of what waits is there too, names and contents each as it happens."""
        files = {name: bytearray(data) for name, data in self.sure.items()}
        chance = draw.choice((0.0, 0.5, 0.9))
        apply(files, [one for one in self.waiting if draw.random() < chance])
        return files


def apply(files, calls):
    for what, name, further in calls:
        if what == "make":
            files.setdefault(name, bytearray())
        elif what == "unlink":
            files.pop(name, None)
        elif what == "rename" and name in files:
            files[further] = files.pop(name)
        elif what == "write":
            start, data = further
            content = files.setdefault(name, bytearray())
            content.extend(bytes(max(0, start + len(data) - len(content))))
            content[start:start + len(data)] = data
        elif what == "cut" and name in files:
            del files[name][further:]


def cut(binary, base, calls, place, seed, states):
    before, after = states
    disk = Disk({path.name: path.read_bytes() for path in base.iterdir() if path.name.startswith("store")})
    for call in calls[:place]:
        disk.take(call)
    with Trial(binary, base) as trial:
        for path in trial.folder.glob("store*"):
            path.unlink()
        for name, data in disk.after_cut(random.Random(seed)).items():
            if data or name == "store":
                (trial.folder / name).write_bytes(data)
        faults = trial.is_sound()
        if faults:
            return f"the store is not sound: {faults}"
        state = trial.state()
        if place == len(calls) and state != after:
            return "the change was reported and is lost"
        return "" if state in (before, after) else "the store is neither as before nor as after it"


def trials(binary, base, step):
    tried = 0
    for name, words in COMMANDS.items():
        if name in ("export", "backup", "restore"):
            continue
        calls, *states = recorded(binary, base, words)
        for place in range(len(calls) + 1):
            for seed in range(4):
                tried += 1
                if tried % step == 0 or (place == len(calls) and seed == 0):
                    yield (f"{name}: at call {place} of {len(calls)}, draw {seed}",
                           lambda c=calls, p=place, s=seed, t=states: cut(binary, base, c, p, s, t))
