"""``data``: what is found by which words, every value with its source, the dataset as a file, its quality."""

from __future__ import annotations

import json
import sqlite3
import sys
import zipfile
from io import BytesIO

import pytest

import formulate
from formulate.catalog import counts
from formulate.catalog.export import write_section
from formulate.catalog.law import LAW
from formulate.catalog.store import data_root, open_catalog
from formulate.errors import InputError, UsageError
from formulate.workflow.api import why
from formulate.workflow.data_words import share
from formulate.workflow.dataset import WORDS, measure
from formulate.workflow.quality_page import BEGIN, END, page


@pytest.mark.parametrize(
    ("search", "how", "first"),
    [
        ("isopropanol", "id", "isopropanol"),
        ("67-63-0", "number", "isopropanol"),
        ("200-661-7", "number", "isopropanol"),
        ("Isopropyl  ALCOHOL", "name", "isopropanol"),
        ("2-Propanol", "name", "isopropanol"),
        ("silica, amorphous", "name", None),
        ("class:wax", "class", None),
        ("silicone resin", "class", None),
        ("octamethylcyclo", "beginning", "octamethylcyclotetrasiloxane"),
    ],
)
def test_what_is_found_by_which_words(search, how, first):
    answer = formulate.data(search)
    assert answer.found_by == how
    assert answer.records
    if first:
        assert answer.records[0].ingredient == first


def test_a_class_gives_every_ingredient_under_it():
    answer = formulate.data("class:wax")
    assert {record.class_ for record in answer.records} == {"wax"}
    assert {"carnauba-wax", "paraffin-wax", "montan-wax"} <= {record.ingredient for record in answer.records}


@pytest.mark.parametrize("search", ["isopropanl", "xylehne", "class:waxx", "zzqqy", "12345-67-8", "😀", "a" * 10_000])
def test_what_is_unknown_gets_the_nearest_and_no_record(search):
    answer = formulate.data(search)
    assert answer.records == ()
    assert answer.found_by == "none"
    assert answer.notes[0].startswith("Nothing in the dataset goes by")
    if search in {"isopropanl", "xylehne"}:
        assert answer.nearest[0].casefold() in {"isopropanol", "xylene", "xylene (mixed isomers)"}


def test_nothing_asked_is_no_error():
    assert formulate.data().records == ()
    assert formulate.data("  ").notes == ()


@pytest.mark.parametrize(
    "search", ["methanol", "octamethylcyclotetrasiloxane", "cmit-mit", "silica-sol", "pdms", "fluorosilane"]
)
def test_every_value_has_a_source_that_resolves_and_a_reason(search):
    answer = formulate.data(search)
    catalog = open_catalog()
    for i, record in enumerate(answer.records):
        for field, words in WORDS.items():
            for j, row in enumerate(getattr(record, field) or ()):
                assert row.source_title == catalog.source(row.source)["title"]
                assert row.at
                reason = answer.reasons[answer.why[f"/records/{i}/{field}/{j}"]]
                assert reason.says == f"{record.name}: {words(row)}"
                assert reason.citations[0].source == row.source


def test_the_json_of_a_record_has_the_fixed_keys():
    record = formulate.data("methanol").model_dump(mode="json")["records"][0]
    assert {"ingredient", "names", "class", "properties", "roles", "hazards"} <= set(record)
    assert {"property", "value", "unit", "origin", "source"} <= set(record["properties"][0])
    assert json.loads(json.dumps(record)) == record


def test_hazards_are_null_where_nothing_could_be_looked_up():
    assert formulate.data("pdms-350-cst").records[0].hazards is None
    (row,) = formulate.data("hexamethyldisiloxane").records[0].hazards
    assert row.status == "no-entry"
    assert "not 'not hazardous'" in WORDS["hazards"](row)


def test_a_rule_applies_by_date():
    rules = {
        day: {row.restriction: row.applies for row in formulate.data("D5", date=day).records[0].restrictions}
        for day in ("2026-06-05", "2026-06-06")
    }
    name = "reach-70-market-decamethylcyclopentasiloxane"
    assert (rules["2026-06-05"][name], rules["2026-06-06"][name]) == (False, True)  # Regulation (EU) 2024/1328


def test_notes_of_an_entry_are_explained():
    rows = formulate.data("vmp-naphtha").records[0].hazards
    assert any(meaning.startswith("P: ") and "benzene" in meaning for row in rows for meaning in row.meanings)


def test_why_leads_to_the_source_of_one_value():
    answer = formulate.data("methanol")
    tree = why(answer, "/records/0/hazards/0")
    assert tree.tree.citations[0].source in tree.sources


def test_shares_in_words():
    assert [share(x) for x in (0.5, 0.001, 0.000015, 2e-9)] == ["50 %", "0.1 %", "15 ppm", "2 ppb"]


@pytest.mark.parametrize("form", ["csv", "json", "sqlite"])
def test_the_dataset_as_one_file(tmp_path, form):
    target = tmp_path / f"out.{form}"
    answer = formulate.data(export=form, output=target)
    assert answer.written == str(target)
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
    rows = len((data_root() / "legal_acts.csv").read_text(encoding="utf-8").splitlines()) - 1
    if form == "csv":
        names = zipfile.ZipFile(target).namelist()
        assert {"hazards.csv", "datapackage.json", "sources.toml", "LICENSE"} <= set(names)
        assert any(name.startswith("rules/") for name in names)
    elif form == "json":
        whole = json.loads(target.read_text(encoding="utf-8"))
        assert len(whole["tables"]["legal_acts"]) == rows
        assert whole["datapackage"]["name"] == "surface-treatment-ingredients"
        limits = [row["limit_low"] for row in whole["tables"]["hazards"] if row["ingredient"] == "cmit-mit"]
        assert 0.006 in limits
    else:
        connection = sqlite3.connect(target)
        assert connection.execute("select count(*) from legal_acts").fetchone() == (rows,)
        assert connection.execute("select count(*) from sources").fetchone()[0] > 200
        assert json.loads(connection.execute("select content from datapackage").fetchone()[0])["resources"]
        connection.close()


def test_the_zip_is_the_same_every_time(tmp_path):
    for name in ("a.zip", "b.zip"):
        formulate.data(export="csv", output=tmp_path / name)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()


def test_parquet_without_its_library_is_told(tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(UsageError) as caught:
        formulate.data(export="parquet", output=tmp_path / "out.zip")
    assert caught.value.reference == "export-parquet"
    assert not list(tmp_path.iterdir())


def test_parquet_where_its_library_is_there(tmp_path):
    parquet = pytest.importorskip("pyarrow.parquet")
    formulate.data(export="parquet", output=tmp_path / "out.zip")
    archive = zipfile.ZipFile(tmp_path / "out.zip")
    table = parquet.read_table(BytesIO(archive.read("hazards.parquet")))
    assert table.num_rows > 2000


@pytest.mark.parametrize(
    ("call", "error"),
    [
        ({"export": "xlsx", "output": "x"}, UsageError),
        ({"export": "csv"}, UsageError),
        ({"search": "water", "output": "x"}, UsageError),
        ({"date": "yesterday"}, UsageError),
        ({"export": "json", "output": "/no/such/folder/x.json"}, InputError),
    ],
)
def test_calls_that_make_no_sense_are_told(call, error):
    with pytest.raises(error):
        formulate.data(**call)


def test_a_failed_write_leaves_the_old_file(tmp_path, monkeypatch):
    target = tmp_path / "out.json"
    target.write_text("old", encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.replace", full)
    with pytest.raises(InputError):
        formulate.data(export="json", output=target)
    assert target.read_text(encoding="utf-8") == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["out.json"]


def test_ages_of_checks_move_with_the_date():
    now, later = (formulate.data(quality=True, date=day).quality for day in ("2026-11-25", "2028-01-01"))
    assert [one.over_a_year for one in now.checked] == [0, 0, 0]
    assert now.overdue == ()
    assert [one.over_a_year for one in later.checked] == [one.rows for one in later.checked]
    assert len(later.overdue) == sum(one.rows for one in later.checked)


def test_twelve_months_before_a_leap_day():
    assert counts.a_year_before("2028-02-29") == "2027-02-28"
    assert counts.a_year_before("2026-11-25") == "2025-11-25"


def test_roles_read_no_table_of_law():
    asked: list[str] = []
    catalog = open_catalog()
    catalog._db.set_trace_callback(asked.append)
    try:
        formulate.roles("Aqua, Methanol, Dimethicone, Silica")
    finally:
        catalog._db.set_trace_callback(None)
    assert asked
    assert not [sql for sql in asked for table in LAW if f"from {table}" in sql]


def test_the_page_of_quality_is_up_to_date():
    """If this fails: ``formulate data --quality -o data_public/README.md``."""
    catalog = open_catalog()
    text = (data_root() / "README.md").read_text(encoding="utf-8")
    generated = text.partition(BEGIN)[2].partition(END)[0].lstrip("\n")
    assert generated == page(measure(catalog, counts.latest_check(catalog))).lstrip("\n")


def test_a_section_is_put_between_its_marks(tmp_path):
    target = tmp_path / "page.md"
    target.write_text("before\n<a>\nold\n<b>\nafter\n", encoding="utf-8")
    write_section(target, "new\n", "<a>", "<b>")
    assert target.read_text(encoding="utf-8") == "before\n<a>\nnew\n<b>\nafter\n"
    write_section(tmp_path / "fresh.md", "new\n", "<a>", "<b>")
    assert (tmp_path / "fresh.md").read_text(encoding="utf-8") == "<a>\nnew\n<b>\n"
