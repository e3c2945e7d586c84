"""Lists whose lines are cells of their own: signs and numbers put together, names below numbers that count up."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amount_words import is_amount_word
from formulate.reading.amounts import amounts_in
from formulate.reading.cuts import bare_name
from formulate.reading.item import Draft, read_item
from formulate.reading.lazily import lazy
from formulate.reading.recipes import RECIPE, is_number_apart

Known = Callable[[str], bool]
Span = tuple[int, int]
SPILL_DOUBT = "the cells of the last rows were printed apart: only the first is sure to belong to it"
_MOST_CELLS = 6
_SECTION = lazy(r"3\.[1-3]\.?")
_SIGN = lazy(r"(?:[<>]\s?=?|[\u2264\u2265])")
_NUMBER = lazy(r"\d{1,3}(?:[.,]\d{1,5})?(?:\s?%)?")
_UNIT = lazy(r"(?:gew\.?|wt\.?|w/w|weight)?[\s-]{0,2}%(?:\s?\(?w/w\)?)?|% ?(?:w/w|wt\.?)", re.IGNORECASE)
_AMOUNT_END = lazy(r"(?:^|[<>=\u2264\u2265\s-])\d{1,3}(?:[.,]\d{1,5})?$")
_AROMATICS = lazy(r"(?:arom[a\u00e1]t\w{0,6}|benz\w{1,4}|n-hex\w{1,4})\b\W{0,3}", re.IGNORECASE)
_BOUND_END = lazy(r"\w,?\s<\s?\d{1,2}(?:[.,]\d{1,3})?\s?%$")
# a subscript on a line of its own: 'Ethoxylated C', '12-14', 'alcohol'
_CARBONS = lazy(r"\d{1,2}\s?-\s?C?\d{1,2}")
_CARBON_END = lazy(r"(?:^|[\s(-])C$")
_COUNTER_HEAD = lazy(r"(?:nr|no|lp|pos|#|\u2116)\.?", re.IGNORECASE)
_HEAD_LINES = 60
_COUNTER = lazy(r"\d{1,3}[.)]?")


def cells_joined(copy: str, lines: list[Span]) -> list[Span]:
    """Lines of one cell each with a lone sign or unit put to its number ('<', '0,5', 'wt%'), and without the lone
    numbers of sections above their titles, which are no amounts ('3.2', 'Mixtures'). 'Naphtha, < 2 %' carries on in
    'aromatics'."""
    joined: list[Span] = []
    for number, (start, end) in enumerate(lines):
        after = copy[slice(*lines[number + 1])] if number + 1 < len(lines) else ""
        if end - start < 6 and _SECTION.fullmatch(copy, start, end) and patterns.SUBSECTION.match(after[:200]):
            continue
        before = joined[-1] if joined else (start, start)
        short = before[1] - before[0] < 30 and end - start < 30
        if (
            short
            and (
                (_SIGN.fullmatch(copy, *before) and _NUMBER.fullmatch(copy, start, end))
                or (_UNIT.fullmatch(copy, start, end) and _AMOUNT_END.search(copy, *before))
            )
            or (_CARBONS.fullmatch(copy, start, end) and _CARBON_END.search(copy, *before))
            or (before[1] - before[0] < 8 and end > start and is_number_apart(copy[slice(*before)], copy[start:end]))
            or (end - start < 30 and _AROMATICS.fullmatch(copy, start, end) and _BOUND_END.search(copy, *before))
        ):
            joined[-1] = (before[0], end)
        else:
            joined.append((start, end))
    return joined


def without_counters(copy: str, lines: list[Span]) -> list[Span]:
    """Lines of one cell each without the numbers of the rows, and without the heads from 'No.' down to the first."""
    head = next((n for n, span in enumerate(lines[:_HEAD_LINES]) if _COUNTER_HEAD.fullmatch(copy, *span)), None)
    if head is None:
        return lines
    one = next((n for n in range(head + 1, min(head + 20, len(lines))) if copy[slice(*lines[n])] == "1"), None)
    if one is None or any(patterns.CAS.search(copy, *span) for span in lines[head:one]):
        return lines
    kept, count = lines[:head], 1
    for number, (start, end) in enumerate(lines[one + 1 :], one + 1):
        after = copy[slice(*lines[number + 1])] if number + 1 < len(lines) else ""
        if copy[start:end] == str(count + 1) and patterns.LETTER.search(after[:60]):
            count += 1
        else:
            kept.append((start, end))
    return kept


def is_measure(cell: str) -> bool:
    """Whether a cell holds a measure or an amount and nothing else."""
    if len(cell) > 60:
        return False
    if RECIPE.fullmatch(cell.lstrip("= ")) or is_amount_word(cell) or not patterns.LETTER.search(cell):
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
        is_measure(copy[a:b]) for row in rows for a, b in row
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
