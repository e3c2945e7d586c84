"""Documents made for the tests. Every product and figure in them is invented."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Sequence

import openpyxl
from fpdf import FPDF

HEAD = ("Chemical name", "CAS No.", "Concentration (% w/w)")
ROWS = (
    ("Aqua", "7732-18-5", "50 - 75 %"),
    ("2-(2-butoxyethoxy)ethanol, technical grade with stabiliser", "112-34-5", "5 - 10 %"),
    ("Isopropyl alcohol", "67-63-0", ">= 10 - < 25 %"),
    ("Amodimethicone", "71750-80-6", "1 - 5 %"),
    ("Triethoxy(octyl)silane", "2943-75-1", "< 3 %"),
    ("Acetic acid", "64-19-7", "0.1 - 1 %"),
)
COLUMNS = ((15, 60), (75, 35), (110, 40))
STEP = 4.5


class Sheet(FPDF):
    """An invented data sheet on A4; every page has a head and a foot."""

    def __init__(self, pages: int, ruled: bool = False) -> None:
        super().__init__(format="A4")
        self.set_auto_page_break(False)
        self.pages_in_all = pages
        self.ruled = ruled

    def header(self) -> None:
        self.set_font("helvetica", "B", 9)
        self.put(15, 10, "Safety data sheet (invented): ferry seat protectant")
        self.put(150, 10, "Revision 3")
        self.set_font("helvetica", "", 9)

    def footer(self) -> None:
        self.put(15, 285, "Invented data, for tests")
        self.put(170, 285, f"Page {self.page_no()} of {self.pages_in_all}")

    def put(self, x: float, y: float, text: str) -> None:
        self.set_xy(x, y)
        self.cell(0, STEP, text)

    def lines(self, y: float, lines: Sequence[str]) -> float:
        for number, line in enumerate(lines):
            self.put(15, y + 7 * number, line)
        return y + 7 * len(lines)

    def row(self, y: float, cells: Sequence[str]) -> float:
        """A row of the table with its cells wrapped; returns where the next begins."""
        wrapped = [
            self.multi_cell(width - 2, STEP, text, dry_run=True, output="LINES")
            for (_, width), text in zip(COLUMNS, cells, strict=True)
        ]
        height = STEP * max(map(len, wrapped)) + 1
        for (x, width), lines in zip(COLUMNS, wrapped, strict=True):
            if self.ruled:
                self.rect(x, y, width, height)
            for number, line in enumerate(lines):
                self.put(x, y + 0.5 + STEP * number, line)
        return y + height + (0 if self.ruled else 2)


def data_sheet(ruled: bool = False, password: str | None = None) -> bytes:
    """Two pages; the table of section 3 has a wrapped name and goes on over the page break, under its head again."""
    pdf = Sheet(2, ruled)
    pdf.add_page()
    pdf.lines(25, ("SECTION 1: Identification", "Ferry seat protectant, trigger spray", "SECTION 2: Hazards"))
    y = pdf.lines(240, ("SECTION 3: Composition/information on ingredients",))
    for row in (HEAD, *ROWS[:3]):
        y = pdf.row(y, row)
    pdf.add_page()
    y = 25
    for row in (HEAD, *ROWS[3:]):
        y = pdf.row(y, row)
    pdf.lines(y + 6, ("SECTION 4: First aid measures", "Rinse with water.", "pH: 4.5"))
    if password is not None:
        pdf.set_encryption(owner_password="owner", user_password=password)
    return bytes(pdf.output())


WIDE = ("Substance", "Identifiers", "% w/w", "Classification")
WIDE_ROWS = (
    (
        ("Naphtha (petroleum),", "hydrotreated light"),
        ("CAS: 64742-49-0", "EC: 265-151-9", "REACH: 01-0000000000-00"),
        ("25 - 50",),
        ("Flam. Liq. 2, H225", "Asp. Tox. 1, H304", "STOT SE 3, H336", "Aquatic Chronic 2, H411"),
    ),
    (("Siloxanes and Silicones, di-Me,", "hydroxy-terminated"), ("CAS: 70131-67-8",), ("1 - <3",), ("-",)),
    (("Propan-2-ol",), ("CAS: 67-63-0", "EC: 200-661-7"), ("10 - 25",), ("Flam. Liq. 2, H225", "Eye Irrit. 2, H319")),
)


def wide_table(rules: str, middle: bool) -> bytes:
    """A table with three wrapped columns; ``rules`` all, level, shaded or none; cells at the top or middle of rows."""
    pdf = Sheet(1)
    pdf.add_page()
    pdf.put(15, 30, "SECTION 3: Composition/information on ingredients")
    y = 40.0
    for number, row in enumerate((tuple((word,) for word in WIDE), *WIDE_ROWS)):
        most = max(map(len, row))
        height = 4 * most + 3
        for x, width, lines in zip((15, 70, 115, 140), (55, 45, 25, 50), row, strict=True):
            if rules == "all":
                pdf.rect(x, y, width, height)
            elif rules == "shaded" and number % 2:
                pdf.set_fill_color(220)
                pdf.rect(x, y, width, height, style="F")
            start = y + 1.5 + (2 * (most - len(lines)) if middle else 0)
            for place, line in enumerate(lines):
                pdf.set_xy(x, start + 4 * place)
                pdf.cell(width, 4, line)
        y += height
        if rules == "level":
            pdf.line(15, y, 190, y)
    pdf.put(15, y + 8, "SECTION 4: First aid measures")
    return bytes(pdf.output())


def long_sheet(pages: int) -> bytes:
    """Pages of 55 lines."""
    pdf = Sheet(pages)
    for page in range(pages):
        pdf.add_page()
        for number in range(55):
            pdf.put(
                15, 20 + number * 4.7, f"{page}.{number} The vapour of this invented mixture is heavier than air; 12"
            )
    return bytes(pdf.output())


def scanned_sheet() -> bytes:
    """Two pages that hold a picture and no text."""
    from PIL import Image

    pdf = FPDF()
    for _ in range(2):
        pdf.add_page()
        pdf.image(Image.new("L", (60, 80), 200), 0, 0, 210, 297)
    return bytes(pdf.output())


def raw_pdf(objects: Sequence[bytes]) -> bytes:
    """A PDF of objects 1, 2, ... as given; object 1 is the catalogue."""
    out = io.BytesIO()
    out.write(b"%PDF-1.4\n")
    places = []
    for number, body in enumerate(objects, 1):
        places.append(out.tell())
        out.write(b"%d 0 obj\n" % number + body + b"\nendobj\n")
    table = out.tell()
    out.write(b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1))
    for place in places:
        out.write(b"%010d 00000 n \n" % place)
    out.write(b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, table))
    return out.getvalue()


def stream(body: bytes, keys: bytes = b"") -> bytes:
    return b"<< /Length %d %s >>\nstream\n%s\nendstream" % (len(body), keys, body)


CATALOGUE = b"<< /Type /Catalog /Pages 2 0 R >>"
ONE_PAGE = b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>"
FONT = b"<< /Font << /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >> >>"


def page_object(contents: int, resources: bytes = FONT, parent: int = 2) -> bytes:
    return b"<< /Type /Page /Parent %d 0 R /MediaBox [0 0 595 842] /Resources %s /Contents %d 0 R >>" % (
        parent,
        resources,
        contents,
    )


def swollen_pdf(megabytes: int) -> bytes:
    """One page whose contents unpack to many megabytes of blanks."""
    press = zlib.compressobj(9)
    first = press.compress(b" " * 2**20) + press.flush(zlib.Z_FULL_FLUSH)
    again = press.compress(b" " * 2**20) + press.flush(zlib.Z_FULL_FLUSH)
    packed = first + again * (megabytes - 1) + press.flush()
    return raw_pdf([CATALOGUE, ONE_PAGE, page_object(4), stream(packed, b"/Filter /FlateDecode")])


def deep_pdf(depth: int) -> bytes:
    """A page tree of many levels above one page."""
    levels = [b"<< /Type /Pages /Kids [%d 0 R] /Count 1 >>" % (number + 1) for number in range(2, depth + 2)]
    last = depth + 2
    return raw_pdf([CATALOGUE, *levels, page_object(last + 1, parent=last - 1), stream(b"BT /F1 9 Tf (Water) Tj ET")])


def archive(parts: dict[str, bytes], packed: bool = True) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED) as made:
        for name, data in parts.items():
            made.writestr(name, data)
    return out.getvalue()


def workbook(*sheets: Sequence[Sequence[object]], formats: dict[str, str] | None = None) -> bytes:
    """A workbook of sheets of rows; ``formats`` are number formats of cells of the first sheet."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for number, rows in enumerate(sheets, 1):
        sheet = book.create_sheet(f"Sheet {number}")
        for row in rows:
            sheet.append(list(row))
    for cell, number_format in (formats or {}).items():
        book.worksheets[0][cell].number_format = number_format
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def with_part(data: bytes, name: str, change: bytes, by: bytes) -> bytes:
    """An archive with bytes of one part changed."""
    with zipfile.ZipFile(io.BytesIO(data)) as made:
        parts = {part: made.read(part) for part in made.namelist()}
    assert change in parts[name]
    parts[name] = parts[name].replace(change, by, 1)
    return archive(parts)
