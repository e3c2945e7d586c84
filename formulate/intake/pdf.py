"""The text of a PDF: pages parted by form feeds, rows of tables as lines with tabs. Runs in the worker only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO

from pdfminer.converter import PDFPageAggregator
from pdfminer.pdfdocument import PDFDocument, PDFEncryptionError, PDFPasswordIncorrect
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.pdfparser import PDFParser

from formulate.intake.limits import PDF_PAGES, TEXT_CHARACTERS
from formulate.intake.print_page import Page, Printed, page_of
from formulate.intake.refusals import locked, refused

_Margins = dict[tuple[int, str], list[Printed]]

PAGE_BREAK = "\n\f\n"
_UNKNOWN_SHARE = 0.3
_MARGIN = 0.25
_SAME_HEIGHT = 3.0
_NUMBER = re.compile(r"\d{1,9}")
_DATA = re.compile(r"%|\d{2,7}-\d{2}-\d|:$")


def pdf_text(data: bytes) -> str:
    """The text of a PDF.

    Lines that stand at the head or foot of several pages are kept and marked '[page head]' or '[page foot]', so
    that a table over a page break is not cut by them.

    Raises
    ------
    InputError
        ``encrypted-document``, ``scanned-document``, ``too-many-pages``, ``unreadable-letters``, ``too-large``.
    """
    pages: list[Page] = []
    size = 0
    for page in _pages(data):
        pages.append(page)
        size += page.letters
        if size > TEXT_CHARACTERS:
            raise refused("This PDF holds more text than is read.", "too-large", f"page {len(pages)}")
    if not size:
        raise refused(
            "This PDF holds no text, only pictures of pages: it was scanned.",
            "scanned-document",
            why="letters are not guessed from a picture: a misread digit would make another substance.",
            try_="let a text recognition write a text layer into it and look its numbers over, or type the list.",
        )
    if sum(page.unknown for page in pages) > size * _UNKNOWN_SHARE:
        raise refused("The fonts of this PDF do not tell which letters they show.", "unreadable-letters")
    margins = _margin_lines(pages)
    return PAGE_BREAK.join("\n".join(_lines(page, number, margins)) for number, page in enumerate(pages, 1))


def _pages(data: bytes) -> Iterator[Page]:
    try:
        document = PDFDocument(PDFParser(BytesIO(data)))
    except (PDFPasswordIncorrect, PDFEncryptionError):
        raise locked("This PDF") from None
    manager = PDFResourceManager()
    device = PDFPageAggregator(manager, laparams=None)
    interpreter = PDFPageInterpreter(manager, device)
    for number, page in enumerate(PDFPage.create_pages(document), 1):
        if number > PDF_PAGES:
            raise refused(f"This PDF has more than {PDF_PAGES} pages.", "too-many-pages", f"page {number}")
        interpreter.process_page(page)
        yield page_of(device.get_result())


def _margin_lines(pages: list[Page]) -> _Margins:
    """The lines in the upper and lower quarter of each page, by page and text without digits."""
    found: _Margins = {}
    for number, page in enumerate(pages, 1):
        for line in page.lines:
            if not _MARGIN <= line.top <= 1 - _MARGIN:
                found.setdefault((number, _shape(line.text)), []).append(line)
    return found


def _shape(text: str) -> str:
    return _NUMBER.sub("#", text)


def _is_repeated(line: Printed, number: int, margins: _Margins) -> bool:
    """Whether a line stands at the same height on a page near by, its numbers the same or counting with the pages."""
    if _DATA.search(line.text):
        return False
    numbers = [int(digits) for digits in _NUMBER.findall(line.text)]
    for away in (-2, -1, 1, 2):
        for other in margins.get((number + away, _shape(line.text)), ()):
            pairs = zip(numbers, map(int, _NUMBER.findall(other.text)), strict=True)
            if abs(other.at - line.at) < _SAME_HEIGHT and all(there - here in (0, away) for here, there in pairs):
                return True
    return False


def _lines(page: Page, number: int, margins: _Margins) -> Iterator[str]:
    """The lines of a page, a blank line where the print leaves one, heads and feet of pages marked."""
    head, foot = _head_and_foot(page.lines, number, margins)
    if page.pictures and not page.lines:
        yield "[page without text: a picture]"
    for place, line in enumerate(page.lines):
        if line.apart and place:
            yield ""
        mark = "[page head] " if place < head and number > 1 else "[page foot] " if place >= foot else ""
        yield mark + line.text
    yield from page.turned


def _head_and_foot(lines: list[Printed], number: int, margins: _Margins) -> tuple[int, int]:
    """How many lines from the top are head, and where the foot begins.

    Those that stand at the same height on another page, up to a gap in the print: names of a list that happen to
    be the first on two pages go on without one.
    """
    head = 0
    for place, line in enumerate(lines):
        if line.apart and place:
            head = place
        if not _is_repeated(line, number, margins):
            break
    foot = len(lines)
    for place in range(len(lines) - 1, -1, -1):
        if not _is_repeated(lines[place], number, margins):
            break
        if lines[place].apart:
            foot = place
    return head, foot
