"""Corrections of the reading itself: a dropped line, an amount, each with the reason that a person said so."""

from __future__ import annotations

import re
from collections.abc import Sequence

from formulate.domain.edit import Edit
from formulate.domain.line import Line, Reading, Stated
from formulate.domain.reason import Ledger

_TYPED = re.compile(
    r"(?P<sign><=?|>=?)?\s*(?P<low>\d+(?:[.,]\d+)?)\s*(?:(?P<join>-|to|\+-|±)\s*(?P<high>\d+(?:[.,]\d+)?))?\s*%?"
)


def typed_amount(text: str) -> Stated | None:
    """An amount as a person types it, in per cent by mass: ``0.4-1.1 %``, ``<2``, ``2.3+-0.2``; ``?`` or anything
    else means not known (None)."""
    found = _TYPED.fullmatch(text.strip())
    if found is None:
        return None
    low = float(found["low"].replace(",", ".")) / 100
    high = float(found["high"].replace(",", ".")) / 100 if found["high"] else None
    sign = found["sign"] or ""
    if found["join"] in {"+-", "±"} and high is not None:
        low, high = max(low - high, 0.0), low + high
    if sign.startswith("<"):
        return Stated.model_construct(low=None, high=low, high_open=sign == "<", text=text)
    if sign.startswith(">"):
        return Stated.model_construct(low=low, high=None, low_open=sign == ">", text=text)
    if high is not None and high < low:
        return None
    return Stated.model_construct(low=low, high=low if high is None else high, text=text)


def edited_reading(reading: Reading, ledger: Ledger, edits: Sequence[Edit]) -> tuple[Reading, Ledger]:
    """The reading with corrections of fields ``drop`` and ``amount`` in force; positions are counted anew.

    A correction of a line that is no longer in the text does nothing and is kept: the line may come back.
    """
    dropped = {edit.target for edit in edits if edit.field == "drop"}
    amounts = {edit.target: edit.value for edit in edits if edit.field == "amount" and edit.value}
    if not dropped and not amounts:
        return reading, ledger
    kept: list[Line] = []
    for line in reading.lines:
        if line.id in dropped:
            continue
        stated = typed_amount(amounts[line.id] or "") if line.id in amounts else line.stated
        kept.append(line.model_copy(update={"position": len(kept) + 1, "stated": stated}))
    return reading.model_copy(update={"lines": tuple(kept)}), ledger
