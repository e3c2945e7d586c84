"""``formulate coverage`` on the command line."""

from __future__ import annotations

import json

import pytest

import formulate
from formulate.cli.main import run
from tests.conftest import EXAMPLES, example_ids
from tests.hostile import FORBIDDEN, HOSTILE

FLAGS = ["--silica", "0.005", "--diameter-nm", "70", "--wet-g-per-m2", "5", "--kept", "0.1", "--field-um", "5"]


def test_flags_alone_answer_without_a_list(capsys):
    assert run(["coverage", *FLAGS, "--film-former", "0.015"]) == 0
    out = capsys.readouterr().out
    for words in ("6.33", "158", "0.0244", "1.14", "93.1 mg/m2", "18.6 %", "common practice"):
        assert words in out or words == "common practice"


def test_json_and_function_agree(capsys):
    assert run(["coverage", *FLAGS, "--counted", "4,7,3/5,6", "--json", "--date", "2026-11-25"]) == 0
    asked = {"silica": "0.005", "diameter_nm": "70", "wet_g_per_m2": "5", "kept": "0.1", "field_um": "5"}
    told = formulate.coverage(**asked, counted="4,7,3/5,6", date="2026-11-25")
    assert json.loads(capsys.readouterr().out) == told.model_dump(mode="json")


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
def test_examples_answer(capsys, path):
    assert run(["coverage", str(path), "--form", "spray", "--field-um", "5", "--counted", "4,7,3"]) in {0, 1}
    assert len(capsys.readouterr().out.splitlines()) > 10


def test_strict_and_contradictions_exit_1(capsys, tmp_path):
    path = tmp_path / "list.txt"
    path.write_text("Aqua, Zorblax 40, Silica 1 %", encoding="utf-8")
    assert run(["coverage", str(path)]) == 0
    assert run(["coverage", str(path), "--strict"]) == 1
    path.write_text("Water 60-100 %, Ethanol 50-80 %, Silica 1 %", encoding="utf-8")
    assert run(["coverage", str(path)]) == 1
    assert "contradict" in capsys.readouterr().out


def test_why_prints_a_tree(capsys):
    assert run(["coverage", *FLAGS, "--why", "/particles_per_um2"]) == 0
    assert "You say that silica is 0.5 %" in capsys.readouterr().out
    assert run(["coverage", *FLAGS, "--why", "particles_per_um2"]) == 0
    assert "You say that silica is 0.5 %" in capsys.readouterr().out
    assert run(["coverage", *FLAGS, "--why", "silica"]) == 0
    assert run(["coverage", *FLAGS, "--why", "no such figure"]) == 2


@pytest.mark.parametrize(
    ("arguments", "reference"),
    [
        (["coverage"], "usage"),
        (["coverage", "--silica", "5"], "usage-fraction"),
        (["coverage", "--silica", "0.005", "--counted", "3,4"], "usage-no-field"),
        (["coverage", "--silica", "0.005", "--wet-g-per-m2", "500 ug/cm2"], "usage-areal-unit"),
        (["coverage", "--silica", "0.005", "--diameter-nm", "lognormal:70:1.3"], "usage-size"),
        (["coverage", "--silica", "0.005", "--covered", "1.2"], "usage-covered"),
        (["coverage", "--silica", "0.005", "--diameter-nm", "70", "--field-um", "0.05"], "usage-small-field"),
    ],
)
def test_errors_have_four_parts(capsys, arguments, reference):
    assert run(arguments) == 2
    err = capsys.readouterr().err
    assert all(part in err for part in ("Where: ", "Why it matters: ", "What to do: "))
    assert f"({reference})" in err


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_text_reaches_no_terminal(capsys, tmp_path, kind):
    path = tmp_path / "list.txt"
    path.write_bytes(HOSTILE[kind].encode("utf-8", "surrogateescape"))
    word = HOSTILE[kind].replace("\x00", "")
    for extra in ([], ["--diameter-nm", word], ["--counted", word], ["--application", word], ["--kept", word]):
        assert run(["coverage", str(path), *extra]) in {0, 1, 2, 3}
        printed = capsys.readouterr()
        assert not [char for char in FORBIDDEN if char in printed.out + printed.err]
