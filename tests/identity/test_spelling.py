"""Misspellings: slips are repaired, dangerous neighbours never."""

from __future__ import annotations

import itertools
import random

import pytest

from formulate.catalog.names import name_key, name_words
from formulate.catalog.spellings import letter_groups
from formulate.catalog.store import Catalog
from formulate.identity.spelling import Dangerous, dangerous_parts, is_misspelling, repaired, slip

NEIGHBOURS = [
    ("methyl lactate", "ethyl lactate"), ("propyl acetate", "butyl acetate"), ("methanol", "methanal"),
    ("ethanol", "ethanal"), ("sodium chlorite", "sodium chloride"), ("sodium chlorate", "sodium chlorite"),
    ("sodium sulfite", "sodium sulfate"), ("isobutanol", "n-butanol"), ("sec-butanol", "tert-butanol"),
    ("1-butoxyethanol", "2-butoxyethanol"), ("potassium oleate", "sodium oleate"),
    ("lithium oleate", "ammonium oleate"),
    ("calcium stearate", "magnesium stearate"), ("zinc stearate", "calcium stearate"),
    ("trimethoxysilane", "trimethoxysilazane"), ("disiloxane", "disilazane"), ("siloxane", "silazane"),
    ("siliconate", "silicate"), ("silica", "silicon"), ("silicone", "silicon"), ("silane", "siloxane"),
    ("cyclotetrasiloxane", "cyclotrisiloxane"), ("cyclopentasiloxane", "cyclohexasiloxane"),
    ("methylisothiazolinone", "methylchloroisothiazolinone"), ("octylisothiazolinone", "butylbenzisothiazolinone"),
    ("benzisothiazolinone", "methylisothiazolinone"), ("ethylene glycol", "diethylene glycol"),
    ("diethylene glycol", "triethylene glycol"), ("propylene glycol", "dipropylene glycol"),
    ("phosphoric acid", "phosphonic acid"), ("phosphorous acid", "phosphoric acid"), ("hexane", "isohexane"),
    ("citric acid", "nitric acid"), ("lactic acid", "acetic acid"), ("cocamide MEA", "cocamide DEA"),
    ("triethylamine", "triethanolamine"), ("potassium carbonate", "potassium bicarbonate"), ("PEG-12", "PPG-12"),
    ("PEG-8", "PEG-80"), ("laureth-4", "laureth-7"), ("laureth-4", "laureth-40"), ("steareth-2", "steareth-21"),
    ("trisiloxane", "trisiloxane polyether"), ("octamethylcyclotetrasiloxane", "decamethylcyclopentasiloxane"),
    ("stearic acid", "stearyl acid"), ("zinc stearate", "zinc stearyl"), ("oleic alcohol", "oleyl alcohol"),
    ("lauryl alcohol", "laureth alcohol"), ("cetyl alcohol", "cetearyl alcohol"), ("acetone", "acetate"),
    ("cis-decalin", "trans-decalin"), ("o-xylene", "p-xylene"), ("m-cresol", "o-cresol"),
    ("benzyl chloride", "benzoyl chloride"), ("amyl acetate", "allyl acetate"), ("hydroxysilane", "alkoxysilane"),
    ("monoethanolamine", "diethanolamine"), ("diacetin", "triacetin"), ("tetrasodium EDTA", "trisodium EDTA"),
    ("capric acid", "caproic acid"), ("caprylic acid", "capric acid"), ("diethylhexyl malate", "diethylhexyl maleate"),
    ("cystine", "cysteine"), ("azobenzene", "azabenzene"), ("erbium chloride", "terbium chloride"),
    ("propyl sulfanyl", "propyl sulfonyl"), ("D4", "D5"), ("CI 42090", "CI 42080"), ("calamine", "colamine"),
]  # fmt: skip
"""Pairs that differ in what carries the chemistry: families that were asked for, and kinds in public inventories."""


def same(catalog: Catalog, typed: str, meant: str) -> bool:
    return is_misspelling(typed, meant, catalog.spellings, dangerous_parts(catalog.neighbours))


@pytest.mark.parametrize(("one", "other"), NEIGHBOURS)
def test_dangerous_neighbours_are_never_exchanged(catalog: Catalog, one: str, other: str):
    assert not same(catalog, one, other)
    assert not same(catalog, other, one)


def test_no_two_parts_of_a_group_are_exchanged(catalog: Catalog):
    """In an invented word, where no letters look familiar, only the table keeps the parts of a group apart."""
    groups: dict[str, list[str]] = {}
    for row in catalog.neighbours:
        if row.where == "anywhere" and not row.part.isdigit():
            groups.setdefault(row.group, []).append(row.part)
    dangerous, compared = dangerous_parts(catalog.neighbours), 0
    for parts in groups.values():
        for one, other in itertools.permutations(parts, 2):
            if slip(one, other) and one not in other:
                compared += 1
                assert not dangerous.kept(f"zq{one}qz", f"zq{other}qz"), (one, other)
    assert compared > 20


def test_the_table_holds_the_families_that_are_asked_for(catalog: Catalog):
    groups = {row.group for row in catalog.neighbours}
    assert {
        "alkyl", "alkoxy", "branch", "place", "count", "alkylene", "metal", "silicon", "ring siloxane", "phosphorus",
        "sulfur", "halogen", "acid", "ester or salt", "ending", "isothiazolinone", "fatty alkyl",
    } <= groups  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "ingredient"),
    [("phenoxyethanl", "phenoxyethanol"), ("carnaubba wax", "carnauba-wax"), ("carnaubw wax", "carnauba-wax"),
     ("g1ycer0l", "glycerin"), ("amodimethicoen", "amodimethicone"), ("Isopropyl alcohpl", "isopropanol"),
     ("xnathan gum", "xanthan-gum")],
)  # fmt: skip
def test_slips_of_the_hand_and_of_the_scanner_are_repaired(catalog: Catalog, typed: str, ingredient: str):
    repair = repaired(typed, catalog)
    assert repair is not None
    assert repair.hit.ingredient == ingredient


@pytest.mark.parametrize("typed", ["wax", "xanthan gmu", "Zorvylium", "silicn", "2-hexoxyethanal", "PEG-8O", "OTBCHA"])
def test_what_could_be_something_else_is_left_alone(catalog: Catalog, typed: str):
    assert repaired(typed, catalog) is None


@pytest.mark.parametrize(("one", "other", "kind"), [
    ("abbc", "abc", "doubled"), ("abc", "abbc", "doubled"), ("acb", "abc", "swapped"), ("ab", "abc", "lost"),
    ("abxc", "abc", "added"), ("cat", "eat", "taken for another"), ("can", "cen", None), ("cat", "pat", None),
    ("abcd", "abxy", None), ("same", "same", None),
])  # fmt: skip
def test_what_a_slip_is(one: str, other: str, kind: str | None):
    assert slip(one, other) == kind


def test_a_part_may_be_broken_but_not_changed(catalog: Catalog):
    dangerous: Dangerous = dangerous_parts(catalog.neighbours)
    assert dangerous.kept("zorvmethl", "zorvmethyl")
    assert not dangerous.kept("zorvethyl", "zorvmethyl")
    assert not dangerous.kept("zorvmethyl", "zorvethyl")


class Without:
    """The letters of the dataset as they were if one name did not stand in it."""

    def __init__(self, catalog: Catalog) -> None:
        self.catalog = catalog
        self.uses: dict[str, int] = {}
        for (words,) in catalog._rows("select words from names where kind != 'pattern'"):
            for word in set(words.split()):
                self.uses[word] = self.uses.get(word, 0) + 1

    def repaired(self, key: str) -> str | None:
        """Name and ingredient that a name would be taken for if it were taken out; None if it would be left alone."""
        hits = self.catalog.by_key(key)
        name, own = hits[0].name, {hit.ingredient for hit in hits}
        words = {word for hit in hits for word in name_words(hit.name)}
        alone = {word for word in words if self.uses.get(word, 0) <= len(hits)}
        spellings, dangerous = self.catalog.spellings, dangerous_parts(self.catalog.neighbours)
        left = {group: spellings.groups_like(group) for word in alone for group in letter_groups(word)}
        for word in alone:
            for group in letter_groups(word):
                left[group] -= 1
        taken_out = _LettersLeft(spellings, alone, left)
        near = [
            (distance, hit) for other, distance in spellings.near(key) if other != key
            for hit in self.catalog.by_key(other)
        ]  # fmt: skip
        slips = [one for one in near if is_misspelling(name, one[1].name, taken_out, dangerous)]
        if not slips:
            return None
        best = min(slips, key=lambda one: one[0])
        rivals = {hit.ingredient for distance, hit in near if distance <= best[0]}
        return f"{name} -> {best[1].name}" if rivals == {best[1].ingredient} and not rivals & own else None


class _LettersLeft:
    def __init__(self, spellings, alone: set[str], left: dict[str, int]) -> None:
        self.spellings, self.alone, self.left = spellings, alone, left

    def is_word(self, word: str) -> bool:
        return word not in self.alone and self.spellings.is_word(word)

    def is_odd(self, typed: str, meant: str) -> bool:
        return any(
            self.left.get(group, self.spellings.groups_like(group)) == 0
            for group in letter_groups(typed) - letter_groups(meant)
        )


def test_a_sample_of_names_taken_out_is_never_repaired_to_another_substance(catalog: Catalog):
    without = Without(catalog)
    assert [wrong for key in random.Random(3).sample(catalog.name_keys, 800) if (wrong := without.repaired(key))] == []


@pytest.mark.slow
def test_no_name_taken_out_is_repaired_to_another_substance(catalog: Catalog):
    """0 wrong of n bounds the rate at 3/n with 95 % (rule of three)."""
    without = Without(catalog)
    assert [wrong for key in catalog.name_keys if (wrong := without.repaired(key))] == []


def test_a_name_in_order_is_not_near_itself(catalog: Catalog):
    key = name_key("Cetrimonium Chloride")
    assert key not in dict(catalog.spellings.near(key))
