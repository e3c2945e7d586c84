"""The sheet on a screen of some width: columns, groups on the left, texts wrapped. Paints only what is asked for."""

from __future__ import annotations

from typing import NamedTuple

from formulate.tui.figures import Figure, Row, Sheet
from formulate.tui.paint import Painted, Piece, cell, width_of, wrap
from formulate.workflow.gate import cut, padded

WIDE = 100
"""From this width on the class has a column of its own."""
CERTAINTY = 7


class Columns(NamedTuple):
    """Widths in cells of the columns; ``class_`` 0: the class stands in the foot."""

    group: int
    number: int
    raw: int
    identity: int
    class_: int
    purpose: int


def columns(width: int, lines: int) -> Columns:
    """Columns for a screen of this width and a list of this many lines."""
    number = max(2, len(str(lines)))
    wide = width >= WIDE
    group, class_ = (18, 13) if wide else (10, 0)
    purpose = 19 if wide else 15
    room = width - 2 - group - number - 2 * (4 if wide else 3) - 1 - CERTAINTY - class_ - purpose
    raw = max(room // 2, 8)
    return Columns(group, number, raw, max(room - raw, 8), class_, purpose)


class _At(NamedTuple):
    """A screen row: row of the sheet (-1: none), which row of its text, its group, and which row of the group."""

    row: int
    sub: int
    group: str
    in_group: int


class Layout:
    """Rows of the screen for the rows of a sheet. ``stand`` and ``stale`` may change between two drawings."""

    def __init__(self, sheet: Sheet, width: int) -> None:
        self.sheet, self.width = sheet, width
        self.stand, self.stale = "", False
        lines = sum(row.kind == "line" for row in sheet.rows)
        self.columns = columns(width, lines)
        self._titles = {row.group: wrap(row.group, self.columns.group) for row in sheet.rows if row.kind != "answer"}
        self._rows: list[_At] = []
        self._first: dict[int, int] = {}
        self._place_rows()

    def _place_rows(self) -> None:
        group, in_group = "", 0
        for i, row in enumerate(self.sheet.rows):
            if row.kind == "answer":
                continue
            if row.group != group:
                self._finish_group(group, in_group)
                if group and row.kind == "text" and not self._is_text(self._rows[-1].row):
                    self._rows.append(_At(-1, 0, "", 0))
                group, in_group = row.group, 0
            self._first[i] = len(self._rows)
            for sub in range(1 if row.kind == "line" else len(self._text_rows(row))):
                self._rows.append(_At(i, sub, group, in_group))
                in_group += 1
        self._finish_group(group, in_group)

    def _finish_group(self, group: str, done: int) -> None:
        """Room for a title of more rows than its group has."""
        self._rows.extend(_At(-1, 0, group, extra) for extra in range(done, len(self._titles.get(group, []))))

    def _is_text(self, index: int) -> bool:
        return index >= 0 and self.sheet.rows[index].kind == "text"

    def _text_rows(self, row: Row) -> list[str]:
        figure = row.figures[0]
        mark = " *" if figure.corrected else ""
        return wrap(figure.text + mark, self.width - self.columns.group - 4)

    @property
    def count(self) -> int:
        """Rows in all."""
        return len(self._rows)

    def span(self) -> tuple[int, int]:
        """First and last screen row of the place one stands on."""
        if self.stand not in self.sheet:
            return 0, 0
        at = self._first.get(self.sheet.row_of(self.stand))
        if at is None:
            return 0, 0
        row = self.sheet.rows[self.sheet.row_of(self.stand)]
        return at, at + (0 if row.kind == "line" else len(self._text_rows(row)) - 1)

    def paint(self, index: int) -> Painted:
        """One row of the screen."""
        at, sub, group, in_group = self._rows[index]
        if at < 0:
            return (Piece(" " + self._title(group, in_group), "group"),)
        row = self.sheet.rows[at]
        return self._paint_line(row, in_group) if row.kind == "line" else self._paint_text(row, sub, in_group)

    def _title(self, group: str, index: int) -> str:
        titles = self._titles.get(group, [])
        return titles[index] if index < len(titles) else ""

    def _paint_line(self, row: Row, in_group: int) -> Painted:
        by_field = {figure.field: figure for figure in reversed(row.figures)}
        sizes = self.columns
        fate = by_field.get("fate")
        title = self._title(row.group, in_group)
        if fate is not None and fate.key == self.stand:
            title = fate.text
        pieces = list(
            cell(title, sizes.group, fate.key if fate else None, fate is not None and fate.key == self.stand, "group")
        )
        pieces.append(Piece(" " + str(row.position).rjust(sizes.number), "muted", by_field["raw"].key))
        shown = [("raw", sizes.raw), ("identity", sizes.identity)]
        shown += [("class", sizes.class_)] if sizes.class_ else []
        for field, width in [*shown, ("purpose", sizes.purpose), ("certainty", CERTAINTY - 1)]:
            pieces += self._paint_figure(by_field.get(field), field, width)
        return tuple(pieces)

    def _paint_figure(self, figure: Figure | None, field: str, width: int) -> Painted:
        if figure is None:
            return (Piece("  " + padded("~" if field in {"identity", "purpose"} else "", width), "muted"),)
        text = figure.text
        if self.stale and field in {"identity", "purpose", "certainty", "class"}:
            text = "~" + text
        style = {"raw": "", "identity": "", "purpose": "strong", "certainty": "", "class": "muted"}[field]
        return (
            Piece(" "),
            *cell(text, width, figure.key, figure.key == self.stand, style, "*" if figure.corrected else ""),
        )

    def _paint_text(self, row: Row, sub: int, in_group: int) -> Painted:
        figure = row.figures[0]
        standing = figure.key == self.stand
        title = " " + padded(self._title(row.group, in_group), self.columns.group)
        warn = figure.field in {"conflict", "caution"}
        text = self._text_rows(row)[sub]
        return (
            Piece(title, "warn" if warn and sub == 0 else "group", figure.key),
            Piece(" "),
            *cell(
                text,
                self.width - self.columns.group - 4,
                figure.key,
                standing and sub == 0,
                "stand" if standing else "warn" if warn else "",
            ),
        )

    def foot(self, below: int) -> Painted:
        """The row under the sheet: what the columns have no room for, of the line one stands on."""
        more = f"{below} more below" if below > 0 else ""
        if self.stand not in self.sheet:
            return with_tail((Piece(" "),), more, self.width)
        row = self.sheet.rows[self.sheet.row_of(self.stand)]
        in_foot = {"also", "amount"} | (set() if self.columns.class_ else {"class"})
        pieces = [Piece(f" line {row.position}" if row.kind == "line" else " ", "muted")]
        words = {"class": "class ", "also": "also ", "amount": "printed "}
        for figure in row.figures if row.kind == "line" else ():
            if figure.field in in_foot:
                standing = figure.key == self.stand
                pieces += [
                    Piece("  "),
                    *cell(
                        words[figure.field] + figure.text,
                        len(words[figure.field]) + len(cut(figure.text, 26)),
                        figure.key,
                        standing,
                    ),
                ]
        return with_tail(tuple(pieces), more, self.width)


def with_tail(pieces: Painted, tail: str, width: int) -> Painted:
    """Pieces with words at the right end, if there is room."""
    room = width - width_of(pieces)
    return (*pieces, Piece(tail.rjust(room - 1), "muted")) if tail and room > len(tail) + 2 else pieces
