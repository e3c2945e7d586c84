"""Tables flattened column by column: a run of names, then a run of numbers, then a run of amounts."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.cells import Cell, Row
from formulate.reading.cuts import Entry
from formulate.reading.lazily import lazy
from formulate.reading.loose import spaced_entries

Known = Callable[[str], bool]
COLUMN_DOUBT = "the columns were printed apart: which number belongs to which name follows from their order"
_SECOND_WORD = lazy(
    r"^(?:acids?|alcohols?|oxides?|hydroxides?|chlorides?|water|sulfates?|sulphates?|sulfonates?|oils?|wax(?:es)?"
    r"|acetates?|ethers?|glycols?|polymers?|copolymers?|ethoxylates?|silicates?|resins?|distillates?|naphtha"
    r"|spirits|gas(?:es)?|emulsions?"
    r"|phosphates?|carbonates?|citrates?|gluconates?|stearates?|oleates?|amines?|esters?|fluids?|gum|dioxides?"
    r"|peroxides?|salts?|benzoates?|silicas?|siloxanes?|silanes?|hydrocarbons?|solvents?|petroleum|light|heavy"
    r"|blend|\d{1,4}[%\w]{0,3})\W*$",
    re.IGNORECASE,
)

_EMPTY_COLUMNS = lazy(
    r"(?:\s(?:not\s(?:established|available|applicable|listed)|none|n/?a|ne|nd)){1,12}[\s.]{0,9}$", re.IGNORECASE
)
_UNITS = lazy(r"[\s\d/().]{0,9}(?:(?:mg|ppm|ug|m|wt|vol)\b[\s\d/().]{0,9}){1,8}", re.IGNORECASE)
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


def numbers_and_amounts(cells: list[Cell]) -> tuple[list[Cell], list[Cell]]:
    """The column of numbers and that of amounts; a withheld one keeps its place where each column stands whole."""
    told = [cell for cell in cells if cell.kind in "CAW"]
    at = next((number for number, cell in enumerate(told) if cell.kind == "A"), len(told))
    numbers, amounts = told[:at], told[at:]
    if "C" not in {cell.kind for cell in numbers} or "C" in {cell.kind for cell in amounts}:
        return _of(cells, "C"), _of(cells, "A")
    return numbers, amounts


def _of(cells: list[Cell], kind: str) -> list[Cell]:
    return [cell for cell in cells if cell.kind == kind]


def from_columns(copy: str, names: list[Cell], numbers: list[Cell], amounts: list[Cell], known: Known) -> list[Row]:
    """Rows of a table flattened column by column; empty where the names do not count up with the numbers."""
    size = len(amounts) if len(numbers) < 2 else len(numbers)
    cut = names if len(names) == size else _cut_names(copy, names, size, known)
    if len(cut) != size:
        alone = len(names) == 1 and len(names[0].value) < 4000 and len(amounts) == len(numbers)
        return _from_both_ends(names[0], numbers, amounts, known) if alone else []
    if sum(cell.amount.low or 0 for cell in amounts if cell.amount) > 1.005:
        amounts = [cell._replace(amount=cell.amount and cell.amount._replace(doubtful=True)) for cell in amounts]
    rows = []
    for number, name in enumerate(cut):
        cells = [name]
        cells += [numbers[number]] if len(numbers) == size else []
        cells += [amounts[number]] if len(amounts) == size else []
        rows.append(Row(tuple(cells), COLUMN_DOUBT))
    return rows


def _from_both_ends(run: Cell, numbers: list[Cell], amounts: list[Cell], known: Known) -> list[Row]:
    """Where a run of names cannot be cut to the count of the numbers: only known names, counted from its ends."""
    words = [match.span() for match in re.finditer(r"\S+", run.value)]
    left, right = 0, len(words)
    first: list[Cell] = []
    last: list[Cell] = []
    while size := _known_size(run, words[left:right], known, from_end=False):
        first.append(_stretch(run, words[left], words[left + size - 1]))
        left += size
    if first and left < right and _goes_on(run.value[slice(*words[left])]):
        left -= len(first.pop().value.split())
    while size := _known_size(run, words[left:right], known, from_end=True):
        last.insert(0, _stretch(run, words[right - size], words[right - 1]))
        right -= size
    if last and left < right and _SECOND_WORD.match(last[0].value):
        right += len(last.pop(0).value.split())  # 'ETHER' alone may be the end of what stands before it
    if left >= right or not 2 <= len(first) + len(last) < len(numbers):
        return []
    ends = [*range(len(first)), *range(len(numbers) - len(last), len(numbers))]
    middle = _middle(_stretch(run, words[left], words[right - 1]), len(numbers) - len(ends), known)
    if middle:
        first, ends = [*first, *middle], list(range(len(numbers)))
    return [Row((name, numbers[at], amounts[at]), COLUMN_DOUBT) for name, at in zip([*first, *last], ends, strict=True)]


def _middle(run: Cell, size: int, known: Known) -> list[Cell]:
    """What stands between the known names: one name as it is, two if the second is known, even where it is glued on."""
    if size == 1:
        return [run]
    if size != 2 or len(run.value) > 400:
        return []
    for at in range(1, len(run.value) - 3):
        if run.value[at] != " " and known(run.value[at:]):
            return [
                Cell("N", run.start, run.start + at, run.value[:at].rstrip()),
                Cell("N", run.start + at, run.end, run.value[at:]),
            ]
    return []


def capital_entries(copy: str, start: int, end: int) -> list[Entry]:
    """Entries of a run of names whose columns are lost, cut at capitals; a withheld word stays with its name."""
    empty = _EMPTY_COLUMNS.search(copy, start, end)
    end = empty.start() if empty else end
    cells = _by_capitals(Cell("N", start, end, copy[start:end]), 0)
    entries: list[Entry] = []
    for cell in cells:
        begin = cell.start
        withheld = patterns.WITHHELD.match(cell.value)
        if entries and withheld:
            begin += withheld.end()
            entries[-1] = entries[-1]._replace(end=begin)
        if copy[begin : cell.end].strip() and not _UNITS.fullmatch(copy, begin, cell.end):
            entries.append(Entry(begin, cell.end))
    return entries


def _goes_on(word: str) -> bool:
    return _SECOND_WORD.match(word) is not None or word[:1].islower()


def _known_size(run: Cell, words: list[tuple[int, int]], known: Known, *, from_end: bool) -> int:
    """How many words at one end of a run are a known name; the longest counts."""
    for size in range(min(6, len(words)), 0, -1):
        part = words[-size:] if from_end else words[:size]
        if known(run.value[part[0][0] : part[-1][1]]):
            return size
    return 0


def _stretch(run: Cell, first: tuple[int, int], last: tuple[int, int]) -> Cell:
    return Cell("N", run.start + first[0], run.start + last[1], run.value[first[0] : last[1]])


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
    if cell.value.isupper() or (size and len(starts) != size):  # print in capitals alone tells no beginnings
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
