"""Bands of detergent labels: half open, and shared by the class words that follow (Regulation (EC) 648/2004, VII A)."""

from __future__ import annotations

import pytest

from tests.reading.test_lists import read

ANIONIC, NONIONIC = (0.05, 0.15, True), (None, 0.05, True)
LABELS = {
    "between commas": (
        "5 - 15 % anionic surfactants, nonionic surfactants, < 5 % soap, perfume",
        [ANIONIC, ANIONIC, NONIONIC, None],
    ),
    "with colons": (
        "5 % or over but less than 15 %: anionic surfactants, soap. "
        "Less than 5 %: non-ionic surfactants. Contains: perfume",
        [ANIONIC, ANIONIC, NONIONIC, None],
    ),
    "German": (
        "<5%: Nichtionische Tenside, Phosphonate. 5-15%: Anionische Tenside. Enth\u00e4lt: Duftstoffe",
        [NONIONIC, NONIONIC, ANIONIC, None],
    ),
    "French": (
        "5 - 15 % : agents de surface anioniques, < 5 % : savon, phosphonates. Contient : parfums, enzymes",
        [ANIONIC, NONIONIC, NONIONIC, None, None],
    ),
    "semicolons": (
        "5 - <15 % anionic surfactants; < 5 % nonionic surfactants, polycarboxylates; enzymes, perfume",
        [ANIONIC, NONIONIC, NONIONIC, None, None],
    ),
    "among others": (
        "Contains amongst other ingredients: less than 5 %: nonionic surfactants, 5 % or over but less than 15 %: "
        "anionic surfactants, perfumes",
        [NONIONIC, ANIONIC, None],
    ),
    "behind the names": (
        "Anionic surfactants 5-15 %, nonionic surfactants, soap < 5 %",
        [ANIONIC, None, NONIONIC],
    ),
    "on lines": ("Anionic surfactants 5-15 %\nNon-ionic surfactants <5 %\nPerfume\n", [ANIONIC, NONIONIC, None]),
}


@pytest.mark.parametrize("label", sorted(LABELS))
def test_bands_are_half_open_and_shared(label: str) -> None:
    text, wanted = LABELS[label]
    lines = read(text).lines
    assert [one.stated and (one.stated.low, one.stated.high, one.stated.high_open) for one in lines] == wanted


def test_open_above_and_words_of_the_law() -> None:
    lines = read("30 % and more water, over 5 % but less than 15 % anionic surfactants").lines
    assert [
        (one.stated.low, one.stated.high, one.stated.low_open, one.stated.high_open) for one in lines if one.stated
    ] == [
        (0.3, None, False, False),
        (0.05, 0.15, True, True),
    ]


def test_a_range_of_a_substance_is_closed() -> None:
    stated = read("5-15 % ethanol, 85-95 % water").lines[0].stated
    assert stated is not None
    assert not stated.high_open


def test_the_list_of_the_law_below_a_table_of_numbers() -> None:
    text = (
        "5% - 15% 2-butossietanolo CAS: 111-76-2 EINECS: 203-905-0 Xn R20/21/22 "
        "1% - 5% propan-2-olo CAS: 67-63-0 Xi R36 "
        "Contiene (Articolo 11 del Regolamento (CE) N. 648/2004): Meno del 5%: tensioattivi non ionici, fosfonati."
    )
    lines = read(text).lines
    assert [(one.cas, one.stated and one.stated.high) for one in lines] == [
        ("111-76-2", 0.15),
        ("67-63-0", 0.05),
        (None, 0.05),
        (None, 0.05),
    ]
    assert [one.name for one in lines[2:]] == ["tensioattivi non ionici", "fosfonati"]
