"""Everything that is certain about the amounts of one list: bounds of items and totals, or what clashes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from formulate.amounts.chains import Total
from formulate.amounts.explain import Explainer
from formulate.amounts.frame import Frame
from formulate.amounts.hard import Hard, hard_bounds
from formulate.amounts.item import Item
from formulate.amounts.linear import Program
from formulate.amounts.measured import MeasuredValue
from formulate.amounts.shares import TOTALS, Share, Shares, active_share
from formulate.amounts.statements import Statement, clash, frame_of, sums_of
from formulate.catalog.store import Catalog
from formulate.domain.reason import Ledger

MEASURED_AS = {"nonvolatile": "nonvolatile_110c", "silica": "silica", "density": "density_g_per_ml"}
"""Which total a measured quantity is; a non-volatile content is taken as dried at 110 C unless said otherwise."""
REST_DENSITY = (0.6, 4.0)
"""Density that what the list does not name could have, g/mL."""


class Certain(NamedTuple):
    """What is certain. ``hard`` is None where statements clash; ``supplied`` is the share of each amount that is the
    ingredient itself; ``totals`` are weights, ``total_bounds`` their smallest and largest value."""

    items: tuple[Item, ...]
    statements: tuple[Statement, ...]
    frame: Frame
    hard: Hard | None
    clash: tuple[Statement, ...]
    supplied: tuple[Share, ...]
    totals: Mapping[str, Total]
    total_bounds: Mapping[str, tuple[float, float]]
    why_low: tuple[str, ...]
    why_high: tuple[str, ...]
    why_totals: Mapping[str, str]


def certain(
    items: Sequence[Item],
    statements: Sequence[Statement],
    measured: Sequence[MeasuredValue],
    as_active: bool,
    catalog: Catalog,
    ledger: Ledger,
) -> Certain:
    """Bounds of every item and total, or an irreducible set of statements that clash."""
    count = len(items)
    supplied = tuple(active_share(item, as_active, catalog, ledger) for item in items)
    totals, reasons = _totals(items, supplied, measured, catalog, ledger)
    said = [*statements, *_measured(measured, totals, ledger)]
    wrong = clash(said, count)
    known = frame_of(said, count)
    if wrong:
        return Certain(tuple(items), tuple(said), known, None, wrong, supplied, totals, {}, (), (), reasons)
    known = frame_of(statements, count)
    sums = sums_of([one for one in statements if one.kind == "sum"], count)
    hard = hard_bounds(known)
    program = Program(known, sums)
    if sums:
        hard = _with_sums(hard, program, count)
    found = program.totals([(total.least, total.most) for total in totals.values()])
    bounds = dict(zip(totals, found, strict=True))
    density = bounds.get("density_g_per_ml")
    if density is not None:
        bounds["density_g_per_ml"] = (1 / density[1], 1 / density[0])
    explain = Explainer(items, statements, known, hard, ledger)
    low = tuple(explain.lower(index) for index in range(count))
    high = tuple(explain.upper(index) for index in range(count))
    return Certain(tuple(items), tuple(said), known, hard, (), supplied, totals, bounds, low, high, reasons)


def _with_sums(hard: Hard, program: Program, count: int) -> Hard:
    """Bounds where limits on several items together act, which the closed form does not hold."""
    each = [(one, one) for one in np.eye(count + 1)]
    low, high = np.array(program.totals(each)).T
    return hard._replace(
        low=low[:count], high=high[:count], rest=(float(low[count]), float(high[count])), places=program.places
    )


def _totals(
    items: Sequence[Item],
    supplied: Sequence[Share],
    measured: Sequence[MeasuredValue],
    catalog: Catalog,
    ledger: Ledger,
) -> tuple[dict[str, Total], dict[str, str]]:
    """Weights of every total and its reason. A measured one carries its value."""
    shares = Shares(catalog, ledger)
    values = {MEASURED_AS[one.quantity]: one for one in measured if one.quantity in MEASURED_AS}
    totals, reasons = {}, {}
    for total in TOTALS:
        parts = [_part(item, active, shares, total) for item, active in zip(items, supplied, strict=True)]
        rest = (1 / REST_DENSITY[1], 1 / REST_DENSITY[0]) if total == "density_g_per_ml" else (0.0, 1.0)
        least = np.array([part.low for part in parts] + [rest[0]])
        most = np.array([part.high for part in parts] + [rest[1]])
        value, spread = _as_weight(total, values.get(total))
        totals[total] = Total(least, most, value, spread)
        counted = [part.why for part in parts if part.high > 0]
        says = "What counts as {total} is summed over the list; {count} of its lines can count."
        named: dict[str, str | float | None] = {"total": total.replace("_", " "), "count": len(counted)}
        reasons[total] = ledger.add("calculated", says, named, dict.fromkeys(counted))
    return totals, reasons


def _part(item: Item, active: Share, shares: Shares, total: str) -> Share:
    """What one line gives to a total: its own share of what is active, and the water it comes with."""
    own = shares.of(item, total)
    if total == "density_g_per_ml":
        return own
    if total == "water" and active.low < 1 and item.classes[-1] != "water":
        return Share(0.0, 1 - active.low, active.why)
    return Share(own.low * active.low, own.high * active.high, own.why)


def _as_weight(total: str, one: MeasuredValue | None) -> tuple[float | None, float]:
    """A measured value as a weighted sum: a density becomes the specific volume it is the inverse of."""
    if one is None:
        return None, 0.0
    if total == "density_g_per_ml":
        return 1 / one.value, one.uncertainty / one.value**2
    return one.value, one.uncertainty


def _measured(measured: Sequence[MeasuredValue], totals: Mapping[str, Total], ledger: Ledger) -> list[Statement]:
    statements = []
    for one in measured:
        if one.quantity not in MEASURED_AS:
            continue
        unit = "g/mL" if one.quantity == "density" else "%"
        scale = 1.0 if one.quantity == "density" else 100.0
        values: dict[str, str | float | None] = {
            "quantity": one.quantity,
            "value": one.value * scale,
            "spread": one.uncertainty * scale,
            "unit": unit,
            "assumed": " (its uncertainty is assumed)" if one.assumed else "",
        }
        says = "You measured {quantity} {value:.4g} +- {spread:.2g} {unit}{assumed}."
        why = ledger.add("measured", says, values)
        sentence = f"{one.quantity} measured {one.value * scale:.4g} +- {one.uncertainty * scale:.2g} {unit}"
        statements.append(Statement("total", sentence, why, total=totals[MEASURED_AS[one.quantity]]))
    return statements
