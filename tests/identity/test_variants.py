"""Forms in which a printed name is looked up."""

import pytest

from formulate.identity.variants import name_forms


@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("Water (Aqua)", "Water"),
        ("A. montan wax", "montan wax"),
        ("(2) a petroleum naphtha", "petroleum naphtha"),
        ("filtered water", "water"),
        ("Mineral oil Not available", "Mineral oil"),
        ("Dimethicone, 350 cSt", "Dimethicone"),
    ],
)
def test_a_plainer_form_is_tried(name, form):
    assert form in name_forms(name).forms


def test_a_bracket_inside_a_name_is_part_of_it():
    assert name_forms("triethoxy(phenyl)silane").forms == ("triethoxy(phenyl)silane",)


@pytest.mark.parametrize(
    ("name", "viscosity"), [("Dimethicone 350 cSt", 350), ("PDMS, 1.5 cSt", 1.5), ("silicone fluid (100 cs)", 100),
                            ("polydimethylsiloxane 5,0 mm2/s", 5), ("Dimethicone", None)]
)  # fmt: skip
def test_viscosity_in_the_name(name, viscosity):
    assert name_forms(name).viscosity == viscosity


@pytest.mark.parametrize(
    "name",
    [
        "Butane (< 0.1 % butadiene)",
        "Butane ( 0.1 % butadiene)",
        "Butane (containing less than 0.1 % butadiene)",
        "Butane (butadiene below 0.1 %)",
    ],
)
def test_a_share_of_something_within_an_ingredient_is_no_part_of_its_name(name):
    assert "Butane" in name_forms(name).forms
