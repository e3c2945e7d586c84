"""``formulate data`` on the command line: 80 columns, who says so, JSON, errors and exit codes."""

from __future__ import annotations

import json

import pytest

import formulate
from formulate.cli.main import run
from tests.hostile import FORBIDDEN, HOSTILE


def test_a_record_fits_80_columns_with_who_says_so_beside_each_value(capsys):
    from wcwidth import wcswidth

    for search in ("octamethylcyclotetrasiloxane", "cmit-mit", "titanium-dioxide", "acetic-acid", "water"):
        assert run(["data", search, "--date", "2026-11-25"]) == 0
        lines = capsys.readouterr().out.splitlines()
        assert [line for line in lines if wcswidth(line) > 80] == []
    assert run(["data", "acetic-acid"]) == 0
    out = capsys.readouterr().out
    for words in ("classification", "Skin Corr. 1B H314, from 25 % to below", "index", "limits in air", "sources"):
        assert words in out


def test_json_is_what_the_function_returns(capsys):
    assert run(["data", "methanol", "--json", "--date", "2026-11-25"]) == 0
    printed = json.loads(capsys.readouterr().out)
    assert printed == formulate.data("methanol", date="2026-11-25").model_dump(mode="json")
    assert printed["schema"] == "formulate/data/1"


def test_many_records_are_listed_and_one_is_offered_in_full(capsys):
    assert run(["data", "class:wax"]) == 0
    printed = capsys.readouterr()
    assert "Carnauba wax" in printed.out
    assert len(printed.out.splitlines()) > 20
    assert "in full: formulate data " in printed.err


def test_unknown_is_answered_with_the_nearest(capsys):
    assert run(["data", "isopropanl"]) == 0
    assert "Near it: Isopropanol" in capsys.readouterr().out
    assert run(["data", "isopropanl", "--strict"]) == 1
    assert run(["data", "isopropanol", "--strict"]) == 0


def test_why_prints_the_source_of_a_value(capsys):
    assert run(["data", "methanol", "--why", "/records/0/hazards/0"]) == 0
    assert "says Regulation (EC) No 1272/2008" in capsys.readouterr().out


def test_quality_as_text_and_as_json(capsys):
    assert run(["data", "--quality", "--date", "2028-01-01"]) == 0
    out = capsys.readouterr().out
    for words in ("Rows, and what has no source", "Values by origin", "Age of the checks", "Names by language"):
        assert words in out
    assert "Checked more than twelve months ago" in out
    assert run(["data", "--quality", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["quality"]["law"]["M-factors"] > 30


def test_export_says_what_was_written(capsys, tmp_path):
    target = tmp_path / "all.sqlite"
    assert run(["data", "--export", "sqlite", "-o", str(target)]) == 0
    assert capsys.readouterr().out == f"written: {target}\n"
    assert target.read_bytes().startswith(b"SQLite format 3")


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["data", "--export", "csv"], 2),
        (["data", "--export", "xlsx", "-o", "x"], 2),
        (["data", "water", "-o", "x"], 2),
        (["data", "water", "--date", "soon"], 2),
        (["data", "water", "--why", "/records/9"], 2),
        (["data", "--export", "json", "-o", "/no/such/folder/x"], 3),
    ],
)
def test_errors_have_four_parts_and_a_code(capsys, arguments, code):
    assert run(arguments) == code
    err = capsys.readouterr().err
    assert all(part in err for part in ("Where: ", "Why it matters: ", "What to do: "))


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_searches_reach_no_terminal(capsys, kind):
    assert run(["data", "--", HOSTILE[kind]]) in {0, 2}
    printed = capsys.readouterr()
    assert not [char for char in FORBIDDEN if char in printed.out + printed.err]
