"""Wrong identities and dangerous neighbours on the shared material: none. Skipped where it is absent."""

from __future__ import annotations

import pytest

from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog, data_root
from tests.evaluation.inventories import near_pairs, numbers_of_names
from tests.evaluation.neighbours import SAMPLE, Pretended, sampled, taken_for, upper_limit
from tests.evaluation.wrong_identities import compared, declared, disagreeing, inventory, readings, verdicts

FAST = 250


@pytest.fixture(scope="module")
def pairs(shared):
    return near_pairs(numbers_of_names(shared))


@pytest.fixture(scope="module")
def pretended() -> Pretended:
    return Pretended(data_root())


def test_no_substance_is_taken_for_its_neighbour(pairs, pretended):
    sample = sampled(pairs, pretended, SAMPLE, seed=3)
    assert len(sample) == SAMPLE
    assert taken_for(sample[:: SAMPLE // FAST], pretended).wrong == ()


@pytest.mark.slow
def test_no_substance_of_two_thousand_is_taken_for_its_neighbour(pairs, pretended):
    """0 of 2,000 bounds the rate below 0.0015 with 95 % (Clopper and Pearson, doi:10.1093/biomet/26.4.404)."""
    result = taken_for(sampled(pairs, pretended, SAMPLE, seed=3), pretended)
    assert result.wrong == ()
    assert upper_limit(0, result.tried) <= 0.0015


@pytest.mark.slow
def test_no_pair_at_all_is_exchanged(pairs, pretended):
    assert taken_for(pairs, pretended).wrong == ()


def test_a_pretended_name_is_found_and_a_hidden_one_is_not(pretended):
    """The test above can fail: what is put in is found, by name and by a slip, and what is taken out is not."""
    from formulate.identity.ladder import climb
    from tests.evaluation.material import as_lines

    pretended.pretend("Zorvylquat chloride", "Phenoxyethanol")
    for typed in ("zorvylquat chloride", "zorvylquatt chloride"):
        found, _ = climb(as_lines([(typed, None, None, None, None)])[0], pretended)
        assert [hit.ingredient for hit in found.hits] == ["pretended"]
    assert pretended.by_name("Phenoxyethanol") == []
    assert name_key("Phenoxyethanol") not in {name_key(hit.name) for hit in pretended.by_key("phenoxyethanol")}


@pytest.mark.parametrize("rows_of", [declared, readings])
def test_no_name_is_taken_for_something_else_than_its_number_says(shared, catalog: Catalog, rows_of):
    known = verdicts()
    for one in disagreeing(compared(rows_of(shared), catalog)):
        assert known.get(one.key) in {"name", "open"}, (one.key, one.found.hits, one.numbered)


@pytest.mark.slow
def test_no_name_of_the_cosmetic_inventory_is_taken_for_something_else(shared, catalog: Catalog):
    known = verdicts()
    for one in disagreeing(compared(inventory(shared, "cosing"), catalog)):
        assert known.get(one.key) in {"name", "open"}, (one.key, one.found.hits, one.numbered)


def test_number_and_name_that_disagree_are_never_merged(shared, catalog: Catalog):
    """The rows above with both printed: no ingredient, and both among the candidates."""
    from formulate.identity.ladder import climb
    from tests.evaluation.material import as_lines

    rows = disagreeing(compared([*declared(shared), *readings(shared)], catalog))
    assert rows
    for one in rows:
        both, _ = climb(as_lines([(one.printed.name, one.printed.cas, None, None, None)])[0], catalog)
        assert both.hits == ()
        assert {one.found.hits[0].ingredient, *one.numbered} <= {hit.ingredient for hit in both.disagree}
