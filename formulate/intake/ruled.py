"""Rows of a table between the rules drawn on a page, or between its gaps: a wrapped cell becomes one line again."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from formulate.intake.print_page import Cell, Row

_THIN = 2.5
_SHORTEST = 4.0
_TOUCH = 2.0
_COVER = 0.9
_EDGE = 1.5
_MOST_LINES = 14
_MOST_SHAPES = 20_000
_GAP = 0.6
_ROW_COLUMNS = 3
_RUN = 3
_FIGURES = re.compile(r"[\d\s.,%<>=\u2264\u2265~\u2013-]{1,24}")


class Rule(NamedTuple):
    """A straight rule: ``at`` is its x (upright) or y (level), ``start`` and ``end`` its reach."""

    at: float
    start: float
    end: float


class Rules(NamedTuple):
    """Upright and level rules of a page, each sorted by where it stands."""

    upright: list[Rule]
    level: list[Rule]

    @classmethod
    def of(cls, shapes: Iterable[Any]) -> Rules:
        """Rules from the lines and boxes of a page; a thin box is a rule, a large one has four."""
        upright: list[Rule] = []
        level: list[Rule] = []
        for number, shape in enumerate(shapes):
            if number >= _MOST_SHAPES:
                break
            x0, y0, x1, y1 = shape.bbox
            if x1 - x0 <= _THIN:
                upright.append(Rule((x0 + x1) / 2, y0, y1))
            elif y1 - y0 <= _THIN:
                level.append(Rule((y0 + y1) / 2, x0, x1))
            elif len(getattr(shape, "pts", ())) <= 5:
                upright += [Rule(x0, y0, y1), Rule(x1, y0, y1)]
                level += [Rule(y0, x0, x1), Rule(y1, x0, x1)]
        return cls(_joined(upright), _joined(level))

    def wall_between(self, left: float, right: float, y: float) -> bool:
        """Whether an upright rule stands between two letters of a line at height ``y``."""
        first = bisect_left(self.upright, (left - _EDGE,))
        last = bisect_right(self.upright, (right + _EDGE,))
        return any(rule.start <= y <= rule.end for rule in self.upright[first:last])

    def walls(self, y: float) -> list[float]:
        """Where upright rules cross a line at height ``y``."""
        return [rule.at for rule in self.upright if rule.start <= y <= rule.end]

    def band(self, row: Row) -> tuple[int, int] | None:
        """Numbers of the level rules below and above a line, if both reach over it."""
        left, right = row.cells[0].x0, row.cells[-1].x1
        need = _COVER * (right - left)
        place = bisect_left(self.level, (row.middle,))
        below = next((n for n in range(place - 1, -1, -1) if _overlap(self.level[n], left, right) >= need), None)
        above = next((n for n in range(place, len(self.level)) if _overlap(self.level[n], left, right) >= need), None)
        return None if below is None or above is None else (below, above)


def rows_of(lines: list[Row], rules: Rules) -> list[Row]:
    """Lines of a page, with the lines between two level rules joined where they are one row of a table."""
    rows: list[Row] = []
    group: list[Row] = []
    band: tuple[int, int] | None = None
    for line in lines:
        own = rules.band(line) if rules.level else None
        if own is None or own != band:
            rows += _one_row(group, rules)
            group, band = [], own
        group.append(line)
    return rows + _one_row(group, rules)


def is_apart(above: Row, row: Row) -> bool:
    """Whether more than usual is left free between two lines."""
    return above.middle - row.middle - (above.size + row.size) / 2 > _GAP * min(row.size, above.size)


def spaced_rows(lines: list[Row]) -> list[Row]:
    """Lines of a page, with wrapped cells joined in tables whose rows are set apart by gaps.

    Only where three or more groups of lines follow each other that each look like a row of three or more columns:
    then a line close to another is a part of its row. Elsewhere nothing tells, and the lines stay as they are.
    """
    groups: list[list[Row]] = []
    for line in lines:
        if groups and not is_apart(groups[-1][-1], line):
            groups[-1].append(line)
        else:
            groups.append([line])
    mains = [_is_main(group) for group in groups]
    rows: list[Row] = []
    for number, group in enumerate(groups):
        first = number
        while first and mains[first - 1] and number - first < _RUN:
            first -= 1
        last = number
        while last + 1 < len(groups) and mains[last + 1] and last - number < _RUN:
            last += 1
        rows += _one_row(group, None) if mains[number] and last - first + 1 >= _RUN else group
    return rows


def _is_main(group: list[Row]) -> bool:
    """Whether lines close together look like one row of three or more columns."""
    if len(group) > _MOST_LINES:
        return False
    columns, _ = _columns(group, None)
    return len(columns) >= _ROW_COLUMNS and (len(group) == 1 or _is_row(columns, False))


def _one_row(lines: list[Row], rules: Rules | None) -> list[Row]:
    """The lines of one band as one row if they are one, else as they are."""
    if not 2 <= len(lines) <= _MOST_LINES:
        return lines
    columns, walled = _columns(lines, rules)
    if not _is_row(columns, walled) or (rules is None and not _single_figures(columns)):
        return lines  # between gaps, words alone may be a title close above the head of a table
    cells = [
        column[0][1]._replace(x1=max(cell.x1 for _, cell in column), text=_spliced([cell.text for _, cell in column]))
        for column in columns
    ]
    middle = (lines[0].middle + lines[-1].middle) / 2
    return [lines[0]._replace(middle=middle, size=lines[0].middle - lines[-1].middle + lines[0].size, cells=cells)]


def _is_row(columns: list[list[tuple[int, Cell]]], walled: bool) -> bool:
    """Whether lines in columns are one row with wrapped cells: some column must hold a single line.

    Without upright rules a band may hold a whole table with gaps in it: there half the columns must hold a single
    line, or the only column of figures must.
    """
    single = [column for column in columns if len({number for number, _ in column}) == 1]
    if len(columns) < 2 or not single:
        return False
    if walled or len(single) * 2 >= len(columns):
        return True
    figures = [sum(_FIGURES.fullmatch(cell.text) is not None for _, cell in column) for column in columns]
    return max(figures) == 1 and _single_figures(columns)


def _single_figures(columns: list[list[tuple[int, Cell]]]) -> bool:
    """Whether some column holds figures and nothing else, on a single line."""
    return any(len(column) == 1 and _FIGURES.fullmatch(column[0][1].text) is not None for column in columns)


def _columns(lines: list[Row], rules: Rules | None) -> tuple[list[list[tuple[int, Cell]]], bool]:
    """Cells with the number of their line, by column: between upright rules, else between gaps common to all lines."""
    cells = [(number, cell) for number, line in enumerate(lines) for cell in line.cells]
    left, right = min(cell.x0 for _, cell in cells), max(cell.x1 for _, cell in cells)
    middle = (lines[0].middle + lines[-1].middle) / 2
    walls = [x for x in rules.walls(middle) if left < x < right] if rules else []
    columns: dict[int, list[tuple[int, Cell]]] = {}
    if walls:
        for number, cell in cells:
            columns.setdefault(bisect_left(walls, (cell.x0 + cell.x1) / 2), []).append((number, cell))
    else:
        reach = left
        place = 0
        for number, cell in sorted(cells, key=lambda one: one[1].x0):
            place += cell.x0 > reach + _TOUCH
            reach = max(reach, cell.x1)
            columns.setdefault(place, []).append((number, cell))
    return [sorted(columns[key], key=lambda one: (one[0], one[1].x0)) for key in sorted(columns)], bool(walls)


def _spliced(texts: list[str]) -> str:
    """Text wrapped in a cell as one; a line that ends in a hyphen within a word goes on without a blank."""
    whole = texts[0]
    for text in texts[1:]:
        whole += text if whole[-1:] == "-" and whole[-2:-1].isalnum() else " " + text
    return whole


def _overlap(rule: Rule, left: float, right: float) -> float:
    return min(rule.end, right) - max(rule.start, left)


def _joined(rules: list[Rule]) -> list[Rule]:
    """Rules drawn piece by piece (one a cell) as one; pieces too short for a rule are left out."""
    joined: list[Rule] = []
    rules = [rule._replace(at=round(rule.at, 0)) for rule in rules]
    for rule in sorted(rules):
        last = joined[-1] if joined else None
        if last is not None and rule.at == last.at and rule.start <= last.end + _TOUCH:
            joined[-1] = last._replace(end=max(last.end, rule.end))
        else:
            joined.append(rule)
    return [rule for rule in joined if rule.end - rule.start >= _SHORTEST]
