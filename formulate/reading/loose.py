"""Lists whose separators may belong to names: slashes, or blanks alone. The word list decides."""

from __future__ import annotations

import re

from formulate.reading import patterns
from formulate.reading.amount_words import stem_end
from formulate.reading.cuts import Entry, Known, bare_name, between, signs_outside
from formulate.reading.lazily import lazy
from formulate.reading.recipes import is_measured_line

_OR_FIRST = lazy(r"(?:or|oder|ou|lub|and/or|und/oder|et/ou)(?:\s|$)", re.IGNORECASE)
_OR_LAST = lazy(r"(?:^|\s)(?:or|oder|ou|lub|and/or|und/oder|et/ou)$", re.IGNORECASE)
_WORD = lazy(r"[^\s(]\S*(?:\s?\([^()\n]{0,120}\)\S*)*|\S+")


def slash_entries(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """Entries of a slash list; one entry where the slashes join names of one thing ('Aqua/Water/Eau')."""
    places = [at for at in signs_outside(copy, start, end).get("/", []) if not copy[at + 1 : at + 2].isdigit()]
    pieces = between(start, end, places)
    names = [bare_name(copy[a:b]) for a, b in pieces]
    if len(pieces) < 3 or known(bare_name(copy[start:end])):
        return [Entry(start, end)]
    water = sum(set(name.lower().split()) <= patterns.WATER_WORDS for name in names)
    spaced = sum(copy[at - 1 : at].isspace() and copy[at + 1 : at + 2].isspace() for at in places)
    if water == len(names) or not (spaced * 2 > len(places) or sum(map(known, names)) * 2 >= len(names)):
        return [Entry(start, end)]
    return [Entry(*piece) for piece in _water_joined(copy, pieces)]


def _water_joined(copy: str, pieces: list[tuple[int, int]]) -> list[tuple[int, int]]:
    joined_: list[tuple[int, int]] = []
    was_water = False
    for left, right in pieces:
        is_water = set(bare_name(copy[left:right]).lower().split()) <= patterns.WATER_WORDS
        if is_water and was_water:
            joined_[-1] = (joined_[-1][0], right)
        else:
            joined_.append((left, right))
        was_water = is_water
    return joined_


def spaced_entries(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """Entries of a list with no separators: the longest known names from the left; what is between stays whole.

    An amount in words at the end ('Water balance') belongs to the last of them.
    """
    stem = stem_end(copy, start, end)
    if stem < end:
        *before, last = spaced_entries(copy, start, stem, known)
        return [*before, last._replace(end=end)]
    words = [match.span() for match in _WORD.finditer(copy[start:end])]
    if len(words) < 2 or len(words) > 5000 or known(bare_name(copy[start:end])) or is_measured_line(copy[start:end]):
        return [Entry(start, end)]
    entries: list[Entry] = []
    at, loose, hits = 0, -1, 0
    while at < len(words):
        size = next(
            (
                n
                for n in range(min(6, len(words) - at), 0, -1)
                if known(copy[start + words[at][0] : start + words[at + n - 1][1]])
            ),
            0,
        )
        if size:
            if loose >= 0:
                entries.append(
                    Entry(start + words[loose][0], start + words[at - 1][1], doubtful="cut by the names around it")
                )
                loose = -1
            entries.append(
                Entry(
                    start + words[at][0],
                    start + words[at + size - 1][1],
                    doubtful="cut by the word list: no separators are printed",
                )
            )
            hits += size
        elif loose < 0:
            loose = at
        at += size or 1
    if loose >= 0:
        entries.append(Entry(start + words[loose][0], start + words[-1][1], doubtful="cut by the names around it"))
    if hits * 2 < len(words) or len(entries) < 2:
        return [Entry(start, end)]
    return _or_joined(copy, entries)


def _or_joined(copy: str, entries: list[Entry]) -> list[Entry]:
    """'Ethanol or isopropanol' is one entry that leaves the choice; a number without a name belongs to the
    one before."""
    joined_: list[Entry] = []
    open_ = False
    for entry in entries:
        text = copy[entry.start : entry.end]
        if joined_ and (open_ or _OR_FIRST.match(text) or not patterns.LETTER.search(text)):
            joined_[-1] = joined_[-1]._replace(end=entry.end)
        else:
            joined_.append(entry)
        open_ = _OR_LAST.search(text) is not None
    return joined_
