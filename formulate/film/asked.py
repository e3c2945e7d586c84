"""What a person asks of ``coverage``, read from words: every refusal says what would be right."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.errors import UsageError
from formulate.film.deposit import AREAL_UNITS, areal_mass
from formulate.film.particles import StatedSize, parse_size

_NUMBER = re.compile(
    r"\s*((?:[0-9]{1,12}(?:[.,][0-9]{0,18})?|[.,][0-9]{1,18})(?:[eE][+-]?[0-9]{1,3})?)\s*(%|[^\s0-9]{0,12}\d?)\s*"
)
MOST_FIELDS = 1000
MOST_COUNT = 10_000_000


class Asked(NamedTuple):
    """What was asked; None: not said. Fractions by mass, g/m2, nm, um."""

    silica: float | None = None
    film_former: float | None = None
    size: StatedSize | None = None
    wet: float | None = None
    kept: float | None = None
    passes: int = 1
    field_um: tuple[float, float] | None = None
    counted: tuple[tuple[int, ...], ...] = ()
    covered: float | None = None
    smallest_nm: float | None = None
    tip_nm: float | None = None
    recognised: float = 1.0
    background: float = 0.0

    @property
    def area_um2(self) -> float:
        """Area of the field; 25 um2 where none was said."""
        wide, high = self.field_um or (5.0, 5.0)
        return wide * high


OPTIONS = tuple(name if name != "size" else "diameter_nm" for name in Asked._fields if name != "wet") + (
    "wet_g_per_m2",
    "application",
)


def asked(options: dict[str, str | None]) -> Asked:
    """Read the options, all of them text.

    Raises
    ------
    UsageError
        For what is no number, lies outside of what it can be, or does not go together.
    """

    def given(name: str) -> str | None:
        text = options.get(name)
        return text if text not in (None, "") else None

    size = given("diameter_nm")
    found = Asked(
        silica=_fraction("silica", given("silica")),
        film_former=_fraction("film-former", given("film_former")),
        size=parse_size(size) if size is not None else None,
        wet=_wet(given("wet_g_per_m2")),
        kept=_fraction("kept", given("kept"), above=True),
        passes=_passes(given("passes")),
        field_um=_field(given("field_um")),
        counted=_counted(given("counted")),
        covered=_plain("covered", given("covered"), least=0.0),
        smallest_nm=_plain("smallest-nm", given("smallest_nm"), least=0.0),
        tip_nm=_plain("tip-nm", given("tip_nm"), above=True),
        recognised=_fraction("recognised", given("recognised"), above=True) or 1.0,
        background=_plain("background", given("background"), least=0.0) or 0.0,
    )
    _together(found)
    return found


def _together(found: Asked) -> None:
    if found.counted and found.field_um is None:
        raise _refused(
            "Counts were given without the size of the field.",
            "counted",
            "a number of particles says nothing without the area they were counted on",
            "add --field-um 5 (a square) or --field-um 5x8",
            "usage-no-field",
        )
    if found.size is not None and found.field_um is not None and found.size.high * 1e-3 > min(found.field_um):
        raise _refused(
            f"A field of {min(found.field_um):g} um is smaller than a particle of {found.size.high:g} nm.",
            "field-um",
            "a field has to hold whole particles",
            "a field in um (not nm), such as 5",
            "usage-small-field",
        )
    if (found.silica or 0) + (found.film_former or 0) > 1:
        raise _refused(
            "Silica and film former together are more than the whole product.",
            "silica, film-former",
            "fractions of one product sum to at most 1",
            "fractions by mass, such as 0.005 and 0.015",
        )


def _read(name: str, text: str) -> tuple[float, str]:
    """A number and the unit written behind it."""
    match = _NUMBER.fullmatch(text)
    if match is None:
        raise _refused(
            f'"{text[:40]}" is no number that {name} can be.',
            name,
            "a number without a sign is needed",
            "a number such as 0.1",
        )
    return float(match[1].replace(",", ".")), match[2]


def _fraction(name: str, text: str | None, above: bool = False) -> float | None:
    if text is None:
        return None
    value, unit = _read(name, text)
    if unit not in {"", "%"}:
        raise _refused(
            f'"{text[:40]}" has a unit, and {name} is a fraction.',
            name,
            "a fraction has none",
            "0.005, or 0.5 %",
        )
    value = value / 100 if unit == "%" else value
    if value > 1 or (above and value <= 0):
        raise _refused(
            f"{name} is a fraction of the whole and cannot be {value:g}.",
            name,
            "a fraction lies between 0 and 1",
            f"{value / 100:g}, or {value:g} %, if per cent was meant" if 1 < value <= 100 else "a fraction such as 0.1",
            "usage-fraction",
        )
    return value


def _plain(name: str, text: str | None, least: float | None = None, above: bool = False) -> float | None:
    if text is None:
        return None
    value, unit = _read(name, text)
    if unit not in {"", "nm"} or (unit == "nm" and not name.endswith("nm")):
        raise _refused(f'"{text[:40]}" has a unit that {name} does not take.', name, "its unit is fixed", "the number")
    if (above and value <= 0) or value > 1e9 or (least is not None and value < least):
        raise _refused(f"{name} cannot be {value:g}.", name, "it is above nought and finite", "a number such as 10")
    return value


def _wet(text: str | None) -> float | None:
    if text is None:
        return None
    value, unit = _read("wet-g-per-m2", text)
    if unit not in {"", "g/m2", "g/m²"}:
        try:
            grams = areal_mass(value, unit) / 1e3
        except KeyError:
            right = f"one number in g/m2; known units are {', '.join(AREAL_UNITS)}"
        else:
            right = f"{grams:g} g/m2, for {value:g} {unit} is {grams * 1e3:g} mg/m2"
        raise _refused(
            f'"{text[:40]}" is not in g/m2, which is what wet-g-per-m2 wants: {right}.',
            "wet-g-per-m2",
            "1 ug/cm2 is 10 mg/m2 is 0.01 g/m2: a slip of the unit moves everything",
            right,
            "usage-areal-unit",
        )
    if not 0 < value <= 1e5:
        raise _refused(
            f"A wet mass of {value:g} g/m2 cannot be.",
            "wet-g-per-m2",
            "something above nought is put on, at most 100 kg on a square metre",
            "a number such as 5",
        )
    return value


def _passes(text: str | None) -> int:
    if text is None:
        return 1
    if not text.isdecimal() or not 1 <= int(text[:6]) <= 1000 or len(text) > 6:
        raise _refused(f'"{text[:20]}" is no number of coats.', "passes", "coats are whole", "1 to 1000")
    return int(text)


def _field(text: str | None) -> tuple[float, float] | None:
    if text is None:
        return None
    sides = [_read("field-um", part) for part in text.lower().replace("×", "x").split("x", 2)]
    if len(sides) > 2 or any(unit not in {"", "um", "µm"} or not 0 < side <= 1e5 for side, unit in sides):
        raise _refused(
            f'"{text[:40]}" is no field.',
            "field-um",
            "a field has one side (a square) or two, above nought, in um",
            "5, or 5x8",
        )
    return sides[0][0], sides[-1][0]


def _counted(text: str | None) -> tuple[tuple[int, ...], ...]:
    if text is None:
        return ()
    coupons = [[field.strip() for field in coupon.split(",")] for coupon in text.split("/")]
    fields = [field for coupon in coupons for field in coupon]
    if any(not field.isdecimal() or len(field) > 8 or int(field) > MOST_COUNT for field in fields):
        raise _refused(
            f'"{text[:60]}" are no counts.',
            "counted",
            "counts are whole numbers: fields parted by commas, coupons by a slash",
            "4,7,3/5,6",
            "usage-counted",
        )
    if len(fields) > MOST_FIELDS:
        raise _refused(
            f"{len(fields)} fields are more than are taken.", "counted", f"the most is {MOST_FIELDS}", "sums of fields"
        )
    return tuple(tuple(int(field) for field in coupon) for coupon in coupons)


def _refused(what: str, name: str, why: str, right: str, reference: str = "usage-film") -> UsageError:
    """An error whose first sentence says what is wrong and what would be right."""
    return UsageError(f"{what.rstrip('.')}: right would be {right}.", f"the option {name}", why, right, reference)
