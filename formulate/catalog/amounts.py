"""What the dataset says of amounts: disclosure rules, supply forms, what counts towards a total, use levels."""

from __future__ import annotations

from math import inf
from typing import Any, NamedTuple

from formulate.catalog.store import Catalog
from formulate.domain.place import Citation


class DisclosureRule(NamedTuple):
    """What a law says of a list: whether it stands in falling order above ``line``, and whether it names everything."""

    rule: str
    title: str
    ordered: bool
    line: float
    complete: bool
    says: str
    citation: Citation


class SupplyForm(NamedTuple):
    """How an ingredient is sold to a formulator: solids as mass fraction."""

    form: str
    low: float
    high: float
    citation: Citation


class CountsAs(NamedTuple):
    """What share of an ingredient or class counts towards a total; for a density the value itself, g/mL."""

    of: str
    low: float
    high: float
    citation: Citation
    note: str


class UseLevel(NamedTuple):
    """Use level in the product as used:

    mass fraction, standard deviation of its natural logarithm, records behind it.
    """

    of: str
    product_type: str
    typical: float
    log_sd: float
    records: int
    citation: Citation


def disclosure_rule(catalog: Catalog, rule: str) -> DisclosureRule:
    """The rule of a name of the contract. Raises KeyError if there is none."""
    for row in catalog.records("disclosure_rules", "rule", rule):
        ordered, complete = row["ordered"] == "yes", row["complete"] == "yes"
        return DisclosureRule(rule, row["title"], ordered, row["line"] or 0.0, complete, row["says"], _cited(row))
    raise KeyError(rule)


def supply_forms(catalog: Catalog, ingredient: str) -> list[SupplyForm]:
    """Forms in which an ingredient is sold, the usual one first."""
    rows = catalog.records("supply_forms", "ingredient", ingredient)
    return [SupplyForm(row["form"], row["solids_min"], row["solids_max"], _cited(row)) for row in rows]


def counts_as(catalog: Catalog, total: str, ingredient: str | None, line: tuple[str, ...]) -> CountsAs | None:
    """The row of the ingredient, else of its nearest class that has one; None where the table is silent."""
    rows = [
        row for row in catalog.records("counts_as", "of", *filter(None, (ingredient, *line))) if row["total"] == total
    ]
    for kind, of in (("ingredient", ingredient), *(("class", name) for name in line)):
        for row in rows:
            if row["kind"] == kind and row["of"] == of:
                return CountsAs(row["of"], row["low"], row["high"], _cited(row), row["note"])
    return None


def remains_at(catalog: Catalog, drying: str, boiling_point_c: float) -> CountsAs:
    """What share of a liquid of this boiling point is left after a drying."""
    rows = catalog.records("remains_by_boiling_point", "drying", drying)
    rows.sort(key=lambda row: inf if row["up_to_c"] is None else row["up_to_c"])
    row = next(row for row in rows if row["up_to_c"] is None or boiling_point_c <= row["up_to_c"])
    return CountsAs(f"boiling point {boiling_point_c:g} C", row["low"], row["high"], _cited(row), row["note"])


def mass_of_volume(catalog: Catalog, ingredient: str) -> list[tuple[float, float, Citation]]:
    """Volume and mass fraction of a solvent in water, rising; empty where no table is known."""
    rows = catalog.records("volume_to_mass", "ingredient", ingredient)
    return sorted(((row["volume_fraction"], row["mass_fraction"], _cited(row)) for row in rows), key=lambda one: one[0])


def product_type_for(catalog: Catalog, substrate: str) -> str | None:
    """The kind of product whose use levels stand for one that is put on this substrate; None where there is none."""
    for kind, substrates in catalog.count("select product_type, substrates from product_types"):
        if substrate in substrates.split(";"):
            return str(kind)
    return None


def use_level(catalog: Catalog, ingredient: str | None, line: tuple[str, ...], product_type: str) -> UseLevel | None:
    """Use level of the ingredient, else of its nearest class, in this type of product, else in any."""
    for column, of in (("ingredient", ingredient), *(("class", name) for name in line)):
        if not of:
            continue
        rows = {row["product_type"]: row for row in catalog.records("use_levels", column, of)}
        for wanted in (product_type, "any"):
            if wanted in rows:
                row = rows[wanted]
                return UseLevel(of, wanted, row["typical"], row["log_sd"], int(row["records"] or 0), _cited(row))
    return None


def _cited(row: dict[str, Any]) -> Citation:
    return Citation.model_construct(source=row["source"], at=row["at"], via=row.get("via") or None)
