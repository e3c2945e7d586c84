"""Station 2 on a screen of some width: ranges as figures and as bars on a log scale. Paints what is asked for."""

from __future__ import annotations

from typing import NamedTuple

from formulate.tui.figures import Figure, Row, Sheet
from formulate.tui.layout import WIDE, with_tail
from formulate.tui.paint import Painted, Piece, cell, rule, width_of, wrap
from formulate.workflow.bars import bar
from formulate.workflow.gate import cut, padded


class Widths(NamedTuple):
    """Widths in cells: number, name, each limit, likely range, printed amount (0: in the foot), bar."""

    number: int
    name: int
    limit: int
    likely: int
    printed: int
    bar: int


def widths(width: int, lines: int) -> Widths:
    """Columns for a screen of this width and a list of this many lines."""
    number = max(2, len(str(lines)))
    limit, likely, printed = (7, 17, 13) if width >= WIDE else (6, 15, 0)
    room = width - number - 2 * limit - likely - printed - (11 if printed else 10)
    drawn = min(max(room // 2, 10), 40)
    return Widths(number, max(room - drawn, 8), limit, likely, printed, drawn)


class AmountsLayout:
    """Rows of the screen for the sheet of the amounts. ``stand`` and ``stale`` may change between two drawings."""

    def __init__(self, sheet: Sheet, width: int) -> None:
        self.sheet, self.width = sheet, width
        self.stand, self.stale = "", False
        self.widths = widths(width, sum(row.group == "line" for row in sheet.rows))
        self._rows: list[tuple[int, int]] = []
        self._first: dict[int, int] = {}
        before = ""
        for i, row in enumerate(sheet.rows):
            if row.group == "line" and before == "total":
                self._rows.append((-1, 0))
            before = row.group or before
            self._first[i] = len(self._rows)
            self._rows.extend((i, sub) for sub in range(self._height(row)))
            if row.group == "line" and any(one.field == "place" and one.corrected for one in row.figures):
                self._rows.append((-2, 0))

    def _height(self, row: Row) -> int:
        return len(self._text_rows(row)) if row.kind == "text" else 1

    def _text_rows(self, row: Row) -> list[str]:
        return wrap(row.figures[0].text, self.width - 4)

    @property
    def head(self) -> Painted:
        """The heads of the columns, which stay in sight."""
        at = self.widths
        named = padded("in the bottle", at.number + at.name + 2)
        limits = padded("certain, %".center(2 * at.limit + 4), 2 * at.limit + 5)
        likely = padded("likely, 9 in 10", at.likely + 1)
        printed = padded("printed", at.printed + 1) if at.printed else ""
        scale = " 10 ppm" + "100 %".rjust(at.bar - 6)
        return (Piece(cut(f" {named}{limits}{likely}{printed}{scale}", self.width), "muted"),)

    @property
    def count(self) -> int:
        """Rows in all."""
        return len(self._rows)

    def span(self) -> tuple[int, int]:
        """First and last screen row of the place one stands on, with the one-percent line if it falls behind it."""
        if self.stand not in self.sheet:
            return 0, 0
        index = self.sheet.row_of(self.stand)
        first = self._first[index]
        last = first + self._height(self.sheet.rows[index]) - 1
        marked = last + 1 < len(self._rows) and self._rows[last + 1][0] == -2
        return first, last + marked

    def paint(self, index: int) -> Painted:
        """One row of the screen."""
        at, sub = self._rows[index]
        if at == -1:
            return (Piece(""),)
        if at == -2:
            return rule(self.width, "1 % line, as you said: what stands below is at most 1 %")
        row = self.sheet.rows[at]
        if row.kind == "text":
            return self._paint_text(row, sub)
        return self._paint_said(row) if row.kind == "said" else self._paint_range(row)

    def _paint_said(self, row: Row) -> Painted:
        half = (self.width - 4) // 2
        pieces: list[Piece] = []
        for figure in row.figures:
            mark = "*" if figure.corrected else ""
            pieces += cell(figure.text, half, figure.key, figure.key == self.stand, "strong", mark)
        return tuple(pieces)

    def _paint_text(self, row: Row, sub: int) -> Painted:
        figure = row.figures[0]
        standing = figure.key == self.stand
        style = "stand" if standing else "warn" if figure.field == "clash" else "muted"
        text = self._text_rows(row)[sub]
        if figure.field == "clash" and figure.key != "clash/all/text":
            text = ("- " if sub == 0 else "  ") + text
        return cell(text, self.width - 2, figure.key, standing and sub == 0, style)

    def _paint_range(self, row: Row) -> Painted:
        found = {figure.field: figure for figure in row.figures}
        at = self.widths
        pieces: list[Piece] = []
        name = found.get("name") or found["total"]
        if (place := found.get("place")) is not None:
            pieces += self._cell(place, place.text.rjust(at.number), at.number + 1, "muted")
            pieces += self._cell(name, name.text, at.name, "")
        else:
            pieces += self._cell(name, name.text, at.number + at.name + 2, "")
        pieces += self._cell(found["low"], self._stale(found["low"]).rjust(at.limit), at.limit, "")
        pieces.append(Piece(" -" if found["low"].text != "-" else "  ", "muted"))
        pieces += self._cell(found["high"], self._stale(found["high"]), at.limit, "strong")
        pieces += self._cell(found["likely"], found["likely"].text, at.likely, "")
        if at.printed:
            printed = found.get("printed") or found.get("told")
            pieces += self._cell(printed, printed.text, at.printed, "muted") if printed else (_gap(at.printed + 1),)
        if row.range is not None:
            drawn = bar(row.range.hard, row.range.likely, at.bar)
            pieces += [Piece(" "), Piece(drawn, "", found["likely"].key)]
        return tuple(pieces)

    def _stale(self, figure: Figure) -> str:
        return f"~{figure.text}" if self.stale else figure.text

    def _cell(self, figure: Figure, text: str, width: int, style: str) -> Painted:
        mark = "*" if figure.corrected else ""
        return cell(text, width, figure.key, figure.key == self.stand, style, mark)

    def foot(self, below: int) -> Painted:
        """The row under the sheet: what the columns have no room for, of the line one stands on."""
        more = f"{below} more below" if below > 0 else ""
        row = self.sheet.rows[self.sheet.row_of(self.stand)] if self.stand in self.sheet else None
        pieces = [Piece(f" line {row.position}" if row is not None and row.position else " ", "muted")]
        in_foot = {"supplied": ""} if self.widths.printed else {"supplied": "", "printed": "printed ", "told": ""}
        for figure in row.figures if row is not None and row.kind == "range" else ():
            if figure.field in in_foot:
                text = in_foot[figure.field] + figure.text
                mark = "*" if figure.corrected else ""
                size = min(width_of((Piece(cut(text, 46)),)) + len(mark), 47)
                pieces += [Piece("  "), *cell(text, size, figure.key, figure.key == self.stand, "", mark)]
        return with_tail(tuple(pieces), more, self.width)


def _gap(width: int) -> Piece:
    return Piece(" " * width)
