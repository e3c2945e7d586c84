"""Lists whose lines are cells: a name and a measure parted by bars, or names below numbers that count up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amounts import amounts_in
from formulate.reading.cuts import Entry, bare_name
from formulate.reading.item import Draft, read_item
from formulate.reading.lazily import lazy

Known = Callable[[str], bool]
Span = tuple[int, int]
SPILL_DOUBT = "the cells of the last rows were printed apart: only the first is sure to belong to it"
_MOST_CELLS = 6
_COUNTER = lazy(r"\d{1,3}[.)]?")


def bar_entries(copy: str, lines: list[Span]) -> list[Entry]:
    """Entries of lines 'Name | 9 dl |': one name a line, the other cells empty or a measure. Empty where it is no such
    list."""
    barred = [span for span in lines if copy.find("|", *span) != -1]
    if len(barred) < 2 or len(barred) * 3 < len(lines) * 2:
        return []
    cells = [[cell.strip() for cell in copy[a:b].split("|") if cell.strip()] for a, b in barred]
    if any(len(row) > _MOST_CELLS or sum(not _is_measure(cell) for cell in row) > 1 for row in cells):
        return []
    measured = [any(_is_measure(cell) for cell in row) for row in cells]
    if sum(measured) * 2 < len(barred):
        return []
    # above the first measured row a single cell is the title of the list
    first = measured.index(True)
    return [
        Entry(*span)
        for span, row in zip(barred[first:], cells[first:], strict=True)
        if len(row) > sum(map(_is_measure, row))
    ]


def _is_measure(cell: str) -> bool:
    if len(cell) > 60:
        return False
    if patterns.RECIPE.fullmatch(cell) or not patterns.LETTER.search(cell):
        return True
    amounts = amounts_in(cell, 0, len(cell))
    return len(amounts) == 1 and (amounts[0].start, amounts[0].end) == (0, len(cell))


def counted_drafts(text: str, copy: str, lines: list[Span], known: Known) -> list[Draft]:
    """Entries of a table that came one cell a line, each row below its number: '1', 'Woda', 'Aqua', '2', ...

    Which of the cells of a row is its name the print does not say: the first that the word list has, else the first.
    """
    starts: list[int] = []
    for at, span in enumerate(lines):
        if _COUNTER.fullmatch(copy, *span) and copy[slice(*span)].rstrip(".)") == str(len(starts) + 1):
            starts.append(at)
    if len(starts) < 3:
        return []
    rows = [_cells(copy, lines[a + 1 : b]) for a, b in zip(starts, [*starts[1:], len(lines)], strict=True)]
    if any(not row or len(row) > _MOST_CELLS * 2 for row in rows) or any(
        _is_measure(copy[a:b]) for row in rows for a, b in row
    ):
        return []
    widths = Counter(len(row) for row in rows[:-1])
    widest = max((width for width, times in widths.items() if times > 1), default=max(widths))
    drafts = []
    for row in rows:
        spilled = len(row) > widest
        own = row[:1] if spilled else row
        chosen = next((span for span in own if known(bare_name(copy[slice(*span)]))), own[0])
        draft = read_item(text, copy, *chosen)
        if draft is not None:
            drafts.append(
                draft._replace(spans=((own[0][0], own[-1][1]),), doubtful=SPILL_DOUBT if spilled else draft.doubtful)
            )
    return drafts


def _cells(copy: str, lines: list[Span]) -> list[Span]:
    """The lines of a row as cells; a line that begins in lower case carries on the one above."""
    cells: list[Span] = []
    for start, end in lines:
        if cells and copy[start].islower():
            cells[-1] = (cells[-1][0], end)
        else:
            cells.append((start, end))
    return cells
