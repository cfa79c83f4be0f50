#!/usr/bin/env python3
"""Makes a small workbook, .xlsx or .ods by the name of the file, of sheets that are written as CSV.

    book.py FILE NAME=CSV...

A cell in digits is a number, one with leading zeros a number that is shown with them, a day in ISO form a day that is shown as
10/11/2026; `=1+1 -> 2` is a formula with its value, `=1+1` one without, `#N/A` an error. Anything else is text; the name of a
sheet that is hidden ends with `!`.
"""

import csv
import datetime
import io
import re
import sys
import zipfile
from xml.sax.saxutils import escape, quoteattr

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ODF = "urn:oasis:names:tc:opendocument:xmlns:"
LIST = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'


def kind_of(text):
    for kind, pattern in {
        "day": r"\d{4}-\d\d-\d\d",
        "zeros": r"0\d+",
        "number": r"-?\d+(\.\d+)?",
        "formula": r"=.* -> .*",
        "unknown": r"=.*",
        "error": r"#.*[!?A]",
    }.items():
        if re.fullmatch(pattern, text):
            return kind
    return "text"


def place(row, column):
    return chr(ord("A") + column) + str(row + 1) if column < 26 else place(row, column // 26 - 1)[:1] + place(row, column % 26)


class Xlsx:
    def __init__(self):
        self.formats = []  # of styles 1 and further: so many zeros, after the one of days

    def style(self, zeros):
        if zeros not in self.formats:
            self.formats.append(zeros)
        return self.formats.index(zeros) + 2

    def cell(self, row, column, text):
        at, kind = f'<c r="{place(row, column)}"', kind_of(text)
        if kind == "day":
            serial = (datetime.date.fromisoformat(text) - datetime.date(1899, 12, 30)).days
            return f'{at} s="1"><v>{serial}</v></c>'
        if kind == "zeros":
            return f'{at} s="{self.style(len(text))}"><v>{int(text)}</v></c>'
        if kind == "formula":
            formula, value = text[1:].split(" -> ")
            return f"{at}><f>{escape(formula)}</f><v>{value}</v></c>"
        simple = {"number": "><v>{}</v></c>", "unknown": "><f>{}</f></c>", "error": ' t="e"><v>{}</v></c>'}
        return at + simple.get(kind, ' t="inlineStr"><is><t>{}</t></is></c>').format(escape(text.lstrip("=")))

    def parts(self, sheets):
        beside, listed = f'<Relationship Id="st" Type="{OFFICE}/styles" Target="styles.xml"/>', ""
        for number, (name, rows) in enumerate(sheets, 1):
            state = ' state="hidden"' if name.endswith("!") else ""
            listed += f'<sheet name={quoteattr(name.rstrip("!"))} sheetId="{number}" r:id="s{number}"{state}/>'
            beside += f'<Relationship Id="s{number}" Type="{OFFICE}/worksheet" Target="worksheets/sheet{number}.xml"/>'
            body = "".join(
                f'<row r="{i + 1}">' + "".join(self.cell(i, k, text) for k, text in enumerate(row) if text) + "</row>"
                for i, row in enumerate(rows)
            )
            yield f"xl/worksheets/sheet{number}.xml", f'<worksheet xmlns="{MAIN}"><sheetData>{body}</sheetData></worksheet>'
        yield "[Content_Types].xml", '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'
        yield "_rels/.rels", f'{LIST}<Relationship Id="w" Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>'
        yield "xl/_rels/workbook.xml.rels", LIST + beside + "</Relationships>"
        yield "xl/workbook.xml", f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{listed}</sheets></workbook>'
        codes = "".join(f'<numFmt numFmtId="{165 + i}" formatCode="{"0" * zeros}"/>' for i, zeros in enumerate(self.formats))
        styles = "".join(f'<xf numFmtId="{165 + i}"/>' for i in range(len(self.formats)))
        yield (
            "xl/styles.xml",
            f'<styleSheet xmlns="{MAIN}"><numFmts><numFmt numFmtId="164" formatCode="dd/mm/yyyy"/>{codes}</numFmts>'
            f'<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/>{styles}</cellXfs></styleSheet>',
        )


class Ods:
    def cell(self, text):
        kind, shown = kind_of(text), escape(text)
        value = {"number": text, "zeros": text.lstrip("0") or "0"}.get(kind)
        about = f' office:value-type="float" office:value="{value}"' if value else ' office:value-type="string"'
        if kind == "day":
            about = f' office:value-type="date" office:date-value="{text}"'
            shown = "/".join(reversed(text.split("-")))
        elif kind == "formula":
            shown = text.split(" -> ")[1]
            about = f' table:formula="of:=1" office:value-type="float" office:value="{shown}"'
        elif kind == "unknown":
            return '<table:table-cell table:formula="of:=1"/>'
        elif kind == "error":
            about = ' table:formula="of:=1" office:value-type="string" office:string-value=""'
        return f"<table:table-cell{about}><text:p>{shown}</text:p></table:table-cell>"

    def parts(self, sheets):
        tables = ""
        for name, rows in sheets:
            lines = "".join(
                "<table:table-row>"
                + "".join(self.cell(text) if text else "<table:table-cell/>" for text in row)
                + '<table:table-cell table:number-columns-repeated="1000"/></table:table-row>'
                for row in rows
            )
            hidden = ' table:style-name="hidden"' if name.endswith("!") else ""
            tables += f"<table:table table:name={quoteattr(name.rstrip('!'))}{hidden}>{lines}"
            tables += '<table:table-row table:number-rows-repeated="1000000"><table:table-cell/></table:table-row></table:table>'
        spaces = " ".join(f'xmlns:{name}="{ODF}{name}:1.0"' for name in ("office", "table", "text", "style"))
        yield "mimetype", "application/vnd.oasis.opendocument.spreadsheet"
        yield (
            "content.xml",
            f'<office:document-content {spaces}><office:automatic-styles><style:style style:name="hidden" style:family="table">'
            '<style:table-properties table:display="false"/></style:style></office:automatic-styles><office:body>'
            f"<office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>",
        )


def main():
    file, *named = sys.argv[1:]
    sheets = []
    for one in named:
        name, text = one.split("=", 1)
        sheets.append((name, list(csv.reader(io.StringIO(text)))))
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as book:
        for part, text in (Ods() if file.endswith(".ods") else Xlsx()).parts(sheets):
            book.writestr(zipfile.ZipInfo(part), text)


if __name__ == "__main__":
    main()
