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


def formula_rows(copy: str, entries: list[Entry], head: str) -> list[Row]:
    """The entries cut behind their number, each with its function; empty where fewer than three are of this kind, or
    where neither the head nor the sum says that the numbers are per cent."""
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
