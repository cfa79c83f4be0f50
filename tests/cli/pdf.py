#!/usr/bin/env python3
"""Writes small PDF files to standard output: an exam paper of our own, its mark scheme, and documents that are none.

    pdf.py KIND

KIND: paper, doubtful (a part without marks), disagreeing (with a total), scheme, short-scheme (a code and a
part less), cropped (on larger sheets, with crop marks), choice (of two questions among three), bare (three
marks without brackets), cracked (an operator that is none), bench (32 pages), form, scan, pictures
FILE.pgm..., locked, long PAGES, huge.
"""

import hashlib
import sys
import zlib

A4 = (595, 842)
FONT = b"<< /Type /Font /Subtype /Type1 /BaseFont /Times-Roman /Encoding /WinAnsiEncoding >>"
PADDING = bytes.fromhex("28bf4e5e4e758a4164004e56fffa01082e2e00b6d0683e802f0ca9fe6453697a")


def text(left, top, words, size=11):
    words = words.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
    return f"BT /F {size} Tf {left} {A4[1] - top} Td ({words}) Tj ET"


def right(top, words, edge=540, size=11):
    """Ends near the edge: half a size a character is near enough for digits and brackets."""
    return text(edge - len(words) * size * 0.45, top, words, size)


def line(top, left=75, end=540):
    return f"0.5 w {left} {A4[1] - top} m {end} {A4[1] - top} l S"


def dots(top):
    return f"0.8 w [0.8 2.2] 0 d 75 {A4[1] - top} m 540 {A4[1] - top} l S [] 0 d"


def box(left, top, width, height):
    return f"{left} {A4[1] - top - height} {width} {height} re f"


def upwards(left, bottom, words, size=8):
    return f"BT /F {size} Tf 0 1 -1 0 {left} {A4[1] - bottom} Tm ({words}) Tj ET"


def picture(file):
    """A page's picture, as pdftoppm -gray draws it."""
    with open(file, "rb") as read:
        _, size, _, pixels = read.read().split(b"\n", 3)
    width, height = map(int, size.split())
    packed = zlib.compress(pixels).hex()
    return (f"q {A4[0]} 0 0 {A4[1]} 0 0 cm BI /W {width} /H {height} /BPC 8 /CS /G /F [/AHx /Fl] ID {packed}> EI Q")


def rc4(key, data):
    state, j = list(range(256)), 0
    for i in range(256):
        j = (j + state[i] + key[i % len(key)]) % 256
        state[i], state[j] = state[j], state[i]
    i = j = 0
    out = bytearray()
    for byte in data:
        i = (i + 1) % 256
        j = (j + state[i]) % 256
        state[i], state[j] = state[j], state[i]
        out.append(byte ^ state[(state[i] + state[j]) % 256])
    return bytes(out)


def lock(password):
    """The dictionary that locks a file with a password, by the oldest of the standard's ways (revision 2)."""
    padded = (password.encode() + PADDING)[:32]
    owner = rc4(hashlib.md5(padded).digest()[:5], padded)
    key = hashlib.md5(padded + owner + (0xFFFFFFFC).to_bytes(4, "little") + b"id").digest()[:5]
    return b"<< /Filter /Standard /V 1 /R 2 /P -4 /O <%s> /U <%s> >>" % (
        owner.hex().encode(), rc4(key, PADDING).hex().encode())


def document(pages, size=A4, locked=None):
    """A file of pages, each a list of the drawings above."""
    objects = [b"<< /Type /Catalog /Pages 2 0 R >>",
               b"<< /Type /Pages /Count %d /Kids [%s] >>" % (
                   len(pages), b" ".join(b"%d 0 R" % (4 + 2 * i) for i in range(len(pages)))),
               FONT]
    for i, drawings in enumerate(pages):
        content = "\n".join(drawings).encode("cp1252")
        objects.append(b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %d %d] /Contents %d 0 R "
                       b"/Resources << /Font << /F 3 0 R >> >> >>" % (*size, 5 + 2 * i))
        objects.append(b"<< /Length %d >>\nstream\n%s\nendstream" % (len(content), content))
    trailer = b"/Root 1 0 R /Size %d" % (len(objects) + 1 + (locked is not None))
    if locked is not None:
        objects.append(locked)
        trailer += b" /Encrypt %d 0 R /ID [<6964> <6964>]" % len(objects)
    file, places = b"%PDF-1.4\n", []
    for number, body in enumerate(objects, 1):
        places.append(len(file))
        file += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    return file + b"xref\n0 %d\n0000000000 65535 f \n%strailer\n<< %s >>\nstartxref\n%d\n%%%%EOF\n" % (
        len(objects) + 1, table, trailer, len(file))


def numbered(pages):
    """With a running head, the page's number at its foot, and the margin that is not to be written in."""
    return [[*page, text(75, 40, "Saltmarsh Pure, set A", 9), text(292, 815, str(number), 9),
             upwards(20, 500, "DO NOT WRITE IN THIS AREA"), upwards(583, 500, "DO NOT WRITE IN THIS AREA")]
            for number, page in enumerate(pages, 1)]


def cover(marks, time="30 minutes"):
    return [text(75, 120, "Saltmarsh Evening College", 18), text(75, 160, "Pure, set A", 14),
            text(75, 200, f"Time allowed: {time}"),
            text(75, 230, f"The total mark for this paper is {marks}."),
            text(75, 250, "The marks for each question are shown in brackets.")]


def lines_to_write_on(first, last=760, draw=line):
    return [draw(top) for top in range(first, last, 24)]


def paper(marks_2a="(4)", total_2=10):
    """Three questions of 3, 4 + 6 and 5 marks; the second goes on over a page and has a figure."""
    one = [text(50, 90, "1"), text(75, 90, "Solve the inequality 2x + 3 < 11, showing each step of your working."),
           right(120, "(3)"), text(350, 150, "(Total for Question 1 is 3 marks)"), *lines_to_write_on(190)]
    two = [text(50, 90, "2"), text(75, 90, "The curve C has the equation y = x + 4."),
           text(75, 115, "(a)"), text(100, 115, "Sketch the curve, and mark where it crosses the axes."),
           right(140, marks_2a), box(150, 170, 200, 150), *lines_to_write_on(360, draw=dots)]
    more = [text(75, 90, "(b)"), text(100, 90, "Find the area between the curve, the axes and the line x = 3."),
            right(115, "(6)"), text(345, 140, f"(Total for Question 2 is {total_2} marks)"), *lines_to_write_on(180)]
    three = [text(50, 90, "3"), text(75, 90, "Prove that the sum of two odd numbers is even."), right(120, "(5)"),
             text(350, 150, "(Total for Question 3 is 5 marks)"), *lines_to_write_on(190),
             text(350, 785, "TOTAL FOR PAPER IS 18 MARKS")]
    return [cover(18), *numbered([one, two, more, three])]


def on_a_larger_sheet(pages, room=24):
    """With crop marks at the corners of each page and registration marks in the middle of its sides."""
    width, height = (side + 2 * room for side in A4)
    middles = ((10, height / 2), (width - 10, height / 2), (width / 2, 10), (width / 2, height - 10))
    marks = [f"0.5 w {x} {y} m {x + dx} {y + dy} l S" for x, y, dx, dy in (
        *((x, y, 0, room - 6) for x in (room, width - room) for y in (0, height - room + 6)),
        *((x, y, room - 6, 0) for y in (room, height - room) for x in (0, width - room + 6)),
        *((x - 8, y, 16, 0) for x, y in middles), *((x, y - 8, 0, 16) for x, y in middles))]
    return document([["q", f"1 0 0 1 {room} {room} cm", *page, "Q", *marks] for page in pages], (width, height))


def scheme(short=False):
    """A table: question, scheme, marks, codes in a column of their own. If short, a code of 2(b) and 3 are missing."""
    def row(top, label, answer, *codes):
        drawn = [text(60, top, label)]
        for i, code in enumerate(codes):
            drawn += [text(130, top + 18 * i, f"{answer}, step {i + 1}"), text(480, top + 18 * i, code)]
        return drawn

    head = [text(60, 70, "Question"), text(130, 70, "Scheme"), text(480, 70, "Marks")]
    return [[*head, *row(100, "1", "2x < 8", "M1", "A1", "A1"), text(480, 160, "(3)"),
             *row(200, "2(a)", "A line", "M1", "A1", "B1", "B1"), text(480, 280, "(4)"),
             *row(320, "2(b)", "The area", *["M1", "M1", "A1", "M1", "A1", "A1"][short:]), text(480, 435, "(6)")],
            [*head] if short else
            [*head, *row(100, "3", "2m + 1", "B1", "M1", "M1", "A1", "A1"), text(480, 200, "(5)")]]


def choice():
    """A question of 3 marks, and three of 5 to choose from."""
    drawn = [text(50, 80, "Section A", 13)]
    for at, (number, marks) in enumerate(((1, 3), (2, 5), (3, 5), (4, 5))):
        top = 120 + 100 * at + (40 if at else 0)
        drawn += [text(50, top, f"{number}."), text(75, top, "Prove that the sum of two odd numbers is even."),
                  right(top, f"[{marks}]")]
    drawn += [text(50, 190, "Section B", 13), text(50, 215, "Answer any two questions from this section.")]
    return [cover(13, "20 minutes"), *numbered([drawn])]


def bare():
    """Three numbers at the right edge that may be marks."""
    lines = ["The first chapter of the book", "The second chapter of it", "The last chapter"]
    return [[drawn for at, line in enumerate(lines)
             for drawn in (text(50, 100 + 40 * at, f"{at + 1}"), text(75, 100 + 40 * at, line), right(100 + 40 * at, str(at + 3)))]]


def bench_paper(questions=15):
    """Cover, then two pages a question, and a blank page: print, a figure, lines to write on."""
    pages = []
    for number in range(1, questions + 1):
        body = [text(75, 90 + 15 * i, "The line l passes through the points A and B, in the plane of the curve.")
                for i in range(1, 14)]
        curves = [f"1 w {150 + 2 * i} 380 m 200 {480 - 3 * i} 300 {380 + 4 * i} 400 {400 + i} c S" for i in range(40)]
        pages.append([text(50, 90, str(number)), *body, text(75, 300, "(a)"), text(100, 300, "Find the length of AB."),
                      right(320, "(2)"), *curves, *lines_to_write_on(540)])
        pages.append([text(75, 90, "(b)"), *body, right(320, "(3)"),
                      text(345, 345, f"(Total for Question {number} is 5 marks)"), *lines_to_write_on(400, draw=dots)])
    blank = [text(240, 400, "BLANK PAGE")]
    return [cover(5 * questions, "1 hour 15 minutes"), *numbered(pages), blank]


def made(kind, *rest):
    if kind == "paper":
        return document(paper())
    if kind == "doubtful":
        return document(paper(marks_2a=""))
    if kind == "disagreeing":
        return document(paper(total_2=12))
    if kind == "scheme":
        return document(scheme())
    if kind == "short-scheme":
        return document(scheme(short=True))
    if kind == "cropped":
        return on_a_larger_sheet(paper())
    if kind == "choice":
        return document(choice())
    if kind == "bare":
        return document(bare())
    if kind == "cracked":
        cover_page, *pages = paper()
        return document([[*cover_page, "1 zz"], *pages])
    if kind == "pictures":
        return document([[picture(file)] for file in rest])
    if kind == "bench":
        return document(bench_paper())
    if kind == "form":
        return document([[text(75, 100, "Application for a library ticket"), text(75, 140, "Name"), line(140, 120),
                          text(75, 180, "Address"), line(180, 120)]])
    if kind == "scan":
        return document([[box(100, 100, 300, 400)], [box(100, 100, 300, 400)]])
    if kind == "locked":
        return document([[text(75, 100, "1 Locked")]], locked=lock("secret"))
    if kind == "long":
        return document([[text(75, 100, "page")]] * int(rest[0]))
    if kind == "huge":
        return document([[text(75, 100, "1 Huge")]], size=(8504, 8504))
    raise SystemExit(__doc__)


if __name__ == "__main__":
    if len(sys.argv) < 2:
        raise SystemExit(__doc__)
    sys.stdout.buffer.write(made(*sys.argv[1:]))
