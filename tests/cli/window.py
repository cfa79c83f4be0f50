"""The desk clock in a terminal whose screen an emulator keeps."""

import contextlib
import datetime
import fcntl
import json
import os
import pathlib
import pty
import select
import signal
import sqlite3
import struct
import subprocess
import tempfile
import termios
import time

import pyte

SECONDS = 60
KEPT = "kept above the clock"
RUNS_ON = "Next: inkturn sit --resume"

FOLDER = pathlib.Path()  # of the check that is played
BINARY = pathlib.Path()
FOUND = termios.tcgetattr(pty.openpty()[0])  # what a new terminal is set to


def environment(**more):
    surroundings = {
        "PATH": os.environ.get("PATH", "/usr/bin:/bin"),
        "HOME": str(FOLDER),
        "LC_ALL": "C.UTF-8",
        "TZ": "UTC",
        "TERM": "xterm",
        "INKTURN_STORE": str(FOLDER / "store.inkturn"),
    }
    surroundings.update(more)
    return surroundings


def run(*words, code=0):
    done = subprocess.run([BINARY, *words], env=environment(), stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          timeout=SECONDS, check=False)
    assert done.returncode == code, (words, done.returncode, done.stdout, done.stderr)
    return done.stdout + done.stderr


def new_store(marks="1,1,2"):
    for file in FOLDER.glob("store.inkturn*"):
        file.unlink()
    run("paper", "add", "--id", "drill", "--marks", marks)


def scripts():
    return json.loads(run("sitting", "list", "--json"))["scripts"]


def stored_events():
    """The words of the events of the only script on file."""
    with contextlib.closing(sqlite3.connect(FOLDER / "store.inkturn")) as store:
        (line,), = store.execute("SELECT clock FROM script").fetchall()
    return [event.split(" ", 1)[1] for event in line.split(",")]


def time_of_day(seconds_from_now):
    return (datetime.datetime.now(datetime.timezone.utc) + datetime.timedelta(seconds=seconds_from_now)).strftime("%H:%M:%S")


class Window:
    """A terminal with the program in it."""

    def __init__(self, *typed, words=(), program=None, columns=80, rows=24, **more):
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.sent = b""
        self.pid, self.ours = pty.fork()
        if self.pid == 0:
            os.execvpe(program or BINARY, [str(program or BINARY), *words, *typed], environment(**more))
        self.size(columns, rows, tell=False)
        self.stream.feed(KEPT.encode() + b"\r\n")

    def size(self, columns, rows, tell=True):
        fcntl.ioctl(self.ours, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        if tell:
            self.screen.resize(rows, columns)
            os.kill(self.pid, signal.SIGWINCH)

    def read(self):
        if not select.select([self.ours], [], [], 0.05)[0]:
            return True
        try:
            piece = os.read(self.ours, 65536)
        except OSError:
            return False
        self.sent += piece
        self.stream.feed(piece)
        return bool(piece)

    def text(self):
        return "\n".join(line.rstrip() for line in self.screen.display).rstrip()

    def wait_for(self, text):
        end = time.monotonic() + SECONDS
        while text not in self.text():
            assert time.monotonic() < end, f"no '{text}' in\n{self.text()}"
            assert self.read() or text in self.text(), f"ended without '{text}':\n{self.text()}"

    def press(self, keys, then=None):
        os.write(self.ours, keys.encode())
        if then:
            self.wait_for(then)

    def signal(self, number):
        os.kill(self.pid, number)

    def is_as_found(self):
        return termios.tcgetattr(self.ours) == FOUND

    def end(self):
        """The exit code, or minus the signal, once the program has ended."""
        while self.read():
            pass
        _, status = os.waitpid(self.pid, 0)
        return os.waitstatus_to_exitcode(status)

    def close(self):
        os.close(self.ours)
        _, status = os.waitpid(self.pid, 0)
        return os.waitstatus_to_exitcode(status)


def seconds(text):
    length = 0
    for piece in text.split(":"):
        length = length * 60 + int(piece)
    return length


def play(binary, checks):
    """Plays each check in a folder of its own; the exit code."""
    global BINARY, FOLDER
    BINARY = pathlib.Path(binary).resolve()
    failed = 0
    for check in checks:
        with tempfile.TemporaryDirectory() as folder:
            FOLDER = pathlib.Path(folder).resolve()
            try:
                check()
            except AssertionError as error:
                failed += 1
                print(f"{check.__name__}: {error}")
    print(f"{len(checks) - failed} of {len(checks)} checks hold")
    return 1 if failed else 0
