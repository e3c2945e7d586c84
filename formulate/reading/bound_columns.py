"""Tables with a column for the lower and one for the upper limit ('Min %', 'Max %'): their two cells are one range.

The working copy is rewritten in place, of the same length: '50<tab>70' becomes '50-70', a limit alone gets its sign.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.lazily import lazy

_LOW = r"min(?:imum|imal|\.)?|low(?:er)?(?:\s(?:limit|bound|end))?|from|von|od|desde|\u043e\u0442|\u043c\u0438\u043d\.?"
_HIGH = (
    r"max(?:imum|imal|\.)?|high(?:er)?(?:\s(?:limit|bound|end))?|upper(?:\s(?:limit|bound|end))?|to|bis|do|hasta"
    r"|\u0434\u043e|\u043c\u0430\u043a\u0441\.?"
)
_UNIT = r"(?:[ ]?(?:%|[()\[\]]|wt\.?|w/w|weight|conc\.?|by|percent|mass|gew\.?|content|amount|range)){0,8}"
_SIGN = r'"?[ ]{0,40}(?P<sign>[\t|;,/-]|[ ])[ ]{0,40}"?'
_PAIR = lazy(
    rf"(?<![^\W_])(?:{_LOW})(?![^\W_]){_UNIT}{_SIGN}(?:(?:%|wt\.?|w/w|conc\.?)[ ]?){{0,2}}"
    rf"(?P<high>(?:{_HIGH})(?![^\W_])){_UNIT}",
    re.IGNORECASE,
)
_SHARES = lazy(
    r"%|percent|\bwt\b|weight|\bconc|gehalt|content|anteil|\bcas\b|ingredient|component|substance|\binci\b|stoff|chemical",
    re.IGNORECASE,
)
_VALUE_TEXT = r"(?:[<>\u2264\u2265]=?\s?)?(?:\d{1,3}(?:[.,]\d{1,6})?|[.,]\d{1,6})(?:\s?%)?"
_VALUE = lazy(_VALUE_TEXT)
_TOKEN = lazy(rf"(?<=[ \t])(?:{_VALUE_TEXT})(?=[ \t]|$)", re.MULTILINE)
_SLASHED = lazy(rf"\s*(?:{_VALUE_TEXT})\s?(?P<slash>/)\s?(?:{_VALUE_TEXT})\s*")
_LINE = lazy(r"[^\n]*")
_CELL = {sign: lazy(rf'"[^"\n]{{0,400}}"|[^{re.escape(sign)}\n"]*') for sign in "\t|;,"}
_LONGEST = 2_000
_MOST_EMPTY = 6
_MOST_CELLS = 30
Span = tuple[int, int]
Change = tuple[int, int, str]
_Values = tuple[Span | None, Span | None, Span]
_ALIGNED = 3


class _Head(NamedTuple):
    """The two columns: ``at`` and ``high`` are offsets in their line, ``sign`` parts cells, '' where blanks do."""

    at: int
    high: int
    sign: str
    column: int
    one_cell: bool


def bounds_joined(copy: str) -> str:
    """The working copy with the cells of a lower and an upper limit joined; same length."""
    changes: list[Change] = []
    done = 0
    for pair in _PAIR.finditer(copy):
        if pair.start() < done:
            continue
        begin = copy.rfind("\n", max(0, pair.start() - _LONGEST), pair.start()) + 1
        end = copy.find("\n", pair.end(), pair.end() + _LONGEST)
        end = min(len(copy), pair.end() + 2 * _LONGEST) if end == -1 else end
        if end - begin > _LONGEST or not _SHARES.search(copy, begin, end):
            continue
        rows, done = _rows(copy, _head(copy, begin, end, pair), end + 1)
        if rows:
            told = "wt" + "%".rjust(pair.end() - pair.start() - 2)
            changes += [(pair.start(), pair.end(), told), *rows]
    return _changed(copy, changes)


def _head(copy: str, begin: int, end: int, pair: re.Match[str]) -> _Head:
    line, sign = copy[begin:end], pair["sign"]
    one_cell = sign in "/-"
    if one_cell or sign == " ":
        sign = next((one for one in "\t|;" if one in line), "")
    column = line.count(sign, 0, pair.start() - begin) if sign else 0
    return _Head(pair.start() - begin, pair.start("high") - begin, sign, column, one_cell)


def _rows(copy: str, head: _Head, start: int) -> tuple[list[Change], int]:
    """The changes of the lines below a head, empty unless a line shows both limits; and where the table ends."""
    changes: list[Change] = []
    lone: list[tuple[Span, Span, str]] = []
    both = empty = ragged = 0
    while start < len(copy) and empty < _MOST_EMPTY:
        line = _LINE.match(copy, start)
        end = line.end() if line else start
        if end - start > _LONGEST:
            break
        low, high, room = _parted(copy, start, end, head) if head.sign else _blanked(copy, start, end, head)
        empty = 0 if low or high else empty + 1
        if low and high:
            both += 1
            ragged += abs(low[0] - start - head.at) > _ALIGNED or abs(high[0] - start - head.high) > _ALIGNED
            changes.append((low[1], high[0], "-".center(high[0] - low[1])))
        elif value := low or high:
            lone.append((value, room, "\u2265" if low else "\u2264"))
        start = end + 1
    if not both:
        return [], start
    unsure = not head.sign and ragged > 0
    for value, room, sign in lone:
        if copy[value[0]].isdigit():
            changes.append(_signed(copy, value, room, "~" if unsure else sign))
    return changes, start


def _signed(copy: str, value: Span, room: Span, sign: str) -> Change:
    """A limit that stands alone with its sign, in the room of both cells; in front of the room where that is full."""
    told = sign + copy[slice(*value)]
    begin = max(room[0], value[0] - 1)
    if begin + len(told) > room[1]:
        begin, room = value[0] - 1, (value[0] - 1, room[1])
    return room[0], room[1], " " * (begin - room[0]) + told + " " * (room[1] - begin - len(told))


def _parted(copy: str, start: int, end: int, head: _Head) -> _Values:
    """The values of the two columns in a line whose cells one sign parts."""
    cells: list[Span] = []
    at = start
    while at <= end and len(cells) < _MOST_CELLS:
        cell = _CELL[head.sign].match(copy, at, end)
        stop = cell.end() if cell else at
        cells.append((at, stop))
        at = stop + 1
    if len(cells) <= head.column:
        return None, None, (start, start)
    first = cells[head.column]
    last = cells[head.column + 1] if head.column + 1 < len(cells) else (first[1], first[1])
    low = _value(copy, first)
    if head.one_cell and low is None and (slashed := _SLASHED.fullmatch(copy, *first)):
        high = _trimmed(copy, slashed.end("slash"), first[1])
        return _trimmed(copy, first[0], slashed.start("slash")), high, first
    return low, _value(copy, last), (first[0], last[1])


def _value(copy: str, cell: Span) -> Span | None:
    """The number in a cell; None where it is empty or holds anything else."""
    start, end = cell
    while start < end and copy[start] in ' "':
        start += 1
    while end > start and copy[end - 1] in ' "':
        end -= 1
    return (start, end) if end - start < 16 and _VALUE.fullmatch(copy, start, end) else None


def _trimmed(copy: str, start: int, end: int) -> Span:
    inner = copy[start:end]
    return start + len(inner) - len(inner.lstrip()), start + len(inner.rstrip())


def _blanked(copy: str, start: int, end: int, head: _Head) -> _Values:
    """The values of the two columns in a line whose cells stand apart by blanks: the pair nearest to the head's."""
    tokens = [match.span() for match in _TOKEN.finditer(copy, start, end)][:_MOST_CELLS]
    pairs = [(low, high) for low, high in zip(tokens, tokens[1:], strict=False) if not copy[low[1] : high[0]].strip()]
    if pairs:
        low, high = min(pairs, key=lambda pair: abs(pair[0][0] - start - head.at))
        return low, high, (low[0], high[1])
    near = [one for one in tokens if one[1] - start > head.at - 8]
    if not near or not patterns.LETTER.search(copy, start, end):
        return None, None, (start, start)
    token = min(near, key=lambda one: min(abs(one[0] - start - head.at), abs(one[0] - start - head.high)))
    lower = abs(token[0] - start - head.at) < abs(token[0] - start - head.high)
    room = (token[0] - 1, token[1])
    return (token, None, room) if lower else (None, token, room)


def _changed(copy: str, changes: list[Change]) -> str:
    pieces, at = [], 0
    for start, end, told in sorted(changes):
        if start < at:
            continue
        pieces += [copy[at:start], told]
        at = end
    return "".join([*pieces, copy[at:]]) if changes else copy
