"""Word forms: every row fires in its example and not in the name it must spare; silicon neighbours; hostile ones."""

from __future__ import annotations

import csv
import time

import pytest

import formulate
from formulate.catalog.names import plain_spelling
from formulate.catalog.store import data_root, open_catalog
from formulate.identity.forms import betrayed_by


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
