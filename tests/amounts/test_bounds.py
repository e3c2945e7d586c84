"""The command from text to answer: cases with known answers, contradictions, measured values, suppositions."""

from __future__ import annotations

import json

import pytest

import formulate
from formulate.amounts.item import Item
from formulate.amounts.measured import measured_value
from formulate.catalog.store import open_catalog
from formulate.domain.vocabulary import RULES
from formulate.errors import InputError, UsageError
from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds

TWELVE = (
    "Aqua, Isopropyl Alcohol, Dimethicone, Amodimethicone, Silica, Carnauba Wax, Paraffin, Trideceth-6, Acetic Acid,"
    " Citric Acid, Phenoxyethanol, Parfum"
)
SHIELD = "Aqua, Isopropyl Alcohol, Amodimethicone, Silica, Montan Wax, Trideceth-12, Acetic Acid, Phenoxyethanol"


def row(answer: BoundsAnswer, name: str) -> IngredientBounds:
    return next(one for one in answer.ingredients if name in one.name.lower())


def test_a_label_of_twelve():
    """Elementary: the first at least a twelfth, the one at place i at most 1/i, all others possibly none."""
    answer = formulate.bounds(TWELVE, rule="eu-label")
    assert [one.hard[0] for one in answer.ingredients] == pytest.approx([1 / 12] + [0.0] * 11)
    assert [one.hard[1] for one in answer.ingredients] == pytest.approx([1 / place for place in range(1, 13)])
    assert answer.unnamed is None


def test_without_a_law_the_order_is_no_bound_but_evidence():
    """No federal rule orders such lists in the US; the order only acts on what is likely."""
    answer = formulate.bounds(TWELVE)
    assert answer.rule.name == "none"
    assert {one.hard for one in answer.ingredients} == {(0.0, 1.0)}
    first, last = answer.ingredients[1].plausible, answer.ingredients[-2].plausible
    assert first is not None
    assert last is not None
    assert first.best > last.best
    assert any("No law is assumed" in note for note in answer.notes)


def test_a_printed_ceiling_fixes_the_line():
    """Elementary: what stands behind it is at most 1 %, not at most that ceiling."""
    answer = formulate.bounds("Aqua, Isopropanol, Benzisothiazolinone <= 0.05 %, Dimethicone", rule="eu-label")
    assert row(answer, "dimethyl").hard == pytest.approx((0.0, 0.01))
    assert row(answer, "water").hard[0] == pytest.approx(0.49475)
    said = formulate.why(answer, "/ingredients/3/hard/1").tree
    assert "line falls before it" in said.says


def test_rows_of_a_sheet_do_not_order_each_other():
    answer = formulate.bounds("Ethanol 64-17-5 1 - 5 %\nGlycerin 56-81-5 10 - 30 %", rule="sds-eu")
    assert answer.contradiction == "none"
    assert [one.hard for one in answer.ingredients] == [pytest.approx((0.01, 0.05)), pytest.approx((0.1, 0.3))]
    assert answer.unnamed is not None
    assert answer.unnamed.hard == pytest.approx((0.65, 0.89))


def test_a_contradiction_names_just_the_statements_that_clash():
    text = "Ethanol >= 60 %\nAcetone >= 50 %\nGlycerin 1 - 5 %"
    answer = formulate.bounds(text, rule="sds-us")
    assert not isinstance(answer.contradiction, str)
    assert [says.split()[0] for says in answer.contradiction.statements] == ["Ethanol", "Acetone"]
    assert all(one.hard is None and one.plausible is None for one in answer.ingredients)
    assert formulate.why(answer, "/contradiction").tree.children


def test_an_order_that_the_amounts_break_is_a_contradiction():
    text = "Aqua 20 %, Glycerin 40 %, Ethanol 40 %"
    answer = formulate.bounds(text, rule="eu-label")
    assert not isinstance(answer.contradiction, str)
    assert any("not less than what stands later" in says for says in answer.contradiction.statements)


def test_a_measured_total_narrows_what_it_sums_together():
    wide = formulate.bounds(SHIELD, rule="eu-label")
    told = formulate.bounds(SHIELD, rule="eu-label", measured="nonvolatile=2.3+-0.2 %")
    solids = told.totals["nonvolatile_110c"].plausible
    assert solids is not None
    assert (solids.low, solids.high) == (pytest.approx(0.0197, abs=0.001), pytest.approx(0.0263, abs=0.001))
    for name in ("amodimethicone", "silica", "montan"):
        before, after = row(wide, name).plausible, row(told, name).plausible
        assert before is not None
        assert after is not None
        assert after.high < before.high
    assert told.totals["nonvolatile_110c"].hard == wide.totals["nonvolatile_110c"].hard


def test_a_measured_total_that_cannot_be_is_a_contradiction():
    text = "Water 90 - 95 %, Silica 1 - 2 %, Ethanol 3 - 9 %"
    answer = formulate.bounds(text, measured="nonvolatile=40+-1 %")
    assert not isinstance(answer.contradiction, str)
    assert any("nonvolatile measured" in says for says in answer.contradiction.statements)


def test_where_the_line_falls_can_be_told():
    answer = formulate.bounds(SHIELD, rule="us-cosmetic-label", one_percent_after="Amodimethicone")
    assert [one.hard[1] for one in answer.ingredients[3:]] == pytest.approx([0.01] * 5)
    with pytest.raises(UsageError, match="not in the list"):
        formulate.bounds(SHIELD, one_percent_after="Lanolin")


def test_silica_counts_in_three_ways():
    """TEOS leaves 60.08/208.33 of its mass as SiO2; a methyl silane leaves a resin that is no silica (computed)."""
    answer = formulate.bounds("Ethanol 80 %, Tetraethyl orthosilicate 10 %, Methyltrimethoxysilane 10 %")
    assert answer.totals["silica"].hard == pytest.approx((0, 0), abs=1e-9)
    assert answer.totals["silica_forming"].hard == pytest.approx((0, 0.1 * 60.0843 / 208.33), rel=2e-3)
    most = 0.1 * 60.0843 / 208.33 + 0.1 * 60.0843 / 136.22
    assert answer.totals["silicon_as_sio2"].hard == pytest.approx((0, most), rel=2e-3)


def test_volatile_organics_by_two_laws():
    """Shared casebook voc-eu-vs-us-spray: D5 counts in the EU and is exempt in the US; silicone counts in neither."""
    text = "Decamethylcyclopentasiloxane 541-02-6 80 %\nIsopropyl alcohol 10 %\nDimethicone 350 cSt 10 %"
    answer = formulate.bounds(text)
    assert answer.totals["voc_eu"].hard == pytest.approx((0.9, 0.9))
    assert answer.totals["voc_us"].hard == pytest.approx((0.1, 0.1))


def test_a_supposition_says_whether_it_can_be_and_what_it_forces():
    answer = formulate.bounds(SHIELD, rule="eu-label", suppose="silica=2 %")
    assert answer.supposed is not None
    assert answer.supposed.possible
    forced = {one.position: one for one in answer.supposed.forces}
    assert forced[3].hard is not None
    assert forced[3].hard[0] == pytest.approx(0.02)  # what stands before silica is not less than it
    impossible = formulate.bounds(SHIELD, rule="eu-label", suppose="silica=40 %").supposed
    assert impossible is not None
    assert not impossible.possible


@pytest.mark.parametrize("text", ["silica", "silica=x", "silica=-1", "lanolin=2 %", "silica=150 %"])
def test_suppositions_that_cannot_be_read_are_refused(text: str):
    with pytest.raises(UsageError):
        formulate.bounds(SHIELD, suppose=text)


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_answers_and_every_figure_has_a_reason(rule: str):
    answer = formulate.bounds("Aqua, Ethanol 5 - 10 %, Silica, Parfum, CI 42090", rule=rule)
    assert answer.contradiction == "none"
    for index, one in enumerate(answer.ingredients):
        assert one.hard is not None
        assert 0 <= one.hard[0] <= one.hard[1] <= 1
        for pointer in (
            f"/ingredients/{index}/hard/0",
            f"/ingredients/{index}/hard/1",
            f"/ingredients/{index}/plausible",
        ):
            assert formulate.why(answer, pointer).tree.says
    for total, found in answer.totals.items():
        assert found.hard is not None
        assert found.plausible is not None
        assert found.hard[0] - 1e-6 <= found.plausible.low <= found.plausible.high <= found.hard[1] + 1e-6
        assert formulate.why(answer, f"/totals/{total}").tree.says


def test_likely_lies_within_certain_and_the_answer_is_json():
    answer = formulate.bounds(SHIELD, rule="eu-label", seed=4)
    again = formulate.bounds(SHIELD, rule="eu-label", seed=4)
    assert answer.model_dump_json() == again.model_dump_json()
    said = json.loads(answer.model_dump_json())
    assert said["schema"] == "formulate/bounds/1"
    assert said["sampling"]["seed"] == 4
    assert said["sampling"]["r_hat"] <= 1.01
    for one in said["ingredients"]:
        assert one["hard"][0] - 1e-9 <= one["plausible"]["low"]
        assert one["plausible"]["high"] <= one["hard"][1] + 1e-9


@pytest.mark.parametrize("text", ["", "Shake well before use. Do not spray on hot surfaces.", "\n\n"])
def test_a_text_without_a_list_answers_with_nothing(text: str):
    answer = formulate.bounds(text)
    assert answer.ingredients == ()
    assert answer.totals == {}
    assert answer.sampling is None


@pytest.mark.parametrize(
    "text", ["x=1", "nonvolatile", "nonvolatile=5", "ph=20", "density=98", "nonvolatile=abc", "silica=2+-0 %"]
)
def test_measurements_that_cannot_be_are_refused_in_four_parts(text: str):
    with pytest.raises(UsageError) as caught:
        formulate.bounds(SHIELD, measured=text)
    assert all((caught.value.what, caught.value.at, caught.value.why, caught.value.try_))


def test_an_unknown_rule_is_refused():
    with pytest.raises(UsageError, match="not a rule"):
        formulate.bounds(SHIELD, rule="moon-label")


def test_likely_ranges_lie_within_what_is_certain():
    """Elementary: what is likely is possible. With the line told, and with a list of many unknown names."""
    many = "Aqua, " + ", ".join(f"Vel-Tarn {number}" for number in range(40))
    for text, after in ((SHIELD, "Silica"), (SHIELD, None), (many, None)):
        answer = formulate.bounds(text, rule="eu-label", one_percent_after=after)
        for one in answer.ingredients:
            assert one.hard is not None
            assert one.plausible is not None
            assert one.hard[0] - 1e-9 <= one.plausible.low <= one.plausible.high <= one.hard[1] + 1e-9


def test_a_list_too_long_for_amounts_is_refused():
    with pytest.raises(InputError, match="too many") as refused:
        formulate.bounds(", ".join(f"Vel-Tarn {number}" for number in range(1, 300)))
    assert refused.value.reference == "too-large"


def test_a_seed_below_nought_is_refused():
    with pytest.raises(UsageError, match="seed"):
        formulate.bounds(SHIELD, seed=-1)


@pytest.mark.parametrize("text", ["2.3%+-0.2%", "2.3 % \u00b1 0.2 %", "(2.3 +- 0.2) %", "2,3+-0,2%", "0.023+-0.002"])
def test_the_ways_of_writing_a_measurement(text: str):
    read = measured_value(f"nonvolatile={text}")
    assert (read.value, read.uncertainty) == pytest.approx((0.023, 0.002))


@pytest.mark.parametrize("text", ["2.3%+-0.002", "2.3%%+-0.2", "2.3 ppm +- 0.2 %", "0", "0+-0 %"])
def test_measurements_that_cannot_be_meant(text: str):
    with pytest.raises(UsageError):
        measured_value(f"nonvolatile={text}")


def told_by(text: str, pointer: str, **options: str) -> str:
    """All sentences of the tree behind one figure."""
    return formulate.why(formulate.bounds(text, **options), pointer).model_dump_json()


def test_a_measurement_stands_in_the_reasons_of_what_it_narrowed_and_in_the_notes():
    given = {"measured": "nonvolatile=2.3+-0.2 %"}
    for pointer in ("/ingredients/3/plausible/low", "/totals/nonvolatile_110c/plausible/best", "Silica"):
        assert "You measured nonvolatile 2.3" in told_by(SHIELD, pointer, **given)
        assert "You measured" not in told_by(SHIELD, pointer)
    assert any("2.3 +- 0.2" in note for note in formulate.bounds(SHIELD, **given).notes)


def test_an_order_that_is_only_believed_is_told():
    assert "chances in 10" in told_by(SHIELD, "/ingredients/3/plausible")
    assert "chances in 10" not in told_by(SHIELD, "/ingredients/3/plausible", rule="eu-label")


def test_what_the_list_does_not_name_has_a_reason():
    answer = formulate.bounds("Water 60-80 %, Isopropanol 5-10 %")
    assert answer.unnamed is not None
    assert answer.unnamed.supplied_as.why in answer.reasons
    assert "need not name everything" in formulate.why(answer, "/unnamed/hard/1").tree.says


def test_a_band_over_several_names_is_the_reason_of_their_ceilings():
    """Regulation (EC) 648/2004, annex VII: the band belongs to the class, not to one name in it."""
    text = "Ingredients: Aqua, 5 - 15 % non-ionic surfactants, Laureth-7, Trideceth-8"
    for place in (1, 2, 3):
        answer = formulate.bounds(text, rule="eu-detergent")
        assert answer.ingredients[place].hard == pytest.approx((0.0, 0.15))
        tree = formulate.why(answer, f"/ingredients/{place}/hard/1").tree
        assert "together" in tree.says
        assert "5 - 15 %" in tree.model_dump_json()


def test_what_holds_no_carbon_is_no_organic_compound():
    """Directive 2004/42/EC, article 2: an organic compound holds carbon; ammonia boils at -33 C and is none."""
    answer = formulate.bounds("Water, Ammonia 2 %, Hydrochloric acid 1 %", rule="us-cosmetic-label")
    assert answer.totals["voc_eu"].hard == (0.0, 0.0)
    solvent = formulate.bounds("Water, Isopropanol 2 %, Ammonia 1 %", rule="us-cosmetic-label")
    assert solvent.totals["voc_eu"].hard == pytest.approx((0.02, 0.02))


@pytest.mark.parametrize(
    ("smiles", "without"),
    [("N", True), ("Cl", True), ("[Ca+2].[O-]Cl.[O-]Cl", True), ("c1ccccc1", False), ("ClCCl", False)]
    + [("N[C@@H](C)O", False), ("[13CH4]", False), ("[Cd]", True), ("Oc1c[nH]cc1", False), ("*O[Si](*)O*", False)],
)
def test_carbon_is_found_in_a_structure(smiles: str, without: bool):
    record = open_catalog().ingredient("water")._replace(smiles=smiles)
    item = Item(None, None, None, record, ("other",), "")  # type: ignore[arg-type]
    assert item.is_without_carbon is without


@pytest.mark.parametrize("dilution", ["banana", "1:", "1:20:3", "-1:20", "1/20"])
def test_a_dilution_that_is_none_is_refused(dilution: str):
    with pytest.raises(UsageError, match="dilution"):
        formulate.read(SHIELD, dilution=dilution)
    assert formulate.read(SHIELD, dilution="1:20").product.dilution == "1:20"


def test_the_unnamed_part_is_split_once_for_every_draw():
    """A sheet that names 60 to 80 % of water: the rest cannot be all silica and all solvent at once."""
    answer = formulate.bounds("Water 7732-18-5 60 - 80 %\nSilica 7631-86-9 0.5 - 1.5 %", rule="sds-us")
    parts = [answer.totals[name].plausible for name in ("water", "voc_eu", "nonvolatile_110c")]
    assert all(part is not None for part in parts)
    assert sum(part.best for part in parts if part is not None) == pytest.approx(1.0, abs=0.05)
    silica = answer.totals["silica"]
    assert silica.hard is not None
    assert silica.plausible is not None
    assert silica.hard[1] == pytest.approx(0.4)  # certain: all that is unnamed could be silica
    assert silica.plausible.high < 0.1  # likely: it seldom is


def test_a_band_of_a_class_holds_the_sum_of_its_members():
    """Regulation (EC) 648/2004, Annex VII A: the band is that of the class, not of each name."""
    text = "anionic surfactants 5 - 15 %, Aqua, Sodium Laureth Sulfate, Sodium Dodecylbenzenesulfonate"
    answer = formulate.bounds(text, rule="eu-detergent")
    members = [one for one in answer.ingredients if one.class_ == "surfactant"]
    assert len(members) == 3
    assert all(one.hard == pytest.approx((0.0, 0.15)) for one in members)
    assert all(one.plausible is not None and one.plausible.high <= 0.15 for one in members)


def test_what_the_sheet_measured_is_offered():
    answer = formulate.bounds("Non-volatile: 11 %\nDensity: 1.01 g/ml\nIngredients: Water, Silica, Dimethicone")
    assert any("--measured nonvolatile=11%" in note for note in answer.notes)
    assert any("--measured density=1.01" in note for note in answer.notes)
