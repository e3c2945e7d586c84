"""The ladder: numbers, names, class words, spelling, word forms; what disagrees is never merged."""

from __future__ import annotations

import pytest

import formulate


def line(text: str):
    return formulate.read(text).lines[0]


@pytest.mark.parametrize(
    ("text", "ingredient", "how"),
    [
        ("Aqua", "water", "name"),
        ("Aqua/Water/Eau", "water", "name"),
        ("Disiloxane", "hexamethyldisiloxane", "name"),  # INCI Disiloxane is hexamethyldisiloxane (cosing-2020)
        ("Isopropyl alcohol", "isopropanol", "synonym"),
        ("propan-2-ol 67-63-0", "isopropanol", "cas"),  # echa-ec-inventory, row 200-661-7
        ("Trideceth-6", "trideceth", "name"),
        ("Silica Silylate", "silica-silylate", "name"),
        ("preservative (benzisothiazolinone)", "benzisothiazolinone", "name"),
        ("octyltriethoxysilane", "octyltriethoxysilane", "synonym"),
        ("Dimethicone, 350 cSt", "pdms-350-cst", "synonym"),
    ],
)
def test_what_a_line_is_and_how_it_was_found(text, ingredient, how):
    found = line(text)
    assert found.ingredient == ingredient, found.match
    assert found.match.how in {how, "synonym", "name"}


def test_every_answer_says_how_it_was_found():
    assert line("67-63-0 isopropanol").match.how == "cas"
    assert line("Carnaubba Wax").match.how == "spelling"


@pytest.mark.parametrize(
    ("text", "class_"),
    [
        ("nonionic surfactants", "surfactant"), ("parfum", "fragrance"), ("anionische Tenside", "surfactant"),
        ("Silikonöl", "silicone"), ("petroleum distillates", "solvent"), ("a finely divided mild abrasive", "abrasive"),
    ],
)  # fmt: skip
def test_class_words_name_a_class_only(text, class_):
    found = line(f"{text}\nAqua\nGlycerin")
    assert found.match.how == "class-only"
    assert found.ingredient is None
    assert found.class_ == class_


@pytest.mark.parametrize("text", ["Proprietary surfactant", "Proprietary blend", "Proprietary Silicone Emulsion"])
def test_withheld_names_are_withheld(text):
    found = formulate.read(f"Aqua\n{text}\nGlycerin").lines[1]
    assert found.match.how == "withheld"
    assert found.ingredient is None


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        # numbers that pass their check digit and contradict their name (inputs/README.md, second set)
        ("Methylisothiazolinone 55965-84-9", {"methylisothiazolinone", "cmit-mit"}),
        ("Polydimethylsiloxane 556-67-2", {"pdms", "octamethylcyclotetrasiloxane"}),
        ("Isopropyl alcohol 64-17-5", {"isopropanol", "ethanol"}),
    ],
)
def test_number_and_name_that_disagree_stay_open_between_both(text, candidates):
    found = line(text)
    assert found.ingredient is None
    assert candidates <= set(found.candidates)
    assert found.match.confidence == 0


def test_a_number_with_a_wrong_check_digit_is_said_and_the_name_decides():
    found = line("Isopropyl alcohol 67-63-1")
    assert found.ingredient == "isopropanol"
    assert any("its check digit is 0, not 1" in tried for tried in found.match.tried)


def test_a_number_does_not_fix_a_grade():
    """One number stands for many petroleum cuts and silicone grades (facts/README.md): the narrower name is kept."""
    found = line("Hydrocarbons, C11-C14, n-alkanes, isoalkanes, cyclics, < 2 % aromatics 64742-47-8")
    assert found.ingredient == "hydrocarbons-c11-c14"


def test_an_unknown_name_says_what_was_tried():
    found = line("Vel-Tarn 40\nAqua\nGlycerin")
    assert found.match.how == "none"
    assert found.ingredient is None
    assert {"name", "spelling"} <= set(found.match.tried)


@pytest.mark.parametrize(
    ("text", "class_"),
    [
        ("Zorvyl trimethoxysilane blendate", "silane"),
        ("Quordeth-12", "surfactant"),
        ("Polyzorvylmethylsiloxane", "silicone"),
    ],
)
def test_word_forms_betray_a_class_as_a_guess(text, class_):
    found = line(f"{text}\nAqua\nGlycerin")
    assert found.match.how == "word-form"
    assert found.class_ == class_
    assert found.class_guessed


@pytest.mark.parametrize(
    ("smiles", "ingredient"),
    [
        ("CC(C)O", "isopropanol"),
        ("C[Si](C)(C)O[Si](C)(C)C", "hexamethyldisiloxane"),
        ("CO[Si](C)(OC)OC", "methyltrimethoxysilane"),
    ],
)
def test_a_structure_given_is_found_in_any_spelling(smiles, ingredient):
    found = line(f"{smiles}\nAqua\nGlycerin")
    assert found.match.how == "structure"
    assert found.ingredient == ingredient


@pytest.mark.parametrize(
    ("smiles", "class_"),
    [("CO[Si](CCCCC)(OC)OC", "silane"), ("CCCCCCCCCCCCC[N+](C)(C)CC", "surfactant"), ("CCC(=O)OCCCC(C)C", "solvent")],
)
def test_an_unknown_structure_betrays_its_class(smiles, class_):
    found = line(f"{smiles}\nAqua\nGlycerin")
    assert found.ingredient is None
    assert found.class_ == class_
    assert found.class_guessed
