"""A scene: a shell in a folder of its own, with `inkturn` on its path and files to work on."""

import os
import pathlib
import shutil
import subprocess
import tempfile
import threading

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
ENDED = "-- the command ended with "
SECONDS = 120


class Scene:
    def __init__(self, binary, store, today, files):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="inkturn-docs-"))
        self.work = self.folder / "work"
        (self.folder / "bin").mkdir()
        self.work.mkdir()
        (self.folder / "bin" / "inkturn").symlink_to(pathlib.Path(binary).resolve())
        self.store = self.folder / f"{store}.inkturn"
        self.environment = {
            "PATH": f"{self.folder / 'bin'}:{os.environ.get('PATH', '/usr/bin:/bin')}",
            "HOME": str(self.folder),
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
            "COLUMNS": "80",
            "INKTURN_STORE": str(self.store),
        }
        if today:
            self.environment["INKTURN_TODAY"] = today
        for name in files:
            self.bring(name)
        self.shell = subprocess.Popen(["bash", "--norc"], cwd=self.work, env=self.environment, text=True,
                                      stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)

    def bring(self, name):
        """`demo/pure-a.csv` copies a file, `demo` a folder, `demo/print_paper>set-b.pdf` what a program writes."""
        name, _, target = name.partition(">")
        source = REPOSITORY / name
        if target:
            (self.work / target).write_bytes(subprocess.run([source], check=True, capture_output=True).stdout)
        elif source.is_dir():
            shutil.copytree(source, self.work / source.name)
        else:
            shutil.copy(source, self.work / source.name)

    def run(self, command):
        """Exit code and lines printed, messages among them, as on a terminal."""
        self.shell.stdin.write(f"{{\n{command}\n}} </dev/null\nprintf '\\n{ENDED}%d\\n' $?\n")
        self.shell.stdin.flush()
        patience = threading.Timer(SECONDS, self.shell.kill)
        patience.start()
        printed, code = [], -1
        for line in self.shell.stdout:
            if line.startswith(ENDED):
                code = int(line[len(ENDED):])
                break
            printed.append(line)
        patience.cancel()
        return code, [line.rstrip() for line in "".join(printed).removesuffix("\n").splitlines()]

    def file(self, name):
        return self.work / name

    def close(self):
        self.shell.stdin.close()
        self.shell.wait(SECONDS)
        self.shell.stdout.close()
        shutil.rmtree(self.folder)
