"""Tables whose lines are rows, with names that wrap over lines."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.cells import Head, Row, cells_of, is_head_line
from formulate.reading.functions import FUNCTION
from formulate.reading.lazily import lazy
from formulate.reading.row_drafts import spliced, without_labels
from formulate.reading.stream import is_flat, is_headed_run, rows_from_stream

Known = Callable[[str], bool]
_LONE = lazy(r"[<>\u2264\u2265=]{0,2}\s?\d{1,3}(?:[.,]\d{1,4})?\s?%?")
_OPEN_END = lazy(r"(?:[,/(-]|\band|\bwith|\bof|\bor)\s*$", re.IGNORECASE)

_CUT_SHORT = lazy(r"(?:[,/(-]|\b(?:and|with|of|or|und|mit|et|avec|reaction\sproducts?))\s*$", re.IGNORECASE)


def separated_rows(copy: str, lines: list[tuple[int, int]], sign: str, head: Head) -> list[Row]:
    """Rows of a table whose cells are parted by one sign (CSV); quoted cells may hold it."""
    cell = re.compile(rf'"[^"\n]{{0,2000}}"|[^{re.escape(sign)}\n]+')
    rows = []
    for start, end in lines:
        spans = [match.span() for match in cell.finditer(copy, start, end)]
        cells = [one for a, b in spans for one in cells_of(copy, *_unquoted(copy, a, b), head)]
        if any(one.kind == "N" for one in cells):
            rows.append(Row(tuple(cells)))
    return rows


def _unquoted(copy: str, start: int, end: int) -> tuple[int, int]:
    return (start + 1, end - 1) if end - start > 1 and copy[start] == copy[end - 1] == '"' else (start, end)


def separator_of(copy: str, head: tuple[int, int], lines: list[tuple[int, int]]) -> str | None:
    """The sign that parts the cells of a CSV: in the head line, and as often in most lines below."""
    line = copy[head[0] : head[1]]
    for sign in ";,\t":
        count = line.count(sign)
        if sign == "," and (", " in line or count < 2):
            continue
        if count and lines and sum(copy.count(sign, a, b) >= count for a, b in lines) * 3 >= len(lines) * 2:
            return sign
    return None


def table_rows(copy: str, lines: list[tuple[int, int]], head: Head, known: Known) -> list[Row]:
    """Rows of a table: by line where lines are rows, else from the run of cells."""
    parts = [without_labels(copy, Row(tuple(cells_of(copy, start, end, head)))) for start, end in lines]
    if len(lines) == 1 and parts and is_headed_run(copy[slice(*lines[0])]):
        return rows_from_stream(copy, list(parts[0].cells), known)
    parts = [part for part in parts if part.cells and not _is_note(copy, part) and not _is_labelled_code(part)]
    parts = [part._replace(pair=_is_pair(part, head)) for part in _numbers_above(parts)]
    complete = sum(_is_complete(part) for part in parts)
    nameless = [part for part in parts if "N" not in part.kinds() and set("CEAW") & set(part.kinds())]
    several = any(part.kinds().count("C") > 1 and not _is_double(part) for part in parts)
    several = several or any("C" not in part.kinds() and part.kinds().count("E") > 2 for part in parts)
    split = any(set("CA") <= set(part.kinds()) for part in nameless)
    flat = any(is_flat(part.cells) for part in parts if "C" in part.kinds())
    above = split and not complete and _names_stand_above(copy, parts)
    if not several and not flat and (above or (complete and (complete >= len(nameless) or split))):
        return _wrapped(copy, parts, known)
    return rows_from_stream(copy, [cell for part in parts for cell in part.cells], known)


def ranges_joined(copy: str, lines: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Lines with a range printed over three lines ('10,00', '-', '25,00') as one."""
    joined: list[tuple[int, int]] = []
    for start, end in lines:
        dash = len(joined) > 1 and copy[joined[-1][0] : joined[-1][1]] == "-"
        if dash and _LONE.fullmatch(copy, start, end) and _LONE.fullmatch(copy, *joined[-2]):
            joined[-2:] = [(joined[-2][0], end)]
        else:
            joined.append((start, end))
    return joined


def _is_double(row: Row) -> bool:
    """One name with two registry numbers side by side."""
    return "CC" in row.kinds() and row.kinds().count("N") == 1 and row.kinds().count("C") == 2


def _is_complete(row: Row) -> bool:
    kinds = row.kinds()
    return ("N" in kinds and any(kind in kinds for kind in "CAW")) or row.pair


def _is_pair(row: Row, head: Head) -> bool:
    """A name and what it is for, in two columns: by the head, or by the word in the second."""
    if row.kinds() != "NN":
        return False
    told = row.cells[1].value.strip()
    return FUNCTION.fullmatch(told) is not None or (head.function and len(told.split()) <= 3 and told[-1:] not in ".:")


def _names_stand_above(copy: str, parts: list[Row]) -> bool:
    """Whether the first line of number and amount stands right below a line of name text."""
    first = next((number for number, part in enumerate(parts) if set(part.kinds()) >= set("CA")), 0)
    return first > 0 and "N" in parts[first - 1].kinds() and _is_near(copy, parts[first - 1], parts[first])


def _text(copy: str, row: Row) -> str:
    return copy[row.cells[0].start : row.cells[-1].end]


def _is_note(copy: str, row: Row) -> bool:
    text = _text(copy, row)
    if set("CE") & set(row.kinds()) or len(text.split()) < 5:
        return False
    return patterns.TABLE_NOTE.search(text) is not None and not text.lower().startswith("balance")


def _numbers_above(parts: list[Row]) -> list[Row]:
    """The lines with each number put to the name below it, where the table begins with a number and they alternate."""
    paired: list[Row] = []
    at = 0
    while (
        at + 1 < len(parts)
        and "C" in parts[at].kinds()
        and "N" not in parts[at].kinds()
        and parts[at + 1].kinds() == "N"
    ):
        paired.append(_joined(parts[at], parts[at + 1]))
        at += 2
    return [*paired, *parts[at:]] if len(paired) > 1 and at < len(parts) else parts


def _is_labelled_code(row: Row) -> bool:
    """'Hazard statements: H304' on a line of its own."""
    return (
        set(row.kinds()) == set("NX")
        and any(cell.value == "code" for cell in row.cells)
        and all(is_head_line(cell.value) for cell in row.cells if cell.kind == "N")
    )


def _wrapped(copy: str, parts: list[Row], known: Known) -> list[Row]:
    """Join the lines of one row: a nameless line takes the name above it, a name alone continues the row above."""
    rows: list[Row] = []
    waiting: list[Row] = []
    for part in parts:
        if not waiting and rows and _goes_on(copy, rows[-1], part):
            rows[-1] = _joined(rows[-1], part)._replace(centred=True)
        elif _is_complete(part):
            prefix = (
                waiting.pop()
                if waiting and _OPEN_END.search(_text(copy, waiting[-1]) + copy[waiting[-1].cells[-1].end])
                else None
            )
            rows += _settled(copy, rows, waiting, known)
            waiting = []
            rows.append(_joined(prefix, part))
        elif "N" in part.kinds():
            waiting.append(part)
        elif waiting and set(part.kinds()) == {"X"}:
            continue  # codes alone bring nothing a name waits for; they stay in what was left over
        elif waiting and not _lacks(rows, waiting, copy, part):
            prefix = waiting.pop()
            while waiting and _text(copy, prefix)[:1] in "([":  # '(mixture of isomers)' below its name
                prefix = _joined(waiting.pop(), prefix)
            rows += _settled(copy, rows, waiting, known)
            waiting = []
            rows.append(_joined(prefix, part)._replace(centred=True))
        elif rows:
            rows += _settled(copy, rows, waiting, known)
            waiting = []
            rows[-1] = _joined(rows[-1], part)
    return rows + _settled(copy, rows, waiting, known)


def _joined(first: Row | None, second: Row) -> Row:
    return second if first is None else Row((*first.cells, *second.cells))


def _goes_on(copy: str, row: Row, part: Row) -> bool:
    """Whether a line with an amount ends the row above: that has a number, no amount, and its name is cut short."""
    above, kinds = row.kinds(), part.kinds()
    if "C" not in above or "A" in above or "A" not in kinds or set("CEW") & set(kinds) or not _is_near(copy, row, part):
        return False
    ends = [cell for cell in row.cells if cell.kind == "N"]
    begins = next((cell for cell in part.cells if cell.kind == "N"), None)
    return bool(ends) and begins is not None and begins.value[:1].islower() and bool(_CUT_SHORT.search(ends[-1].value))


def _lacks(rows: list[Row], waiting: list[Row], copy: str, part: Row) -> bool:
    """Whether the row above still lacks what this nameless line brings, and the name between continues that row."""
    if not rows or len(waiting) > 1:
        return False
    brings = part.kinds().strip("X")
    return bool(brings) and not set(brings) & set(rows[-1].kinds()) and _text(copy, waiting[0])[:1].islower()


def _settled(copy: str, rows: list[Row], waiting: list[Row], known: Known) -> list[Row]:
    """Lines that hold only name text: rows of their own where the word list or the print says so, else the end of
    the name above, else nothing (they stay in what was left over)."""
    new: list[Row] = []
    for part in waiting:
        text = _text(copy, part)
        whole = rows and known(spliced([cell.value for cell in (*rows[-1].cells, *part.cells) if cell.kind == "N"]))
        whole = whole or bool(
            rows
            and not new
            and rows[-1].centred
            and _is_near(copy, rows[-1], part)
            and not patterns.CATCH_ALL.match(text)
        )
        whole = whole or bool(rows and not new and _is_last_word(copy, rows[-1], part))
        if (patterns.CATCH_ALL.match(text) or known(text)) and not whole:
            new.append(part)
        elif rows and not new and len(text.split()) <= 5 and text[-1:] not in ":." and _is_near(copy, rows[-1], part):
            rows[-1] = _joined(rows[-1], part)
    return new


def _is_last_word(copy: str, row: Row, part: Row) -> bool:
    """Whether one word in small letters ends the name above, that begins with a capital: '..., 2-propinil', 'ester'."""
    word = _text(copy, part)
    small = word.islower() and len(word.split()) == 1
    return small and "C" in row.kinds() and _text(copy, row)[:1].isupper() and _is_near(copy, row, part)


def _is_near(copy: str, row: Row, part: Row) -> bool:
    return copy.count("\n", max(cell.end for cell in row.cells), part.cells[0].start) == 1
