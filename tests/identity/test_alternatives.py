"""Entries that leave open which one it is, and names that are withheld."""

from __future__ import annotations

import pytest

import formulate


def line(text: str):
    return formulate.read(f"Aqua\n{text}\nGlycerin").lines[1]


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("Ethanol or isopropanol", ["ethanol", "isopropanol"]),
        ("Ethanol oder Isopropanol", ["ethanol", "isopropanol"]),
        ("Ethanol/isopropanol", ["ethanol", "isopropanol"]),
        ("sodium or potassium hydroxide", ["sodium-hydroxide", "potassium-hydroxide"]),
        ("Carnauba wax or beeswax", ["carnauba-wax", "beeswax"]),
        ("ethanol or frobnicol", ["ethanol"]),
    ],
)
def test_one_of_several_is_never_silently_the_first(text, candidates):
    found = line(text)
    assert found.ingredient is None
    assert found.match.how == "none"
    assert list(found.candidates) == candidates


@pytest.mark.parametrize("text", ["ethanol or ethyl alcohol", "Aqua/Water/Eau", "Sodium chloride / Natriumchlorid"])
def test_several_names_of_one_thing_are_that_thing(text):
    assert line(text).ingredient is not None


def test_another_thing_between_slashes_is_not_dropped():
    assert line("Citral / methyl zorvylate schiff base").ingredient is None


@pytest.mark.parametrize("text", ["nonionic surfactant, e.g. Laureth-7", "solvent (e.g. ethanol)"])
def test_an_example_does_not_say_which_of_the_class_it_is(text):
    assert line(text).match.how == "class-only"


def test_a_bracket_that_names_something_else_leaves_it_open():
    found = line("Lye (potassium hydroxide)")
    assert found.ingredient is None
    assert set(found.candidates) == {"sodium-hydroxide", "potassium-hydroxide"}


@pytest.mark.parametrize(
    ("name", "how", "class_"),
    [
        ("Wax, withheld", "withheld", "wax"),
        ("Tensid (Geschäftsgeheimnis)", "withheld", "surfactant"),
        ("secret industriel", "withheld", "other"),
        ("Proprietary polyol", "withheld", None),
        ("Aminosiloxane emulsion Withheld Processing aid", "withheld", "silicone"),
        ("Phenoxyethanol Withheld Preservative", "name", "preservative"),
        ("Glycerin Not available Humectant", "name", None),
    ],
)
def test_what_is_withheld_and_what_is_named_though_a_cell_is_empty(catalog, name, how, class_):
    from tests.evaluation.material import as_lines, identified

    match = identified(as_lines([(name, None, None, None, None)]))[0][0]
    assert match.how == how
    assert class_ is None or catalog.classes[match.class_].top == class_
