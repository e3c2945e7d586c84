"""What the simulated field, its instruments, optics, wetting and colloid say to input that cannot be meant."""

from __future__ import annotations

import math
from typing import Self

from formulate.errors import FormulateError


class SurfaceError(FormulateError):
    """A size, field, angle or fraction that no surface can have."""

    reference = "film-input"

    @classmethod
    def not_positive(cls, what: str, value: float, unit: str) -> Self:
        """A quantity that must be above zero is not."""
        return cls(
            f"{what} is {value:g} {unit}; it must be a number above zero.",
            what,
            "a length or amount of nothing gives no picture",
            f"give it in {unit}, above 0",
        )

    @classmethod
    def outside(cls, what: str, value: float, low: float, high: float, unit: str = "") -> Self:
        """A quantity stands outside the range in which it means something."""
        unit = f" {unit}" if unit else ""
        return cls(
            f"{what} is {value:g}{unit}; it must lie from {low:g} to {high:g}{unit}.",
            what,
            "outside that range the formula says nothing",
            f"give a value from {low:g} to {high:g}{unit}",
        )

    @classmethod
    def field_too_small(cls, side: float, diameter: float) -> Self:
        """The field holds hardly a particle."""
        return cls(
            f"A field {side:g} nm wide is too small for particles of {diameter:g} nm.",
            "field",
            "a picture needs room for some particles side by side",
            f"take a field of at least {8 * diameter:g} nm",
            "field-too-small",
        )

    @classmethod
    def too_many(cls, count: int, most: int) -> Self:
        """The field would hold more particles than are simulated."""
        return cls(
            f"This field would hold about {count:,} particles; at most {most:,} are simulated.",
            "field",
            "it would take long and show nothing that a part of it does not show",
            "take a smaller field",
            "field-too-full",
        )

    @classmethod
    def sizes_too_wide(cls, small: float, large: float, most: float) -> Self:
        """The sizes span more than packing is worked out for."""
        return cls(
            f"Particles of {small:g} to {large:g} nm span more than 1 to {most:g}.",
            "particle size",
            "packing is simulated for narrow distributions only",
            "take the middle of the distribution, or arrange them as Poisson",
            "sizes-too-wide",
        )

    @classmethod
    def unknown_word(cls, what: str, word: str, known: tuple[str, ...]) -> Self:
        """A word that names nothing here."""
        return cls(
            f"{word[:40]!r} is no {what}.",
            what,
            "only what is listed can be worked out",
            f"use one of: {', '.join(known)}",
        )


def positive(what: str, value: float, unit: str) -> None:
    """Refuse a quantity that is not a number above zero."""
    if not (math.isfinite(value) and value > 0):
        raise SurfaceError.not_positive(what, value, unit)


def within(what: str, value: float, low: float, high: float, unit: str = "") -> None:
    """Refuse a quantity outside its range; a range up to infinity still takes numbers only."""
    if not (math.isfinite(value) and low <= value <= high):
        raise SurfaceError.outside(what, value, low, high, unit)
