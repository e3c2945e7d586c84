"""Where two sources give the same property, they agree within 10 K, or the rows say by how much they differ."""

import re
from collections import defaultdict
from itertools import combinations

import pytest

from formulate.catalog.store import data_root
from formulate.catalog.tables import PropertyRow, read_rows

AGREE_WITHIN = 10.0
SAID = re.compile(r"sources differ by (\d+(?:\.\d+)?) K")


@pytest.fixture(scope="module")
def temperatures():
    """Single values in degC that nobody doubts, by ingredient and property."""
    found = defaultdict(list)
    for row in read_rows(data_root() / "properties.csv", PropertyRow):
        if row.unit == "degC" and row.value is not None and not row.note.startswith("doubtful"):
            found[row.ingredient, row.property].append(row)
    return found


def test_sources_agree_or_the_rows_carry_a_note(temperatures):
    apart = [
        (*where, one.source, one.value, other.source, other.value)
        for where, rows in temperatures.items()
        for one, other in combinations(rows, 2)
        if abs(one.value - other.value) > AGREE_WITHIN and not (one.note and other.note)
    ]
    assert apart == []


def test_said_difference_is_the_difference(temperatures):
    told = 0
    for where, rows in temperatures.items():
        spread = max(row.value for row in rows) - min(row.value for row in rows)
        for row in rows:
            said = SAID.search(row.note)
            assert bool(said) == (spread > AGREE_WITHIN), (*where, row.value, spread)
            if said:
                told += 1
                assert float(said[1]) == pytest.approx(spread, abs=0.06), where
    assert told > 100


def test_sources_overlap_at_all(temperatures):
    overlapping = [where for where, rows in temperatures.items() if len({row.source for row in rows}) > 1]
    assert len(overlapping) > 100
