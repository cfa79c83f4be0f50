"""Texts meant to harm whoever looks at them, given wherever a text is taken, looked for wherever one comes out."""

import csv
import html.parser
import io

from trials import Trial, has_raw_text

STEP = 12
TEXTS = (
    "\x1b[2J\x1b]0;title\x07", "a\x9b31mb", "a\rb", "a\nBEGIN:VEVENT", "a\u202egnp.b", "a\u2066b", "a\u200bb", "a\ufeffb", "a\U000e0041b",
    "=1+1", "+1", "-1+1", "@SUM(A1)", "\uff1d1+1", "\uff0b1", "\uff20x", "\t=1+1", " =1+1", "'=1+1", '=cmd|"/c calc"!A1',
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "&lt;b&gt;", "\"><svg onload=alert(1)>", "</style><script>x()</script>",
    "a,b;c\"d", "a" * 5000, "\ud800".encode("utf-8", "surrogatepass").decode("latin-1"), "a\x00b", "--help", "-", "../../x", "%s%n", "e\u0301",
    "\u00a0", "\u3000x", "$(touch harmed)", "`touch harmed`", "a\\,b", "CON", "x" * 64, "\u2028x",
)
WAYS = {
    "title": lambda text: [("paper", "add", "--id", "h", "--marks", "3,4", "--title", text)],
    "subject": lambda text: [("paper", "add", "--id", "h", "--marks", "3,4", "--subject", text)],
    "paper": lambda text: [("paper", "add", "--id", text, "--marks", "3,4"),
                           ("log", text, "1=1", "2=2", "--candidate", "K07")],
    "topic": lambda text: [("paper", "amend", "pure-1", f"1:topic={text}")],
    "codes": lambda text: [("paper", "amend", "pure-1", f"1:codes={text}")],
    "candidate": lambda text: [("log", "pure-1", "1=1", "2=2", "3=3", "4=1", "--candidate", text)],
    "note": lambda text: [("sitting", "amend", "1", "--note", f"1={text}")],
    "exam": lambda text: [("exam", "add", text, "--on", "2027-01-20")],
    "class": lambda text: [("class", "add", text, "K07")],
    "set": lambda text: [("boundaries", "add", "A=14", "B=10", "--set", text, "--total", "18")],
    "grade": lambda text: [("boundaries", "add", f"{text}=14", "--set", "s", "--total", "18")],
    "prompt": lambda text: [("facts", "add", text, "answer")],
    "answer": lambda text: [("facts", "add", "prompt", text)],
    "reason": lambda text: [("retry", "1q1", "--drop", text)],
    "class file": lambda text: [("class", "import", "hostile.csv", "--paper", "pure-1", "--date", "2026-11-20", "--accept", "names")],
}
SCREENS = (
    ("today",), ("plan",), ("week",), ("sitting", "list"), ("sitting", "show", "1"), ("topics",), ("candidate", "list"), ("paper", "list"),
    ("paper", "show", "pure-1"), ("exam", "list"), ("class", "list"), ("class", "retries"), ("facts", "list"), ("boundaries", "list"),
    ("class", "analyse", "pure-1"), ("class", "topics"), ("changes",), ("standing",), ("trend",),
)
PAGES = (("report", "-o", "-"), ("booklet", "-o", "-"), ("class", "report", "pure-1", "-o", "-"))
TABLES = (("class", "retries", "--csv"), ("class", "analyse", "pure-1", "--csv"), ("class", "standing", "--csv"))
CALENDARS = (("calendar", "-o", "-"),)
EMBEDDED = {"script", "iframe", "object", "embed", "form", "link", "base", "meta"}


class Page(html.parser.HTMLParser):
    """Notes what no page of ours has."""

    def __init__(self):
        super().__init__()
        self.wrong = ""

    def handle_starttag(self, tag, attrs):
        names = [name for name, _ in attrs]
        if any(name.startswith("on") for name in names) or (tag in EMBEDDED - {"meta"}):
            self.wrong = f"<{tag} {names}>"
        if tag == "img" and not dict(attrs).get("src", "").startswith("data:image/"):
            self.wrong = f"a picture from {dict(attrs).get('src')!r}"


def wrong_on_screen(out):
    for character in out:
        code = ord(character)
        if (code < 32 and character != "\n") or 127 <= code < 160 or character in "\u202e\u2066\u2028\ufeff\u200b" or 0xe0000 <= code < 0xe1000:
            return f"the character U+{code:04X} reaches the screen"
    return ""


def wrong_on_page(out):
    page = Page()
    page.feed(out)
    return page.wrong


def wrong_in_table(out):
    for row in csv.reader(io.StringIO(out)):
        for cell in row:
            if cell.lstrip(" \t\u00a0\u3000")[:1] in ("=", "+", "@", "\uff1d", "\uff0b", "\uff20") or (
                    cell.lstrip(" \t\u00a0\u3000")[:1] in ("-", "\uff0d") and len(cell) > 1 and not cell[1:].replace(".", "").isdigit()):
                return f"a spreadsheet would take {cell[:40]!r} for a formula"
    return ""


def wrong_in_calendar(out):
    lines = out.split("\r\n")
    if any("\n" in line or "\r" in line for line in lines):
        return "a line of the calendar is broken"
    names = [line for line in lines if line.startswith("BEGIN:") and line[6:] not in ("VCALENDAR", "VEVENT", "VTIMEZONE", "STANDARD", "DAYLIGHT")]
    return f"the calendar has {names}" if names else ""


def try_text(binary, base, way, text):
    with Trial(binary, base) as trial:
        (trial.folder / "hostile.csv").write_text(f"candidate,1,2,3,4\n\"{text.replace(chr(34), chr(34) * 2)}\",1,2,3,1\n",
                                                  encoding="utf-8", errors="surrogateescape")
        for words in WAYS[way](text):
            if "\0" in "".join(words):
                return ""
            code, out, messages = trial.run(*words)
            raw = has_raw_text(messages)
            if code < 0 or raw:
                return f"{words[:2]}: exit {code}: {messages[:300]}"
            wrong = wrong_on_screen(out + messages)
            if wrong or len(messages) > 20000:
                return f"{words[:2]}: {wrong or 'a message of ' + str(len(messages)) + ' characters'}"
        for outputs, check in ((SCREENS, wrong_on_screen), (PAGES, wrong_on_page), (TABLES, wrong_in_table),
                               (CALENDARS, wrong_in_calendar)):
            for words in outputs:
                code, out, messages = trial.run(*words)
                if code not in (0, 1, 2) or has_raw_text(messages):
                    return f"{' '.join(words)}: exit {code}: {messages[:300]}"
                wrong = check(out) or wrong_on_screen(messages)
                if wrong:
                    return f"{' '.join(words)}: {wrong}"
        return "it ran what was typed" if (trial.folder / "harmed").exists() else ""


def trials(binary, base, step):
    place = 0
    for way in WAYS:
        for text in TEXTS:
            place += 1
            if place % step == 0:
                yield f"{way} {text[:30]!r}", lambda w=way, t=text: try_text(binary, base, w, t)
