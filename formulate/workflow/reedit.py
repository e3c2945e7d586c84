"""Corrections of the reading itself: a dropped line, an amount, each with the reason that a person said so."""

from __future__ import annotations

import re
from collections.abc import Sequence

from formulate.domain.edit import Edit
from formulate.domain.line import LeftOver, Line, Reading, Stated
from formulate.domain.reason import Ledger
from formulate.reading import add_stated

_TYPED = re.compile(
    r"(?P<sign><=?|>=?)?\s*(?P<low>\d+(?:[.,]\d+)?)\s*(?:(?P<join>-|to|\+-|±)\s*(?P<high>\d+(?:[.,]\d+)?))?\s*%?"
)


def typed_amount(text: str) -> Stated | None:
    """An amount as a person types it, in per cent by mass: ``0.4-1.1 %``, ``<2``, ``2.3+-0.2``.

    None for anything else, for limits the wrong way round and for more than 100 %.
    """
    found = _TYPED.fullmatch(text.strip())
    if found is None:
        return None
    low = float(found["low"].replace(",", ".")) / 100
    high = float(found["high"].replace(",", ".")) / 100 if found["high"] else None
    sign = found["sign"] or ""
    if found["join"] in {"+-", "±"} and high is not None:
        low, high = max(low - high, 0.0), low + high
    if low > 1:
        return None
    if sign.startswith("<"):
        return Stated.model_construct(low=None, high=low, high_open=sign == "<", text=text)
    if sign.startswith(">"):
        return Stated.model_construct(low=low, high=None, low_open=sign == ">", text=text)
    if (high is not None and high < low) or max(low, high or 0.0) > 1:
        return None
    return Stated.model_construct(low=low, high=low if high is None else high, text=text)


def edited_reading(reading: Reading, edits: Sequence[Edit]) -> Reading:
    """The reading with corrections of fields ``drop`` and ``amount`` in force; positions are counted anew.

    A dropped line goes to what was left over. An amount that cannot be read as one leaves the printed amount as it
    is, with a note; ``?`` takes it away. A correction of a line that is no longer in the text does nothing and is
    kept: the line may come back.
    """
    dropped = {edit.target for edit in edits if edit.field == "drop"}
    amounts = {edit.target: edit.value for edit in edits if edit.field == "amount" and edit.value}
    kept: list[Line] = []
    left_over, notes = list(reading.left_over), list(reading.notes)
    for line in reading.lines:
        if line.id in dropped:
            said = "you left this line out"
            left_over.append(LeftOver.model_construct(text=line.raw, why=said, place=line.place))
            continue
        stated = line.stated
        typed = (amounts.get(line.id) or "").strip()
        if typed:
            stated = None if typed == "?" else typed_amount(typed)
            if stated is None and typed != "?":
                stated = line.stated
                notes.append(f"The amount you typed for {line.name[:60]} cannot be read; the printed one stands.")
        kept.append(line.model_copy(update={"position": len(kept) + 1, "stated": stated}))
    return reading.model_copy(update={"lines": tuple(kept), "left_over": tuple(left_over), "notes": tuple(notes)})


def stated_reason(line: Line, edits: Sequence[Edit], ledger: Ledger) -> str | None:
    """The reason of a line's amount: that a person said so, or that it was printed; None where there is none."""
    if line.stated is None:
        return None
    said = next((edit for edit in reversed(edits) if edit.field == "amount" and edit.target == line.id), None)
    if said is None or said.value != line.stated.text:
        return add_stated(ledger, line)
    values = {"name": line.name[:60], "amount": line.stated.text, "note": f" ({said.note})" if said.note else ""}
    return ledger.add("corrected", "You said that {name} is {amount}, in per cent by mass{note}.", values)
