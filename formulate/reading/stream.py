"""Tables that came as one run of cells: the whole table on one line, one cell a line, or column after column."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.cells import Cell, Row
from formulate.reading.functions import FUNCTION
from formulate.reading.lazily import lazy
from formulate.reading.loose import spaced_entries

Known = Callable[[str], bool]
COLUMN_DOUBT = "the columns were printed apart: which number belongs to which name follows from their order"
_STRONG_TEXT = (
    "weight "
    "cas cas# casno cas-no cas-nr einecs einecs-nr ec-no % wt wt% percent osha acgih pel tlv osha-pel "
    "acgih-tlv osha/pel acgih/tlv ld50 lc50 gehalt r-sätze gef.sym ingredient ingredients component components "
    "name concentration contents conc classification exposure limits einheit bezeichnung ghs  weight% "
    "w/w stoffname inhaltsstoffe c.a.s einecs#  "
)
_STRONG = frozenset(_STRONG_TEXT.split())
_START_ONLY = frozenset(["chemical", "material", "substance", "common", "hazardous", "product"])
_BLANK_WORDS = lazy(r"\b(?:not\s(?:applicable|established|available|listed)|none|n/?a|ne|nd)\b", re.IGNORECASE)
_SECOND_WORD = lazy(
    r"^(?:acids?|alcohols?|oxides?|hydroxides?|chlorides?|water|sulfates?|sulphates?|sulfonates?|oils?|wax(?:es)?"
    r"|acetates?|ethers?|glycols?|polymers?|copolymers?|ethoxylates?|silicates?|resins?|distillates?|naphtha"
    r"|spirits|gas(?:es)?|emulsions?"
    r"|phosphates?|carbonates?|citrates?|gluconates?|stearates?|oleates?|amines?|esters?|fluids?|gum|dioxides?"
    r"|peroxides?|salts?|benzoates?|silicas?|siloxanes?|silanes?|hydrocarbons?|solvents?|petroleum|light|heavy"
    r"|blend|\d{1,4}[%\w]{0,3})\W*$",
    re.IGNORECASE,
)

_FIRST_WORDS = frozenset(
    (
        "sodium",
        "potassium",
        "calcium",
        "magnesium",
        "ammonium",
        "proprietary",
        "de-ionised",
        "deionized",
        "deionised",
        "purified",
        "mineral",
        "carnauba",
        "white",
    )
)


def rows_from_stream(copy: str, cells: list[Cell], known: Known) -> list[Row]:
    """Rows of a run of cells: names first, numbers first, or all names and then all numbers."""
    cells = [part for cell in cells if not _is_remark(copy, cell) for part in _parted(cell)]
    runs = _name_runs(cells)
    numbers, amounts = _of(cells, "C"), _of(cells, "A")
    if len(runs) == 1 and max(len(numbers), len(amounts)) > 1:
        columns = _from_columns(copy, runs[0], numbers, amounts, known)
        if columns:
            return columns
    number_first = _number_first(cells)
    if number_first:
        cells = cells[next(number for number, cell in enumerate(cells) if cell.kind == "C") :]
    rows: list[list[Cell]] = []
    seen: set[str] = set()
    for cell in cells:
        if cell.kind == "H":
            continue
        is_function = FUNCTION.fullmatch(cell.value) is not None and "F" not in seen
        begins = (
            (cell.kind == "C" and "C" in seen)
            if number_first
            else (cell.kind == "N" and bool(seen & set("CAW")) and not is_function)
        )
        if not rows or begins:
            rows.append([])
            seen = set()
        rows[-1].append(cell)
        seen.add("F" if cell.kind == "N" and is_function else cell.kind)
    return [Row(tuple(row)) for row in rows if _is_row(copy, row, known)]


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


def _of(cells: list[Cell], kind: str) -> list[Cell]:
    return [cell for cell in cells if cell.kind == kind]


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
    if not plain or set(plain) <= set("-=_#/") or plain in patterns.HEAD_WORDS:
        return "weak"
    return "weak" if all(part in patterns.HEAD_WORDS for part in re.split(r"[/\-]", plain)) else ""


def _from_columns(copy: str, names: list[Cell], numbers: list[Cell], amounts: list[Cell], known: Known) -> list[Row]:
    """Rows of a table flattened column by column; empty where the names do not count up with the numbers."""
    size = len(amounts) if len(numbers) < 2 else len(numbers)
    cut = names if len(names) == size else _cut_names(copy, names, size, known)
    if len(cut) != size:
        return []
    rows = []
    for number, name in enumerate(cut):
        cells = [name]
        cells += [numbers[number]] if number < len(numbers) else []
        cells += [amounts[number]] if len(amounts) == size else []
        rows.append(Row(tuple(cells), COLUMN_DOUBT))
    return rows


def _cut_names(copy: str, names: list[Cell], size: int, known: Known) -> list[Cell]:
    """Cut a run of names printed without separators into ``size`` names: by the word list, then by capitals."""
    start, end = names[0].start, names[-1].end
    if len(names) > 1:
        return [part for name in names for part in (_by_capitals(name, 0))] if len(names) < size else names
    entries = spaced_entries(copy, start, end, known)
    cut = [Cell("N", entry.start, entry.end, copy[entry.start : entry.end]) for entry in entries]
    if len(cut) == size:
        return cut
    parts = [part for name in cut for part in ([name] if known(name.value) else _by_capitals(name, 0))]
    return parts if len(parts) == size else _by_capitals(names[0], size)


def _begins_name(word: str, before: str, after: str) -> bool:
    """Whether a word printed with a capital begins a new name after the word before it."""
    if not re.match(r"(?:\d[\d,]*-|\()?[A-Z]", word) or before[-1] in ",-/":
        return False
    if _SECOND_WORD.match(word) and not _SECOND_WORD.match(after):
        return False
    return before[0].islower() or before.lower() not in _FIRST_WORDS


def _by_capitals(cell: Cell, size: int) -> list[Cell]:
    """Cut a run of names at capitals; uncut if ``size`` is asked for and does not come out."""
    words = list(re.finditer(r"\S+", cell.value))
    texts = [word.group() for word in words] + [""]
    starts = [0, *(n for n in range(1, len(words)) if _begins_name(texts[n], texts[n - 1], texts[n + 1]))]
    if size and len(starts) != size:
        return [cell]
    stops = [*starts[1:], len(words)]
    return [
        Cell(
            "N",
            cell.start + words[a].start(),
            cell.start + words[b - 1].end(),
            cell.value[words[a].start() : words[b - 1].end()],
        )
        for a, b in zip(starts, stops, strict=True)
    ]
