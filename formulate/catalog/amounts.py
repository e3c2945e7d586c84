"""What the dataset says of amounts: disclosure rules, supply forms, what counts towards a total, use levels."""

from __future__ import annotations

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
    for row in catalog.records("select * from disclosure_rules where rule = ?", rule):
        return DisclosureRule(
            row["rule"],
            row["title"],
            row["ordered"] == "yes",
            row["line"] or 0.0,
            row["complete"] == "yes",
            row["says"],
            _cited(row),
        )
    raise KeyError(rule)


def supply_forms(catalog: Catalog, ingredient: str) -> list[SupplyForm]:
    """Forms in which an ingredient is sold, the usual one first."""
    found = catalog.records("select * from supply_forms where ingredient = ? order by rowid", ingredient)
    return [SupplyForm(row["form"], row["solids_min"], row["solids_max"], _cited(row)) for row in found]


def counts_as(catalog: Catalog, total: str, ingredient: str | None, line: tuple[str, ...]) -> CountsAs | None:
    """The row of the ingredient, else of its nearest class that has one; None where the table is silent."""
    keys = [("ingredient", ingredient), *(("class", name) for name in line)]
    for kind, of in keys:
        for row in catalog.records("select * from counts_as where total = ? and kind = ? and of = ?", total, kind, of):
            return CountsAs(row["of"], row["low"], row["high"], _cited(row), row["note"])
    return None


def remains_at(catalog: Catalog, drying: str, boiling_point_c: float) -> CountsAs:
    """What share of a liquid of this boiling point is left after a drying."""
    row = next(
        row
        for row in catalog.records(
            "select * from remains_by_boiling_point where drying = ? order by up_to_c is null, up_to_c", drying
        )
        if row["up_to_c"] is None or boiling_point_c <= row["up_to_c"]
    )
    return CountsAs(f"boiling point {boiling_point_c:g} C", row["low"], row["high"], _cited(row), row["note"])


def use_level(catalog: Catalog, ingredient: str | None, line: tuple[str, ...], product_type: str) -> UseLevel | None:
    """Use level of the ingredient, else of its nearest class, in this type of product, else in any."""
    keys = [("ingredient", ingredient), *(('"class"', name) for name in line)]
    for column, of in keys:
        for wanted in (product_type, "any"):
            for row in catalog.records(f"select * from use_levels where {column} = ? and product_type = ?", of, wanted):
                return UseLevel(of or "", wanted, row["typical"], row["log_sd"], row["records"], _cited(row))
    return None


def _cited(row: dict[str, Any]) -> Citation:
    return Citation.model_construct(source=row["source"], at=row["at"], via=row.get("via") or None)
