"""What a person may say about amounts: whether it can be read, and which correction it is."""

from __future__ import annotations

from formulate.amounts.measured import QUANTITIES, measured_value
from formulate.domain.edit import Edit, Field_
from formulate.domain.vocabulary import RULES
from formulate.errors import FormulateError, UsageError
from formulate.workflow.reedit import typed_amount

SUPPOSE = "/suppose"
MEANS = ("active", "as-supplied")
NOT_KNOWN = {"?", "-", ""}
"""What is typed to take something back."""


def measured_edit(text: str) -> tuple[str, str | None]:
    """Target and value of a measurement as typed: ``nonvolatile=2.3+-0.2 %``; ``nonvolatile=?`` takes it back.

    Raises
    ------
    UsageError
        ``bad-measurement`` for what cannot be read.
    """
    quantity, _, value = text.partition("=")
    quantity = quantity.strip().lower()
    if quantity in QUANTITIES and value.strip() in NOT_KNOWN:
        return f"/measured/{quantity}", None
    measured_value(text)
    return f"/measured/{quantity}", f"{quantity}={value.strip()}"


def check_edit(field: Field_, value: str | None) -> None:
    """Refuse a correction of amounts that cannot be read.

    Raises
    ------
    UsageError
        Saying in one sentence what would be right.
    """
    if value is None:
        return
    if field == "measured":
        measured_value(value)
    elif field == "rule" and value not in RULES:
        raise _refused(value, "rule of disclosure", ", ".join(RULES))
    elif field == "means" and value not in MEANS:
        raise _refused(value, "meaning of an amount", "active (the ingredient itself), as-supplied (the raw material)")
    elif field == "amount" and value.strip() != "?" and typed_amount(value) is None:
        raise _refused(value, "amount", "5 %, 0.4-1.1 %, <2 or 2.3+-0.2, in per cent; ? where it is not known")


def said_measured(edits: tuple[Edit, ...]) -> list[str]:
    """The measurements in force, as typed."""
    return [edit.value for edit in edits if edit.field == "measured" and edit.value]


def said_supposed(edits: tuple[Edit, ...]) -> str | None:
    """What is supposed, as typed; None if nothing is."""
    said = [edit.value for edit in edits if edit.field == "assumption" and edit.target == SUPPOSE]
    return said[-1] if said else None


def line_told(edits: tuple[Edit, ...]) -> str | None:
    """Id of the line after which the one-percent line was said to fall."""
    said = [edit for edit in edits if edit.field == "one-percent-line"]
    return said[-1].target if said and said[-1].value is not None else None


def _refused(value: str, kind: str, known: str) -> FormulateError:
    return UsageError(
        f'"{value[:60]}" is no {kind}.',
        "what you typed",
        "a misread statement would move every amount",
        f"write one of: {known}",
    )


__all__ = [
    "MEANS",
    "QUANTITIES",
    "SUPPOSE",
    "check_edit",
    "line_told",
    "measured_edit",
    "said_measured",
    "said_supposed",
]
