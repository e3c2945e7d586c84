"""The cells of a table row: name text, registry numbers, amounts, withheld words, and what is none of these."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.amount_words import is_amount_word
from formulate.reading.amounts import VOLUME, Amount, amount_in_words, amounts_in
from formulate.reading.lazily import lazy
from formulate.reading.numbers import plain_number

_WITHHELD = lazy(rf"(?:(?:{patterns.WITHHELD.pattern}|n\.?d\b\.?)[\s,;/]*){{1,6}}", re.IGNORECASE)
_SIGN = r"(?:Xn|Xi|F\+?|T\+?|N|C|O|NE|ND|PEL|TLV|H|Yes|No|YES|NO|Danger|Warning|Gefahr|Achtung)"
_SIGNS = lazy(
    rf"[-\s:;]{{0,4}}(?:\d{{1,4}}\s){{0,3}}{_SIGN}(?:[,;/&\s-]{{1,3}}(?:{_SIGN}|\d{{1,4}}(?![.\d]))){{0,5}}[,;&\s]{{0,2}}",
    re.IGNORECASE,
)
# A withheld number between a name and an amount, or at the end of its line: 'silane blend Proprietary 30.0'
_WITHHELD_CELL = lazy(
    rf"(?<=[A-Za-z0-9)\]]\s)(?:{patterns.WITHHELD.pattern}|nd\b)(?=\s{{1,20}}(?:[<>\u2264\u2265~]\s?)?[.,]?\d[\d.,%<>\s-]*(?:$|\s)|\s*$)",
    re.IGNORECASE,
)
# What a name says of its own traces: 'naphtha, < 0.1 % EC 200-753-7', 'butane (0.1 % butadiene)'
_TRACE = lazy(
    r"(?<=[,(]\s)[<\u2264]\s?0[.,]1\s?%\s(?:w/w\s)?(?:EC|EINECS)\s{0,2}(?:no\.?\s?)?[2-9]\d{2}-\d{3}-\d(?!\d)",
    re.IGNORECASE,
)
HOLDS = lazy(
    r"\(\s?[<\u2264]?\s?\d{1,2}(?:[.,]\d{1,3})?\s?%\s(?!by\b|max|min|w|vol|of\b|mass|or\b|solution)[^\W\d_][^()\n\d%]{1,40}\)",
    re.IGNORECASE,
)
# Risk phrases behind a hazard sign are no range: 'Xn 65-66', 'F&Xi 11-36-67'
_RISK = lazy(
    r"(?<![\w&+-])(?:Xn|Xi|F\+?|T\+?|C|N|O)(?:\s?[&,;-]\s?(?:Xn|Xi|F\+?|T\+?|C|N|O)){0,3}&?[ \t]{1,3}"
    r"\d{1,2}(?:[-/]\d{1,2}){1,8}(?=\s*$|\s{2}|\x01)"
    r"|(?<=\x01\s)(?i:Xn|Xi|F\+?|T\+?|C|N)\s\d{2}(?:[-/]\d{2}){1,8}(?=\s)(?!\s?%)"
)
_GAP = lazy(r"[-=_]{5,}|\s{2,}|\t|\||\s/(?=\s)")
_EDGE = " \t\n|,;:/*\u2020\u2021"
_DASH = lazy(r"^[\s\-/.*()]*$")
_LIMIT_HEAD = lazy(r"tlv|\bpel\b|exposure|twa|stel|ld50|mg/m3", re.IGNORECASE)
# What fills the columns behind the amount: '30 .. .. NO'
_FILLERS = lazy(
    r"(?:[ \x01\x02]{1,20}(?:\.{2,3}|NE|ND|NO|YES|N/?A|-{1,3}|\*)(?=[ \x01\x02]|$)){1,8}\s*$", re.IGNORECASE
)
_FILLERS_AND_LIMITS = lazy(
    r"(?:[ \x01\x02]{1,20}(?:\d{1,5}(?:\.\d{1,3})?"
    r"|\.{2,3}|NE|ND|NO|YES|N/?A|-{1,3}|\*)(?=[ \x01\x02]|$)){1,8}\s*$",
    re.IGNORECASE,
)
_BEFORE_LIMITS = lazy(r"(?:\s\d{1,5}(?:\.\d{1,3})?){1,2}\s?\x02")
_NOTE = lazy(r"\s(?:NOTE|Note|NOTA|REMARKS?|Remarks?):\s(?=\S)")
_CONNECTING = lazy(r"\W*(?:at|of|in|is|are|to|from|about|approx\.?|with|bei|zu)\W*", re.IGNORECASE)
_LABELS = (
    ("C", patterns.CAS, patterns.CAS_LABEL),
    ("E", patterns.EC, patterns.EC_LABEL),
)


class Head(NamedTuple):
    """What the head of a table says of its columns."""

    function: bool = False
    upper_bound: bool = False
    volume: bool = False
    weight: bool = False
    percent: bool = False
    exposure: bool = False
    share_first: bool = False


class Cell(NamedTuple):
    """One cell: ``kind`` is N name text, C CAS, E EC, A amount, W withheld, X anything else that is no name."""

    kind: str
    start: int
    end: int
    value: str = ""
    amount: Amount | None = None


class Row(NamedTuple):
    """The cells of one row, in reading order.

    ``centred``: its numbers stood on a line between those of its name. ``pair``: a name and its function, no number.
    """

    cells: tuple[Cell, ...]
    doubtful: str | None = None
    centred: bool = False
    pair: bool = False

    def kinds(self) -> str:
        """The kinds of the cells as a word."""
        return "".join(cell.kind for cell in self.cells)


def head_of(texts: list[str]) -> Head:
    """What the head lines of a table say."""
    text = "\n".join(texts)
    return Head(
        function=patterns.FUNCTION_HEAD.search(text) is not None,
        upper_bound=patterns.UPPER_BOUND_HEAD.search(text) is not None,
        volume=patterns.VOLUME_HEAD.search(text) is not None,
        weight=patterns.WEIGHT_HEAD.search(text) is not None,
        percent=patterns.PERCENT_HEAD.search(text) is not None,
        exposure=(limit := _LIMIT_HEAD.search(text)) is not None,
        share_first=limit is not None and patterns.PERCENT_HEAD.search(text, 0, limit.start()) is not None,
    )


def cells_of(copy: str, start: int, end: int, head: Head) -> list[Cell]:
    """The cells of one stretch, in order. Separators between cells are dropped, nothing else is."""
    stretch = copy[start:end]
    cells = _numbers(stretch)
    cells += [Cell("X", *match.span()) for match in _RISK.finditer(_masked(stretch, cells))]
    masked = _masked(stretch, cells)
    cells += [Cell("W", *match.span(), match.group()) for match in _WITHHELD_CELL.finditer(masked)]
    held = [Cell("", *match.span()) for match in HOLDS.finditer(stretch)]
    cells += _amount_cells(_masked(stretch, cells + held), head, bool(cells))
    masked = _masked(stretch, cells)
    for match in patterns.HAZARD_CODE.finditer(masked):
        cells.append(Cell("X", *match.span(), "code"))
    cells.sort(key=lambda cell: cell.start)
    whole = _with_text(stretch, cells)
    return [
        cell._replace(
            start=cell.start + start,
            end=cell.end + start,
            amount=cell.amount and cell.amount._replace(start=cell.amount.start + start, end=cell.amount.end + start),
        )
        for cell in whole
    ]


def _numbers(stretch: str) -> list[Cell]:
    cells: list[Cell] = []
    taken: list[tuple[int, int]] = []
    for pattern in (patterns.REACH, patterns.INDEX, patterns.TAX, _TRACE):
        for match in pattern.finditer(stretch):
            label = patterns.INDEX_LABEL.search(stretch, max(0, match.start() - 20), match.start())
            cells.append(Cell("X", label.start() if label else match.start(), match.end()))
            taken.append(match.span())
    for kind, pattern, title in _LABELS:
        for match in pattern.finditer(stretch):
            if any(match.start() < stop and begin < match.end() for begin, stop in taken[-12:]):
                continue
            before = title.search(stretch, max(0, match.start() - 30), match.start())
            begin = before.start() if before else match.start()
            cells.append(Cell(kind, begin, match.end(), plain_number(match.group())))
            taken.append((begin, match.end()))
    return cells


def _masked(stretch: str, cells: list[Cell], sign: str = "\x01") -> str:
    signs = list(stretch)
    for cell in cells:
        signs[cell.start : cell.end] = sign * (cell.end - cell.start)
    return "".join(signs)


def _amount_cells(masked: str, head: Head, numbered: bool) -> list[Cell]:
    cells: list[Cell] = []
    limits = [
        match.span()
        for match in patterns.LIMIT.finditer(masked)
        if head.exposure or "ppm" not in match.group().lower() or _has_share(masked)
    ]
    cells += [Cell("X", begin, stop) for begin, stop in limits]
    masked = _masked(masked, cells, "\x02")
    for amount in amounts_in(masked, 0, len(masked)):
        if (
            amount.unit
            or amount.compared
            or (amount.range_ and _apart(masked, amount))
            or (_apart(masked, amount) and (head.percent or numbered) and _fills(masked, amount, head))
        ):
            cells.append(Cell("A", amount.start, amount.end, amount=_headed(amount, head)))
        elif head.share_first and _apart(masked, amount) and _BEFORE_LIMITS.match(masked, amount.end):
            # 'spirits. 40 100 100 ppm': the first number behind the name, though it might end the name
            cells.append(Cell("A", amount.start, amount.end, amount=_headed(amount, head)._replace(doubtful=True)))
    return cells


def _has_share(masked: str) -> bool:
    return any(
        amount.unit == "%" or (amount.range_ and not amount.unit) for amount in amounts_in(masked, 0, len(masked))
    )


def _apart(masked: str, amount: Amount) -> bool:
    before, after = masked[: amount.start][-1:], masked[amount.end : amount.end + 1]
    return before in "" or (
        before in " \t|\x01\x02/(:" and after in " \t|\x01\x02/),;*" if after else before in " \t|\x01\x02/(:"
    )


def _fills(masked: str, amount: Amount, head: Head) -> bool:
    """A bare number is a cell of its own: blanks or a registry number on its left, and on its right.

    On its right also the fillings of empty columns; numbers only where the head says that limits follow the share.
    """
    before, after = masked[: amount.start].rstrip(" "), masked[amount.end :].lstrip(" ")
    left = (
        before[-1:] in ("", "\x01", "\t", "|")
        or (before[-1:] == "\x02" and not head.share_first)
        or masked[: amount.start].endswith("  ")
    )
    right = after[:1] in ("", "\x01", "\x02", "\t", "|", "\n") or masked[amount.end :].startswith("  ")
    fillers = _FILLERS_AND_LIMITS if head.share_first else _FILLERS
    return left and (right or (before[-1:] == "\x01" and fillers.match(masked, amount.end) is not None))


def _headed(amount: Amount, head: Head) -> Amount:
    """Apply the head of the column: an upper bound, or a share by volume (doubtful where it names weight too)."""
    if head.volume and amount.unit in {"", "%"}:
        amount = amount._replace(unit=VOLUME, doubtful=amount.doubtful or head.weight)
    if head.upper_bound and not amount.range_ and not amount.compared:
        amount = amount._replace(low=None, doubtful=amount.doubtful)
    return amount


def _with_text(stretch: str, cells: list[Cell]) -> list[Cell]:
    whole: list[Cell] = []
    at = 0
    for cell in [*cells, Cell("", len(stretch), len(stretch))]:
        if cell.start > at:
            whole += _texts(stretch, at, cell.start)
        if cell.kind and cell.start >= at:
            whole.append(cell)
        at = max(at, cell.end)
    return whole


def _texts(stretch: str, start: int, end: int) -> list[Cell]:
    cells, left = [], start
    for match in _GAP.finditer(stretch, start, end):
        cells.append((left, match.start()))
        left = match.end()
    cells.append((left, end))
    return [cell for begin, stop in cells if (cell := _text_cell(stretch, begin, stop))]


def _text_cell(stretch: str, begin: int, stop: int) -> Cell | None:
    while begin < stop and stretch[begin] in _EDGE:
        begin += 1
    while stop > begin and stretch[stop - 1] in _EDGE and not (stretch[stop - 1] == "," and stop == len(stretch)):
        stop -= 1
    note = _NOTE.search(stretch, begin, stop)
    stop = note.start() if note else stop
    text = stretch[begin:stop]
    if begin >= stop or _DASH.match(text):
        return None
    if _CONNECTING.fullmatch(text):
        return Cell("X", begin, stop, text)
    if is_amount_word(text):
        return Cell("A", begin, stop, text, amount_in_words(begin, stop))
    label = patterns.CAS_LABEL.match(text[: text.find(":") + 1]) if ":" in text[:16] else None
    if _WITHHELD.fullmatch(text[label.end() if label else 0 :].strip(" ().")):
        return Cell("W", begin, stop, text)
    if not patterns.LETTER.search(text) or _SIGNS.fullmatch(text):
        return Cell("X", begin, stop, text)
    return Cell("N", begin, stop, text)


_COMPACT_HEADS = frozenset(
    {
        "chemicalname",
        "casnumber",
        "casno",
        "ingredientname",
        "hazardidentification",
        "hazardsidentification",
        "weightpercent",
        "firstaidmeasures",
    }
)
_COMPACT_STARTS = (
    "compositioninformation",
    "hazardidentification",
    "hazardsidentification",
    "informationoningredients",
)


_LAW = lazy(r"\b(?:1272/2008|67/548(?:/EEC|/EWG|/CEE)?|1999/45(?:/EC|/EG|/CE)?|1907/2006)\b", re.IGNORECASE)
_SHARE = lazy(r"[<>~\u2264\u2265]?\d{1,3}(?:[.,]\d{1,4})?(?:-\d{1,3}(?:[.,]\d{1,4})?)?%")
_CUT_OFF = lazy(r"[01](?:[.,]\d{1,2})?%")


def is_head_line(line: str) -> bool:
    """Whether a line is a head row or heading: nearly all its words are words of column heads."""
    if len(line) > 300 or patterns.CAS.search(line):
        return False
    words = [word.strip('():,;.*#[]|"').lower() for word in re.split(r"[\s/|,;]+", _LAW.sub(" ec ", line))]
    cut_off = any(_CUT_OFF.fullmatch(word) for word in words)
    words = [word for word in words if word and not _CUT_OFF.fullmatch(word) and not set(word) <= set("-=_")]
    if cut_off and not words:
        return False  # '0.45%' on a line of its own is an amount
    if any(_SHARE.fullmatch(word) for word in words):
        return False
    if not words or "".join(words) in _COMPACT_HEADS or ("".join(words).startswith(_COMPACT_STARTS) and len(words) > 2):
        return True
    hits = sum(patterns.is_head_word(word) or word.rstrip("s.") in patterns.HEAD_WORDS for word in words)
    return hits * 4 >= len(words) * 3
