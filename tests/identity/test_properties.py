"""What holds for every name: never an exception, always the same answer, every filed name its own ingredient."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.catalog.store import Catalog, open_catalog
from formulate.identity.ladder import climb
from tests.evaluation.material import as_lines

NOISE = st.lists(st.text(max_size=12), max_size=6).map(" ".join)
NUMBERS = st.one_of(st.none(), st.from_regex(r"[0-9]{2,7}-[0-9]{2}-[0-9]", fullmatch=True), st.text(max_size=12))
NAMES = ["Dimethicone", "Water", "Carnauba wax", "2-Butoxyethanol", "Laureth-7", "Proprietary wax", "Ethanol or water"]


def found(name: str, cas: str | None = None):
    return climb(as_lines([(name, cas, None, None, None)])[0], open_catalog())[0]


@settings(deadline=None)
@given(NOISE, st.sampled_from(NAMES), NOISE, NUMBERS)
def test_noise_around_a_name_never_raises(before, name, after, cas):
    result = found(f"{before} {name} {after}", cas)
    assert 0 <= result.confidence <= 1


@settings(deadline=None)
@given(st.text(max_size=60), NUMBERS)
def test_the_same_line_is_the_same_every_time(name, cas):
    assert found(name, cas) == found(name, cas)


def kept(catalog: Catalog, name: str, key: str) -> bool:
    """A filed name is its own ingredient, a class word, or open between all that share it."""
    own = {hit.ingredient for hit in catalog.by_key(key)}
    result = found(name)
    if result.how == "class-only":
        return catalog.class_word(name) is not None
    if len(own) > 1:
        return not result.hits and own <= {hit.ingredient for hit in result.disagree}
    return {hit.ingredient for hit in result.hits} == own


def filed(catalog: Catalog) -> list[tuple[str, str]]:
    return catalog._rows("select name, key from names where kind != 'pattern' order by rowid")


def test_a_sample_of_filed_names_are_their_own_ingredients(catalog: Catalog):
    sample = random.Random(11).sample(filed(catalog), 600)
    assert [name for name, key in sample if not kept(catalog, name, key)] == []


@pytest.mark.slow
def test_every_filed_name_is_its_own_ingredient(catalog: Catalog):
    assert [name for name, key in filed(catalog) if not kept(catalog, name, key)] == []
