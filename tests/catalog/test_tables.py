"""The dataset: whole, sourced, and a broken row names file, row and column."""

import csv
import shutil
from collections import Counter, defaultdict

import pytest
from stdnum import casrn

from formulate.catalog.digest import tables_digest
from formulate.catalog.names import name_key
from formulate.catalog.store import data_root
from formulate.catalog.tables import read_tables
from formulate.domain.vocabulary import TOP_CLASSES
from formulate.errors import DataError

ROOT = data_root()


@pytest.fixture(scope="module")
def tables():
    return read_tables(ROOT)


def test_at_least_120_ingredients_over_all_classes(tables, catalog):
    tops = Counter(catalog.classes[row.class_].top for row in tables.ingredients)
    assert len(tables.ingredients) >= 120
    assert set(tops) == set(TOP_CLASSES)


def test_every_ingredient_has_a_role_and_every_source_says_how_it_was_read(tables):
    assert {row.id for row in tables.ingredients} == {row.ingredient for row in tables.roles}
    for key in {row.source for row in (*tables.ingredients, *tables.names, *tables.properties, *tables.roles)}:
        assert tables.sources[key].read_as in {"original", "excerpt", "second-hand", "none"}


def test_what_leaves_is_backed_by_a_boiling_point_or_vapour_pressure(tables):
    backed = defaultdict(list)
    for row in tables.properties:
        if row.property in {"boiling_point", "vapour_pressure"}:
            backed[row.ingredient].append(row)
    bare = [row.id for row in tables.ingredients if row.fate == "leaves" and row.id not in backed]
    assert bare == []
    for row in tables.ingredients:
        if row.fate == "leaves":
            points = [
                one.value if one.value is not None else one.value_min
                for one in backed[row.id]
                if one.property == "boiling_point" and not one.note.startswith("doubtful")
            ]
            assert not points or min(points) <= 260, row.id


@pytest.mark.parametrize(
    "ingredient",
    [
        "hexamethyldisiloxane",
        "octamethyltrisiloxane",
        "decamethyltetrasiloxane",
        "dodecamethylpentasiloxane",
        "octamethylcyclotetrasiloxane",
        "decamethylcyclopentasiloxane",
        "dodecamethylcyclohexasiloxane",
    ],
)
def test_small_siloxanes_leave(catalog, ingredient):
    # L2-L5 and D4-D6 are silicones that leave (issue text; boiling points with their sources in properties.csv)
    record = catalog.ingredient(ingredient)
    assert record.fate == "leaves"
    assert catalog.classes[record.class_].top == "silicone"


def test_hexamethyldisiloxane_is_inci_disiloxane_and_highly_flammable(catalog):
    assert [hit.ingredient for hit in catalog.by_name("Disiloxane")] == ["hexamethyldisiloxane"]
    points = [row.middle for row in catalog.properties("hexamethyldisiloxane", "flash_point")]
    assert min(points) < 23  # facts/README.md: -30 to 8 C over the sources; below 23 C with a boiling point of 100 C


def test_an_undescribed_petroleum_cut_has_a_range_not_a_flash_point(catalog):
    rows = catalog.properties("petroleum-distillates", "flash_point")
    assert rows
    assert all(row.value is None for row in rows)


def test_four_silicas_are_four_ingredients(catalog):
    classes = {
        catalog.ingredient(catalog.by_name(name)[0].ingredient).class_
        for name in ("Colloidal silica", "Fumed silica", "Silica silylate", "Precipitated silica")
    }
    assert classes == {"silica-sol", "silica-fumed", "silica-silylated", "silica-precipitated"}


def test_cas_numbers_pass_their_check_digit(tables):
    numbers = [row.cas for row in tables.ingredients if row.cas] + [
        row.name for row in tables.names if row.kind == "cas"
    ]
    assert all(casrn.is_valid(number) for number in numbers)


def test_no_name_is_filed_twice_without_need(tables):
    """A name filed under several ingredients identifies none of them: few are allowed, each on purpose."""
    filed = defaultdict(set)
    for row in tables.ingredients:
        for name in (row.name, row.inci):
            if name:
                filed[name_key(name)].add(row.id)
    for row in tables.names:
        if row.kind not in {"cas", "ec", "pattern"}:
            filed[name_key(row.name)].add(row.ingredient)
    several = {key: ids for key, ids in filed.items() if len(ids) > 1}
    assert len(several) <= 12, several


@pytest.mark.parametrize(
    ("file", "column", "value"),
    [
        ("ingredients.csv", "cas", "64-17-4"),
        ("ingredients.csv", "class", "no-such-class"),
        ("names.csv", "source", "nobody"),
        ("properties.csv", "value", "hot"),
        ("roles.csv", "role", "hero"),
    ],
)
def test_a_broken_row_names_file_row_and_column(tmp_path, file, column, value):
    root = tmp_path / "data_public"
    shutil.copytree(ROOT, root)
    with (root / file).open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    rows[4][column] = value
    with (root / file).open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, rows[0], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    with pytest.raises(DataError) as caught:
        read_tables(root)
    assert f'{file} row 6, column "{column}"' in caught.value.what


def test_the_data_version_moves_with_any_table(tmp_path):
    root = tmp_path / "data_public"
    shutil.copytree(ROOT, root)
    before = tables_digest(root)
    assert before == tables_digest(ROOT)
    path = root / "names.csv"
    path.write_text(
        path.read_text(encoding="utf-8") + "a new name,water,synonym,en,memory,no source\n", encoding="utf-8"
    )
    assert tables_digest(root) != before
