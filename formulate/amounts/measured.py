"""A measured value as a person writes it: '0.023+-0.002', '2.3 ± 0.2 %', '0.98', '0.023(2)', '1,5 %'."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.errors import UsageError

QUANTITIES = ("nonvolatile", "density", "ph", "silica")
_VALUE = re.compile(
    r"\s*\(?(?P<value>\d{1,6}(?:[.,]\d{1,8})?)(?P<short>\(\d{1,3}\))?(?P<early>\s*%(?=\s*(?:\+/?-|\u00b1)[^%]*%))?"
    r"(?:\s*(?:\+/?-|\u00b1)\s*(?P<spread>\d{1,6}(?:[.,]\d{1,8})?))?\)?\s*(?P<unit>%|ppm|g/ml|g/cm3|kg/l)?\s*",
    re.IGNORECASE,
)
SCALES = {"": 1.0, "%": 0.01, "ppm": 1e-6, "g/ml": 1.0, "g/cm3": 1.0, "kg/l": 1.0}
DEFAULT_SPREAD = 0.05
"""Relative standard uncertainty of a value given without one; assumed, and said."""
DENSITY_SPREAD = 0.005
"""The same for a density: a syringe and a scale."""


class MeasuredValue(NamedTuple):
    """A value with its standard uncertainty, mass fraction or the unit of the quantity;

    whether the latter was assumed.
    """

    quantity: str
    value: float
    uncertainty: float
    assumed: bool
    text: str


def measured_value(text: str) -> MeasuredValue:
    """Read QUANTITY=VALUE.

    Raises
    ------
    UsageError
        ``bad-measurement`` for an unknown quantity, a value that is no number, or one that cannot be.
    """
    quantity, sign, written = text.partition("=")
    quantity = quantity.strip().lower()
    if quantity not in QUANTITIES or not sign:
        raise _refused(
            f'"{text}" does not say what was measured.'
            if not sign
            else f'"{quantity}" is not a quantity that is used here.',
            text,
            f"write one of {', '.join(QUANTITIES)}, an equals sign and the value: nonvolatile=2.3+-0.2 %.",
        )
    match = _VALUE.fullmatch(written)
    if match is None:
        raise _refused(
            f'"{written.strip()}" is not a number that can be read.',
            text,
            "write a positive number, its uncertainty behind +-, and a per cent sign if it is in per cent.",
        )
    scale = SCALES[(match["unit"] or "").lower()]
    value = _number(match["value"]) * scale
    spread = _spread(match, scale)
    _check(quantity, value, match["unit"], text)
    assumed = spread is None
    if spread is None:
        spread = value * (DENSITY_SPREAD if quantity == "density" else DEFAULT_SPREAD) if quantity != "ph" else 0.2
    if value == 0 and assumed:
        raise _refused(
            "Nothing at all cannot be measured.",
            text,
            f"give as uncertainty the least that would have been seen: {quantity}=0+-0.05 %.",
        )
    if spread == 0:
        raise _refused(
            "An uncertainty of zero cannot be.", text, "give the spread of repeated readings, or leave it out."
        )
    return MeasuredValue(quantity, value, spread, assumed, text)


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _spread(match: re.Match[str], scale: float) -> float | None:
    if match["spread"]:
        return _number(match["spread"]) * scale
    if match["short"]:  # 0.023(2): the uncertainty of the last digit
        digits = len(re.split(r"[.,]", match["value"] + ".")[1])
        return int(match["short"][1:-1]) * 10.0**-digits * scale
    return None


def _check(quantity: str, value: float, unit: str | None, text: str) -> None:
    if quantity in {"nonvolatile", "silica"} and value > 1:
        hint = "" if unit else f" If you meant per cent, write {value:g} %."
        raise _refused(
            f"A {quantity} content of {value * 100:g} % cannot be: it is above 100 %.{hint}",
            text,
            "give a mass fraction up to 1, or per cent.",
        )
    if quantity == "ph" and not 0 <= value <= 14.5:
        raise _refused(f"A pH of {value:g} cannot be read.", text, "give a pH between 0 and 14.")
    if quantity == "density" and not 0.3 <= value <= 5:
        raise _refused(
            f"A density of {value:g} g/mL cannot be that of such a product.",
            text,
            "give it in g/mL; 980 kg/m3 is 0.98.",
        )


def _refused(what: str, text: str, try_: str) -> UsageError:
    return UsageError(
        what,
        f"--measured {text}",
        "a measured value narrows every amount, so a misread one misleads.",
        try_,
        "bad-measurement",
    )
