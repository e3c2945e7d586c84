"""``coverage`` from text to answer."""

from __future__ import annotations

import json

import pytest

import formulate
from formulate.domain.reason import LEAF_KINDS, UNSOURCED, leaves
from formulate.errors import UsageError

TEXT = "Aqua, Isopropanol 5 %, Dimethicone 1.5 %, Silica 0.5 %, Cera Carnauba 0.3 %, Laureth-7, Phenoxyethanol"
COUNTED = {"field_um": 5, "counted": "14,17,13/15,16", "tip_nm": 10, "background": 0.3, "recognised": 0.9}


def ranges(here: object, pointer: str = "") -> list[tuple[str, dict[str, object]]]:
    """Every range of an answer with its pointer."""
    if isinstance(here, dict):
        if {"low", "best", "high", "level", "unit", "why"} <= set(here):
            return [(pointer, here)]
        return [one for key, value in here.items() for one in ranges(value, f"{pointer}/{key}")]
    if isinstance(here, list):
        return [one for index, value in enumerate(here) for one in ranges(value, f"{pointer}/{index}")]
    return []


@pytest.fixture(scope="module")
def answer():
    return formulate.coverage(TEXT, form="spray", substrate="glass", **COUNTED)


def test_the_answer_carries_what_the_contract_fixes(answer):
    told = json.loads(answer.model_dump_json())
    assert told["schema"] == "formulate/coverage/1"
    assert {"silica_mg_per_m2", "film_mg_per_m2", "film_nm"} <= set(told["deposit"])
    fixed = {"particles_per_um2", "per_field", "covered_fraction", "visible_height_nm", "full_layer", "matters"}
    assert fixed <= set(told)
    assert {"hexagonal_mg_per_m2", "jammed_mg_per_m2"} <= set(told["full_layer"])
    implied = {"particles_per_um2", "silica_mg_per_m2", "silica", "kept", "explanations", "tell_apart"}
    assert implied <= set(told["implied"])
    assert {"input", "share"} == set(told["matters"][0])
    assert {"explanation", "weight"} <= set(told["implied"]["explanations"][0])
    assert told["seed"] is not None


def test_every_range_is_in_order_has_a_unit_and_a_reason(answer):
    found = ranges(json.loads(answer.model_dump_json()))
    assert len(found) > 50
    for pointer, one in found:
        assert one["low"] <= one["best"] <= one["high"], pointer
        assert one["unit"], pointer
        assert 0 < one["level"] < 1, pointer
        assert answer.why[pointer] == one["why"], pointer
        for leaf in leaves(formulate.why(answer, pointer).tree):
            sourced = any(cited.source not in UNSOURCED for cited in leaf.citations)
            assert leaf.kind in LEAF_KINDS or (leaf.kind == "rule" and sourced), (pointer, leaf.says)


def test_shares_and_weights_sum_to_one(answer):
    assert sum(one.share for one in answer.matters) == pytest.approx(1)
    assert sum(one.weight for one in answer.implied.explanations) == pytest.approx(1)


def test_the_same_input_gives_the_same_numbers():
    one, other = (formulate.coverage(TEXT, form="spray") for _ in range(2))
    assert one.model_dump_json() == other.model_dump_json()
    assert formulate.coverage(TEXT, form="spray", seed=1).seed == 1


def test_the_draws_are_those_of_bounds():
    """Silica in the bottle and on the surface go together: deposit over dose is what bounds gives."""
    bottle = next(row for row in formulate.bounds(TEXT).ingredients if row.class_ == "silica").plausible
    left = formulate.coverage(TEXT, wet_g_per_m2=5, kept=1).deposit.silica_mg_per_m2
    assert left.best == pytest.approx(bottle.best * 5000, rel=0.05)
    assert left.high == pytest.approx(bottle.high * 5000, rel=0.05)


def test_what_the_lines_leave_is_the_whole():
    """Amounts told exactly: parts sum to silica, film and rest; a line of silica leaves silica and nothing else."""
    left = formulate.coverage("Aqua, Carnauba wax 1 %, Fumed silica 0.5 %", wet_g_per_m2=5, kept=0.1).deposit
    whole = left.silica_mg_per_m2.best + left.film_mg_per_m2.best + left.rest_mg_per_m2.best
    assert sum(part.mg_per_m2.best for part in left.parts) == pytest.approx(whole, rel=0.02)
    assert left.parts[2].mg_per_m2.best == pytest.approx(left.silica_mg_per_m2.best)
    assert (left.parts[1].kind, left.parts[2].kind) == ("wax", "particles")


def test_dilution_and_coats():
    plain = formulate.coverage(TEXT, wet_g_per_m2=5, kept=0.1).deposit.silica_mg_per_m2
    thin = formulate.coverage(TEXT, wet_g_per_m2=5, kept=0.1, dilution="1:9").deposit.silica_mg_per_m2
    twice = formulate.coverage(TEXT, wet_g_per_m2=5, kept=0.1, passes=2).deposit.silica_mg_per_m2
    assert thin.best == pytest.approx(plain.best / 10)
    assert twice.best == pytest.approx(plain.best * 2)
    with pytest.raises(UsageError, match="no dilution"):
        formulate.coverage(TEXT, dilution="much")


def test_the_form_decides_how_it_goes_on():
    names = {
        form: formulate.coverage(TEXT, form=form).application.name for form in ("spray", "wipe", "pour", "paste", "dip")
    }
    assert names == {
        "spray": "mist-wipe",
        "wipe": "wet-wipe",
        "pour": "flood-drain",
        "paste": "buffed-paste",
        "dip": "dip",
    }
    wet = formulate.coverage(TEXT, form="dip").deposit.wet_g_per_m2
    assert 1 < wet.low < 5 < wet.high < 60


def test_a_size_in_a_name_is_taken_and_a_kind_shifts_the_assumed_one():
    named = formulate.coverage("Aqua, Colloidal silica 20 nm 1 %")
    assert not named.size.assumed
    assert named.size.median_nm.low > 16
    assert named.size.median_nm.high < 25
    sol, fumed = (formulate.coverage(f"Aqua, {name} 1 %").size for name in ("Colloidal silica", "Fumed silica"))
    assert sol.assumed
    assert "size is" not in sol.says
    assert fumed.median_nm.best > 4 * sol.median_nm.best
    assert any("Size assumed" in note for note in formulate.coverage("Aqua, Fumed silica 1 %").notes)


def test_a_list_without_silica_leaves_none():
    told = formulate.coverage("Aqua, Dimethicone 2 %, Cera Carnauba 1 %", field_um=5, counted="0,0,1")
    assert told.deposit.silica_mg_per_m2.high == 0
    assert told.particles_per_um2.high == 0
    assert told.deposit.film_mg_per_m2.best > 0
    assert any("No line of the list is silica" in note for note in told.notes)
    assert told.implied.particles_per_um2.best > 0


@pytest.mark.parametrize("text", ["", "no list in here at all"])
def test_text_without_a_list_is_answered(text):
    told = formulate.coverage(text, counted="3,4", field_um=5)
    assert told.deposit is None
    assert told.particles_per_um2 is None
    assert told.implied.particles_per_um2.best == pytest.approx(3.5 / 25)
    assert told.implied.silica is None
    assert told.notes


def test_statements_that_clash_are_said():
    told = formulate.coverage("Water 60-100 %, Ethanol 50-80 %, Silica 1 %")
    assert told.contradiction != "none"
    assert told.deposit is None


def test_silica_that_is_told_goes_before_that_of_the_list():
    told = formulate.coverage(TEXT, silica=0.02, wet_g_per_m2=5, kept=0.1).deposit.silica_mg_per_m2
    assert told.low == pytest.approx(10)
    assert told.high == pytest.approx(10)
    own = formulate.coverage("Aqua, Dimethicone 2 %", silica=0.02, wet_g_per_m2=5, kept=0.1)
    assert own.deposit.silica_mg_per_m2.best == pytest.approx(10)
    assert own.deposit.parts[-1].name == "silica"


def test_counting_alone_is_told_before_anyone_counts():
    told = formulate.coverage("Aqua, Dimethicone, Silica, Phenoxyethanol", form="spray", diameter_nm="50:100")
    assert told.implied is None
    assert told.counting_alone.before > told.counting_alone.after > 1.2
    assert any("Counting alone cannot tell" in note for note in told.notes)
