"""A store in a folder of its own, a command played on it, and what is on file before and after."""

import os
import pathlib
import shutil
import struct
import subprocess
import tempfile
import zlib

TODAY = "2026-11-25"
SECONDS = 60
RAW = ("bad optional access", "constraint failed", "No row to get a column", "bad_alloc", "std::", "basic_string",
       "vector::", "Assertion", "runtime error", "AddressSanitizer")


class Trial:
    """A copy of a folder; it goes at the end."""

    def __init__(self, binary, base=None):
        self.binary = binary
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="inkturn-faults-"))
        if base:
            shutil.copytree(base, self.folder, dirs_exist_ok=True)
        self.store = self.folder / "store"

    def __enter__(self):
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.folder, ignore_errors=True)

    def environment(self):
        return {"HOME": str(self.folder), "PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC",
                "INKTURN_TODAY": TODAY, "INKTURN_STORE": str(self.store)}

    def run(self, *words, before=(), text="", check=False):
        """The exit code (negative: by which signal), standard output and standard error."""
        done = subprocess.run([*before, self.binary, *words], input=text.encode(), env=self.environment(), cwd=self.folder,
                              capture_output=True, timeout=SECONDS, check=False)
        out, messages = (stream.decode(errors="replace") for stream in (done.stdout, done.stderr)) # line ends as they are
        if check and done.returncode != 0:
            raise AssertionError(f"inkturn {' '.join(words)}: {messages}")
        return done.returncode, out, messages

    def state(self):
        """All that is on file, as the program exports it; nothing where no store is."""
        if not self.store.exists():
            return ""
        code, out, messages = self.run("export", "-o", "-")
        if code != 0:
            raise AssertionError(f"what is on file can't be read: {messages}")
        return out

    def is_sound(self):
        code, out, messages = self.run("check")
        return "" if code == 0 else out + messages


def has_raw_text(messages):
    return next((raw for raw in RAW if raw in messages), None)


def dot():
    """A picture of one grey pixel."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)) +
            chunk(b"IDAT", zlib.compress(b"\0\x80")) + chunk(b"IEND", b""))


def make_base(binary):
    """A store with something of every kind, and the files that commands read."""
    trial = Trial(binary)
    run = lambda *words: trial.run(*words, check=True)
    write = lambda name, text: (trial.folder / name).write_text(text, encoding="utf-8")
    run("paper", "add", "--id", "pure-1", "--marks", "4,5,6,3", "--subject", "pure")
    run("paper", "add", "--id", "pure-2", "--marks", "4,5,6,3", "--subject", "pure")
    run("exam", "add", "Pure", "--on", "2027-02-01", "--subject", "pure")
    for candidate in ("K07", "K08"):
        run("log", "pure-1", "1=2", "2=3", "3=1:method", "4=3", "--date", "2026-11-10", "--candidate", candidate)
    run("class", "add", "12A", "K07", "K08")
    write("facts.csv", "prompt,answer,topic\nsin 30,1/2,angles\n")
    run("facts", "add", "facts.csv", "--subject", "pure")
    run("backup", "-o", str(trial.folder / "kept.backup"))
    write("times", "09:00 start 1\n09:20 hand in\n")
    run("sit", "pure-2", "--events", "times", "--candidate", "K08")
    write("class.csv", "candidate,1,2,3,4\nK07,4,4,4,3\nK09,1,1,1,1\n")
    other = Trial(binary)
    other.run("log", "pure-9", "--new", "1=1/3", "2=2/4", "--candidate", "K20", "--date", "2026-11-10", check=True)
    other.run("export", "-o", str(trial.folder / "other.json"), check=True)
    shutil.rmtree(other.folder)
    (trial.folder / "dot.png").write_bytes(dot())
    return trial


COMMANDS = {
    "log": ("log", "pure-2", "1=1", "2=2", "3=3", "4=1", "--candidate", "K07"),
    "retry": ("retry", "1q1", "1=4"),
    "mark": ("sitting", "amend", "3", "1=4", "2=5", "3=6", "4=3"),
    "amend": ("sitting", "amend", "1", "1=4"),
    "class import": ("class", "import", "class.csv", "--paper", "pure-2", "--date", "2026-11-20", "--class", "12A"),
    "import": ("import", "other.json"),
    "erase": ("candidate", "erase", "K07", "--yes"),
    "rename": ("candidate", "rename", "K07", "K70"),
    "plan": ("plan", "--again", "--candidate", "K07"),
    "picture add": ("picture", "add", "pure-1", "1", "dot.png"),
    "export": ("export", "-o", "out.json"),
    "backup": ("backup", "-o", "out.backup"),
    "restore": ("restore", "kept.backup", "--yes"),
    "days": ("days", "set", "mon=30", "--candidate", "K07"),
}
