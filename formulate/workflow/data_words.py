"""Values of the dataset in words: what a person reads beside the source, and what a reason says."""

from __future__ import annotations

from formulate.catalog.law import ExposureLimitRow, HazardRow, RestrictionRow, UseLevelRow
from formulate.catalog.tables import PropertyRow, SupplyRow

_UNITS = {"degC": "C", "Pa": "Pa", "1": ""}
_STATUS = {
    "no-entry": "no harmonised entry (which is not 'not hazardous')",
    "changed": "entry changed by a later act",
}


def share(fraction: float) -> str:
    """A mass fraction as a person reads it: per cent, or parts per million where it is small.

    >>> share(0.000015), share(0.05), share(2e-9)
    ('15 ppm', '5 %', '2 ppb')
    """
    if fraction >= 0.0005:
        return f"{fraction * 100:.3g} %"
    return f"{fraction * 1e6:.3g} ppm" if fraction >= 1e-7 else f"{fraction * 1e9:.3g} ppb"


def property_words(row: PropertyRow) -> str:
    """'boiling point 56.1 C at 101.3 kPa (tabulated)'."""
    unit = _UNITS.get(row.unit, row.unit)
    if row.property.endswith("_none"):
        number = ""
    elif row.value is not None:
        number = f"{row.value:g}"
    elif row.value_min is not None and row.value_max is not None:
        number = f"{row.value_min:g} to {row.value_max:g}"
    elif row.value_min is not None or row.value_max is not None:
        number = f"at least {row.value_min:g}" if row.value_min is not None else f"at most {row.value_max:g}"
    else:
        number = "none"
    spread = f" ± {row.unc:g}" if row.unc else ""
    where = f", {row.conditions}" if row.conditions else ""
    note = f"; {row.note}" if row.note else ""
    unit = unit if number else ""
    return f"{row.property.replace('_', ' ')} {number}{spread} {unit}".rstrip() + f"{where} ({row.origin}){note}"


def hazard_words(row: HazardRow) -> str:
    """'Skin Corr. 1B H314, from 25 % to below 90 % in a mixture'."""
    if not row.hazard_class:
        return f"{row.jurisdiction.upper()}: {_STATUS[row.status]}" + (f"; {row.note}" if row.note else "")
    parts = [f"{row.jurisdiction.upper()}: {row.hazard_class} {row.category} {row.statement}{row.mark}".rstrip()]
    if row.qualifier:
        parts.append(f"({row.qualifier})")
    if row.form:
        parts.append(f"[{row.form}]")
    words = " ".join(" ".join(parts).split())
    if row.limit_low is not None or row.limit_high is not None:
        low = f"{'above' if row.limit_low_open else 'from'} {share(row.limit_low)}" if row.limit_low is not None else ""
        high = f"below {share(row.limit_high)}" if row.limit_high is not None else ""
        words += f", {' to '.join(filter(None, (low, high)))} in a mixture"
    words += f", M = {row.m_factor:g}" if row.m_factor is not None else ""
    words += f", ATE {row.ate:g} {row.ate_unit}" if row.ate is not None else ""
    words += "; annulled" if row.status == "annulled" else ""
    words += f"; until {row.valid_to}" if row.valid_to and row.status != "annulled" else ""
    words += f"; from {row.valid_from}" if row.valid_from > row.checked_on else ""
    return words + (f"; notes {row.notes}" if row.notes else "") + (f"; {row.note}" if row.note else "")


def limit_words(row: ExposureLimitRow) -> str:
    """'EU IOELV, 8 h: 20 ppm, 98 mg/m3, skin'."""
    values = [f"{row.ppm:g} ppm"] if row.ppm is not None else []
    values += [f"{row.mg_m3:g} mg/m3"] if row.mg_m3 is not None else []
    values += [row.fraction] if row.fraction else []
    values += ["skin"] if row.skin else []
    words = f"{row.limit}, {row.average}: {', '.join(values)}"
    words += " (from memory)" if row.origin == "from-memory" else ""
    return words + (f"; {row.note}" if row.note else "")


def restriction_words(row: RestrictionRow) -> str:
    """'EU restricted from 2026-06-06, at 0.1 % and above: ...'."""
    where = f"{row.jurisdiction.upper()}{f' ({row.area})' if row.area else ''}"
    since = f" from {row.valid_from}" if row.valid_from else ""
    at = f", at {share(row.threshold)} and above" if row.threshold is not None else ""
    note = f"; {row.note}" if row.note else ""
    return f"{where} {row.kind.replace('-', ' ')}{since}{at}: {row.restricts} [{row.act}]{note}"


def level_words(row: UseLevelRow) -> str:
    """'metal-polish: 0.6 % (0.16 % to 2.3 %), from 3 records'."""
    counted = f"{row.records} record{'s' if row.records > 1 else ''}"
    backed = f"from {counted}, median as recorded {share(row.recorded_median)}" if row.recorded_median else ""
    of = f" (class {row.class_})" if row.class_ else ""
    words = f"{row.product_type}{of}: {share(row.typical)} ({share(row.low)} to {share(row.high)})"
    return ", ".join(filter(None, (words, backed))) + (f"; {row.note}" if row.note else "")


def supply_words(row: SupplyRow) -> str:
    """'sol in water: 30 to 40 % solids'."""
    ends = [end for end in (row.solids_min, row.solids_max) if end is not None]
    open_end = "" if len(ends) == 2 else "at least " if row.solids_max is None else "at most "
    solids = " to ".join(f"{end * 100:.3g}" for end in dict.fromkeys(ends))
    return f"{row.form}: {open_end}{solids} % solids" + (f"; {row.note}" if row.note else "")
