"""Two columns for the limits of one amount, and two columns without a head. All tables are invented."""

from __future__ import annotations

import pytest

from formulate.reading.bound_columns import bounds_joined
from tests.reading.test_lists import read

BOUNDS = {
    "tab": (
        "Name\tCAS\tMin %\tMax %\nEthanol\t64-17-5\t50\t70\nGlycerin\t56-81-5\t\t4.5\nWater\t7732-18-5\t20\t\n"
    ),
    "tab, no trailing cell": (
        "Name\tCAS\tMin %\tMax %\nEthanol\t64-17-5\t50\t70\nGlycerin\t56-81-5\t\t4.5\nWater\t7732-18-5\t20\n"
    ),
    "tab, no number": "Name\tMin %\tMax %\nEthanol\t50\t70\nGlycerin\t\t4.5\nWater\t20\t\n",
    "tab, function behind": (
        "Name\tMin\tMax\tFunction of the substance\nEthanol\t50\t70\tsolvent\n"
        "Glycerin\t\t4.5\thumectant\nWater\t20\t\tcarrier\n"
    ),
    "comma": "Name,CAS,Min %,Max %\nEthanol,64-17-5,50,70\nGlycerin,56-81-5,,4.5\nWater,7732-18-5,20,\n",
    "quoted": (
        '"Name","CAS","Low %","High %"\n"Ethanol","64-17-5","50","70"\n"Glycerin","56-81-5","","4.5"\n'
        '"Water","7732-18-5","20",""\n'
    ),
    "semicolon, German": "Name;CAS;von;bis\nEthanol;64-17-5;50,0;70\nGlycerin;56-81-5;;4,5\nWater;7732-18-5;20;\n",
    "bars": (
        "| Ingredient | Min % | Max % |\n|---|---|---|\n| Ethanol | 50 | 70 |\n"
        "| Glycerin | | 4.5 |\n| Water | 20 | |\n"
    ),
    "tight bars": "|Ingredient|Min %|Max %|\n|Ethanol|50|70|\n|Glycerin||4.5|\n|Water|20||\n",
    "dashes for nothing": "Name\tMin %\tMax %\nEthanol\t50\t70\nGlycerin\t-\t4.5\nWater\t20\tn/a\n",
    "blanks": (
        "Ingredient          CAS No.        Low %   High %\n"
        "Ethanol             64-17-5        50      70\n"
        "Glycerin            56-81-5                4.5\n"
        "Water               7732-18-5      20\n"
    ),
    "blanks, no number": (
        "Ingredient   From   To\nEthanol      50     70\nGlycerin            4.5\nWater        20\n"
    ),
}  # fmt: skip


@pytest.mark.parametrize("shape", sorted(BOUNDS))
def test_two_columns_are_one_range(shape: str) -> None:
    told = [(line.name, line.stated) for line in read(BOUNDS[shape]).lines]
    assert [(name, one.low, one.high, one.doubtful) for name, one in told if one] == [
        ("Ethanol", 0.5, 0.7, False),
        ("Glycerin", None, 0.045, False),
        ("Water", 0.2, None, False),
    ]
    assert all(one and one.text in BOUNDS[shape] and one.text.strip() == one.text for _, one in told)


BOTH = {
    "one head, two cells": "Component\tCAS\tw/w min - max\nEthanol\t64-17-5\t50\t70\nGlycerin\t56-81-5\t1\t4.5\n",
    "one head, a slash": "Component\tCAS\tmin. % / max. %\nEthanol\t64-17-5\t50 / 70\nGlycerin\t56-81-5\t1 / 4.5\n",
    "one head, blanks": "Name   CAS   min. % / max. %\nEthanol   64-17-5   50   70\nGlycerin   56-81-5   1   4.5\n",
    "number behind": "Component Min. % Max. % CAS\nEthanol 50 70 64-17-5\nGlycerin 1 4.5 56-81-5\n",
}


@pytest.mark.parametrize("text", BOTH.values(), ids=BOTH.keys())
def test_both_limits_in_other_heads(text: str) -> None:
    assert [(one.stated.low, one.stated.high) for one in read(text).lines if one.stated] == [(0.5, 0.7), (0.01, 0.045)]


def test_a_lone_limit_in_a_ragged_table_is_flagged() -> None:
    lines = read("Ingredient   CAS No.   Low %   High %\nEthanol   64-17-5   50   70\nGlycerin   56-81-5   4.5\n").lines
    assert [(one.stated.low, one.stated.doubtful) for one in lines if one.stated] == [(0.5, False), (0.045, True)]


def test_the_head_stays_whole_in_what_was_left_over() -> None:
    assert [piece.text for piece in read(BOUNDS["tab"]).left_over] == ["Name\tCAS\tMin %\tMax %"]


def test_what_is_no_table_of_shares_is_not_touched() -> None:
    for text in (
        "Day   From   To\nMonday   9   17\nTuesday   9   18\n",
        "Name\tMin ppm\tMax ppm\nEthanol\t50\t70\n",
        "Keep at 5 to 25 degrees, min 5, max 25.\n",
        "Chemical name   low   high\nno numbers here\n",
    ):
        assert bounds_joined(text) == text
    for text in BOUNDS.values():
        assert len(bounds_joined(text)) == len(text)
        assert bounds_joined(text).count("\n") == text.count("\n")


BARE = {
    "tab": "Water\t70\nEthanol\t25\nSilica\t5\n",
    "blanks": "Water     70\nEthanol   25\nSilica     5\n",
    "title and sum": "Roof glaze no. 4\nWater     70\nEthanol   25\nSilica     5\nTotal    100\n",
    "dots": "Water ........ 70\nEthanol ...... 25\nSilica ....... 5\n",
}


@pytest.mark.parametrize("shape", sorted(BARE))
def test_bare_numbers_that_make_up_a_hundred_are_shares(shape: str) -> None:
    told = [
        (line.name, line.stated and line.stated.low, line.stated and line.stated.high)
        for line in read(BARE[shape]).lines
    ]
    assert told == [("Water", 0.7, 0.7), ("Ethanol", 0.25, 0.25), ("Silica", 0.05, 0.05)]


def test_bare_numbers_of_known_names_that_make_up_no_hundred_are_flagged() -> None:
    lines = read("Water     700\nEthanol   250\nSilica    120\n").lines
    assert [
        (one.name, one.stated.low, one.stated.high, one.stated.text, one.stated.doubtful) for one in lines if one.stated
    ] == [
        ("Water", None, None, "700", True),
        ("Ethanol", None, None, "250", True),
        ("Silica", None, None, "120", True),
    ]


@pytest.mark.parametrize("text", ["Monday   9\nTuesday   10\nFriday   12\n", "Party A   45\nParty B   55\n"])
def test_tables_of_something_else_are_no_list(text: str) -> None:
    assert not read(text).lines
