"""Tables that came as one run of cells: the whole table on one line, one cell a line, or column after column."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amounts import shares_in
from formulate.reading.cells import HOLDS, Cell, Row, is_head_line
from formulate.reading.columns import COLUMN_DOUBT, from_columns, numbers_and_amounts
from formulate.reading.functions import FUNCTION
from formulate.reading.lazily import lazy

Known = Callable[[str], bool]
_STRONG_TEXT = (
    "weight "
    "cas cas# v.p casno cas-no cas-nr einecs einecs-nr ec-no % wt wt% percent osha acgih pel tlv osha-pel "
    "acgih-tlv osha/pel acgih/tlv ld50 lc50 gehalt r-sätze gef.sym ingredient ingredients component components "
    "ingrediente ingredientes ingredienti componente componentes componenti "
    "name concentration contents conc classification exposure limits einheit bezeichnung ghs  weight% "
    "w/w stoffname inhaltsstoffe c.a.s einecs# casrn concentración concentracion concentração concentrazione "
    "denominazione nombre nome nazwa stężenia klasyfikacja teneur composant konzentration wag químico chemiczna "
)
_STRONG = frozenset(_STRONG_TEXT.split())
_LEAD_WORDS = 8
_START_ONLY = frozenset(["chemical", "material", "substance", "common", "hazardous", "product"])
_BLANK_WORDS = lazy(r"\b(?:not\s(?:applicable|established|available|listed)|none|n/?a|ne|nd)\b", re.IGNORECASE)
# 'Other components below reportable levels' is a row, though its first words are those of heads
_REST = lazy(
    r"\b(?:other|remaining|further)\s(?:ingredients?|components?|substances?|materials?)\s(?:below|above|under|not|non|present|at|in)\b",
    re.IGNORECASE,
)
_HAZARD = r"(?:[Xx][NnIi]|[Ff]\+|[Tt]\+|F|T|C|N|O)"
_LEADING_SIGN = lazy(
    rf"(?:-\s){{0,3}}(?:{_HAZARD}(?:[-,]\s?(?:{_HAZARD}|f(?=-[Xx]))){{0,3}}|f-x[ni])\s(?:\d{{1,2}}(?:[-/]\d{{1,2}}){{0,8}}\s)?"
    r"(?=[^\W\d_])"
)


def rows_from_stream(copy: str, cells: list[Cell], known: Known) -> list[Row]:
    """Rows of a run of cells: names first, numbers first, or all names and then all numbers."""
    cells = [part for cell in _without_remarks(copy, cells) for part in _parted(cell)]
    cells = _unsigned(_below_head(cells))
    runs = _name_runs([cell for cell in cells if not (cell.kind == "N" and is_head_line(cell.value))])
    numbers, amounts = numbers_and_amounts(cells)
    if len(runs) == 1 and max(len(numbers), len(amounts)) > 1:
        columns = from_columns(copy, runs[0], numbers, amounts, known)
        if columns:
            return columns
    lead = next((at for at, cell in enumerate(cells) if cell.kind in "CAEW"), 0)
    amount_first = _is_lead(cells[:lead]) and _amount_first(cells[lead:])
    cells = cells[lead:] if amount_first else cells
    number_first = not amount_first and _number_first(cells)
    if number_first:
        cells = cells[next(number for number, cell in enumerate(cells) if cell.kind == "C") :]
    rows: list[list[Cell]] = []
    seen: set[str] = set()
    for cell in cells:
        if cell.kind == "H" or (amount_first and cell.kind == "N" and seen & set("CE")):
            continue  # behind the number of a row that began with its amount stands what it is classified as
        is_function = FUNCTION.fullmatch(cell.value) is not None and "F" not in seen
        begins = (
            (cell.kind == "C" and "C" in seen)
            if number_first
            else (cell.kind == "A" and "A" in seen)
            if amount_first
            else (cell.kind == "N" and bool(seen & set("CAW")) and not is_function)
        )
        if not rows or begins:
            rows.append([])
            seen = set()
        rows[-1].append(cell)
        seen.add("F" if cell.kind == "N" and is_function else cell.kind)
    return _handed_up([Row(tuple(row)) for row in rows if _is_row(copy, row, known)])


def _handed_up(rows: list[Row]) -> list[Row]:
    """Where a row holds two amounts and the row above it only a number, the first amount is that row's."""
    for number in range(1, len(rows)):
        above, row = rows[number - 1], rows[number]
        own = [cell for cell in row.cells if cell.kind == "A"]
        if len(own) == 2 and "A" not in above.kinds() and "C" in above.kinds() and row.cells[0].kind == "N":
            rows[number - 1] = Row((*above.cells, own[0]), COLUMN_DOUBT)
            rows[number] = Row(tuple(cell for cell in row.cells if cell is not own[0]), COLUMN_DOUBT)
    return rows


def _is_lead(cells: list[Cell]) -> bool:
    """Whether cells above the first number are heads and sentences, not a name."""
    words = [word for cell in cells if cell.kind == "N" for word in cell.value.split()]
    return not words or len(words) > _LEAD_WORDS


def _amount_first(cells: list[Cell]) -> bool:
    """Whether each row begins with its amount: '10 - 25 % naphtha EC ..., < 2 % xylene EC ...'."""
    told = "".join(cell.kind for cell in cells if cell.kind in "NA")
    first = next((cell.kind for cell in cells if cell.kind in "NCAE"), "")
    each = told.count("AN")
    return first == "A" and each > 1 and each == told.count("A") and told.count("N") - each <= each // 3


def _without_remarks(copy: str, cells: list[Cell]) -> list[Cell]:
    """The cells without remarks, and without the numbers printed inside one: '... contains little (< 0.1 %) of ...'."""
    kept: list[Cell] = []
    inside = False
    for cell in cells:
        if cell.kind == "N":
            inside = _is_remark(copy, cell) or (inside and cell.value[:1] in ")],;")
        if not inside:
            kept.append(cell)
    return kept


def is_headed_run(stretch: str) -> bool:
    """Whether one line holds the head of a table and then its values: head words in a row, later several amounts."""
    words = list(re.finditer(r"\S+", stretch[:1000]))
    strong = 0
    for at, word in enumerate(words):
        kind = _head_word(word.group())
        strong = strong + (kind == "strong") if kind else 0
        if strong > 3 and at + 1 < len(words) and not _head_word(words[at + 1].group()):
            return len([one for one in shares_in(stretch, word.end(), len(stretch)) if one.unit == "%"]) > 1
    return False


def after_head(copy: str, start: int, end: int) -> int:
    """Where the names begin in a line that starts with the head words of a table; ``start`` if it does not."""
    strong, at = 0, start
    for word in re.finditer(r"\S+", copy[start : min(end, start + 300)]):
        kind = _head_word(word.group())
        if not kind and word.group().lower() not in _START_ONLY:
            break
        strong += kind == "strong" or word.group().lower() in _START_ONLY
        at = start + word.end()
    return at if strong > 2 and copy[at:end].strip() else start


def is_flat(cells: tuple[Cell, ...]) -> bool:
    """Whether one stretch holds head words and values together: a table flattened to a line."""
    return any(
        sum(_head_word(word) == "strong" for word in cell.value.split()) > 1 for cell in cells if cell.kind == "N"
    )


def _is_remark(copy: str, cell: Cell) -> bool:
    if cell.kind != "N":
        return False
    text = copy[cell.start : cell.end]
    return (
        len(text.split()) > 5
        and patterns.TABLE_NOTE.search(text) is not None
        and not patterns.CATCH_ALL.match(text)
        and not is_flat((cell,))
    )


def _below_head(cells: list[Cell]) -> list[Cell]:
    """The cells without text above the head, where the head stands right above the names."""
    first = next((at for at, cell in enumerate(cells) if cell.kind in "CAW"), 0)
    heads = [at for at in range(first) if _is_head(cells[at])]
    return cells[heads[-1] :] if heads and any(cell.kind == "N" for cell in cells[heads[-1] : first]) else cells


def _is_head(cell: Cell) -> bool:
    return cell.kind == "H" and sum(_head_word(word) == "strong" for word in cell.value.split()) > 2


def _unsigned(cells: list[Cell]) -> list[Cell]:
    """Names without the hazard signs of the row before: 'F-Xi Butane', 'F+ 12 Propane' behind an amount."""
    kept: list[Cell] = []
    for cell in cells:
        sign = _LEADING_SIGN.match(cell.value) if cell.kind == "N" and kept and kept[-1].kind in "CA" else None
        kept.append(cell._replace(start=cell.start + sign.end(), value=cell.value[sign.end() :]) if sign else cell)
    return kept


def _is_row(copy: str, row: list[Cell], known: Known) -> bool:
    kinds = {cell.kind for cell in row}
    if kinds & set("CAW"):
        return True
    text = copy[row[0].start : row[-1].end]
    return known(text) or patterns.CATCH_ALL.match(text) is not None


def _number_first(cells: list[Cell]) -> bool:
    """Whether rows begin with the registry number: no name stands before the first, and a name follows."""
    first = next((number for number, cell in enumerate(cells) if cell.kind == "C"), None)
    if first is None:
        return False
    before = [cell.kind for cell in cells[:first] if cell.kind in "NHA"]
    after = [cell.kind for cell in cells[first:] if cell.kind in "NCA"]
    return (not before or before[-1] == "H") and "N" in after


def _name_runs(cells: list[Cell]) -> list[list[Cell]]:
    runs: list[list[Cell]] = []
    apart = True
    for cell in cells:
        if cell.kind == "N":
            if apart:
                runs.append([])
            runs[-1].append(cell)
            apart = False
        elif cell.kind in "CA":
            apart = True
    return runs


def _parted(cell: Cell) -> list[Cell]:
    """A name cell cut at the words of column heads inside it (kind H)."""
    if cell.kind != "N":
        return [cell]
    words = list(re.finditer(r"\S+", cell.value))
    is_head = [_head_word(word.group()) for word in words]
    for holds in HOLDS.finditer(cell.value):
        for number, word in enumerate(words):
            is_head[number] = "" if holds.start() <= word.start() < holds.end() else is_head[number]
    for rest in _REST.finditer(cell.value):
        for number, word in enumerate(words):
            is_head[number] = "" if rest.start() <= word.start() < rest.end() else is_head[number]
    blanks = [match.span() for match in _BLANK_WORDS.finditer(cell.value)]
    for number, word in enumerate(words):
        is_head[number] = is_head[number] or ("weak" if any(a <= word.start() < b for a, b in blanks) else "")
    parts: list[Cell] = []
    at = 0
    while at < len(words):
        stop = at
        while stop < len(words) and bool(is_head[stop]) == bool(is_head[at]):
            stop += 1
        strong = "strong" in is_head[at:stop] or (
            at == 0 and words[0].group().strip("():").lower() in _START_ONLY and len(words) > stop
        )
        blank = bool(is_head[at]) and any(a <= words[at].start() < b for a, b in blanks)
        kind = "H" if is_head[at] and (strong or blank) else "N"
        if parts and parts[-1].kind == kind == "N":
            start = parts[-1].start
            parts[-1] = parts[-1]._replace(
                end=cell.start + words[stop - 1].end(), value=cell.value[start - cell.start : words[stop - 1].end()]
            )
        else:
            begin, end = words[at].start(), words[stop - 1].end()
            parts.append(
                Cell(kind, cell.start + begin, cell.start + end, cell.value[begin:end].strip(" *>_").lstrip("-"))
            )
        at = stop
    return [part for part in parts if part.kind == "H" or patterns.LETTER.search(part.value)]


def _head_word(word: str) -> str:
    plain = word.strip("():,;.*[]|").lower()
    if plain in _STRONG or word in {"CAS#", "#CAS"}:
        return "strong"
    if not plain or set(plain) <= set("-=_#/") or patterns.is_head_word(plain):
        return "weak"
    return "weak" if all(part in patterns.HEAD_WORDS for part in re.split(r"[/\-]", plain)) else ""
