"""Use levels of a list: how much of such an ingredient a product of this kind usually holds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from formulate.amounts.chains import Levels
from formulate.amounts.item import Item
from formulate.catalog.amounts import use_level
from formulate.catalog.store import Catalog
from formulate.domain.reason import Kind, Ledger

CARRIERS = frozenset({"carrier"})
UNKNOWN_TYPICAL, UNKNOWN_SPREAD = 0.005, 2.0
"""Use level of an ingredient of which nothing is recorded: a judged middle, and a factor of seven to either side."""
NARROWED = 0.8
"""Factor on the spread of use levels: records mix more kinds of products than one bottle. Fitted on eleven complete
recipes (``tests/evaluation/amounts.py``), where it brings 90 % ranges to cover 92 % of the truth."""
REST_TYPICAL, REST_SPREAD = 0.01, 1.5
"""What a list that names its carrier leaves unnamed: judged."""


class Prior(NamedTuple):
    """Use levels as arrays of shape (n + 1,), the last the unnamed rest, and the reason of each item's."""

    levels: Levels
    why: tuple[str, ...]
    carrier: int | None


def prior(items: Sequence[Item], product_type: str, rest_is_open: bool, catalog: Catalog, ledger: Ledger) -> Prior:
    """Use levels of each item; the carrier has none and takes what the others leave.

    ``rest_is_open`` says that what the list does not name can be most of the bottle, as on a data sheet.
    """
    carrier = carrier_of(items)
    mean, spread, reasons = [], [], []
    for index, item in enumerate(items):
        if index == carrier:
            says = "{name} is the carrier: it takes what the others leave."
            reasons.append(ledger.add("assumed", says, {"name": item.name}, [item.why]))
            typical, log_sd = 1.0, np.inf
        else:
            typical, log_sd, why = _level(item, product_type, catalog, ledger)
            reasons.append(why)
        mean.append(float(np.log(typical)))
        spread.append(log_sd * NARROWED)
    open_ = rest_is_open or carrier is None
    # A use level weighs the amounts of a mixture about which nothing is known, whose density falls as the square root
    # of each amount (Dirichlet with parameter 1/2): a log-normal with its middle raised by half its variance is that.
    mean = [
        middle + (0.5 * log_sd**2 if np.isfinite(log_sd) else 0.0) for middle, log_sd in zip(mean, spread, strict=True)
    ]
    mean.append(np.log(REST_TYPICAL))
    spread.append(np.inf if open_ else REST_SPREAD)
    return Prior(Levels(np.array(mean), np.array(spread)), tuple(reasons), carrier)


def carrier_of(items: Sequence[Item]) -> int | None:
    """The item that most of the rest is in: water if it is listed, else the likeliest carrier, else None."""
    water = [index for index, item in enumerate(items) if item.classes[-1] == "water"]
    if water:
        return water[0]
    likely = [(item.roles.probability("carrier"), -index) for index, item in enumerate(items)]
    best = max(likely, default=(0.0, 0))
    return -best[1] if best[0] >= 0.5 else None


def _level(item: Item, product_type: str, catalog: Catalog, ledger: Ledger) -> tuple[float, float, str]:
    found = use_level(catalog, item.ingredient, item.classes, product_type)
    if found is None:
        says = "No use level of {name} is recorded: {typical:g} %, give or take a factor of seven, is assumed."
        why = ledger.add("assumed", says, {"name": item.name, "typical": UNKNOWN_TYPICAL * 100}, [item.why])
        return UNKNOWN_TYPICAL, UNKNOWN_SPREAD, why
    values: dict[str, str | float] = {
        "name": item.name,
        "of": found.of,
        "kind": "any product" if found.product_type == "any" else found.product_type.replace("-", " "),
        "typical": found.typical * 100,
        "factor": float(np.exp(found.log_sd)),
        "records": found.records,
    }
    says = "{name}: {of} in {kind} is about {typical:.3g} %, give or take a factor of {factor:.2g}"
    said = says + (", from {records:g} records." if found.records else "; judged, no records.")
    kind: Kind = "looked-up" if found.records else "assumed"
    return found.typical, found.log_sd, ledger.add(kind, said, values, [item.why], [found.citation])
