"""Formularies: '3. Oleic acid 2.00 Emulsifier', a name, a bare number and what it is for on one line."""

from __future__ import annotations

import re

from formulate.reading import patterns
from formulate.reading.cuts import Entry
from formulate.reading.functions import FUNCTION
from formulate.reading.item import Draft
from formulate.reading.lazily import lazy

_ROW = lazy(
    rf"(?P<entry>\S.{{0,160}}?\s(?P<value>\d{{1,3}}(?:[.,]\d{{1,3}})?))\s{{1,20}}(?P<function>{FUNCTION.pattern})(?=\s|$)",
    re.IGNORECASE,
)
_LEAST = 3
_WHOLE = (97.0, 103.0)
Row = tuple[Entry, str]
Span = tuple[int, int]
_PHASE_WORD = lazy(r"(?:phase|sequence)\b", re.IGNORECASE)
_PHASE = lazy(r"(?:phase|step)\s(?:[A-H]|\d|I{1,3})\b[.:)]?\s{1,8}(?=[^\W_].*\d)", re.IGNORECASE)
_LETTER = lazy(r"(?P<letter>[A-H])[.:)]?\s{1,8}(?=[^\W_][^\W\d_])")
_ENDS_IN_NUMBER = lazy(r"[^\W\d_].{0,200}\s\d{1,3}(?:[.,]\d{1,3})?")


def without_phases(copy: str, lines: list[Span], heads: list[str]) -> list[Span]:
    """The lines without the letter of a phase in front: 'Phase A Water 74.5', and 'B Water 74.5' under 'Phase'."""
    lettered = any(_PHASE_WORD.search(head) for head in heads)
    kept: list[Span] = []
    expected = "A"
    for start, end in lines:
        phase = _PHASE.match(copy, start, end)
        letter = None if phase or not lettered else _LETTER.match(copy, start, end)
        if letter and letter["letter"] == expected:
            phase, expected = letter, chr(ord(expected) + 1)
        kept.append((phase.end() if phase else start, end))
    return kept


def line_rows(copy: str, lines: list[Span], heads: list[str]) -> list[Entry]:
    """One entry a line where a head of shares stands above and nearly all lines end in a number; else empty."""
    if len(lines) < _LEAST or not any(patterns.PERCENT_HEAD.search(head) for head in heads):
        return []
    numbered = sum(_ENDS_IN_NUMBER.fullmatch(copy, *span) is not None for span in lines)
    return [Entry(*span) for span in lines] if numbered * 5 >= len(lines) * 4 else []


def formula_rows(copy: str, entries: list[Entry], head: str) -> list[Row]:
    """The entries cut behind their number, each with its function; empty where fewer than three are of this kind, or
    where neither the head nor the sum says that the numbers are per cent."""
    if sum(any(sign.isdigit() for sign in copy[entry.start : entry.end]) for entry in entries) < _LEAST:
        return []
    rows: list[Row] = []
    total = 0.0
    for entry in entries:
        if entry.end - entry.start > 400:
            continue
        match = _ROW.match(copy, entry.start, entry.end)
        if match is not None:
            rows.append((entry._replace(end=match.end("entry")), match["function"]))
            total += float(match["value"].replace(",", "."))
    told = patterns.PERCENT_HEAD.search(head) is not None and total <= _WHOLE[1]
    return rows if len(rows) >= _LEAST and (told or _WHOLE[0] <= total <= _WHOLE[1]) else []


def with_functions(copy: str, drafts: list[Draft], rows: list[Row]) -> list[Draft]:
    """The drafts with the functions that stood behind their numbers."""
    functions = {entry.end: function for entry, function in rows}
    return [draft._replace(function=draft.function or functions.get(draft.spans[-1][1])) for draft in drafts]
