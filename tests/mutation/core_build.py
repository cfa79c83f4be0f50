"""The core and its tests, built once; then a library for each change, which the same tests run against."""

import json
import os
import pathlib
import re
import resource
import shlex
import shutil
import signal
import subprocess
import time

MEMORY = 3 << 30  # bytes that a test program may take: a loop without an end may grow, too
COPIED = ("CMakeLists.txt", "include", "src", "tests", "demo")


def copy_tree(source, target):
    """Brings the copy up to date; files that are the same keep their time, so that they are not built again."""
    for name in COPIED:
        paths = [source / name] if (source / name).is_file() else sorted((source / name).rglob("*"))
        wanted = set()
        for path in paths:
            if not path.is_file() or "__pycache__" in path.parts:
                continue
            copy = target / path.relative_to(source)
            wanted.add(copy)
            if not copy.exists() or copy.read_bytes() != path.read_bytes():
                copy.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(path, copy)
        if (target / name).is_dir():
            for path in [path for path in (target / name).rglob("*") if path.is_file() and path not in wanted]:
                path.unlink()


def limit_memory():
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def run_in_time(command, seconds, environment=None):
    """The exit code and output; None as the code where time ran out."""
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                          env=environment, preexec_fn=limit_memory, start_new_session=True) as running:
        try:
            output, _ = running.communicate(timeout=seconds)
            return running.returncode, output
        except subprocess.TimeoutExpired:
            os.killpg(running.pid, signal.SIGKILL)
            running.communicate()
            return None, ""


class CoreBuild:
    def __init__(self, source, folder):
        self.tree = folder / "tree"
        self.build = folder / "build"
        self.folder = folder
        copy_tree(source, self.tree)
        self.configure_and_build()
        self.read_commands()
        self.compile_headers()
        self.link_whole()

    def configure_and_build(self):
        launcher = ["-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"] if shutil.which("ccache") else []
        # Optimised a little, with every assert in place.
        subprocess.run(["cmake", "-S", self.tree, "-B", self.build, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=None",
                        "-DCMAKE_CXX_FLAGS=-O1", "-DCMAKE_POSITION_INDEPENDENT_CODE=ON",
                        "-DCMAKE_EXPORT_COMPILE_COMMANDS=ON", "-DINKTURN_BUILD_TESTS=ON"] + launcher,
                       check=True, stdout=subprocess.DEVNULL)
        subprocess.run(["cmake", "--build", self.build, "--target", "inkturn_core_test", "-j1"], check=True,
                       stdout=subprocess.DEVNULL)

    def read_commands(self):
        """How each of the core's sources is compiled, and which headers it takes."""
        self.commands, self.objects, self.test_objects = {}, {}, []
        for entry in json.loads((self.build / "compile_commands.json").read_text()):
            words = shlex.split(entry["command"])
            words = words[1:] if os.path.basename(words[0]) == "ccache" else words
            made = pathlib.Path(entry["directory"]) / words[words.index("-o") + 1]
            if "inkturn_core.dir" in made.parts:
                name = str(pathlib.Path(entry["file"]).relative_to(self.tree))
                self.commands[name] = words
                self.objects[name] = made
            elif "inkturn_core_test.dir" in made.parts and made.exists() and "cmake_pch" not in made.name:
                self.test_objects.append(made)
        done = subprocess.run(["ninja", "-C", self.build, "-t", "deps"], check=True, text=True, capture_output=True)
        self.takes = {}
        target = None
        for line in done.stdout.splitlines():
            if line and not line[0].isspace():
                target = self.build / line.split(":")[0]
            elif line.strip() and target:
                self.takes.setdefault(target, set()).add(os.path.realpath(os.path.join(self.build, line.strip())))

    def compile_headers(self):
        """The headers from outside that the core takes, compiled once: most of the time that a change takes."""
        found = set()
        for folder in ("src/core", "include"):
            for path in (self.tree / folder).rglob("*.[ch]pp"):
                found.update(re.findall(r"^#include <([^>]+)>", path.read_text(), re.MULTILINE))
        self.headers = self.folder / "headers" / "outside.hpp"
        self.headers.parent.mkdir(exist_ok=True)
        self.headers.write_text("".join(f"#include <{name}>\n" for name in sorted(found) if "boost" not in name))
        words = list(next(iter(self.commands.values())))
        for taken in ("-o", "-c"):
            at = words.index(taken)
            del words[at:at + 2]
        subprocess.run([*words, "-x", "c++-header", "-o", f"{self.headers}.gch", str(self.headers)], cwd=self.build,
                       check=True)

    def link_whole(self):
        """The test program, against the core as a shared library that can be put in another's place."""
        self.compiler = next(iter(self.commands.values()))[0]
        self.library = self.build / "whole" / "libinkturn_core.so"
        self.library.parent.mkdir(exist_ok=True)
        self.program = self.build / "core_test"
        self.link_library(self.library, {})
        build_file = (self.build / "build.ninja").read_text()
        linked = re.search(r"^build tests/inkturn_core_test: .*?LINK_LIBRARIES = ([^\n]*)", build_file,
                           re.DOTALL | re.MULTILINE)
        others = [word for word in shlex.split(linked.group(1)) if "inkturn_core" not in word]
        subprocess.run([self.compiler, "-o", self.program, *map(str, self.test_objects), str(self.library), *others],
                       check=True, cwd=self.build)

    def link_library(self, library, instead):
        objects = [str(instead.get(name, made)) for name, made in self.objects.items()]
        command = [self.compiler, "-shared", "-Wl,-soname,libinkturn_core.so", "-o", library, *objects]
        return subprocess.run(command, check=False, capture_output=True).returncode == 0

    def sources_with(self, file):
        """What has to be compiled where this file changes."""
        if file in self.commands:
            return [file]
        whole = os.path.realpath(self.tree / file)
        return [name for name, made in self.objects.items() if whole in self.takes.get(made, ())]

    def make_mutant(self, mutant, file, text):
        """In a folder of its own: compiles what takes the changed file and links it with the rest; False where it
        can't be compiled."""
        shutil.rmtree(mutant, ignore_errors=True)
        changed_file = mutant / file
        changed_file.parent.mkdir(parents=True)
        changed_file.write_text(text)
        instead = {}
        for number, name in enumerate(self.sources_with(file)):
            words = list(self.commands[name])
            made = mutant / f"{number}.o"
            words[words.index("-o") + 1] = str(made)
            source = mutant / name if name == file else self.tree / name
            words = [str(source) if os.path.realpath(word) == os.path.realpath(self.tree / name) else word
                     for word in words if not word.startswith("-W")]
            words[1:1] = ["-w", "-include", str(self.headers), f"-I{mutant / 'include'}", f"-I{mutant / 'src'}"]
            if subprocess.run(words, cwd=self.build, check=False, capture_output=True).returncode != 0:
                return False
            instead[name] = made
        return bool(instead) and self.link_library(mutant / "libinkturn_core.so", instead)

    def run_tests(self, which, seconds, mutant=None):
        """Runs these tests until one fails, on a mutant or the unchanged core: (what came of it, seconds it took)."""
        folder = mutant or self.library.parent
        began = time.monotonic()
        code, output = run_in_time([str(self.program), "--abort", "-#", which], seconds,
                                   dict(os.environ, LD_LIBRARY_PATH=str(folder)))
        took = time.monotonic() - began
        if code is None:
            return "time ran out", took
        return ("passed" if code == 0 else failed_test(output)), took


def failed_test(output):
    names = re.findall(r"^-{20,}\n(.+?)\n-{20,}\n", output, re.DOTALL | re.MULTILINE)
    return "failed: " + (" ".join(names[0].split()) if names else "stopped")
