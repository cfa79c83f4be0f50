"""Files that are no question paper one can read: what they are, and how to make each."""

import hashlib
import subprocess

import cairo

A4 = (595.28, 841.89)
PADDING = bytes.fromhex("28BF4E5E4E758A4164004E56FFFA01082E2E00B6D0683E802F0CA9FE6453697A")
FILE_ID = bytes(range(16))
FIELDS = (
    "Family name",
    "Given names",
    "Date of birth (day, month, year)",
    "Number of the centre (5 figures)",
    "Works entered for (1)",
    "Extra paper asked for (2)",
    "Name of the parent or keeper",
    "Signature and date",
)


def rc4(key, data):
    state = list(range(256))
    j = 0
    for i in range(256):
        j = (j + state[i] + key[i % len(key)]) % 256
        state[i], state[j] = state[j], state[i]
    out = bytearray()
    i = j = 0
    for byte in data:
        i = (i + 1) % 256
        j = (j + state[i]) % 256
        state[i], state[j] = state[j], state[i]
        out.append(byte ^ state[(state[i] + state[j]) % 256])
    return bytes(out)


def pdf(objects, trailer):
    """A file of numbered objects with its table of where they start."""
    out = bytearray(b"%PDF-1.4\n")
    starts = []
    for number, content in enumerate(objects, 1):
        starts.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    table = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
    out += b"".join(b"%010d 00000 n \n" % start for start in starts)
    out += b"trailer\n<< /Size %d %s >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, trailer, table)
    return bytes(out)


def locked(file, password=b"lantern"):
    """One page under the standard security handler, revision 2 (40-bit RC4), which asks for the password to open."""
    padded = (password + PADDING)[:32]
    owner = rc4(hashlib.md5(padded).digest()[:5], padded)
    permissions = -4
    seed = padded + owner + permissions.to_bytes(4, "little", signed=True) + FILE_ID
    key = hashlib.md5(seed).digest()[:5]
    of_object = lambda number: hashlib.md5(key + number.to_bytes(3, "little") + b"\0\0").digest()[:10]
    text = rc4(of_object(4), b"BT /F1 12 Tf 72 720 Td (1  Find the mass of the lantern. [3]) Tj ET")
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
        b"<< /Length %d >>\nstream\n%s\nendstream" % (len(text), text),
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
        b"<< /Filter /Standard /V 1 /R 2 /O <%s> /U <%s> /P %d >>"
        % (owner.hex().encode(), rc4(key, PADDING).hex().encode(), permissions),
    ]
    identity = FILE_ID.hex().encode()
    file.write_bytes(pdf(objects, b"/Root 1 0 R /Encrypt 6 0 R /ID [<%s> <%s>]" % (identity, identity)))


def scanned(file, paper):
    """The pages of a paper as pictures of themselves."""
    drawn = file.with_suffix("")
    subprocess.run(["pdftoppm", "-r", "60", "-l", "2", "-png", paper, drawn], check=True, capture_output=True)
    surface = cairo.PDFSurface(str(file), *A4)
    pen = cairo.Context(surface)
    for page in sorted(file.parent.glob(f"{drawn.name}-*.png")):
        picture = cairo.ImageSurface.create_from_png(str(page))
        pen.save()
        pen.scale(A4[0] / picture.get_width(), A4[1] / picture.get_height())
        pen.set_source_surface(picture)
        pen.paint()
        pen.restore()
        surface.show_page()
        page.unlink()
    surface.finish()


def damaged(file, paper):
    whole = paper.read_bytes()
    file.write_bytes(whole[: len(whole) // 40])


def long(file, pages=500):
    surface = cairo.PDFSurface(str(file), *A4)
    pen = cairo.Context(surface)
    pen.set_font_size(11)
    for page in range(1, pages + 1):
        pen.move_to(60, 90)
        pen.show_text(f"{page}  The keeper of the lamp counts {page} boats. (2)")
        surface.show_page()
    surface.finish()


def form(file):
    """An enrolment form: numbered fields, none of which bears marks."""
    surface = cairo.PDFSurface(str(file), *A4)
    pen = cairo.Context(surface)
    pen.set_font_size(16)
    pen.move_to(60, 80)
    pen.show_text("Enrolment for the evening works")
    pen.set_font_size(11)
    for number, field in enumerate(FIELDS, 1):
        pen.move_to(60, 100 + 50 * number)
        pen.show_text(f"{number}.  {field}")
        pen.move_to(260, 102 + 50 * number)
        pen.line_to(530, 102 + 50 * number)
        pen.stroke()
    surface.finish()


def write_odd_files(folder, paper):
    """What each is, and its file."""
    kinds = ("scan", "locked", "damaged", "empty", "500 pages", "form", "no PDF")
    odd = {kind: folder / f"{kind.replace(' ', '-')}.pdf" for kind in kinds}
    scanned(odd["scan"], paper)
    locked(odd["locked"])
    damaged(odd["damaged"], paper)
    odd["empty"].write_bytes(b"")
    long(odd["500 pages"])
    form(odd["form"])
    odd["no PDF"].write_bytes(b"part,marks\n1,3\n")
    return odd
