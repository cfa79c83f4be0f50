"""First inputs for each target, ours, small, and the same on every run."""

import base64
import io
import pathlib
import subprocess
import sys
import tempfile
import zipfile
import zlib

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "faults"))

import trials  # noqa: E402

TARGETS = ("marks", "dates", "events", "paper", "class", "wishes", "boundaries", "facts", "retried", "workbook", "export",
           "picture", "words", "store")

TYPED = {
    "marks": ("7b=2+1+3/6:method", "3", "-", "2+1", "0+0+2:slip", "4:recall", "M1A1M1A0B1", "M1 A0 / A1", "12q7t2",
              "7b=2+1/6:misread\n8=-\nQ7 (b)(ii)=5/5", "2a=1/4:slip, sign lost\n12q7"),
    "dates": ("2026-11-25", "today", "tomorrow", "+14d", "next monday", "2026-11-25..2026-12-02", "09:00:30", "9:00",
              "2026-11-25T09:00:30Z", "25/11/2026", "-3d", "mon..fri"),
    "events": ("09:00 start\n09:06:30 2a\n09:40 rest\n09:45 work\n10:31 hand in\n",
               "23:50 start 2a # late\n\n00:10 2b\n01:00 HAND IN\n", "\ufeff9:00 start\r\n9:30 hand in\r\n",
               "1764061200 start 1,1764061590 go 2a,1764063300 rest,1764063600 work,1764066660 hand in",
               "1764061200/48231/9f3a01bc start 2a,1764061590/48300/9f3a01bc/1200 hand in"),
}

# The first byte of a table says how it is read: bit 0 windows-1252, bit 1 semicolons.
TABLES = {
    "paper": ("part,marks,topic,codes\n1,5,vectors,M1 A1 B3\n2a,4,,\n", "part;marks;got_at\n1;5;80%\n2;4;\n",
              "part,marks,choice\n1,5,\n2,4,1 of 2-3\n3,4,1 of 2-3\n"),
    "class": ("candidate,date,total,1,2a\nmax,,9,5,4\nK07,2026-11-20,3,2+1,-\nK08,,,,\nK09,,5,3,2+0+1:slip\n",
              'candidate;Q1;2 (a)\r\n"K;07";5;0\r\n"K""08";4:method;4\r\n',
              "candidate,paper,date,part,in_time\nK07,pure-1,2026-11-20,1,3\nK07,pure-1,2026-11-20,2a,-\n",
              "candidate\tpaper\tdate\tpart\tin_time\tovertime\tcorrected\treason\tmax\n"
              "K07\tnew-2\t2026-11-20\t1\t3\t1\t\tslip\t6\nK08\tpure-1\t2026-11-20\tQ1\t-\t0\t2\t\t5\n",
              "\ufeffcandidate,1,2a\nZo\u00eb,3,\"4\"\n\u20ac,1,2\n"),
    "wishes": ("candidate,topic,dates,asked,remarks\nK07,vectors;surds,2026-12-01;2026-12-03,2026-11-20 09:00,early\n",
               "candidate,vectors,surds,any,2026-12-01\nK07,x,,,yes\nK08,,,x,no\n"),
    "boundaries": ("set,total,subject,A*,A,B,C\nSaltmarsh spring,100,pure,90,80,70,60\nSaltmarsh autumn,100,pure,88,,68,58\n",
                   "set;total;A;B\nx;75;60;50\n"),
    "facts": ("prompt,answer,topic\nsin 30,1/2,angles\ncos 60,1/2,\n", "answer;prompt\n1;tan 45\n"),
    "retried": ("retry,marks,date\n1q7,3,2026-11-20\n1q8t2,full,2026-11-21\n",
                "candidate,paper,question,part,marks,max\nK07,pure-1,7,7a,2+1:slip,3\nK07,pure-1,7,7b,-,4\n"),
}


def book(name, *sheets):
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / name
        subprocess.run([sys.executable, HERE.parent / "cli" / "book.py", file, *sheets], check=True)
        return file.read_bytes()


def parts_of(packed):
    """As the target packs them again: a line with each part's name, and the part."""
    with zipfile.ZipFile(io.BytesIO(packed)) as parts:
        return b"\n".join(b"--- " + name.encode() + b"\n" + parts.read(name) for name in parts.namelist())


def workbooks():
    sheet = "Marks=candidate,date,1,2a\nK07,2026-11-20,3,0012\nK08,2026-11-21,=1+1 -> 2,#N/A\n"
    packed = {"xlsx": book("a.xlsx", sheet), "ods": book("a.ods", sheet), "two": book("b.xlsx", "Hidden!=1,2\n", sheet)}
    return {**packed, **{f"{name}-parts": parts_of(content) for name, content in packed.items()}}


def exports():
    return {file.stem: file.read_bytes() for file in sorted((HERE.parent / "exchange" / "document").glob("*.json"))}


JPEG = base64.b64decode(  # eight by eight grey pixels
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAgGBgcGBQgHBwcJCQgKDBQNDAsLDBkSEw8UHRofHh0aHBwgJC4nICIsIxwcKDcpLDAxNDQ0Hyc5PTgyPC4z"
    "NDL/wAALCAAIAAgBAREA/8QAHwAAAQUBAQEBAQEAAAAAAAAAAAECAwQFBgcICQoL/8QAtRAAAgEDAwIEAwUFBAQAAAF9AQIDAAQRBRIhMUEGE1FhByJx"
    "FDKBkaEII0KxwRVS0fAkM2JyggkKFhcYGRolJicoKSo0NTY3ODk6Q0RFRkdISUpTVFVWV1hZWmNkZWZnaGlqc3R1dnd4eXqDhIWGh4iJipKTlJWWl5iZmqKj"
    "pKWmp6ipqrKztLW2t7i5usLDxMXGx8jJytLT1NXW19jZ2uHi4+Tl5ufo6erx8vP09fb3+Pn6/9oACAEBAAA/APn+v//Z")


def png(width, height, kind, samples, interlaced, surplus=b""):
    rows = b"".join(b"\0" + bytes((x * 7 + y) % 256 for x in range(width * samples)) for y in range(height))
    if interlaced:  # of one pixel: the first pass alone
        rows = b"\0" + bytes(samples)
    head = width.to_bytes(4, "big") + height.to_bytes(4, "big") + bytes((8, kind, 0, 0, int(interlaced)))
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(rows + surplus)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(len(body).to_bytes(4, "big") + name + body + zlib.crc32(name + body).to_bytes(4, "big")
                                           for name, body in chunks)


def pictures():
    return {"dot": trials.dot(), "colour": png(3, 2, 2, 3, False), "interlaced": png(1, 1, 6, 4, True),
            "surplus": png(3, 2, 0, 1, False, bytes(500)), "jpeg": JPEG}


def page(*lines):
    words = ""
    for top, *pieces in lines:
        for left, text in pieces:
            words += (f'<word xMin="{left}" yMin="{top}" xMax="{left + 6 * len(text)}" yMax="{top + 11}">{text}</word>\n')
    return f'<page width="595.0" height="842.0"><flow><block><line>\n{words}</line></block></flow></page>\n'


def words():
    paper = page((60, (75, "Pure")), (70, (75, "Answer"), (120, "ALL"), (145, "questions.")),
                 (120, (75, "1."), (95, "Find"), (125, "x."), (520, "(3)")),
                 (200, (75, "2."), (95, "(a)"), (115, "Show"), (520, "(4)")), (240, (95, "(b)"), (115, "State"), (520, "(2)")),
                 (300, (380, "(Total"), (420, "for"), (440, "Question"), (500, "2:"), (515, "6)")),
                 (700, (300, "TOTAL"), (340, "FOR"), (365, "PAPER"), (405, "IS"), (420, "9"), (430, "MARKS")))
    scheme = page((100, (75, "1"), (120, "x=2"), (400, "M1"), (430, "A1"), (460, "B1")),
                  (140, (75, "2(a)"), (120, "y"), (400, "M1"), (430, "A3")), (180, (75, "(b)"), (400, "B2")))
    return {"paper": paper.encode(), "both": (paper + "\nmark scheme\n" + scheme).encode()}


def stores(binary):
    base = trials.make_base(str(pathlib.Path(binary).resolve()))
    with base:
        return {"store": base.store.read_bytes()}


def of(target, binary):
    if target in TYPED:
        return {str(number): text.encode() for number, text in enumerate(TYPED[target])}
    if target in TABLES:
        return {str(number): bytes([(2 if ";" in text else 0) + 4 * number]) + text.encode()
                for number, text in enumerate(TABLES[target])}
    makers = {"workbook": workbooks, "export": exports, "picture": pictures, "words": words}
    return stores(binary) if target == "store" else makers[target]()
