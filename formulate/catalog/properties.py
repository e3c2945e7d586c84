"""The vocabulary of properties: one unit each, and the limits beyond which a number is a slip."""

from __future__ import annotations

from typing import NamedTuple


class Property(NamedTuple):
    """A property of an ingredient: its only unit, and the lowest and highest number it can hold."""

    unit: str
    low: float
    high: float


_STATED = Property("1", 1, 1)  # "there is none", stated by a source: the value is 1

PROPERTIES: dict[str, Property] = {
    "molar_mass": Property("g/mol", 2, 1e7),
    "boiling_point": Property("degC", -273.15, 6000),
    "melting_point": Property("degC", -273.15, 4000),
    "flash_point": Property("degC", -150, 500),
    "flash_point_none": _STATED,
    "lower_flammable_limit": Property("vol %", 0.05, 50),
    "lower_flammable_limit_none": _STATED,
    "vapour_pressure": Property("Pa", 0, 1e8),
    "vapour_pressure_none": _STATED,
    "density": Property("g/mL", 1e-4, 25),
    "viscosity": Property("mm2/s", 0.1, 1e8),
    "refractive_index": Property("1", 1, 5),
    "surface_tension": Property("mN/m", 5, 100),
    "surface_energy": Property("mJ/m2", 3, 3000),
    "contact_angle_water": Property("deg", 0, 180),
    "pka": Property("1", -15, 25),
    "pka_none": _STATED,
    "hlb": Property("1", 0, 50),
    "hlb_none": _STATED,
    "particle_diameter": Property("nm", 0.5, 1e6),
    "specific_surface": Property("m2/g", 0.01, 3000),
}


def fault(name: str, unit: str, value: float | None, low: float | None, high: float | None) -> tuple[str, str] | None:
    """The column and the reason why a row of the properties table cannot stand, or None where it can."""
    known = PROPERTIES.get(name)
    if known is None:
        return "property", f"no property {name!r}"
    if unit != known.unit:
        return "unit", f"{name} is kept in {known.unit}"
    if value is not None and (low is not None or high is not None):
        return "value", "a row holds a value or a range, not both"
    numbers = [one for one in (low, value, high) if one is not None]
    if not numbers:
        return "value", "no number"
    if numbers != sorted(numbers):
        return "value_min", "the range stands the wrong way round"
    if numbers[0] < known.low or numbers[-1] > known.high:
        return "value", f"{name} lies between {known.low:g} and {known.high:g} {known.unit}"
    return None
