"""Printed measurements to numbers in the unit of their key; a number that cannot be that quantity is refused."""

from __future__ import annotations

from collections.abc import Callable, Mapping

Limits = tuple[float | None, float | None, float | None]
_GRAM_PER_ML = {
    "g/cm3": 1.0,
    "g/cc": 1.0,
    "g/ml": 1.0,
    "kg/l": 1.0,
    "kg/dm3": 1.0,
    "kg/m3": 1e-3,
    "g/l": 1e-3,
    "lb/gal": 0.119826427,  # avoirdupois pound per US gallon, NIST SP 811 (2008), Appendix B.8
    "lb/ft3": 0.0160184634,  # the same table
    "": 1.0,  # relative to water
}
_PASCAL = {
    "pa": 1.0,
    "hpa": 100.0,
    "mbar": 100.0,
    "kpa": 1000.0,
    "bar": 1e5,
    "mmhg": 133.322,  # NIST SP 811 (2008), Appendix B.8
    "torr": 133.322,
    "psi": 6894.757,
    "psia": 6894.757,
    "atm": 101325.0,
}
_MM2_PER_S = {"mm2/s": 1.0, "cst": 1.0, "cm2/s": 100.0, "st": 100.0, "m2/s": 1e6}
MPA_S = {"mpa.s": 1.0, "mpas": 1.0, "mpa*s": 1.0, "cp": 1.0, "cps": 1.0, "cpoise": 1.0, "pa.s": 1000.0, "pas": 1000.0}
_GRAM_PER_L = {"g/l": 1.0, "lb/gal": 119.826427, "mg/l": 1e-3, "kg/m3": 1.0}


def plain_unit(unit: str) -> str:
    """A printed unit in one spelling: 'G/CM\u00b3' and 'g / cm 3' are 'g/cm3'; 'deg F' and '\u00b0 F' are 'f'."""
    plain = unit.lower().replace(" ", "").replace("\u00b3", "3").replace("\u00b2", "2").replace("^", "")
    plain = plain.replace("\u00b7", ".").replace("\u00b0", "").replace("deg.", "").replace("deg", "").rstrip(".")
    plain = plain.replace("lbs", "lb").replace("pounds", "lb").replace("/usgal", "/gal").replace("gallon", "gal")
    return {"mpa\u00d7s": "mpa.s", "mpa-s": "mpa.s", "mm/hg": "mmhg", "centistokes": "cst"}.get(plain, plain)


def _scaled(units: Mapping[str, float], low: float, high: float) -> Callable[[float, str], float | None]:
    def convert(number: float, unit: str) -> float | None:
        factor = units.get(unit)
        if factor is None:
            return None
        value = round(number * factor, 9)
        return value if low <= value <= high else None

    return convert


def _ph(number: float, unit: str) -> float | None:
    return number if not unit and -1 <= number <= 14.5 else None


def _celsius(number: float, unit: str) -> float | None:
    if unit == "c":
        return number if -273.15 <= number <= 2000 else None
    if unit == "f":
        return round((number - 32) / 1.8, 2)
    return round(number - 273.15, 2) if unit == "k" and number > 0 else None


def _fraction(number: float, unit: str) -> float | None:
    return round(number / 100, 9) if unit in {"%", ""} and 0 <= number <= 100 else None


def _fraction_with_sign(number: float, unit: str) -> float | None:
    return _fraction(number, unit) if unit else None


CONVERSIONS: Mapping[str, Callable[[float, str], float | None]] = {
    "ph": _ph,
    "density_g_per_ml": _scaled(_GRAM_PER_ML, 0.3, 5),
    "flash_point_c": _celsius,
    "boiling_point_c": _celsius,
    "melting_point_c": _celsius,
    "nonvolatile": _fraction,
    "solids_by_volume": _fraction,
    "volatile": _fraction,
    "vapour_pressure_pa": _scaled(_PASCAL, 0, 1e7),
    "viscosity_mm2_s": _scaled(_MM2_PER_S, 0, 1e9),
    "viscosity_mpa_s": _scaled(MPA_S, 0, 1e9),
    "voc": _fraction_with_sign,
    "voc_g_per_l": _scaled(_GRAM_PER_L, 0, 2000),
}
"""Number and plain unit to the unit of a key; None where it cannot be that quantity."""

_BELOW = frozenset({"<", "<=", "\u2264", "max", "up to", "less than", "below", "under", "at most", "unter", "</="})
_ABOVE = frozenset(
    {">", ">=", "\u2265", "min", "greater than", "more than", "above", "over", "at least", "\u00fcber", ">/="}
)


def limits_of(key: str, sign: str, first: str, second: str | None, unit: str) -> Limits | None:
    """The limits of a printed value in the unit of its key, or None where it cannot be that quantity.

    Parameters
    ----------
    key
        Key of the quantity.
    sign
        What is printed before the number: '<', 'approx.', or nothing.
    first, second
        The numbers as printed; ``second`` where a range is.
    unit
        The unit as printed, or nothing.
    """
    plain = plain_unit(unit)
    numbers = [_converted(key, number, plain) for number in (first, second) if number is not None]
    told = [number for number in numbers if number is not None]
    if len(told) < len(numbers):
        return None
    if len(told) == 2:
        return min(told), None, max(told)
    word = " ".join(sign.lower().rstrip(".").split())
    word = word[-1:] if word.endswith(("<", ">")) else word
    if word in _BELOW:
        return None, None, told[0]
    if word in _ABOVE:
        return told[0], None, None
    return told[0], told[0], told[0]


def _converted(key: str, printed: str, unit: str) -> float | None:
    """One number; '1,050 kg/m3' has a mark of thousands where a decimal comma would be absurd."""
    convert = CONVERSIONS[key]
    value = convert(float(printed.replace(" ", "").replace(",", ".")), unit)
    whole, comma, after = printed.partition(",")
    if value is None and comma and len(after) == 3 and 0 < len(whole) <= 3:
        return convert(float(whole + after), unit)
    return value
