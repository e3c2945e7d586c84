"""Names and CAS numbers in the public inventories of the shared material, and pairs of names that lie near each other.

Sources (read in place, never copied): EU inventory of cosmetic ingredients, export of 2020-12-30; EC inventory extract;
CLP Annex VI at ATP17; NIOSH Pocket Guide; CPDat v3; the list of candidates of the shared facts.
"""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from pathlib import Path
from typing import NamedTuple

from stdnum import casrn

FARTHEST = 2
"""Letters by which the names of a pair differ at most."""
_COLUMNS = (
    ("cosing/cosing_inventory_2020-12-30.csv", ("inci_name",), (), "cas_number"),
    ("eu_ec_inventory/eci_subset_candidates.csv", ("ec_name", "echa_name"), (), "cas_no"),
    ("candidates.csv", ("common_name", "inci_name"), ("synonyms",), "cas"),
    ("cpdat_sheds/cpdat_v3_weight_fractions_by_puc.csv", ("name",), (), "cas"),
    ("niosh_npg/niosh_npg.csv", ("name",), ("synonyms",), "cas"),
    ("eu_clp_annex_vi/clp_annex_vi_atp17.csv", ("name",), (), "cas"),
)


class Pair(NamedTuple):
    """Two names of different substances that lie near each other."""

    one: str
    other: str


def rows(path: Path) -> list[dict[str, str]]:
    """Rows of a table of the shared facts."""
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def named_pairs(shared: Path, only: str = "") -> list[tuple[str, str]]:
    """(name, CAS number) as the inventories print them, in order; ``only`` one file."""
    found: dict[tuple[str, str], None] = {}
    for file, single, several, number in _COLUMNS:
        if only not in file:
            continue
        for row in rows(shared / "facts" / file):
            names = [row[column] for column in single] + [name for column in several for name in row[column].split(";")]
            for cas in re.split(r"[\s;/]+", row[number]):
                if casrn.is_valid(cas):
                    found.update(dict.fromkeys((" ".join(name.split()), cas) for name in names if name.strip()))
    return list(found)


def numbers_of_names(shared: Path) -> dict[str, frozenset[str]]:
    """CAS numbers of each name of 4 to 80 signs, case-folded."""
    numbers: dict[str, set[str]] = defaultdict(set)
    for name, cas in named_pairs(shared):
        if 4 <= len(name) <= 80:
            numbers[name.casefold()].add(cas)
    return {name: frozenset(those) for name, those in numbers.items()}


def near_pairs(numbers: dict[str, frozenset[str]]) -> list[Pair]:
    """Pairs of names at an edit distance of 1 or 2 (a swap counts once) that share no CAS number."""
    import numpy as np
    from rapidfuzz.distance import OSA
    from rapidfuzz.process import cdist

    names = sorted(numbers, key=lambda name: (len(name), name))
    lengths = np.array([len(name) for name in names])
    pairs = []
    for start in range(0, len(names), 500):
        block = names[start : start + 500]
        others = names[start : int(np.searchsorted(lengths, len(block[-1]) + FARTHEST, "right"))]
        distance = cdist(block, others, scorer=OSA.distance, score_cutoff=FARTHEST, dtype=np.uint8)
        for at, beside in zip(*np.nonzero(distance <= FARTHEST), strict=True):
            one, other = block[at], others[beside]
            if beside > at and not numbers[one] & numbers[other]:
                pairs.append(Pair(one, other))
    return pairs
