"""Where one entry of a list ends and the next begins. Where the text does not say, the word list decides."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.amounts import Amount, amounts_in, shares_in
from formulate.reading.bands import band_at, begins_band, inside_amount
from formulate.reading.index_names import is_inside_number, joined
from formulate.reading.lazily import lazy
from formulate.reading.recipes import without_measure

Known = Callable[[str], bool]
_SIGN = lazy(r"[()\[\]{},;\n/|\t\u2022\u00b7\u3002]|\.(?=\s|$)|&|\b(?:and|und|et)\b", re.IGNORECASE)
_AMOUNT_SIGN = lazy(r"[%<>\u2264\u2265]|\d\s?[-~a-z]", re.IGNORECASE)
_MEASURED = lazy(r"[\d\u00bc-\u00be\u2150-\u215e]\s?[^\W\d_]|\b(?:half|parts?|cup|cups)\b", re.IGNORECASE)
_EMPTY = lazy(r"[(\[]\s*[)\]]")
_PAIR = {")": "(", "]": "[", "}": "{"}
_THEREOF = lazy(r"\b(?:mixtures?|combinations?|blends?)\s(?:there)?of\b", re.IGNORECASE)
_ARTICLED = lazy(r"\s{0,5}(?:and\s)?(?:an?|at\sleast\sone|one\sor\smore)\s", re.IGNORECASE)
_AND_INCI = lazy(r"\s\((?:and|und|et)\)\s", re.IGNORECASE)
_GROUP = lazy(r"\b(?:selected|chosen)\sfrom\s(?:the\s|a\s)?(?:groups?|list|among|one\sor\smore)\b", re.IGNORECASE)
_GROUP_LAST = lazy(r"\b(?:and|or)\b", re.IGNORECASE)
_BRACKET = lazy(r"\([^()]{0,300}\)")
_ONE_THING = lazy(r"(?:linear\s|leveling\s|levelling\s|oil\s|ing\s|-\s?|/\s?)$", re.IGNORECASE)


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
            if sign == "\n" and copy[at + 1 : at + 2] == "\n":
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


def comma_entries(copy: str, start: int, end: int, known: Known, several: bool = False) -> list[Entry]:
    """Entries of a comma or semicolon list, with bands, 'and', and index names kept whole.

    ``several`` says that the stretch carries on a list, so that 'a and b' are two.
    """
    signs = signs_outside(copy, start, end)
    entries: list[Entry] = []
    commas = [at for at in signs.get(",", []) if not is_inside_number(copy, at)]
    commas = _outside_groups(copy, start, end, commas)
    pieces = between(start, end, signs.get(";", []))[:50]
    banded = any(band_at(copy, left, right)[0] or _edges(copy, (left, right))[0] for left, right in pieces)
    for left, right in between(start, end, sorted({*signs.get(";", []), *_band_commas(copy, commas, end)})):
        inner = commas[bisect_left(commas, left) : bisect_left(commas, right)]
        entries += _one_level(copy, left, right, inner, known, bool(signs.get(";")) and not banded, several)
    return _may_contain(copy, [cut for entry in entries for cut in _inci_and(copy, entry)])


def _band_commas(copy: str, commas: list[int], end: int) -> list[int]:
    """The commas before a band that holds for what follows it: '< 15 % : a, b, < 5 % : c'."""
    return [at for at in commas if begins_band(copy, at + 1, end) and not inside_amount(copy, at)]


def _outside_groups(copy: str, start: int, end: int, commas: list[int]) -> list[int]:
    """Without the commas inside 'an alkane selected from the group consisting of butane, pentane, and hexane': such a
    group is one ingredient. It ends at the first comma after its 'and' or 'or'."""
    kept: list[int] = []
    groups = _GROUP.finditer(copy, start, end)
    begin = stop = start
    for at in commas:
        while begin <= at and at >= stop and (group := next(groups, None)) is not None:
            begin = group.end()
            semicolon = copy.find(";", begin, begin + 600)
            limit = min(end, semicolon if semicolon != -1 else begin + 600)
            last = _GROUP_LAST.search(copy, begin, limit)
            comma = copy.find(",", last.end(), limit) if last else -1
            stop = comma if comma != -1 else (limit if last else begin)
        if not begin <= at < stop:
            kept.append(at)
    return kept


def _may_contain(copy: str, entries: list[Entry]) -> list[Entry]:
    """Mark what stands after 'may contain' or '+/-'; a bracket that opens with it is a list of its own."""
    doubt: str | None = None
    marked: list[Entry] = []
    for entry in entries:
        match = patterns.MAY_CONTAIN.search(copy, entry.start, min(entry.end, entry.start + 40))
        if match and not copy[entry.start : match.start()].strip(" \n\t.(["):
            doubt = "listed under 'may contain'"
            bracket = copy[entry.start : match.end()].lstrip()[:1] in "[("
            end = (
                copy.rfind("]" if "[" in copy[entry.start : match.end()] else ")", match.end(), entry.end)
                if bracket
                else -1
            )
            stop = end if end != -1 else entry.end
            marked += [
                Entry(a, b, None, doubt)
                for a, b in between(match.end(), stop, signs_outside(copy, match.end(), stop).get(",", []))
            ]
        else:
            marked.append(entry._replace(doubtful=doubt or entry.doubtful))
    return marked


def _one_level(
    copy: str, left: int, right: int, commas: list[int], known: Known, semicolons: bool, several: bool
) -> list[Entry]:
    band, body = band_at(copy, left, right)
    commas = [at for at in commas if at >= body and not inside_amount(copy, at)]
    pieces = between(body, right, commas)
    if semicolons and band is None and len(pieces) > 1 and not _mostly_known(copy, pieces, known):
        return [Entry(left, right)]
    merged = _merged(copy, pieces, known)
    merged = _last_and(copy, merged, known, several=several or len(merged) > 1 or band is not None)
    if band is not None and merged:
        return [Entry(piece[0], piece[1], band) for piece in merged]
    return [Entry(*piece) for piece in merged]


def _mostly_known(copy: str, pieces: list[tuple[int, int]], known: Known) -> bool:
    return sum(known(bare_name(copy[a:b])) for a, b in pieces) * 2 > len(pieces)


def bare_name(piece: str) -> str:
    """A piece without its amounts, marks and numbering: what is looked up in the word list."""
    if len(piece) > 600:
        return ""
    for amount in reversed(amounts_in(piece, 0, len(piece)) if _AMOUNT_SIGN.search(piece) else ()):
        if amount.unit or amount.compared or amount.range_:
            piece = piece[: amount.start] + " " + piece[amount.end :]
    piece = without_measure(piece) if _MEASURED.search(piece) else piece
    plain = " ".join(_EMPTY.sub(" ", piece).split()).strip(" ,;:.*").lstrip("-\u2022 ")
    return plain.removesuffix(" -")


def _merged(copy: str, pieces: list[tuple[int, int]], known: Known) -> list[tuple[int, int]]:
    """Join pieces that are one name. An amount after a piece ends a name, one before it starts one."""
    merged: list[tuple[int, int]] = []
    run: list[tuple[int, int]] = []
    for piece in pieces:
        begins, ends = _edges(copy, piece)
        if begins and ends and (run or merged) and not bare_name(copy[slice(*piece)]):
            merged += _joined_run(copy, run, known)
            run = []
            merged[-1] = (merged[-1][0], piece[1])  # 'Water, 60 %' and 'Colloidal silica 30 %, 5 %'
            continue
        if begins and run:
            merged += _joined_run(copy, run, known)
            run = []
        run.append(piece)
        if ends:
            merged += _joined_run(copy, run, known)
            run = []
    return merged + _joined_run(copy, run, known)


def _edges(copy: str, piece: tuple[int, int]) -> tuple[bool, bool]:
    amounts = shares_in(copy, *piece) if piece[1] - piece[0] < 3000 else []
    if not amounts:
        return False, False
    return not copy[piece[0] : amounts[0].start].strip(), not copy[amounts[-1].end : piece[1]].strip(" .)*]\n")


def _joined_run(copy: str, run: list[tuple[int, int]], known: Known) -> list[tuple[int, int]]:
    if len(run) < 2:
        return run
    if len(run) < 5 and _THEREOF.search(copy, *run[-1]) and _edges(copy, run[-1])[1]:
        return [(run[0][0], run[-1][1])]  # 'turpentine, white spirit or mixtures thereof (50 %)'
    names = [bare_name(copy[a:b]) if len(copy[a:b]) < 400 else copy[a:b] for a, b in run]
    merged, at = [], 0
    for size in joined(names, known):
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
    spans = [(amount.start, amount.end) for amount in amounts_in(copy, left, right)] if places else []
    for at in places:
        if any(a <= at < b for a, b in spans):
            continue
        word = re.compile(r"&|\w+").match(copy, at)
        after = word.end() if word else at + 1
        before = copy[left:at]
        if not before.strip(" ,.\n*-\u2022") or known(bare_name(copy[left:right])) or copy[after : after + 1] == "/":
            continue
        if amounts_in(copy, after, right) and not bare_name(before):
            continue
        both = known(bare_name(before)) and known(bare_name(copy[after:right]))
        plain = (
            last
            and not _ONE_THING.search(before)
            and not re.search(r"(?:ing|ed|ic|ar|al)\s$", before)
            and len(_BRACKET.sub(" ", before).split()) < 6
        )
        articled = _ARTICLED.match(before) is not None and _ARTICLED.match(copy, after, right) is not None
        if both or plain or articled or _edges(copy, (left, at))[1]:
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


def between(start: int, end: int, places: list[int]) -> list[tuple[int, int]]:
    """The stretches between cutting places."""
    bounds, left = [], start
    for at in places:
        if start <= at < end:
            bounds.append((left, at))
            left = at + 1
    bounds.append((left, end))
    return bounds
