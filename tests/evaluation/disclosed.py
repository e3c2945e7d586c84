"""Prints whether ordered disclosures and data sheets of the same products can both be true.

python tests/evaluation/disclosed.py [--all]

Each product with both is bounded by the falling order of its list (above 1 %, as the law of a label asks) and by the
ranges of its sheet, matched by registry number. Where no composition agrees, the statements that clash are shown.
"""

from __future__ import annotations

import csv
import sys
from collections import defaultdict
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.amounts.statements import Statement, clash
from tests.conftest import SHARED
from tests.evaluation.material import disclosed_products


class Linked(NamedTuple):
    """A product with its list, its sheet, how many rows of the sheet were matched, and what clashes."""

    product: str
    sheet: str
    items: int
    matched: int
    clash: tuple[str, ...]


def linked(shared: Path) -> list[Linked]:
    """Every product that has both."""
    folder = shared / "facts" / "disclosed_products"
    lists = disclosed_products(shared)
    sheets: dict[str, list[dict[str, str]]] = defaultdict(list)
    with (folder / "sheet_components.csv").open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            sheets[row["sds_id"]].append(row)
    found = []
    with (folder / "sheets.csv").open(encoding="utf-8", newline="") as stream:
        for sheet in csv.DictReader(stream):
            for product in sheet["disclosure_ids"].replace(";", " ").split():
                if product in lists:
                    found.append(_linked(product, sheet["sds_id"], lists[product], sheets[sheet["sds_id"]]))
    return found


def _linked(product: str, sheet: str, listed: list[dict[str, str]], printed: list[dict[str, str]]) -> Linked:
    names = [row["ingredient"] for row in listed]
    by_number: dict[str, list[int]] = defaultdict(list)
    for place, row in enumerate(listed):
        if row["cas"]:
            by_number[row["cas"]].append(place)
    order = tuple(range(len(names)))
    statements = [Statement("order", "falling order above 1 %", "", order, 0.01), Statement("complete", "complete", "")]
    matched = 0
    for row in printed:
        places = by_number.get(row["cas"], [])
        low, high = float(row["lo"] or 0) / 100, float(row["hi"] or 100) / 100
        if not places:
            continue
        matched += 1
        says = f"{row['component'][:40]} {row['conc_raw']}"
        kind = "amount" if len(places) == 1 else "sum"
        statements.append(Statement(kind, says, "", tuple(places), min(low, 1.0), min(high, 1.0)))
    wrong = clash(statements, len(names))
    return Linked(product, sheet, len(names), matched, tuple(one.says for one in wrong))


def main(arguments: list[str]) -> None:
    """Print the count and every clash."""
    found = linked(SHARED)
    clashing = [one for one in found if one.clash]
    rows = sum(one.matched for one in found)
    print(f"{len(found)} pairs of list and sheet, {rows} rows matched; {len(clashing)} cannot both be true")
    for one in found if "--all" in arguments else clashing:
        said = " | ".join(one.clash) or "agree"
        print(f"  {one.product} {one.sheet}: {one.items} items, {one.matched} matched; {said}")


if __name__ == "__main__":
    main(sys.argv[1:])
