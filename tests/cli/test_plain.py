"""Asking and answering line by line, driven as a person or a pipe would."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.hostile import FORBIDDEN, HOSTILE

LIST = "Aqua, Silica, Dimethicone, Vel-Tarn 40\n.\n"


def plain(typed: str, *arguments: str) -> tuple[str, str, int]:
    done = subprocess.run(
        [sys.executable, "-m", "formulate", "--plain", *arguments],
        input=typed.encode("utf-8", "surrogateescape"),
        capture_output=True,
        timeout=60,
    )
    return done.stdout.decode(), done.stderr.decode(), done.returncode


def test_a_list_is_answered_and_the_end_of_input_ends_it():
    out, err, code = plain(LIST)
    assert code == 0
    assert "Vel-Tarn 40" in out
    assert "could make water bead" in out
    assert err.startswith("Paste the list")


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("2", 'You pasted "Silica"'),
        ("Dimethicone", 'You pasted "Dimethicone"'),
        ("is 2 silica-sol", "line 2 is: silica -> silica-sol"),
        ("role 3 antifoam", "-> antifoam 1.00"),
        ("claim ceramic shield", "what the front promises: - -> in the list"),
        ("form spray", "first caution: "),
        ("drop 4", "line 4: Vel-Tarn 40 -> -"),
        ("drop 4\nundo", "line 4: - -> Vel-Tarn 40"),
        ("amount 3 4 %\nread", "4 %"),
        ("paste\nAqua, Carnauba Wax\n.\nread", "Carnauba"),
        ("help", "amount N 5 %"),
        ("rule eu-label", "rule: no law assumed -> EU cosmetic label"),
        ("rule eu-label\nline 2", "Dimethicone"),
        ("measured nonvolatile=2.3+-0.2 %", "Nothing that is certain moved"),
        ("amounts\neu-label\nnonvolatile=2.3 %\n", "stays, dried at 110 C"),
        ("suppose silica=2 %\namounts", "If silica were 2 %"),
        ("means 2 as-supplied\nmeans 2 ?\nhelp", "means N WORD"),
    ],
)
def test_what_can_be_asked(typed, printed):
    out, err, code = plain(f"{LIST}{typed}\n")
    assert code == 0
    assert printed in out, err


@pytest.mark.parametrize(
    "typed",
    [
        "nobody",
        "is 9 silica",
        "is 2 sil",
        "role 2 king",
        "amount 2 much",
        "form rain",
        "rule king",
        "line 9",
        "means 2 both",
        "measured king=2",
    ],
)
def test_a_mistake_is_told_in_four_parts_and_loses_nothing(typed):
    out, err, code = plain(f"{LIST}{typed}\nundo\nread\nquit\n")
    assert code == 0
    assert all(part in err for part in ("Where: ", "Why it matters: ", "What to do: "))
    assert "Nothing that is shown moved." in out
    assert out.rstrip().endswith(plain(f"{LIST}read\n")[0].rstrip()[-200:])


def test_a_case_is_kept_and_opened_again(tmp_path):
    kept = tmp_path / "lamp.case.json"
    out, _, code = plain(f"{LIST}role 3 antifoam\nkeep {kept}\n")
    assert code == 0
    assert f"kept: {kept}" in out
    out, _, code = plain("", str(kept))
    assert code == 0
    assert "antifoam, sure 1.00" in out
    assert plain("", str(tmp_path / "none.case.json"))[2] != 0


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_text_reaches_no_terminal(kind):
    out, err, _ = plain(f"Aqua, {HOSTILE[kind]}\n.\n{HOSTILE[kind]}\nis 2 {HOSTILE[kind]}\nclaim {HOSTILE[kind]}\n")
    assert "Traceback" not in err
    assert not [char for char in FORBIDDEN if char in out + err]
