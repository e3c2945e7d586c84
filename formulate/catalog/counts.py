"""What the dataset holds and how well it is backed, as numbers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from formulate.catalog.store import Catalog
from formulate.domain.model import Model

SOURCED = ("ingredients", "names", "properties", "supply_forms", "roles", "class_words", "word_forms")
LAW = ("hazards", "exposure_limits", "restrictions", "use_levels", "product_types", "legal_acts", "hazard_notes")
DATED = ("hazards", "exposure_limits", "restrictions")
WITH_ORIGIN = ("properties", "exposure_limits", "use_levels")
FEW_NAMES = 4


class Backing(Model):
    """Rows of a table, and how many of them rest on memory or on the custom of the trade alone."""

    table: str
    rows: int
    memory: int
    custom: int


class Checked(Model):
    """Rows of a dated table, by day of the check and by the day up to which the copy that was read knows the law."""

    table: str
    rows: int
    oldest: str
    newest: str
    over_a_year: int
    copy_over_a_year: int


class Overdue(Model):
    """A value checked more than twelve months ago."""

    table: str
    what: str
    checked_on: str


def backing(catalog: Catalog) -> Iterator[Backing]:
    """Every table with its rows, from memory, and from custom."""
    for table in (*SOURCED, *LAW):
        row = catalog.count(
            f"select count(*), total(source = 'memory'), total(source = 'common-practice') from {table}"
        )[0]
        yield Backing.model_construct(table=table, rows=row[0], memory=int(row[1]), custom=int(row[2]))


def origins(catalog: Catalog) -> list[tuple[str, int]]:
    """How many values have each origin, most first: properties, classes, limits in air and usual amounts together."""
    union = " union all ".join(f"select origin from {table}" for table in WITH_ORIGIN)
    union += " union all select 'tabulated' from hazards where status != 'no-entry'"  # law is read, never measured
    return [
        (row[0], row[1]) for row in catalog.count(f"select origin, count(*) from ({union}) group by 1 order by 2 desc")
    ]


def languages(catalog: Catalog) -> list[tuple[str, int]]:
    """Names by language, most first; names of no language (INCI, formulas) come under 'none'."""
    rows = catalog.count("select language, count(*) from names group by 1 order by 2 desc, 1")
    return [(row[0] or "none", row[1]) for row in rows]


def few_names(catalog: Catalog) -> tuple[int, int]:
    """Ingredients filed under fewer than four names, and ingredients in all."""
    row = catalog.count(
        "select total(n < ?), count(*) from (select count(distinct names.key) as n from ingredients "
        "left join names on names.ingredient = ingredients.id group by ingredients.id)",
        FEW_NAMES,
    )[0]
    return int(row[0]), row[1]


def classes(catalog: Catalog) -> list[tuple[str, int]]:
    """Ingredients by class of the contract, most first."""
    found: dict[str, int] = {}
    for class_, many in catalog.count("select class, count(*) from ingredients group by 1"):
        top = catalog.classes[class_].top
        found[top] = found.get(top, 0) + many
    return sorted(found.items(), key=lambda pair: (-pair[1], pair[0]))


def law(catalog: Catalog) -> list[tuple[str, int]]:
    """What is known of law, each with a number."""
    one = [
        ("ingredients with a harmonised entry", "count(distinct ingredient) from hazards where status = 'entry'"),
        ("ingredients found to have none", "count(*) from hazards where status = 'no-entry'"),
        (
            "harmonised limits of concentration",
            "count(*) from hazards where limit_low is not null or limit_high is not null",
        ),
        ("M-factors", "count(*) from hazards where m_factor is not null"),
        ("harmonised acute toxicity estimates", "count(*) from hazards where ate is not null"),
        ("ingredients with a limit in air", "count(distinct ingredient) from exposure_limits"),
        ("ingredients with a usual amount", "count(distinct ingredient) from use_levels where ingredient != ''"),
    ]
    found = [(title, int(catalog.count(f"select {sql}")[0][0])) for title, sql in one]
    for table, title in (("exposure_limits", "limits in air"), ("restrictions", "restrictions and lists")):
        rows = catalog.count(f"select jurisdiction, count(*) from {table} group by 1 order by 1")
        found += [(f"{title}, {where}", many) for where, many in rows]
    return found


def a_year_before(today: str) -> str:
    """The day twelve months before, as 2025-11-25."""
    day = date.fromisoformat(today)
    return day.replace(
        year=day.year - 1, day=min(day.day, 28) if (day.month, day.day) == (2, 29) else day.day
    ).isoformat()


def checked(catalog: Catalog, today: str) -> Iterator[Checked]:
    """When the dated tables were last checked against a copy of the law, and how old that copy is."""
    limit = a_year_before(today)
    for table in DATED:
        row = catalog.count(
            f"select count(*), min(checked_on), max(checked_on), total(checked_on < ?), total(as_of < ?) from {table}",
            limit,
            limit,
        )[0]
        yield Checked.model_construct(
            table=table,
            rows=row[0],
            oldest=row[1],
            newest=row[2],
            over_a_year=int(row[3]),
            copy_over_a_year=int(row[4]),
        )


def overdue(catalog: Catalog, today: str) -> Iterator[Overdue]:
    """Values checked more than twelve months ago, oldest first."""
    what = {
        "hazards": "ingredient || ' ' || hazard_class || ' ' || category",
        "exposure_limits": "ingredient || ' ' || \"limit\" || ' ' || average",
        "restrictions": "restriction",
    }
    for table in DATED:
        for row in catalog.count(
            f"select {what[table]}, checked_on from {table} where checked_on < ? order by checked_on, rowid",
            a_year_before(today),
        ):
            yield Overdue.model_construct(table=table, what=row[0].strip(), checked_on=row[1])


def latest_check(catalog: Catalog) -> str:
    """The day of the newest check in the dated tables."""
    return max(str(catalog.count(f"select max(checked_on) from {table}")[0][0]) for table in DATED)
