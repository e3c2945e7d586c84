"""What a row of a table tells: its name, numbers, amount and strength, and its function."""

from __future__ import annotations

from formulate.domain.line import Means
from formulate.reading import patterns
from formulate.reading.amounts import Amount
from formulate.reading.cells import Cell, Head, Row, is_head_line
from formulate.reading.functions import FUNCTION
from formulate.reading.item import Draft, clean_name
from formulate.reading.lazily import lazy
from formulate.reading.numbers import REPAIRED, is_repaired

_LABEL_END = lazy(r"[ \t]{0,3}:")


def draft_of(text: str, copy: str, row: Row, head: Head, means: Means = "either") -> Draft | None:
    """The entry a row tells; None if it has no name."""
    names, function = _names(_unlabelled(copy, row), head)
    if not names:
        return None
    name, tail = clean_name(spliced([cell.value for cell in names]))
    if not patterns.LETTER.search(name):
        return None
    of_name = _strength(row)
    told = row._replace(cells=tuple(cell for cell in row.cells if cell is not of_name)) if of_name else row
    best = None if patterns.CATCH_ALL.match(name) and len(name.split()) > 5 else best_amount(told)
    strength = (of_name.amount.low, of_name.amount.high) if of_name and of_name.amount else None
    return Draft(
        _spans(copy, row),
        name,
        next((cell.value for cell in row.cells if cell.kind == "C"), None),
        next((cell.value for cell in row.cells if cell.kind == "E"), None),
        best.stated(text, means, _both(strength)) if best else None,
        function or tail,
        row.doubtful or _repaired(copy, row),
    )


def _strength(row: Row) -> Cell | None:
    """The figure in front of the number that is the strength of the raw material: 'Ammonia 25 %   1336-21-6   1 %'."""
    kinds = row.kinds()
    if "C" not in kinds or "N" not in kinds[: kinds.index("C")] or kinds[: kinds.index("C")].count("A") != 1:
        return None
    first = next(cell for cell in row.cells if cell.kind == "A")
    later = [cell.amount for cell in row.cells[kinds.index("C") :] if cell.amount is not None]
    exact = first.amount is not None and first.amount.unit == "%" and not first.amount.compared
    return first if exact and any(one.unit == "%" or one.range_ or one.compared for one in later) else None


def _both(limits: tuple[float | None, float | None] | None) -> tuple[float, float] | None:
    return None if limits is None or limits[0] is None or limits[1] is None else (limits[0], limits[1])


def _repaired(copy: str, row: Row) -> str | None:
    numbers = (cell for cell in row.cells if cell.kind == "C")
    return REPAIRED if any(is_repaired(copy[cell.start : cell.end]) for cell in numbers) else None


def _unlabelled(copy: str, row: Row) -> Row:
    """The row without labels in front of its values ('Concentration: 5 %')."""
    cells = without_labels(copy, row).cells
    return row._replace(cells=cells) if any(cell.kind == "N" for cell in cells) else row


def without_labels(copy: str, row: Row) -> Row:
    """The row without cells that only say what the next one is: 'Fraction by weight: 17 %' is an amount."""
    labels = [cell for cell in row.cells if cell.kind == "N" and _LABEL_END.match(copy, cell.end)]
    labels = [cell for cell in labels if is_head_line(cell.value) and not patterns.CATCH_ALL.match(cell.value)]
    return row._replace(cells=tuple(cell for cell in row.cells if cell not in labels)) if labels else row


def best_amount(row: Row) -> Amount | None:
    """The amount of a row: the first per cent, else the first range or comparison, else the first number."""
    amounts = [cell.amount for cell in row.cells if cell.amount is not None]
    ranked = sorted(amounts, key=lambda one: (one.unit != "%", not (one.unit or one.compared or one.range_)))
    if (
        len(ranked) > 1
        and ranked[0].low == ranked[0].high
        and ranked[1].unit == "%"
        and (ranked[1].range_ or ranked[1].compared)
    ):
        return ranked[1]._replace(doubtful=True)  # 'zirconium drier 18 %   < 1 %': the first is the strength
    return ranked[0] if ranked else None


def spliced(values: list[str]) -> str:
    """Pieces of a name as one: with blanks, except behind a hyphen."""
    joined = ""
    for value in values:
        joined += value if not joined or joined.endswith("-") else " " + value
    return joined


def _names(row: Row, head: Head) -> tuple[list[Cell], str | None]:
    names = [cell for cell in row.cells if cell.kind == "N"]
    function = None
    if len(names) > 1 and (head.function or FUNCTION.fullmatch(names[-1].value.strip())):
        function = names.pop().value
    first = row.cells.index(names[0]) if names else 0
    if first == 0 and len(names) > 1:
        names = _before_codes(row, names)
    return names, function


def _before_codes(row: Row, names: list[Cell]) -> list[Cell]:
    """Text after hazard codes on the same line is no part of the name."""
    codes = [cell.start for cell in row.cells if cell.kind == "X" and cell.value == "code"]
    return [name for name in names if not codes or name.start < codes[0]]


def _spans(copy: str, row: Row) -> tuple[tuple[int, int], ...]:
    """The stretches of the row: one where only blanks and marks stand between its cells."""
    spans: list[tuple[int, int]] = []
    for cell in sorted(row.cells, key=lambda one: one.start):
        if spans and not patterns.WORDY.search(copy, spans[-1][1], cell.start):
            spans[-1] = (spans[-1][0], cell.end)
        else:
            spans.append((cell.start, cell.end))
    return tuple(spans)
