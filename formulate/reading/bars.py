"""Tables pasted with bars between their cells ('| Aqua | 80 - 90 |'): the head names the columns, else the cells do."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from formulate.domain.line import Stated
from formulate.reading import patterns
from formulate.reading.amount_words import is_amount_word
from formulate.reading.amounts import amounts_in
from formulate.reading.grids import is_measure
from formulate.reading.item import Draft, clean_name, read_item
from formulate.reading.lazily import lazy
from formulate.reading.recipes import RECIPE, unmeasured
from formulate.reading.surface import stripped

Known = Callable[[str], bool]
Span = tuple[int, int]
_MOST_CELLS = 12
_NAME_HEAD = lazy(
    r"\b(?:ingredients?|inci|components?|materials?|substances?|chemicals?|compounds?|names?|ingr\u00e9dients?|ingredientes?"
    r"|ingredienti?|composants?|stoff(?:name)?|bezeichnung|nom|nombre|nome|nazwa|sk\u0142adnik|\u0441\u043e\u0441\u0442\u0430\u0432)\b"
    r"|\u6210\u5206|\u540d\u79f0|\u539f\u6599",
    re.IGNORECASE,
)
_SHARE_HEAD = lazy(r"%|\b(?:percent|wt|w/w|gew)\b", re.IGNORECASE)
_AMOUNT_HEAD = lazy(
    r"\b(?:amounts?|quantit\w{1,3}|qty|range|conc\w{0,12}|parts?|proportions?|level|dosage|weight|grams?|menge|gehalt|anteil"
    r"|teneur|dose|cantidad|quantidade)\b|\u542b\u91cf",
    re.IGNORECASE,
)
_ROLE_HEAD = lazy(r"\b(?:functions?|functional\srole|roles?|purpose|use|used\sfor|funktion|fonction)\b", re.IGNORECASE)
_RULE = lazy(r"[\s|:+=_-]+")


class _Columns(NamedTuple):
    """Which column holds what; -1 where none does."""

    name: int
    share: int
    role: int


def bar_drafts(text: str, copy: str, lines: list[Span], known: Known) -> list[Draft]:
    """The entries of a table with bars; empty where the lines are no such table or no column looks like names."""
    barred = [span for span in lines if copy.find("|", *span) != -1 and not _RULE.fullmatch(copy, *span)]
    if len(barred) < 2 or len(barred) * 2 < len(lines):
        return []
    rows = [_cells(copy, span) for span in barred]
    width = max(len(row) for row in rows)
    if not 2 <= width <= _MOST_CELLS:
        return []
    head = next((n for n, row in enumerate(rows[:3]) if _is_head(copy, row)), None)
    body = rows[head + 1 :] if head is not None else rows
    columns = _from_head(copy, rows[head], body) if head is not None else _from_cells(copy, body, width)
    if head is None:  # above the first measured row stands the title of the list
        body = body[
            next(
                (n for n, row in enumerate(body) if any(is_measure(_text(copy, c)) for c in row if _text(copy, c))), 0
            ) :
        ]
    if columns.name < 0:
        return []
    drafts = [draft for row in body if (draft := _drafted(text, copy, row, columns))]
    if columns.share < 0 and not any(known(draft.name) for draft in drafts):
        return []
    return drafts if len(drafts) > 1 else []


def _cells(copy: str, span: Span) -> list[Span]:
    """The cells of a line, without the bars at its ends."""
    start, end = span
    start += copy[start] == "|"
    end -= copy[end - 1] == "|" and end > start
    cells, left = [], start
    for match in re.compile(r"\||$").finditer(copy, start, end):
        cells.append((left, match.start()))
        left = match.end()
    return cells or [(start, end)]


def _text(copy: str, cell: Span) -> str:
    return copy[cell[0] : cell[1]].strip(" \t*=")


def _is_head(copy: str, row: list[Span]) -> bool:
    texts = [_text(copy, cell) for cell in row]
    if any(is_measure(text) and _SHARE_HEAD.fullmatch(text) is None for text in texts if text):
        return False
    told = sum(
        any(head.search(text) for head in (_NAME_HEAD, _SHARE_HEAD, _AMOUNT_HEAD, _ROLE_HEAD)) for text in texts if text
    )
    return told >= 2 or (
        told == 1 and len(row) == 2 and _NAME_HEAD.search(texts[0]) is not None and len(texts[0].split()) < 4
    )


def _from_head(copy: str, head: list[Span], body: list[list[Span]]) -> _Columns:
    texts = [_text(copy, cell) for cell in head]
    role = _first(texts, _ROLE_HEAD)
    name = next((n for n, text in enumerate(texts) if n != role and _NAME_HEAD.search(text)), -1)
    share = next((n for n, text in enumerate(texts) if n not in (name, role) and _SHARE_HEAD.search(text)), -1)
    if share < 0:
        share = next((n for n, text in enumerate(texts) if n not in (name, role) and _AMOUNT_HEAD.search(text)), -1)
    if name < 0:
        name = _from_cells(copy, body, len(head)).name
    return _Columns(name, share, role)


def _first(texts: list[str], pattern: re.Pattern[str]) -> int:
    return next((n for n, text in enumerate(texts) if pattern.search(text)), -1)


def _from_cells(copy: str, body: list[list[Span]], width: int) -> _Columns:
    """Without a head: names are the first column of words, shares the first of measures (percentages before grams)."""
    measures, shares, wordy = [0] * width, [0] * width, [0] * width
    for row in body:
        for number, cell in enumerate(row[:width]):  # a row can be wider than its head
            text = _text(copy, cell)
            measures[number] += bool(text) and is_measure(text)
            shares[number] += "%" in text and is_measure(text)
            wordy[number] += patterns.LETTER.search(text) is not None and not is_measure(text)
    half = max(2, len(body) / 2)
    name = next((n for n in range(width) if wordy[n] >= half), -1)
    share = next(
        (n for n in range(width) if shares[n] >= half), next((n for n in range(width) if measures[n] >= half), -1)
    )
    return _Columns(name if share >= 0 else -1, share, -1)


def _drafted(text: str, copy: str, row: list[Span], columns: _Columns) -> Draft | None:
    if len(row) <= columns.name:
        return None
    start, end = row[columns.name]
    printed = copy[start:end]
    if patterns.TOTAL.match(printed.strip()) or is_measure(printed.strip()):
        return None
    stated = _stated(text, copy, row[columns.share]) if 0 <= columns.share < len(row) else None
    if columns.share >= 0:
        name, function = clean_name(printed)
        if not patterns.LETTER.search(name):
            return None
        draft = Draft(((start, end),), name, stated=stated, function=function)
    else:
        item = read_item(text, copy, start, end)
        if item is None:
            return None
        draft = item
    role = _text(copy, row[columns.role]) if 0 <= columns.role < len(row) else ""
    last = max(row[columns.share][1] if 0 <= columns.share < len(row) else end, end)
    first = min(row[columns.share][0] if 0 <= columns.share < len(row) else start, start)
    while first < last and copy[first] in " \t|":
        first += 1
    while last > first and copy[last - 1] in " \t|":
        last -= 1
    return draft._replace(spans=((first, last),), function=draft.function or role or None)


def _stated(text: str, copy: str, cell: Span) -> Stated | None:
    amounts = amounts_in(copy, *cell)
    measure = RECIPE.search(copy, *cell)
    if measure is not None and not (amounts and amounts[0].unit):
        return unmeasured(text, measure.start(), measure.end())
    if not amounts and is_amount_word(_text(copy, cell)):
        begin, end = stripped(copy, *cell)
        return unmeasured(text, begin, end)
    return amounts[0].stated(text) if amounts else None
