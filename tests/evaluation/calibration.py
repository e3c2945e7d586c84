"""How often is each rung of the ladder right, and does its confidence say so?

    python tests/evaluation/calibration.py

A match by name is right when the number printed beside it leads to the same ingredient, or to one that includes it; a
match by number is right when the name printed beside it does. Rows that contradict themselves (``open`` in
``verdicts.csv``) say nothing and are left out. The rows are those of the declared products, data sheets and readings,
which are no source of the dataset. Misspellings are rare there: for these, one slip made by a seeded generator in each
name that the public inventories give with a number, right when that number leads to the ingredient it was repaired to.

The estimate is that of Jeffreys, (right + 1/2) / (count + 1). Bins with fewer than 100 matches prove nothing.
"""

from __future__ import annotations

import random
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog, open_catalog
from formulate.identity.agreement import settled
from formulate.identity.ladder import climb
from formulate.identity.spelling import TAKEN_FOR
from tests.conftest import SHARED
from tests.evaluation.inventories import named_pairs
from tests.evaluation.material import as_lines
from tests.evaluation.wrong_identities import Printed, compared, declared, readings, verdicts

ENOUGH = 100
"""Matches from which a bin says something."""
FIGURES = {"o": "0", "l": "1", "i": "1", "s": "5", "b": "8"}


class Bin(NamedTuple):
    """Matches of one rung that claim one confidence."""

    rung: str
    confidence: float
    count: int
    right: int

    @property
    def estimate(self) -> float:
        """Jeffreys' estimate of the share that is right."""
        return (self.right + 0.5) / (self.count + 1)


def judged_rows(printed: Iterable[Printed], catalog: Catalog) -> Iterator[tuple[str, float, bool]]:
    """(rung, confidence, right) of each row by its name alone, and of its number where the name is known."""
    known = verdicts()
    for one in compared(printed, catalog):
        verdict = known.get(one.key, "")
        if one.relation in {"name unknown", "number unknown"} or verdict == "open":
            continue
        agree = one.relation in {"agrees", "includes"}
        yield one.found.how, one.found.confidence, agree or verdict == "name"
        number, _ = climb(as_lines([("", one.printed.cas, None, None, None)])[0], catalog)
        yield number.how, number.confidence, agree or verdict == "number"


def slipped(name: str, chance: random.Random) -> str:
    """A name with one slip: a letter lost, added, doubled, swapped, or taken for one like it."""
    at = chance.choice([place for place, sign in enumerate(name) if sign.isalpha()])
    sign, kind = name[at].lower(), chance.choice(("lost", "added", "doubled", "swapped", "key", "figure"))
    alike = sorted(other for pair in TAKEN_FOR if sign in pair for other in pair if other != sign)
    middle = {
        "lost": "",
        "added": chance.choice("abcdefghijklmnopqrstuvwxyz") + name[at],
        "doubled": name[at] * 2,
        "swapped": name[at + 1 : at + 2] + name[at],
        "key": chance.choice(alike) if alike else name[at],
        "figure": FIGURES.get(sign, name[at]),
    }[kind]
    return name[:at] + middle + name[at + (2 if kind == "swapped" else 1) :]


def judged_slips(pairs: Iterable[tuple[str, str]], catalog: Catalog, seed: int) -> Iterator[tuple[str, float, bool]]:
    """(rung, confidence, right) of names with a slip in them, where the spelling rung found something."""
    chance = random.Random(seed)
    by_name = {where.partition(" ")[2] for (where, _), right in verdicts().items() if right == "name"}
    for name, cas in pairs:
        numbered = tuple(catalog.by_number(cas))
        if not numbered or not any(sign.isalpha() for sign in name):
            continue
        typed = slipped(name, chance)
        if name_key(typed) == name_key(name):
            continue
        found, _ = climb(as_lines([(typed, None, None, None, None)])[0], catalog)
        if found.how == "spelling":
            same = found.hits[0].ingredient in {hit.ingredient for hit in numbered} or name in by_name
            right = same or settled(numbered, found.hits, catalog) != "neither"
            yield "spelling (made slips)", found.confidence, right


def bins(judged: Iterable[tuple[str, float, bool]]) -> list[Bin]:
    """Matches by rung and confidence."""
    counted: dict[tuple[str, float], list[bool]] = defaultdict(list)
    for rung, confidence, right in judged:
        counted[rung, confidence].append(right)
    return [Bin(*key, len(those), sum(those)) for key, those in sorted(counted.items())]


def expected_error(found: Iterable[Bin]) -> float:
    """Expected calibration error: the mean distance of confidence and share, each bin by its matches."""
    found = list(found)
    total = sum(one.count for one in found)
    return sum(abs(one.right / one.count - one.confidence) * one.count for one in found) / total


def main() -> None:
    """Print the table."""
    catalog = open_catalog()
    table = bins(judged_rows([*declared(SHARED), *readings(SHARED)], catalog))
    slips = bins(judged_slips(named_pairs(SHARED), catalog, seed=7))
    print(f"{'rung':<24}{'says':>6}{'count':>7}{'right':>7}{'share':>8}{'estimate':>10}")
    for one in (*table, *slips):
        few = "" if one.count >= ENOUGH else "   too few"
        share = one.right / one.count
        print(
            f"{one.rung:<24}{one.confidence:>6.2f}{one.count:>7}{one.right:>7}{share:>8.3f}{one.estimate:>10.3f}{few}"
        )
    print(f"expected calibration error on the rows: {expected_error(table):.4f}")


if __name__ == "__main__":
    main()
