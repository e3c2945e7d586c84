"""Amounts that are no plain share by mass: told in words, of a raw material's strength, by volume, or unreadable.

All lists are invented: a greenhouse roof, a church floor, ferry seats.
"""

from __future__ import annotations

import pytest

from formulate.domain.line import Stated
from tests.reading.test_lists import read

IN_WORDS = {
    "behind a comma": ("Water, q.s.\nSilica, trace\nPDMS up to 3 %\n", [("Water", "q.s"), ("Silica", "trace")], 3),
    "behind a blank": ("Ethanol 10 %\nSilica 2 %\nWater balance\n", [("Water", "balance")], 3),
    "on a line of its own": ("Water\nq.s.\nEthanol\n5 %\n", [("Water", "q.s")], 2),
    "behind a number": ("Water 7732-18-5 q.s.\nEthanol 64-17-5 5 %\n", [("Water", "q.s.")], 2),
    "balance behind a number": ("Water 7732-18-5 balance\nEthanol 64-17-5 5 %\n", [("Water", "balance")], 2),
    "in a cell": ("Wasser\t7732-18-5\tRest\nEthanol\t64-17-5\t5 %\n", [("Wasser", "Rest")], 2),
    "to a hundred in a cell": ("Eau   7732-18-5   qsp 100\nEthanol   64-17-5   5 %\n", [("Eau", "qsp 100")], 2),
    "German to a hundred": ("Wasser 7732-18-5 ad 100\nEthanol 64-17-5 5 %\n", [("Wasser", "ad 100")], 2),
    "in a list": ("Ethanol 5 %, Glycerin 2 %, Aqua ad 100 %", [("Aqua", "ad 100 %")], 3),
    "under a key": ("Name: Water\nCAS: 7732-18-5\nPercent: balance\nName: Ethanol\nCAS: 64-17-5\nPercent: 5\n",
                    [("Water", "balance")], 2),
    "between bars": ("| Ingredient | % |\n| Water | balance |\n| Ethanol | 5 |\n", [("Water", "balance")], 2),
    "two columns": ("Water   q.s.\nEthanol   5 %\n", [("Water", "q.s.")], 2),
}  # fmt: skip


@pytest.mark.parametrize("shape", sorted(IN_WORDS))
def test_an_amount_in_words_is_kept_as_printed(shape: str) -> None:
    text, wanted, rows = IN_WORDS[shape]
    lines = read(text).lines
    told = [(line.name, line.stated) for line in lines if line.stated and line.stated.low == line.stated.high is None]
    assert [(name, stated.text) for name, stated in told] == wanted
    assert all(stated.doubtful for _, stated in told)
    assert len(lines) == rows


STRENGTHS = {
    "bracketed": ("Colloidal silica (30 %) 5 %, Water 95 %", "Colloidal silica", 0.3, 0.05),
    "glued": ("Hydrogen peroxide (35%) 3%, Water 97 %", "Hydrogen peroxide", 0.35, 0.03),
    "solids": ("Silica sol, 40 % solids: 10 %\nWater: 90 %", "Silica sol", 0.4, 0.1),
    "solution": ("Ammonia 25 % solution, 1 %\nWater 99 %", "Ammonia solution", 0.25, 0.01),
    "two figures": ("Colloidal silica 30 %, 5 %\nWater 95 %", "Colloidal silica", 0.3, 0.05),
    "two figures in a list": ("Colloidal silica 30 %, 5 %, Water 60 %", "Colloidal silica", 0.3, 0.05),
    "in water, amount first": ("5 % colloidal silica (30 % in water)\n95 % water", "colloidal silica", 0.3, 0.05),
    "before the number": (
        "Ammonia solution 25 % 1336-21-6 1 %\nWater 7732-18-5 95 %", "Ammonia solution", 0.25, 0.01,
    ),
}  # fmt: skip


@pytest.mark.parametrize("shape", sorted(STRENGTHS))
def test_strength_and_amount_are_told_apart(shape: str) -> None:
    text, name, strength, amount = STRENGTHS[shape]
    line = read(text).lines[0]
    assert line.name == name
    assert line.stated is not None
    assert (line.stated.low, line.stated.high, line.stated.strength) == (amount, amount, (strength, strength))
    assert line.stated.means == "as-supplied"


def test_a_lone_figure_is_the_amount_and_two_of_one_size_stay_open() -> None:
    lone = read("Colloidal silica 30 %\nWater 70 %").lines[0]
    assert lone.stated is not None
    assert (lone.stated.low, lone.stated.strength, lone.stated.means) == (0.3, None, "either")
    assert read("Glycerin 2 %, 7 %\nWater 90 %").lines[0].doubtful


@pytest.mark.parametrize("sign", ["vol %", "% v/v", "Vol.-%", "% vol", "vol.%", "% by volume", "% (v/v)"])
def test_a_share_by_volume_keeps_its_figure_and_says_so(sign: str) -> None:
    stated = read(f"Ethanol 20 {sign}\nWater 78-80 {sign}\n").lines[0].stated
    assert stated is not None
    assert (stated.low, stated.high, stated.by_volume, stated.doubtful) == (0.2, 0.2, True, False)
    assert stated.in_per_cent(" to ") == "20 % by volume"


def test_a_head_of_volume_and_weight_leaves_a_doubt() -> None:
    plain = read("Chemical name CAS Vol. %\nEthanol 64-17-5 40\nXylene 1330-20-7 1-5\n").lines
    assert [(one.stated.by_volume, one.stated.doubtful) for one in plain if one.stated] == [(True, False)] * 2
    both = read("Chemical name CAS Weight % Vol. %\nEthanol 64-17-5 40\nXylene 1330-20-7 1-5\n").lines
    assert all(one.stated is not None and one.stated.doubtful for one in both)


@pytest.mark.parametrize("printed", ["-5 %", "NaN %", "XX %", "?? %"])
def test_what_is_no_share_gives_no_limits_and_no_part_of_a_name(printed: str) -> None:
    line = read(f"Ethanol {printed}\nWater 90 %\n").lines[0]
    assert line.name == "Ethanol"
    assert line.stated == Stated(low=None, high=None, text=printed, doubtful=True)


def test_a_dash_before_an_amount_is_no_minus() -> None:
    stated = [line.stated for line in read("- 5 % ethanol\n- 90 % water\n").lines]
    assert [one.low for one in stated if one] == [0.05, 0.9]
    assert [one.stated.low for one in read("Ethanol - 5 %\nWater - 90 %\n").lines if one.stated] == [0.05, 0.9]
