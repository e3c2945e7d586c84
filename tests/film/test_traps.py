"""Cases that a naive build gets wrong, through the public function. C: computed from the formula beside it."""

from __future__ import annotations

import numpy as np
import pytest

from formulate import coverage
from formulate.errors import UsageError
from formulate.film.particles import parse_size

DEFAULT = {"silica": 0.005, "wet_g_per_m2": 5, "kept": 0.1, "field_um": 5}


def exactly(found, value, digits):
    assert found.low == pytest.approx(found.high)
    assert round(found.best, digits) == value


def test_f1_default_example_exact():
    """C: m = 5 x 0.1 x 0.005; N = m / (rho pi/6 d^3); cover = N pi/4 d^2; layer = m / rho."""
    found = coverage(**DEFAULT, film_former=0.015, diameter_nm=70)
    exactly(found.deposit.silica_mg_per_m2, 2.5, 9)
    exactly(found.deposit.film_mg_per_m2, 7.5, 9)
    exactly(found.deposit.film_nm, 7.7, 1)
    exactly(found.particles_per_um2, 6.33, 2)
    exactly(found.per_field, 158, 0)
    exactly(found.covered_fraction, 0.0244, 4)
    exactly(found.deposit.solid_silica_nm, 1.14, 2)


def test_f1_from_a_list_that_states_its_amounts():
    """The same from text: what the list states exactly stays exact."""
    text = "Aqua, Dimethicone 1.5 %, Silica 0.5 %"
    found = coverage(text, wet_g_per_m2=5, kept=0.1, diameter_nm=70, field_um=5)
    exactly(found.deposit.silica_mg_per_m2, 2.5, 9)
    exactly(found.deposit.film_mg_per_m2, 7.5, 9)
    exactly(found.particles_per_um2, 6.33, 2)
    exactly(found.per_field, 158, 0)
    assert found.size.assumed is False


@pytest.mark.parametrize(
    ("diameter_nm", "hexagonal", "jammed", "needs"),
    [
        pytest.param(70, 93.1, 56.2, (0.186, 0.112), id="C: cover x 2/3 d rho: 70 nm"),
        pytest.param(12, 16.0, 9.6, (0.032, 0.019), id="C: cover x 2/3 d rho: 12 nm"),
    ],
)
def test_f3_full_layer(diameter_nm, hexagonal, jammed, needs):
    layer = coverage(**DEFAULT, diameter_nm=diameter_nm).full_layer
    exactly(layer.hexagonal_mg_per_m2, hexagonal, 1)
    exactly(layer.jammed_mg_per_m2, jammed, 1)
    exactly(layer.hexagonal_silica, needs[0], 3)
    exactly(layer.jammed_silica, needs[1], 3)
    assert layer.jammed_covers == 0.547


def test_f4_a_median_is_of_number_mass_or_z():
    """C, Hatch and Choate 1929: exp(9 s^2) and exp(16.5 s^2) at a spread of 1.3."""
    number, mass, z = (
        coverage(**DEFAULT, diameter_nm=f"lognormal:70:1.3:{of}").particles_per_um2.best
        for of in ("number", "mass", "z")
    )
    assert mass / number == pytest.approx(1.86, abs=0.005)
    assert z / number == pytest.approx(3.11, abs=0.005)
    with pytest.raises(UsageError, match="must say of what"):
        parse_size("lognormal:70:1.3")


def test_f6_one_clump_count_two_densities():
    """C: 80 clumps per um2 of 20 nm under a tip of 10 nm (images 40 nm wide).

    The reference gives 109 and 636; simulated discs (``test_touching``) give 105 and 633, since 109 overlapping discs
    make 82 clumps. Both within 4 % of the reference.
    """
    found = coverage(silica=0.005, diameter_nm=20, tip_nm=10, field_um=1, counted="80", kept=0.1, wet_g_per_m2=5)
    touching = found.implied.touching
    assert touching.width_nm == pytest.approx(40)
    assert touching.few_per_um2 == pytest.approx(109, rel=0.04)
    assert touching.many_per_um2 == pytest.approx(636, rel=0.01)


def test_more_clumps_than_can_be_are_refused():
    """Psi above 0.3 is refused; limits that reach over the peak of the clump count end at the far density."""
    asked = {"silica": 0.005, "diameter_nm": 20, "tip_nm": 10, "field_um": 1, "kept": 0.1}
    near = coverage(**asked, counted="124").implied.particles_per_um2
    assert near.low < near.best < 239 < 400 < near.high
    found = coverage(**asked, counted="130").implied
    assert found.particles_per_um2 is None
    assert not found.touching.countable
    assert "covered area, or the mass" in found.says


def test_f7_more_than_one_is_no_single_layer():
    """Boolean model: as much area as the surface covers 63.2 %."""
    with pytest.raises(UsageError, match="no single layer"):
        coverage(**DEFAULT, diameter_nm=70, covered=1.2)
    thick = coverage(silica=0.2, wet_g_per_m2=20, kept=1, diameter_nm=20)
    assert thick.covered_fraction.high <= 0.9070
    assert thick.covered_if_overlapping.high <= 1
    assert thick.full_layer.layers.best > 1
    assert any("63.2" in note for note in thick.notes)
    assert thick.full_layer.overlapping_covers == pytest.approx(0.632, abs=5e-4)


def test_a_covered_area_is_that_of_the_images():
    """Boolean model: N = -ln(1 - c) / (pi w^2 / 4), w the particle's own width, or 4 sqrt(rR) under a tip."""
    alone = coverage(**DEFAULT, diameter_nm=20, covered=0.1).covered_means_per_um2
    imaged = coverage(**DEFAULT, diameter_nm=20, covered=0.1, tip_nm=10).covered_means_per_um2
    exactly(alone, 335, 0)
    assert alone.best == pytest.approx(-np.log(0.9) / (np.pi / 4 * 0.02**2))
    assert imaged.best == pytest.approx(alone.best / 4)


def test_f10_micrograms_per_square_centimetre():
    """C: 1 ug/cm2 is 10 mg/m2, 10 nm at a density of 1."""
    with pytest.raises(UsageError, match=r"right would be 5 g/m2, for 500 ug/cm2 is 5000 mg/m2"):
        coverage(silica=0.005, wet_g_per_m2="500 ug/cm2")


def test_v6_buried_sol_is_not_absent():
    """C: 7.7 nm of silicone leaves a 12 nm particle 3 nm proud, below five times the roughness of many slides."""
    found = coverage(**DEFAULT, film_former=0.015, diameter_nm=12, counted="0,0,0", substrate="glass-slide")
    exactly(found.visible_height_nm, 3.0, 1)
    assert found.smallest_visible_nm.high > 9 > 3 > found.smallest_visible_nm.low
    weights = {one.explanation: one.weight for one in found.implied.explanations}
    assert weights["unseen"] > 0.99
    assert found.implied.upper_limit
    assert "no proof of none" in found.implied.says


def test_particles_shown_by_a_wafer_are_hidden_by_a_slide():
    """Detection needs five times the roughness: a wafer (0.1 to 0.3 nm) shows what a slide (0.3 to 2 nm) does not."""
    asked = {**DEFAULT, "film_former": 0.015, "diameter_nm": 12, "tip_nm": 5}
    slide, wafer = (coverage(**asked, substrate=one) for one in ("slide", "wafer"))
    assert wafer.unseen_mass_share.high == 0
    assert slide.unseen_mass_share.best == 1


@pytest.mark.parametrize(
    ("asked", "match"),
    [
        ({"silica": 5}, r"silica is a fraction of the whole and cannot be 5: right would be 0\.05"),
        ({"silica": 0.005, "diameter_nm": 0}, "no size of particles, a diameter is above nought"),
        ({"silica": 0.005, "diameter_nm": "-70"}, "right would be a diameter in nm, such as 70"),
        ({"silica": 0.005, "diameter_nm": "100:50"}, "the smaller size goes first: right would be 50:100"),
        ({"silica": 0.005, "diameter_nm": "nan"}, "no size of particles"),
        ({"silica": 0.005, "diameter_nm": 70, "field_um": 0.05}, "smaller than a particle of 70 nm: right would be"),
        ({"silica": 0.005, "counted": [4, 7]}, "without the size of the field: right would be add --field-um 5"),
        ({"silica": 0.005, "counted": "4,-1", "field_um": 5}, "are no counts: right would be 4,7,3/5,6"),
        ({"silica": 0.005, "kept": 1.5}, "kept is a fraction of the whole and cannot be 1.5"),
        ({"silica": 0.005, "kept": 0}, "kept is a fraction of the whole and cannot be 0"),
        ({"silica": 0.005, "field_um": 0}, "is no field: right would be 5, or 5x8"),
        ({"silica": 0.005, "tip_nm": 0}, "tip-nm cannot be 0"),
        ({"silica": 0.005, "recognised": 1.2}, "recognised is a fraction"),
        ({"silica": 0.005, "passes": 0}, "is no number of coats: right would be 1 to 1000"),
        ({"silica": 0.005, "wet_g_per_m2": 0}, "A wet mass of 0 g/m2 cannot be"),
        ({"silica": 0.9, "film_former": 0.2}, "more than the whole product"),
        ({}, "Neither a list nor an amount of silica"),
        ({"silica": 0.005, "application": "thrown"}, "no way of putting a product on"),
    ],
)
def test_bad_input_says_what_would_be_right(asked, match):
    with pytest.raises(UsageError, match=match) as caught:
        coverage(**asked)
    assert caught.value.try_


def test_per_cent_signs_and_commas_are_read():
    one, other = coverage(silica="0.5 %", diameter_nm=70), coverage(silica="0,005", diameter_nm=70)
    assert one.particles_per_um2 == other.particles_per_um2


def test_counts_are_taken_as_text_and_as_sequences():
    asked = {"silica": 0.005, "field_um": (5, 8), "diameter_nm": 70}
    forms = ("4,7,3/5,6", [[4, 7, 3], [5, 6]], ((4, 7, 3), (5, 6)))
    answers = [coverage(**asked, counted=one).implied for one in forms]
    assert len({one.particles_per_um2.best for one in answers}) == 1
    assert (answers[0].fields, answers[0].coupons, answers[0].counted) == (5, 2, 25)
    flat = coverage(**asked, counted=np.array([4, 7, 3]).tolist()).implied
    assert (flat.fields, flat.coupons) == (3, 1)
