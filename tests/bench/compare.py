#!/usr/bin/env python3
"""Runs two commands in turns and prints the best time of each and the ratio.

compare.py RUNS PREPARE FIRST SECOND

Each of them is a line for the shell's rules of quoting, but no shell runs FIRST and SECOND; PREPARE, which may be
empty, is run by one before each of the two, unmeasured.
"""

import os
import shlex
import subprocess
import sys
import time

NOWHERE = [(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)]


def measure(words):
    start = time.perf_counter()
    process = os.posix_spawnp(words[0], words, os.environ, file_actions=NOWHERE)
    _, status, usage = os.wait4(process, 0)
    elapsed = time.perf_counter() - start
    if status != 0:
        sys.exit(f"compare.py: failed: {shlex.join(words)}")
    return elapsed, usage.ru_utime + usage.ru_stime


def main():
    runs, prepare = int(sys.argv[1]), sys.argv[2]
    commands = [shlex.split(line) for line in sys.argv[3:5]]
    found = [[], []]
    for _ in range(runs):
        for words, measures in zip(commands, found):
            if prepare:
                subprocess.run(prepare, shell=True, check=True)
            measures.append(measure(words))
    best = []
    for words, measures in zip(commands, found):
        elapsed, processor = (min(column) for column in zip(*measures))
        best.append((elapsed, processor))
        name = os.path.basename(words[0])
        print(f"  {name:8} {elapsed * 1000:9.2f} ms, processor {processor * 1000:9.2f} ms")
    print(f"  ratio    {best[0][0] / best[1][0]:9.2f}     processor {best[0][1] / best[1][1]:9.2f}  (best of {runs})")


if __name__ == "__main__":
    main()
