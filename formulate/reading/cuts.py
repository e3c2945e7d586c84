"""Where one entry of a list ends and the next begins. Where the text does not say, the word list decides."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.amounts import Amount, amounts_in
from formulate.reading.index_names import is_inside_number, joined

Known = Callable[[str], bool]
_SIGN = re.compile(r"[()\[\]{},;\n/|\t\u2022\u00b7\u3002]|\.(?=\s|$)|&|\b(?:and|und|et)\b", re.IGNORECASE)
_PAIR = {")": "(", "]": "[", "}": "{"}
_AND_INCI = re.compile(r"\s\((?:and|und|et)\)\s", re.IGNORECASE)
_BAND = re.compile(r"\s{0,3}(?:[:=-]|by\sweight:|of\s(?:each|the\sfollowing):?|\()\s{0,3}", re.IGNORECASE)
_ABBREVIATION = re.compile(r"(?:\b(?:no|nr|approx|ca|max|min|incl|e\.g|i\.e|vs|st|deg|conc|sol|wt|vol|gew|resp|spp?|var|mol|\w)\.)$", re.IGNORECASE)
_ONE_THING = re.compile(r"(?:linear\s|leveling\s|levelling\s|oil\s|ing\s|-\s?|/\s?)$", re.IGNORECASE)
_LIST_AFTER_COLON = re.compile(r"[^:\n]{0,40}:\s")


class Entry(NamedTuple):
    """A stretch that holds one entry. ``band`` is an amount printed once before several entries."""

    start: int
    end: int
    band: Amount | None = None
    doubtful: str | None = None


def signs_outside(copy: str, start: int, end: int) -> dict[str, list[int]]:
    """Offsets of separators outside brackets, by sign; brackets that never close do not count."""
    found: list[tuple[str, int]] = []
    opened: list[int] = []
    depth_changes: dict[int, int] = {}
    for match in _SIGN.finditer(copy, start, end):
        sign, at = match.group().lower(), match.start()
        if sign in "([{":
            opened.append(at)
        elif sign in _PAIR:
            if opened and copy[opened[-1]] == _PAIR[sign]:
                depth_changes[opened.pop()] = 1
                depth_changes[at] = -1
        else:
            if sign == "\n" and copy[at + 1:at + 2] == "\n":
                opened.clear()
            found.append((sign, at))
    return _at_depth_zero(found, depth_changes)


def _at_depth_zero(found: list[tuple[str, int]], depth_changes: dict[int, int]) -> dict[str, list[int]]:
    marks = sorted(depth_changes)
    signs: dict[str, list[int]] = {}
    depth, next_mark = 0, 0
    for sign, at in found:
        while next_mark < len(marks) and marks[next_mark] < at:
            depth += depth_changes[marks[next_mark]]
            next_mark += 1
        if depth <= 0:
            signs.setdefault(sign, []).append(at)
    return signs


def comma_entries(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """Entries of a comma or semicolon list, with bands, 'and', and index names kept whole."""
    signs = signs_outside(copy, start, end)
    entries: list[Entry] = []
    commas = [at for at in signs.get(",", []) if not is_inside_number(copy, at)]
    for left, right in _between(start, end, signs.get(";", [])):
        inner = commas[bisect_left(commas, left):bisect_left(commas, right)]
        entries += _one_level(copy, left, right, inner, known, semicolons=bool(signs.get(";")))
    return [cut for entry in entries for cut in _inci_and(copy, entry)]


def _one_level(copy: str, left: int, right: int, commas: list[int], known: Known, semicolons: bool) -> list[Entry]:
    band, body = _band(copy, left, right)
    commas = [at for at in commas if at >= body and not _inside_amount(copy, at)]
    pieces = _between(body, right, commas)
    if semicolons and band is None and len(pieces) > 1 and not _mostly_known(copy, pieces, known):
        return [Entry(left, right)]
    merged = _merged(copy, pieces, known)
    merged = _last_and(copy, merged, known, several=len(merged) > 1 or band is not None)
    if band is not None and merged:
        return [Entry(piece[0], piece[1], band) for piece in merged]
    return [Entry(*piece) for piece in merged]


def _inside_amount(copy: str, at: int) -> bool:
    """'>= 5 %, but < 15 %' and '1,5': the comma belongs to an amount."""
    return re.match(r",\s{0,2}(?:but|\u043d\u043e|mais|aber|jedoch|pero|ma)\b|,\s?(?:<|\u2264)\s?\d{1,3}\s?%\s?[:)]", copy[at:at + 14], re.IGNORECASE) is not None


def _band(copy: str, left: int, right: int) -> tuple[Amount | None, int]:
    """An amount before a colon or dash that holds for all that follows up to the semicolon: '< 5 %: a, b'."""
    at = left
    while at < right and copy[at] in " \t\n-\u2022*":
        at += 1
    amounts = amounts_in(copy, at, min(right, at + 60))
    if not amounts or amounts[0].start != at or not amounts[0].unit:
        return None, left
    after = re.compile(r"\s{0,3}:\s{0,3}").match(copy, amounts[0].end)
    return (amounts[0], after.end()) if after else (None, left)


def _mostly_known(copy: str, pieces: list[tuple[int, int]], known: Known) -> bool:
    return sum(known(bare_name(copy[a:b])) for a, b in pieces) * 2 > len(pieces)


def bare_name(piece: str) -> str:
    """A piece without its amounts, marks and numbering: what is looked up in the word list."""
    for amount in reversed(amounts_in(piece, 0, len(piece))):
        if amount.unit or amount.compared or amount.range_:
            piece = piece[:amount.start] + " " + piece[amount.end:]
    return " ".join(piece.replace("()", " ").split()).strip(" \t\n,;:.*-")


def _merged(copy: str, pieces: list[tuple[int, int]], known: Known) -> list[tuple[int, int]]:
    """Join pieces that are one name. An amount after a piece ends a name, one before it starts one."""
    merged: list[tuple[int, int]] = []
    run: list[tuple[int, int]] = []
    for piece in pieces:
        begins, ends = _edges(copy, piece)
        if begins and run:
            merged += _joined_run(copy, run, known)
            run = []
        run.append(piece)
        if ends:
            merged += _joined_run(copy, run, known)
            run = []
    return merged + _joined_run(copy, run, known)


def _edges(copy: str, piece: tuple[int, int]) -> tuple[bool, bool]:
    amounts = [amount for amount in amounts_in(copy, *piece) if amount.unit]
    if not amounts:
        return False, False
    return not copy[piece[0]:amounts[0].start].strip(), not copy[amounts[-1].end:piece[1]].strip(" .)*]\n")


def _joined_run(copy: str, run: list[tuple[int, int]], known: Known) -> list[tuple[int, int]]:
    if len(run) < 2:
        return run
    names = [bare_name(copy[a:b]) if len(copy[a:b]) < 400 else copy[a:b] for a, b in run]
    merged, at = [], 0
    for size in joined([name if not copy[b - 1:b] == "-" else name + "-" for name, (_, b) in zip(names, run, strict=True)], known):
        merged.append((run[at][0], run[at + size - 1][1]))
        at += size
    return merged


def _last_and(copy: str, pieces: list[tuple[int, int]], known: Known, several: bool) -> list[tuple[int, int]]:
    """Cut 'and', '&', 'und', 'et' between two names: in the last piece of a list, or where the word list has both."""
    cut: list[tuple[int, int]] = []
    for number, (left, right) in enumerate(pieces):
        last = number == len(pieces) - 1
        cut += _and_parts(copy, left, right, known, several and last) if right - left < 300 else [(left, right)]
    return cut


def _and_parts(copy: str, left: int, right: int, known: Known, last: bool) -> list[tuple[int, int]]:
    signs = signs_outside(copy, left, right)
    places = sorted(at for sign in ("and", "&", "und", "et") for at in signs.get(sign, []))
    for at in places:
        word = re.compile(r"&|\w+").match(copy, at)
        after = word.end() if word else at + 1
        before = copy[left:at]
        if not before.strip(" ,.\n*-\u2022") or known(bare_name(copy[left:right])) or copy[after:after + 1] == "/":
            continue
        if amounts_in(copy, after, right) and not bare_name(before):
            continue
        both = known(bare_name(before)) and known(bare_name(copy[after:right]))
        plain = last and not _ONE_THING.search(before) and not re.search(r"(?:ing|ed|ic|ar|al)\s$", before) and len(before.split()) < 6
        if both or plain or (before.strip()[-1:] in "%)" and _edges(copy, (left, at))[1]):
            return [(left, at), *_and_parts(copy, after, right, known, last)]
    return [(left, right)]


def _inci_and(copy: str, entry: Entry) -> list[Entry]:
    """Cut a trade blend written 'A (and) B (and) C'."""
    places = [match.span() for match in _AND_INCI.finditer(copy, entry.start, entry.end)]
    parts, left = [], entry.start
    for start, end in places:
        parts.append(entry._replace(start=left, end=start))
        left = end
    return [*parts, entry._replace(start=left)]


def sentence_end(copy: str, start: int, end: int) -> int:
    """Where the sentence that holds a list ends: a full stop before a capital that is no abbreviation."""
    signs = signs_outside(copy, start, end)
    for at in sorted(signs.get(".", []) + signs.get("\u3002", [])):
        rest = copy[at + 1:at + 60].lstrip()
        if _ABBREVIATION.search(copy, max(start, at - 8), at + 1) and not patterns.INSTRUCTION.match(rest):
            continue
        if not rest or rest[0].isupper() or rest[0].isdigit() or copy[at] == "\u3002" or "\n\n" in copy[at:at + 4]:
            return at + 1
    return end


def slash_entries(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """Entries of a slash list; one entry where the slashes join names of one thing ('Aqua/Water/Eau')."""
    places = [at for at in signs_outside(copy, start, end).get("/", []) if not copy[at + 1:at + 2].isdigit()]
    pieces = _between(start, end, places)
    names = [bare_name(copy[a:b]) for a, b in pieces]
    if len(pieces) < 3 or known(bare_name(copy[start:end])):
        return [Entry(start, end)]
    water = sum(set(name.lower().split()) <= patterns.WATER_WORDS for name in names)
    spaced = sum(copy[at - 1:at].isspace() and copy[at + 1:at + 2].isspace() for at in places)
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
    """Entries of a list with no separators: the longest known names from the left; the rest between them stays whole."""
    words = [match.span() for match in re.finditer(r"\S+", copy[start:end])]
    if len(words) < 2 or len(words) > 5000 or known(bare_name(copy[start:end])):
        return [Entry(start, end)]
    entries: list[Entry] = []
    at, loose, hits = 0, -1, 0
    while at < len(words):
        size = next((n for n in range(min(6, len(words) - at), 0, -1) if known(copy[start + words[at][0]:start + words[at + n - 1][1]])), 0)
        if size:
            if loose >= 0:
                entries.append(Entry(start + words[loose][0], start + words[at - 1][1], doubtful="cut by the names around it"))
                loose = -1
            entries.append(Entry(start + words[at][0], start + words[at + size - 1][1], doubtful="cut by the word list: no separators are printed"))
            hits += size
        elif loose < 0:
            loose = at
        at += size or 1
    if loose >= 0:
        entries.append(Entry(start + words[loose][0], start + words[-1][1], doubtful="cut by the names around it"))
    return entries if hits * 2 >= len(words) and len(entries) > 1 else [Entry(start, end)]


def _between(start: int, end: int, places: list[int]) -> list[tuple[int, int]]:
    bounds, left = [], start
    for at in places:
        if start <= at < end:
            bounds.append((left, at))
            left = at + 1
    bounds.append((left, end))
    return bounds
