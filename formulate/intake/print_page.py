"""One printed page as lines of text: letters by their places, cells by the gaps and rules between them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from pdfminer.layout import LTChar, LTContainer, LTCurve, LTImage, LTPage

from formulate.intake.ruled import Rules, is_apart, rows_of, spaced_rows

_SAME_LINE = 0.45
_WORD_GAP = 0.16
_CELL_GAP = 0.9
_OVERPRINT = 0.1
# Signs that fonts draw in one piece; a soft hyphen that is drawn is a hyphen.
_SIGNS = str.maketrans(
    {
        "\ufb00": "ff",
        "\ufb01": "fi",
        "\ufb02": "fl",
        "\ufb03": "ffi",
        "\ufb04": "ffl",
        "\ufb05": "st",
        "\ufb06": "st",
        "\xad": "-",
        "\t": " ",
        "\n": " ",
        "\r": " ",
        "\f": " ",
        "\x0b": " ",
        "\x00": "\ufffd",
    }
)


class Glyph(NamedTuple):
    """A letter and its box in points, y upwards."""

    x0: float
    x1: float
    middle: float
    size: float
    text: str


class Cell(NamedTuple):
    """A stretch of text on one line, up to the next wide gap or rule."""

    x0: float
    x1: float
    text: str


class Row(NamedTuple):
    """The cells of one printed line."""

    middle: float
    size: float
    cells: list[Cell]


class Printed(NamedTuple):
    """A line of text: ``at`` its height in points, ``top`` the share of the page above it; ``apart`` after a gap."""

    text: str
    at: float
    top: float
    apart: bool


class Page(NamedTuple):
    """What one page prints. ``turned`` is text that does not stand upright; ``unknown`` counts signless letters."""

    lines: list[Printed]
    turned: list[str]
    letters: int
    unknown: int
    pictures: bool


def page_of(layout: LTPage) -> Page:
    """The lines of a page from top to bottom."""
    glyphs: list[Glyph] = []
    turned: list[str] = []
    shapes: list[Any] = []
    pictures = False
    unknown = 0
    waiting: list[Any] = [layout]
    while waiting:
        one = waiting.pop()
        if isinstance(one, LTChar):
            text = one.get_text()
            if text.startswith("(cid:"):
                text, unknown = "\ufffd", unknown + 1
            text = text.translate(_SIGNS)
            if one.upright:
                glyphs.append(Glyph(one.x0, one.x1, (one.y0 + one.y1) / 2, max(one.size, 1.0), text))
            else:
                turned.append(text)
        elif isinstance(one, LTContainer):
            waiting += reversed(list(one))
        elif isinstance(one, LTCurve):
            shapes.append(one)
        elif isinstance(one, LTImage):
            pictures = True
    rules = Rules.of(shapes)
    rows = spaced_rows(rows_of([_row(line, rules) for line in _by_lines(glyphs)], rules))
    height = max(layout.height, 1.0)
    lines = []
    above: Row | None = None
    for row in rows:
        apart = above is not None and is_apart(above, row)
        text = "\t".join(cell.text for cell in row.cells)
        lines.append(Printed(text, row.middle - layout.y0, (layout.y1 - row.middle) / height, apart))
        above = row
    aside = [text for text in ["".join(turned).strip()] if text]
    return Page(lines, aside, sum(not glyph.text.isspace() for glyph in glyphs) + len(turned), unknown, pictures)


def _by_lines(glyphs: Iterable[Glyph]) -> list[list[Glyph]]:
    """Letters of one line together: their middles differ by less than half their size."""
    lines: list[list[Glyph]] = []
    for glyph in sorted((glyph for glyph in glyphs if not glyph.text.isspace()), key=lambda one: -one.middle):
        first = lines[-1][0] if lines else None
        if first is not None and first.middle - glyph.middle <= _SAME_LINE * max(first.size, glyph.size):
            lines[-1].append(glyph)
        else:
            lines.append([glyph])
    return lines


def _row(line: list[Glyph], rules: Rules) -> Row:
    """The cells of a line of letters."""
    line.sort(key=lambda glyph: glyph.x0)
    middles = sorted(glyph.middle for glyph in line)
    middle = middles[len(middles) // 2]
    cells: list[Cell] = []
    letters: list[str] = []
    start = line[0].x0
    before: Glyph | None = None
    for glyph in line:
        if before is not None:
            size = max(before.size, glyph.size)
            gap = glyph.x0 - before.x1
            if glyph.text == before.text and glyph.x0 - before.x0 < _OVERPRINT * size:
                continue  # bold by printing twice
            if gap >= _CELL_GAP * size or rules.wall_between(before.x1, glyph.x0, middle):
                cells.append(Cell(start, before.x1, "".join(letters)))
                letters, start = [], glyph.x0
            elif gap >= _WORD_GAP * min(before.size, glyph.size):
                letters.append(" ")
        letters.append(glyph.text)
        before = glyph
    if before is not None:
        cells.append(Cell(start, before.x1, "".join(letters)))
    return Row(middle, max(glyph.size for glyph in line), cells)
