"""Word forms: every row fires in its example and not in the name it must spare; silicon neighbours; hostile ones."""

from __future__ import annotations

import csv
import time

import pytest

import formulate
from formulate.catalog.names import plain_spelling
from formulate.catalog.store import data_root, open_catalog
from formulate.identity.forms import betrayed_by, class_word_within, without_fillers


def rows() -> list[dict[str, str]]:
    with (data_root() / "word_forms.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def fired(name: str) -> tuple[str, str] | None:
    form = betrayed_by(name, open_catalog())
    return None if form is None else (form.form, form.where)


def test_every_row_fires_in_its_example():
    silent = [row["form"] for row in rows() if fired(row["fires"]) != (row["form"], row["where"])]
    assert silent == []


def test_no_row_fires_in_the_name_it_must_spare():
    loud = [row["form"] for row in rows() if fired(row["spares"]) == (row["form"], row["where"])]
    assert loud == []


def test_what_must_be_spared_is_of_another_class():
    catalog = open_catalog()
    wrong = []
    for row in rows():
        hits = catalog.by_name(row["spares"])
        tops = {catalog.classes[catalog.ingredient(hit.ingredient).class_].top for hit in hits}
        if catalog.classes[row["class"]].top in tops:
            wrong.append((row["form"], row["spares"]))
    assert wrong == []


def test_rows_are_plain_once_and_bounded():
    seen = [(plain_spelling(row["form"]), row["where"]) for row in rows()]
    assert len(seen) == len(set(seen))
    assert all(row["form"].count("*") <= 2 for row in rows())
    assert all(row["form"] == row["form"].casefold() for row in rows())


@pytest.mark.parametrize(
    ("name", "class_"),
    [
        # invented names after the pattern of real ones; each differs from its neighbour in the part that tells
        ("quorvyl trimethoxysilane", "alkylalkoxysilane"),
        ("potassium quorvyl siliconate", "siliconate"),
        ("quorvyl polysilazane", "silazane"),
        ("quorvyl polysiloxane", "silicone"),
        ("potassium quorvyl silicate", "mineral"),
        ("quorvyl trichlorosilane", "chlorosilane"),
        ("quorvyl silsesquioxane", "silicone-resin"),
        ("quorvyl-treated silica", "silica-silylated"),
        ("sodium quorvyl sulfosuccinate", "anionic-surfactant"),
        ("sodium quorvyl isethionate", "anionic-surfactant"),
        ("quorvyltrimonium chloride", "cationic-surfactant"),
        ("quorvamidopropyl betaine", "amphoteric-surfactant"),
        ("quorvamine oxide", "amphoteric-surfactant"),
        ("quorvyl glucoside", "nonionic-surfactant"),
        ("quorveth-9", "nonionic-surfactant"),
        ("quorvylparaben", "preservative"),
        ("quorvyl isothiazolinone", "isothiazolinone"),
        ("2-hydroxy-4-quorvyloxybenzophenone", "uv-absorber"),
        ("diquorvyl phthalate", "ester-oil"),
        ("quorvyl seed oil", "natural-oil"),
        ("quorvyl gum", "gum"),
        ("Quorvsilan", "silane"),
        ("Quorvwachs", "wax"),
        ("wosk quorvowy", "wax"),
        ("quorv воск", "wax"),
        ("改性硅烷", "silane"),
        ("改性硅油", "silicone"),
        ("特种表面活性剂", "surfactant"),
        ("quorv олиго силоксан", "silicone"),
        ("C11-15 quorv isoalkanes", "hydrocarbon-solvent"),
        ("Acid Blue 4999", "colorant"),
    ],
)
def test_the_part_that_tells(name, class_):
    form = betrayed_by(name, open_catalog())
    assert form is not None
    assert form.class_ == class_


def test_a_form_never_beats_a_name_and_never_gives_an_ingredient():
    named = formulate.read("Aqua\nDimethicone\nGlycerin").lines[1]
    assert named.ingredient is not None
    unknown = formulate.read("Aqua\nquorvyl isethionate sodium\nGlycerin").lines[1]
    assert unknown.ingredient is None
    assert unknown.class_guessed
    assert unknown.match.how == "word-form"


@pytest.mark.parametrize("name", ["silan" * 20_000, "peg-" * 20_000, "a" * 100_000, "硅" * 50_000, "*#" * 20_000, ""])
def test_hostile_names_take_no_time(name):
    catalog = open_catalog()
    betrayed_by("warm up", catalog)
    started = time.perf_counter()
    betrayed_by(name, catalog)
    assert time.perf_counter() - started < 0.5


def test_an_unknown_name_is_looked_through_in_less_than_a_millisecond():
    catalog = open_catalog()
    names = [row["spares"] for row in rows()][:400]
    for name in names:
        betrayed_by(name, catalog)
    best = min(_seconds(names, turn) for turn in range(3))
    assert best / len(names) < 1e-3


def _seconds(names: list[str], turn: int) -> float:
    catalog = open_catalog()
    started = time.perf_counter()
    for name in names:
        betrayed_by(f"{name} {turn}x", catalog)
    return time.perf_counter() - started


@pytest.mark.parametrize(
    ("phrase", "class_"),
    [
        # shapes of patents and recipes, worded anew
        ("B. liquid silicone having a viscosity at 20 deg. C. of 300", "silicone"),
        ("at least one nonionic surfactant having an HLB value of from about 3 to less than 7", "surfactant"),
        ("a water soluble dye", "colorant"),
        ("siloxane resin in solvent", "silicone"),
        ("a plurality of hydrophobic silica particles", "silica"),
        ("Naphtha: 2 pints", "solvent"),
        ("Emulgatoren, Lösungsmittel und Wasser", "other"),
        ("a custom thickener", "thickener"),
    ],
)
def test_a_phrase_that_names_a_class_is_class_only(phrase, class_):
    word = class_word_within((phrase,), open_catalog())
    assert word is not None
    assert open_catalog().classes[word.class_].top == class_


@pytest.mark.parametrize(
    "name", ["polyquaternium-451", "Quorvyl silicone", "trimethoxysilane wax ester", "silica 40 blend quorv", "2 oz"]
)
def test_what_says_more_than_a_class_is_not_class_only(name):
    assert class_word_within((name,), open_catalog()) is None


@pytest.mark.parametrize(
    ("name", "rest"),
    [
        ("Beeswax: 1/2 oz", "beeswax"),
        ("Carnauba Wax: 2 oz", "carnauba wax"),
        ("filtered water", "water"),
        ("beeswax", ""),
    ],
)
def test_quantities_of_a_recipe_are_put_aside(name, rest):
    assert without_fillers(name, open_catalog()) == rest


@pytest.mark.parametrize("piece", ["1 oz ", "a. ", "with ", "oil soluble ", "and ", ", ", "silicone "])
def test_hostile_phrases_take_no_time(piece):
    catalog = open_catalog()
    started = time.perf_counter()
    class_word_within((piece * 20_000,), catalog)
    without_fillers(piece * 20_000, catalog)
    assert time.perf_counter() - started < 1
