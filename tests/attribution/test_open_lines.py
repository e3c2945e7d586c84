"""Lines that stay open between two ingredients still call for the cautions of both, or possibly of one."""

from __future__ import annotations

import pytest

import formulate


def caution(text: str, name: str):
    return next((one for one in formulate.roles(text).cautions if one.caution == name), None)


@pytest.mark.parametrize(
    ("text", "certainty", "says"),
    [
        ("Aqua, Laureth-7, Isopropanol 67-64-1", "at least", "Whichever it is"),  # number of acetone: both catch fire
        ("Aqua, Laureth-7, Glycerin 67-64-1", "possibly", "If it is Acetone"),
    ],
)
def test_vapour_that_catches_fire(text, certainty, says):
    found = caution(text, "flammable-vapour")
    assert found is not None
    assert (found.certainty, found.lines, found.severity) == (certainty, (3,), "serious")
    assert found.says.startswith(says)


def test_a_caution_that_holds_in_any_case_is_told_first():
    found = caution("Ethanol, Laureth-7, Glycerin 67-64-1", "flammable-vapour")
    assert found is not None
    assert found.certainty == "at least"
    assert found.lines == (1, 3)
    assert found.says.startswith("Ethanol")


def test_a_line_that_agrees_with_itself_calls_for_nothing_more():
    assert caution("Aqua, Laureth-7, Glycerin 56-81-5", "flammable-vapour") is None


def test_what_does_not_follow_from_any_candidate_is_not_said():
    assert caution("Aqua, Laureth-7, Glycerin 67-64-1", "hydrogen-fluoride") is None
