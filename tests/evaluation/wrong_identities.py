"""Is what a name alone is taken for the same as what its CAS number says?

    python tests/evaluation/wrong_identities.py [--list]

Each row of the declared products, the data sheets, the shared readings and the public inventories that prints a name
and a CAS number which passes its check digit is identified twice: by the name with the number withheld, and by the
number. Where both find something they must agree, or one must include the other (petroleum cut, family, mirror image).
Every other row stands in ``verdicts.csv`` with who is right and why; ``number`` there is a wrong identity.

The evidence is circular where the dataset took name and number from the same row of the same inventory; the declared
products, the data sheets and the readings are not sources of the dataset.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from stdnum import casrn

from formulate.catalog.store import Catalog, open_catalog
from formulate.identity.agreement import settled
from formulate.identity.ladder import Found, climb
from tests.conftest import SHARED
from tests.evaluation.inventories import named_pairs, rows
from tests.evaluation.material import HERE, as_lines, gold_cases

INVENTORIES = ("cosing", "eu_ec_inventory", "candidates", "niosh_npg", "clp_annex_vi", "cpdat_sheds")


class Printed(NamedTuple):
    """A name and a CAS number printed in one row, and where."""

    where: str
    name: str
    cas: str


class Compared(NamedTuple):
    """What the name alone was taken for, and how that stands to the number.

    ``relation``: agrees, includes (one is narrower), disagrees, number unknown, name unknown.
    """

    printed: Printed
    found: Found
    relation: str
    numbered: tuple[str, ...]

    @property
    def key(self) -> tuple[str, str]:
        """How the verdict on it is filed: the place of a row, or the name of an inventory, and the number."""
        return self.printed.where, self.printed.cas


def declared(shared: Path) -> list[Printed]:
    """Rows of the declared products and of the data sheets."""
    folder = shared / "facts" / "disclosed_products"
    found = [
        Printed(f"{row['product_id']} {row['order']}", row["ingredient"], row["cas"])
        for row in rows(folder / "declared_roles.csv")
    ]
    found += [
        Printed(f"{row['sds_id']} {number}", row["component"], row["cas"])
        for number, row in enumerate(rows(folder / "sheet_components.csv"), start=1)
    ]
    return [one for one in found if casrn.is_valid(one.cas)]


def readings(shared: Path) -> list[Printed]:
    """Rows of the careful readings."""
    return [
        Printed(f"{row.case} {row.number}", row.name, row.cas)
        for case in gold_cases(shared)
        for row in case.rows
        if row.cas and casrn.is_valid(row.cas)
    ]


def inventory(shared: Path, file: str) -> list[Printed]:
    """Rows of one public inventory, filed by their names."""
    return [Printed(f"{file} {name}", name, cas) for name, cas in named_pairs(shared, file)]


def compared(printed: Iterable[Printed], catalog: Catalog) -> list[Compared]:
    """Each row by its name alone, beside what its number says."""
    found = []
    for one in printed:
        by_name, _ = climb(as_lines([(one.name, None, None, None, None)])[0], catalog)
        numbered = tuple(catalog.by_number(one.cas))
        if not by_name.hits:
            relation = "name unknown"
        elif not numbered:
            relation = "number unknown"
        elif by_name.hits[0].ingredient in {hit.ingredient for hit in numbered}:
            relation = "agrees"
        else:
            holds = settled(numbered, by_name.hits, catalog)
            relation = "disagrees" if holds == "neither" else "includes"
        found.append(Compared(one, by_name, relation, tuple(hit.ingredient for hit in numbered)))
    return found


def verdicts() -> dict[tuple[str, str], str]:
    """Who is right where name and number disagree: name, number, or open (the row contradicts itself)."""
    with (HERE / "verdicts.csv").open(encoding="utf-8", newline="") as stream:
        return {(row["where"], row["cas"]): row["right"] for row in csv.DictReader(stream)}


def disagreeing(results: Iterable[Compared]) -> list[Compared]:
    """Rows in which name and number say different things, each once."""
    return list({one.key: one for one in results if one.relation == "disagrees"}.values())


def main(arguments: list[str]) -> None:
    """Print the figures."""
    catalog, known = open_catalog(), verdicts()
    sets = [("declared products and data sheets", declared(SHARED)), ("readings", readings(SHARED))]
    sets += [(f"inventory: {file}", inventory(SHARED, file)) for file in INVENTORIES]
    for title, printed in sets:
        results = compared(printed, catalog)
        counts = Counter(one.relation for one in results)
        open_rows = disagreeing(results)
        wrong = [one for one in open_rows if known.get(one.key) == "number"]
        unjudged = [one for one in open_rows if one.key not in known]
        shown = ", ".join(f"{counts[one]} {one}" for one in ("agrees", "includes", "disagrees", "number unknown"))
        print(f"{title}: {len(results)} rows, {shown}; wrong identities {len(wrong)}, not judged {len(unjudged)}")
        for one in open_rows if "--list" in arguments else (*wrong, *unjudged):
            judged = known.get(one.key, "?")
            hit = one.found.hits[0]
            print(f"    {one.key} {hit.name!r} = {hit.ingredient}, number {one.numbered}: {judged}")


if __name__ == "__main__":
    main(sys.argv[1:])
