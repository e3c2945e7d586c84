"""Figures and the walk over them: every figure is a place to stand. Pure; knows nothing of the screen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from formulate.workflow.amount_answers import PlausibleRange

AnswerName = Literal["read", "roles", "brief", "bounds", "drawn"]
"""Which answer a figure is of; ``drawn`` is the newest with likely ranges, which can be of before."""


class Figure(NamedTuple):
    """One figure. ``key`` survives recomputation (it hangs on the line's id, not on its position)."""

    key: str
    field: str
    text: str
    title: str
    answer: AnswerName
    pointer: str
    line: str | None = None
    position: int = 0
    corrected: bool = False
    sentence: str = ""

    def said(self) -> str:
        """The figure as a sentence that stands alone."""
        return self.sentence or f"{self.title}: {self.text}"


class Range(NamedTuple):
    """What a bar shows: the certain range and the likely one."""

    hard: tuple[float, float]
    likely: PlausibleRange | None


class Row(NamedTuple):
    """One row of the grid that arrow keys walk. ``kind``: answer (the band on top), line (of the list), said (of the
    amounts as a whole), range (of an amount), text."""

    kind: Literal["answer", "line", "said", "range", "text"]
    group: str
    figures: tuple[Figure, ...]
    position: int = 0
    range: Range | None = None


class Sheet:
    """Rows of figures, and the walk over them."""

    def __init__(self, rows: Sequence[Row]) -> None:
        self.rows = tuple(row for row in rows if row.figures)
        self.figures = [figure for row in self.rows for figure in row.figures]
        self._at = {figure.key: i for i, figure in enumerate(self.figures)}
        self._row = {figure.key: i for i, row in enumerate(self.rows) for figure in row.figures}

    def __contains__(self, key: str) -> bool:
        return key in self._at

    def figure(self, key: str) -> Figure:
        """A figure by key. Raises KeyError."""
        return self.figures[self._at[key]]

    def row_of(self, key: str) -> int:
        """Index of the row a figure stands in."""
        return self._row[key]

    def beside(self, key: str, step: int) -> str:
        """The next figure (or the one before); the same at the end."""
        return self.figures[min(max(self._at[key] + step, 0), len(self.figures) - 1)].key

    def vertical(self, key: str, step: int, wanted: str) -> str:
        """The figure in the wanted column ``step`` rows away: the same field, else purpose or most, else the first."""
        row = self.rows[min(max(self._row[key] + step, 0), len(self.rows) - 1)]
        columns = {figure.key.rpartition("/")[2]: figure.key for figure in reversed(row.figures)}
        return columns.get(wanted) or columns.get("purpose") or columns.get("high") or row.figures[0].key

    def first(self) -> str:
        """Where one stands first: the purpose of the first line, the first thing said of the amounts, else the first
        figure below the band."""
        for row in self.rows:
            if row.kind == "line":
                return next((one.key for one in row.figures if one.field == "purpose"), row.figures[0].key)
        below = [row for row in self.rows if row.kind != "answer"] or list(self.rows)
        return below[0].figures[0].key if below else ""
