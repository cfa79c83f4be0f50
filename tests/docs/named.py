"""What a page names: other pages, files of the repository, functions of the program. All of it has to be there."""

import functools
import re

from scene import REPOSITORY

CODE = re.compile(r"`([^`\n]+)`")
LINK = re.compile(r"\]\(([^)\s]+)\)")
FUNCTION = re.compile(r"^(?:\w+::)*(\w+)\(\)$")
FOLDERS = ("src/", "include/", "tests/", "demo/", "docs/")


@functools.lru_cache
def sources():
    return "\n".join(path.read_text(encoding="utf-8") for top in ("include", "src")
                     for path in (REPOSITORY / top).rglob("*.?pp"))


@functools.lru_cache
def anchors_of(path):
    headings = re.findall(r"^#+ (.*)$", path.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def what_is_missing(page):
    """A sentence with its line for each thing that the page names and that isn't there."""
    in_block = False
    for number, line in enumerate(page.read_text(encoding="utf-8").split("\n"), 1):
        in_block ^= line.startswith("```")
        if in_block or line.startswith("    "):
            continue
        for link in LINK.findall(line):
            name, _, anchor = link.partition("#")
            target = page.parent / name if name else page
            if "://" not in link and not target.exists():
                yield number, f"no page {name}"
            elif anchor and anchor not in anchors_of(target):
                yield number, f"no heading '{anchor}' in {target.name}"
        for code in CODE.findall(line):
            function = FUNCTION.match(code)
            if function and not re.search(rf"\b{function[1]}\(", sources()):
                yield number, f"no function {code}"
            if code.startswith(FOLDERS) and " " not in code and not (REPOSITORY / code).exists():
                yield number, f"no file {code}"
