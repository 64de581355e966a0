"""Holds documents against readers that are not ours: paper.py PROGRAM PROJECT...

PROGRAM is the example that writes the documents of a project into a folder. For every project: the text of
the PDFs (PDFium) holds every figure of the tables; every font is embedded, subset and can be copied from (pypdf); no
page is empty and no ink lies outside the margins (PDFium, as pictures); the HTML is what an HTML parser
makes no complaint of (html5lib, strict) and asks for nothing from elsewhere; every drawing is well-formed
SVG (lxml, defusedxml) whose scale bar is as long as it says; the days as bars are grey and fit a sheet.
"""

import pathlib
import re
import subprocess
import sys
import tempfile

import defusedxml.ElementTree
import html5lib
import lxml.etree
import pypdf
import pypdfium2

SVG = "{http://www.w3.org/2000/svg}"
# Millimetres in the units that stand at a scale bar (NIST SP 811, app. B).
UNITS = {"mm": 1.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
# Two lines of hundredths of a millimetre at the page, which is what the files are written to.
WRITTEN = 0.02
# Paper that printers leave blank, as a share of the width: a quarter of an inch of letter paper.
BLANK = 0.25 / 8.5


class Checks:
    def __init__(self):
        self.count = {}
        self.missed = []

    def true(self, what, holds, where):
        self.count[what] = self.count.get(what, 0) + 1
        if not holds:
            self.missed.append(f"{where}: {what}")


def plain(text):
    return " ".join(text.split())


def rows_of(markdown):
    """The cells of every table of a Markdown file, as they are shown."""
    for line in markdown.splitlines():
        if line.startswith("|") and not line.startswith("| -"):
            cells = re.split(r"(?<!\\)\|", line)[1:-1]
            yield [re.sub(r"\\(.)", r"\1", cell).strip().strip("*") for cell in cells]


def check_pdf(checks, path, markdown):
    where = path.name
    pages = pypdfium2.PdfDocument(path)
    texts = [page.get_textpage().get_text_range() for page in pages]
    whole = plain(" ".join(texts))
    figures = 0
    for row in rows_of(markdown):
        for cell in row:
            if re.fullmatch(r"[\d,.\u00a0 ]*\d( (yd³|m³|lb|kg))?", cell):
                figures += 1
                checks.true("figures found in the PDF", plain(cell) in whole, f"{where}: {cell}")
    for number, (page, text) in enumerate(zip(pages, texts), 1):
        place = f"{where}, page {number}"
        checks.true("pages are numbered", f"page {number} of {len(pages)}" in plain(text), place)
        image = page.render(scale=1, grayscale=True).to_pil()
        dark = image.point(lambda grey: 255 if grey < 250 else 0).getbbox()
        checks.true("pages are not empty", dark is not None, place)
        least = image.width * BLANK
        if dark:
            left, top, right, bottom = dark
            edge = min(left, top, image.width - right, image.height - bottom)
            checks.true("ink stays within what a printer reaches", edge >= least, place)
    reader = pypdf.PdfReader(path)
    fonts = {}
    for page in reader.pages:
        for name, font in page["/Resources"].get("/Font", {}).items():
            fonts[name] = font.get_object()
    checks.true("there are fonts", bool(fonts), where)
    for name, font in fonts.items():
        place = f"{where}, font {font['/BaseFont']}"
        inner = font["/DescendantFonts"][0].get_object()
        described = inner["/FontDescriptor"].get_object()
        file = described.get("/FontFile2") or described.get("/FontFile3")
        checks.true("fonts are embedded", file is not None, place)
        checks.true("fonts can be copied from", "/ToUnicode" in font, place)
        checks.true("fonts are subset", re.match(r"/[A-Z]{6}\+", font["/BaseFont"]) is not None, place)
    checks.true("the title is set", bool(reader.metadata.title), where)
    checks.true("there is a list of contents", bool(reader.outline), where)
    return figures


def check_html(checks, path):
    text = path.read_text(encoding="utf-8")
    parser = html5lib.HTMLParser(strict=False)
    tree = parser.parse(text)
    # A page that is XML too closes its drawings' elements with a stroke, which HTML takes as it is meant.
    errors = [error for error in parser.errors if error[1] != "non-void-element-with-trailing-solidus"]
    checks.true(f"no complaint of an HTML parser {errors[:2]}", not errors, path.name)
    strange = [
        f"{element.tag} {key}"
        for element in tree.iter()
        for key in element.attrib
        if key in ("src", "href", "srcset", "action") or key.startswith("on")
    ]
    scripts = [e for e in tree.iter() if isinstance(e.tag, str) and e.tag.endswith("}script")]
    checks.true("nothing from elsewhere", not strange and not scripts, path.name)
    checks.true("one XML file", lxml.etree.fromstring(text.encode()) is not None, path.name)


def check_chart(checks, where, tree, wide, high):
    """All ink of a chart stands on a sheet of A4 (ISO 216) and is black, white or grey."""
    checks.true("a chart stands on a sheet", wide <= 210 and high <= 297, where)
    inks = {e.get(key) for e in tree.iter() for key in ("fill", "stroke")} - {None, "none"}
    thirds = [re.findall(r"[0-9a-f]{%d}" % (len(ink) // 3), ink[1:]) for ink in inks]
    checks.true("a chart is black, white and grey", all(len(set(third)) == 1 for third in thirds), where)


def check_svg(checks, path):
    tree = defusedxml.ElementTree.parse(path).getroot()
    checks.true("SVG by its name", tree.tag == f"{SVG}svg", path.name)
    wide, high = (float(tree.get(key).removesuffix("mm")) for key in ("width", "height"))
    box = [float(number) for number in tree.get("viewBox").split()]
    checks.true("a millimetre is a millimetre", box == [0, 0, wide, high], path.name)
    texts = [e.text for e in tree.iter(f"{SVG}text")]
    scale = next((t for t in texts if re.search(r"\(1:|Scale|size$", t)), None)
    if path.name.startswith("plan-"):
        # The days as bars are a chart, which has no scale.
        checks.true("a chart has no scale", scale is None, path.name)
        check_chart(checks, path.name, tree, wide, high)
        return
    checks.true("a scale is given", scale is not None, path.name)
    if scale is None:
        return
    if "size" in scale:
        ratio = 0.5 if "Twice" in scale else 1.0
    else:
        over, under = re.search(r"(\d+):(\d+)", scale).groups()
        ratio = float(under) / float(over)
    at = texts.index(scale)
    length, unit = texts[at - 1].split(" ")
    # The bar is the last closed outline, of two parts, before its words.
    bars = [e.get("d") for e in tree.iter(f"{SVG}path") if e.get("stroke-width") == "0.18" and e.get("d").endswith("Z")]
    ends = [float(x) for x in re.findall(r"[ML]([-\d.]+) ", bars[-1])]
    drawn = (max(ends) - min(ends)) * ratio
    said = float(length) * UNITS[unit]
    checks.true("the bar is as long as it says", abs(drawn - said) <= WRITTEN * ratio, f"{path.name}: {drawn} for {said}")


def main():
    program, *projects = sys.argv[1:]
    checks = Checks()
    figures = 0
    for project in projects:
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            subprocess.run([program, project, str(folder)], check=True)
            for name in ("summary", "order", "dimensions", "card", "plan"):
                markdown = (folder / f"{name}.md").read_text(encoding="utf-8")
                figures += check_pdf(checks, folder / f"{name}.pdf", markdown)
            for path in sorted(folder.glob("*.html")):
                check_html(checks, path)
            drawings = sorted(folder.glob("*.svg"))
            checks.true("there are drawings", bool(drawings), project)
            for path in drawings:
                check_svg(checks, path)
    # The run must show what it claims.
    checks.true("hundreds of figures were looked for", figures > 300, "all")
    for what, count in checks.count.items():
        print(f"{what:45} {count:>6}")
    for missed in checks.missed[:30]:
        print(missed)
    if checks.missed:
        print(f"{len(checks.missed)} differences")
    return 1 if checks.missed else 0


if __name__ == "__main__":
    sys.exit(main())
