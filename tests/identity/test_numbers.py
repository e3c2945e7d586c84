"""Registry numbers: check digits, broken prints, and what happens when number and name say different things."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum import casrn

import formulate
from formulate.identity.numbers import check_digit_fault
from formulate.reading.scanned_numbers import mended


def line(text: str):
    return formulate.read(text).lines[0]


@pytest.mark.parametrize(
    "number",
    # examples of the registry's own page on check digits, and CAS numbers of the EC inventory
    ["107-07-3", "58-08-2", "7732-18-5", "64-17-5"],
)
def test_a_cas_number_that_passes(number):
    assert check_digit_fault("cas", number) == ""


@pytest.mark.parametrize("number", ["200-661-7", "231-791-2"])  # EC inventory: propan-2-ol, water
def test_an_ec_number_that_passes(number):
    assert check_digit_fault("ec", number) == ""


@pytest.mark.parametrize(
    ("kind", "number", "said"),
    [
        ("cas", "7732-18-4", "its check digit is 5, not 4"),
        ("ec", "200-661-8", "its check digit is 7, not 8"),
        ("cas", "1-2-3", "it has not the form of a CAS number"),
    ],
)
def test_what_is_wrong_with_a_number_is_said(kind, number, said):
    assert check_digit_fault(kind, number) == said


BROKEN = [
    "Isopropanol 67-63-O", "Isopropanol 67–63–0", "Isopropanol 67\u00ad-63-0", "Isopropanol 67 - 63 - 0",
    "Isopropanol CAS 6 7-63-0", "Isopropanol CAS: 67-63O", "Isopropanol 67--63-0", "Isopropanol CAS 000067-63-0",
    "Isopropanol67-63-010 - 20 %", "Isopropanol 67-6E-0 67-63-0", "Isopropanol CAS 67 63 0", "Isopropanol EC 2OO-661-7",
]  # fmt: skip


@pytest.mark.parametrize("text", BROKEN)
def test_a_number_that_a_scan_broke_is_mended(text):
    found = line(text)
    assert found.ingredient == "isopropanol"
    assert found.match.how in {"cas", "ec"}


@pytest.mark.parametrize("text", ["Isopropanol 67-6S-0", "Zorvylol 67-6S-1", "SOS-BO-5", "Zorvyl CAS 12 34 56"])
def test_a_number_is_mended_only_where_its_check_digit_fits(text):
    assert mended(text) == text


@settings(deadline=None)
@given(st.integers(10, 9_999_999), st.integers(0, 99), st.text("OlSB -", max_size=3), st.text(max_size=12))
def test_mending_keeps_the_length_and_never_invents_a_number_that_fails(first, second, noise, tail):
    body = f"{first}-{second:02d}"
    number = f"{body}-{casrn.calc_check_digit(body)}"
    text = f"x CAS {number.replace('0', 'O').replace('5', 'S')}{noise} {tail}"
    assert len(mended(text)) == len(text)


def test_a_mended_number_is_said():
    assert any("broken print" in one for one in line("Isopropanol 67-63-O").match.tried)


def test_a_number_that_fails_identifies_nothing():
    found = line("Zorvylol 7732-18-4")
    assert found.ingredient is None
    assert "CAS 7732-18-4: its check digit is 5, not 4" in found.match.tried


def test_a_name_beside_a_number_in_no_table_is_less_sure():
    sure, less = line("Phenoxyethanol"), line("Phenoxyethanol 2417-90-5")
    assert less.ingredient == sure.ingredient == "phenoxyethanol"
    assert less.match.confidence < sure.match.confidence
    assert any("not in the dataset" in one for one in less.match.tried)


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("Octamethylcyclotetrasiloxane 63148-62-9", {"octamethylcyclotetrasiloxane", "pdms"}),
        ("Dimethicone 141-62-8", {"pdms", "decamethyltetrasiloxane"}),
        ("Methylisothiazolinone Preservative 55965-84-9", {"methylisothiazolinone", "cmit-mit"}),
        ("Ethanol 200-661-7", {"ethanol", "isopropanol"}),  # EC inventory: 200-661-7 is propan-2-ol
        ("64-17-5 200-661-7 Frobnicol", {"ethanol", "isopropanol"}),
        ("Carnauba wax 8006-44-8", {"carnauba-wax", "candelilla-wax"}),
    ],
)
def test_what_disagrees_is_never_merged(text, candidates):
    found = line(text)
    assert found.ingredient is None
    assert candidates <= set(found.candidates)


@pytest.mark.parametrize(
    ("text", "ingredient"),
    [
        ("Limonene 5989-27-5", "d-limonene"),  # the name leaves the mirror image open, the number does not
        ("Hydrated silica 7631-86-9", "silica-precipitated"),  # the number is of any silica
        ("Silica 112945-52-5", "silica-fumed"),
    ],
)
def test_the_narrower_of_name_and_number_is_kept(text, ingredient):
    assert line(text).ingredient == ingredient


def test_an_ec_number_of_something_else_is_said_where_name_and_cas_agree():
    found = line("Ethanol 64-17-5 200-661-7")
    assert found.ingredient == "ethanol"
    assert any("something else" in one for one in found.match.tried)
