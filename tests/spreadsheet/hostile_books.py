"""Makes workbooks that no spreadsheet program would save, as files of a few megabytes at most.

    hostile_books.py FOLDER

For tests that see how they are refused: workbook_test, and to look at.
"""

import pathlib
import struct
import sys
import zipfile
import zlib

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
LIST = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
ODF = "urn:oasis:names:tc:opendocument:xmlns:"
MIB = 1024 * 1024


def deflated(text):
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    return packer.compress(text) + packer.flush()


def deflated_again_and_again(start, block, times, end=b""):
    """start, times the block, end: packed, without ever being held unpacked."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    first = packer.compress(start) + packer.flush(zlib.Z_FULL_FLUSH)
    middle = packer.compress(block) + packer.flush(zlib.Z_FULL_FLUSH)
    last = packer.compress(end) + packer.flush()
    return first + middle * times + last, len(start) + len(block) * times + len(end)


class Part:
    def __init__(self, name, text=b"", packed=None, size=None):
        self.name = name.encode()
        self.packed = deflated(text) if packed is None else packed
        self.size = len(text) if size is None else size
        self.crc = zlib.crc32(text)


def zipped(parts):
    body, directory = [], []
    offset = 0
    for part in parts:
        common = struct.pack(
            "<HHHIIIIHH", 20, 0, 8, 0, part.crc, len(part.packed), part.size, len(part.name), 0
        )
        directory.append(b"PK\x01\x02\x14\0" + common + struct.pack("<HHHII", 0, 0, 0, 0, offset) + part.name)
        body += [b"PK\x03\x04", common, part.name, part.packed]
        offset += 4 + len(common) + len(part.name) + len(part.packed)
    listed = b"".join(directory)
    end = struct.pack("<HHHHIIH", 0, 0, len(parts), len(parts), len(listed), offset, 0)
    return b"".join(body) + listed + b"PK\x05\x06" + end


def relationship(id, kind, target):
    return f'<Relationship Id="{id}" Type="{OFFICE}/{kind}" Target="{target}"/>'


def xlsx(sheet, shared=b""):
    """The parts of a workbook with this one as its only sheet's, which has the name Marks."""
    return [
        Part("[Content_Types].xml", b"<Types/>"),
        Part("_rels/.rels", (LIST + relationship("w", "officeDocument", "xl/workbook.xml") + "</Relationships>").encode()),
        Part(
            "xl/_rels/workbook.xml.rels",
            (
                LIST
                + relationship("s1", "worksheet", "worksheets/sheet1.xml")
                + relationship("sh", "sharedStrings", "sharedStrings.xml")
                + "</Relationships>"
            ).encode(),
        ),
        Part(
            "xl/workbook.xml",
            f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets><sheet name="Marks" sheetId="1" r:id="s1"/></sheets>'
            "</workbook>".encode(),
        ),
        Part("xl/sharedStrings.xml", shared or f'<sst xmlns="{MAIN}"/>'.encode()),
        sheet,
    ]


SHEET = "xl/worksheets/sheet1.xml"
START = f'<worksheet xmlns="{MAIN}"><sheetData>'.encode()
END = b"</sheetData></worksheet>"


def sheet_of(rows):
    return Part(SHEET, START + rows.encode() + END)


def ods(rows):
    return [
        Part("mimetype", b"application/vnd.oasis.opendocument.spreadsheet"),
        Part(
            "content.xml",
            f'<office:document-content xmlns:office="{ODF}office:1.0" xmlns:table="{ODF}table:1.0" xmlns:text="{ODF}text:1.0">'
            f'<office:body><office:spreadsheet><table:table table:name="Marks">{rows}</table:table></office:spreadsheet>'
            "</office:body></office:document-content>".encode(),
        ),
    ]


def again_and_again(start, block, times, end=b"", stated=None):
    packed, size = deflated_again_and_again(start, block, times, end)
    return Part(SHEET, b"", packed, size if stated is None else stated)


def laughs():
    entities = "".join(f'<!ENTITY a{i + 1} "{f"&a{i};" * 10}">' for i in range(10))
    return f'<!DOCTYPE sst [<!ENTITY a0 "ha">{entities}]><sst xmlns="{MAIN}"><si><t>&a10;</t></si></sst>'.encode()


def cell(column, row):
    return f'<c r="{column}{row}"><v>1</v></c>'


def repeated_row(cells):
    return f'<table:table-row table:number-rows-repeated="1000000">{cells}</table:table-row>'


def books():
    """Each by its name, with a few words of how it is refused; None: it is harmless and read."""
    header = '<row r="1"><c r="A1" t="inlineStr"><is><t>candidate</t></is></c></row>'
    empty_row = b"<row>" + b"<c/>" * 1000 + b"</row>"
    whole = zipped(xlsx(sheet_of(header)))
    yield "zeros", zipped(xlsx(again_and_again(b"", b"\0" * 16 * MIB, 128))), "unpacks to more than"
    yield "zeros-said-to-be-few", zipped(xlsx(again_and_again(b"", b"\0" * 16 * MIB, 128, stated=3 * MIB))), "damaged"
    yield "blanks-said-to-be-few", zipped(xlsx(again_and_again(START, b" " * 16 * MIB, 128, END, 3 * MIB))), "damaged"
    yield "empty-cells", zipped(xlsx(again_and_again(START, empty_row * 100, 10_000, END))), "unpacks to more than"
    yield (
        "empty-cells-said-to-be-fewer",
        zipped(xlsx(again_and_again(START, empty_row * 100, 10_000, END, 250 * MIB))),
        "more than 16000000 elements",
    )
    yield "full-cells", zipped(xlsx(again_and_again(START, b"<row>" + b"<c><v>1</v></c>" * 50 + b"</row>", 100_000, END))), (
        "more than 2000000 cells"
    )
    yield "laughs", zipped(xlsx(sheet_of(header), laughs())), "has a document type"
    yield "another-file", zipped(
        xlsx(Part(SHEET, b'<!DOCTYPE w [<!ENTITY f SYSTEM "file:///etc/passwd">]><worksheet>&f;</worksheet>'))
    ), "has a document type"
    yield "deep", zipped(xlsx(Part(SHEET, b"<a>" * 1_000_000))), "elements in each other"
    yield "one-tag", zipped(xlsx(again_and_again(b'<worksheet a="', b"xyz" * 40_000, 30))), "a tag of more than a mebibyte"
    yield "far-apart", zipped(
        xlsx(sheet_of("".join(f"<row>{cell('A', i)}{cell('XFD', i)}</row>" for i in range(1, 5001))))
    ), "out to XFD"
    yield "many-parts", zipped([Part(f"p{i}", b"") for i in range(20_000)] + xlsx(sheet_of(header))), "more than 10000 parts"
    yield "cut", whole[: len(whole) // 2], "is damaged"
    yield "cut-in-its-directory", whole[:-30], "is damaged"
    yield "repeated-empty-cells", zipped(
        ods(repeated_row('<table:table-cell table:number-columns-repeated="1000"/>') + one_sitting())
    ), None
    yield "repeated-full-cells", zipped(
        ods(repeated_row('<table:table-cell table:number-columns-repeated="1000" office:value-type="float" office:value="1"/>'))
    ), "more than 2000000 cells"


def one_sitting():
    rows = [["candidate", "1", "2"], ["max", "3", "4"], ["K01", "2", "4"]]
    text = '<table:table-cell office:value-type="string"><text:p>{}</text:p></table:table-cell>'
    return "".join("<table:table-row>" + "".join(map(text.format, row)) + "</table:table-row>" for row in rows)


if __name__ == "__main__":
    for name, content, _ in books():
        (pathlib.Path(sys.argv[1]) / f"{name}.xlsx").write_bytes(content)
