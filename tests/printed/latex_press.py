"""Lays out papers with LaTeX."""

import re
import subprocess

from habits import Dots, Fraction, Grid, Owned, Row, Side, Title, colour_of
from rare_habits import Across

HEAD = r"""\documentclass[%dpt,a4paper]{article}
\usepackage[%s]{fontenc}\usepackage[utf8]{inputenc}
\usepackage[%s]{geometry}\usepackage{longtable}\usepackage{multicol}\usepackage{fancyhdr}\usepackage{xcolor}
\pagestyle{fancy}\fancyhf{}\renewcommand{\headrulewidth}{0pt}
\chead{%s}\cfoot{%s}
\setlength{\parindent}{0pt}\setlength{\parskip}{5pt plus 1pt}\raggedbottom\sloppy
\newcommand{\tomargin}[1]{\unskip\nobreak\hfil\penalty50\hskip1em\null\nobreak\hfill\mbox{#1}{\parfillskip=0pt\par}}
\newcommand{\rest}{%s}
\begin{document}\rest
"""
PAGE = "margin=25mm"
FAR = "margin=25mm,left=50mm"  # with a column for marks before the text
CROPPED = "paperwidth=236mm,paperheight=323mm,margin=38mm"
# What a printer's sheet has round the page: lines at its corners, crosses at its sides, the file's name and the time at its foot.
CROP_MARKS = r"""\AddToHook{shipout/background}{\color{black}
\put(13mm,-3mm){\rule{0.3pt}{7mm}}\put(223mm,-10mm){\rule{0.3pt}{7mm}}\put(3mm,-13mm){\rule{7mm}{0.3pt}}\put(226mm,-13mm){\rule{7mm}{0.3pt}}
\put(13mm,-320mm){\rule{0.3pt}{7mm}}\put(223mm,-320mm){\rule{0.3pt}{7mm}}\put(3mm,-310mm){\rule{7mm}{0.3pt}}\put(226mm,-310mm){\rule{7mm}{0.3pt}}
\put(117mm,-8mm){+}\put(5mm,-161mm){+}\put(229mm,-161mm){+}\put(117mm,-318mm){+}
\put(20mm,-318mm){\tiny wn-204.tex\quad\thepage\quad 25/11/2026\quad 14:05}\put(190mm,-318mm){\tiny C M Y K}}"""
INDENT = (0, 2.4, 4.8, 7.2)  # em, of each level


def tex(text):
    text = re.sub(r"([_%&#$])", r"\\\1", text)
    text = text.replace("\N{NO-BREAK SPACE}", "~").replace("FRACTION", r"$1\frac{1}{2}$").replace("½", r"$\frac12$").replace("•", r"\textbullet{}").replace("–", "--")
    text = re.sub(r"<i>(.*?)</i>", r"\\textit{\1}", text)
    return re.sub(r"<sup>(.*?)</sup>", r"$^{\1}$", re.sub(r"<sub>(.*?)</sub>", r"$_{\1}$", text))


def label_tex(text):
    return tex(text.replace("{", r"\{").replace("}", r"\}"))


def row(block, look):
    wide, is_boxed = 6.5 if look["wide"] else 0, look.get("boxed")
    at = INDENT[block.level] + wide if block.level else 0
    labels, filled = "", 0
    for level, text in block.labels:
        start = INDENT[level] + (wide if level else 0)
        labels += f"\\hskip{start - filled:.1f}em" if start > filled else ""
        width = INDENT[level + 1] - INDENT[level] + (wide if level == 0 else 0)
        labels += f"\\makebox[{width}em][l]{{{label_tex(text)}}}"
        filled = start + width
    if at > filled and labels:
        labels += f"\\hskip{at - filled:.1f}em"
    marks = label_tex(block.marks)
    marks = f"\\fbox{{{marks}}}" if is_boxed and marks else marks
    text = tex(block.text)
    above = ""
    if block.marks and block.place == "left":
        labels = f"\\llap{{{marks}\\hskip0.6em}}" + labels
    if block.marks and block.place == "far left":
        labels = f"\\llap{{\\makebox[24mm][l]{{{marks}}}}}" + labels
    if block.marks and block.place == "above":
        above = f"\\par\\leftskip=0pt{{}}{marks}\\nopagebreak\\par\\nopagebreak "
    if block.marks and block.place == "label":
        text = f"{marks} {text}"
    if block.marks and block.place == "glued":
        text += marks
    end = f"\\tomargin{{{marks}}}" if block.marks and block.place == "end" else "\\par"
    labels = labels or f"\\hskip{at}em"
    return f"{above}\\par\\leftskip={at}em\\noindent\\hskip-{at}em{{}}{labels}{text}{end}\n"


def colour(owner):
    return f"\\color[RGB]{{{','.join(map(str, colour_of(owner)))}}}" if owner else "\\color{black}"


def with_owners(body):
    """Each block, and the question that it belongs to or 0."""
    for block in body:
        yield from ((block.owner, one) for one in block.blocks) if isinstance(block, Owned) else ((0, block),)


def table(body, look):
    """Runs of rows in a ruled table of labels, text and marks."""
    out, is_open = "", False
    for owner, block in with_owners(body):
        ink = colour(owner)
        if isinstance(block, (Row, Side)):
            if not is_open:
                out += colour(0) + "\\par\\leftskip=0pt\n\\begin{longtable}{|p{4.6em}|p{0.62\\textwidth}|p{0.16\\textwidth}|}\\hline\n"
            is_open = True
            if isinstance(block, Side):
                out += f"&&{ink}{label_tex(block.text)}\\\\\\hline\n"
            else:
                labels = " ".join(label_tex(text) for _, text in block.labels)
                out += f"{ink}{labels}&{ink}{tex(block.text)}&{ink}\\hfill {label_tex(block.marks)}\\\\\\hline\n"
        else:
            out += "\\end{longtable}\n" if is_open else ""
            is_open = False
            out += inked(owner, block, look)
    return out + ("\\end{longtable}\n" if is_open else "")


def inked(owner, block, look):
    return colour(0 if isinstance(block, (Dots, Title)) else owner) + piece(block, look)


def piece(block, look):
    if isinstance(block, Across):
        return f"\\end{{multicols}}{piece(block.block, look)}\\begin{{multicols}}{{2}}\n"
    if isinstance(block, Row):
        return row(block, look)
    if isinstance(block, Side):
        return f"\\par\\leftskip=0pt\\noindent\\hfill {label_tex(block.text)}\\par\n"
    if isinstance(block, Title):
        return f"\\par\\leftskip=0pt\\begin{{center}}\\textbf{{\\large {tex(block.text)}}}\\end{{center}}\n"
    if isinstance(block, Fraction):
        number = f"\\eqno\\mbox{{{block.number}}}" if block.number else ""
        return f"\\par\\leftskip=0pt\n$$\\frac{{{block.over}}}{{{block.under}}} {block.rest}{number}$$\n"
    if isinstance(block, Grid):
        rows = "".join("&".join(map(tex, cells)) + "\\\\\\hline\n" for cells in block.rows)
        return f"\\par\\leftskip=0pt\\begin{{center}}\\begin{{tabular}}{{|{'c|' * len(block.rows[0])}}}\\hline\n{rows}\\end{{tabular}}\\end{{center}}\n"
    if isinstance(block, Dots):
        line = "\\hbox to\\textwidth{\\leaders\\hbox to 0.6em{\\hss.\\hss}\\hfill}" if block.spaced else "\\hbox to\\textwidth{\\dotfill}"
        return "\\par\\leftskip=0pt\n" + f"\\vskip14pt\\noindent{line}\n" * block.count + "\\par\n"
    return "\\newpage\n"


def print_paper(sheet, body, file):
    page = lambda text: text.replace("PAGE", "\\thepage")
    encoding = "OT1" if sheet.look["outlines"] else "T1"  # drawn in pixels, as whoever rewrites the file can't read them
    look = sheet.look
    geometry = FAR if look.get("far") else CROPPED if look.get("crop") else PAGE
    crop_marks = CROP_MARKS if look.get("crop") else ""
    text = HEAD % (sheet.size, encoding, geometry, page(look["head"]), page(look["foot"]), crop_marks)
    text += "".join(piece(block, look) for block in sheet.blocks)
    inner = table(body, look) if look["table"] else "".join(inked(owner, block, look) for owner, block in with_owners(body)) + colour(0)
    text += f"\\begin{{multicols}}{{2}}\n{inner}\\end{{multicols}}" if sheet.look["columns"] else inner
    source = file.with_suffix(".tex")
    source.write_text(text + "\\end{document}\n")
    command = ["pdflatex", "-interaction=batchmode", "-halt-on-error", f"-output-directory={file.parent}", source]
    for _ in range(2 if sheet.look["table"] else 1):
        subprocess.run(command, check=True, capture_output=True)
    for more in (".aux", ".log"):
        file.with_suffix(more).unlink()
