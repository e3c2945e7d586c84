"""What must hold for any dose, size and count."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.catalog.store import open_catalog
from formulate.domain.reason import Ledger
from formulate.film.apply import MOST_CAPILLARY, NINE_IN_TEN, Spread, kept_fractions, landau_levich
from formulate.film.burial import film_level, visible_height
from formulate.film.counts import areal_density
from formulate.film.deposit import AREAL_UNITS, KINDS, Mixture, areal_mass, deposit, volume_solids
from formulate.film.known import application
from formulate.film.layers import HEXAGONAL, overlapped, side_by_side
from formulate.film.matters import shares_of_variance
from formulate.film.particles import SILICA_DENSITY, Sizes, number_density, parse_size, shadow

FRACTION = st.floats(0, 1)
SMALL = st.floats(1e-6, 0.2)
DIAMETER = st.floats(1, 1000)
GSD = st.floats(1, 2)


def sizes(median_nm: float, gsd: float) -> Sizes:
    return Sizes(np.array([median_nm * 1e-9]), np.array([np.log(gsd)]))


@given(
    parts=st.lists(st.tuples(SMALL, SMALL, SMALL, st.sampled_from(KINDS)), min_size=1, max_size=5),
    wet=st.floats(0.01, 1000),
    kept=st.tuples(FRACTION, FRACTION, FRACTION),
    passes=st.integers(1, 20),
)
def test_mass_balance_closes(parts, wet, kept, passes):
    """What was put on and stays is what is left and what the cloth took."""
    table = np.array([part[:3] for part in parts])
    mixture = Mixture(
        tuple("part" for _ in parts),
        tuple(part[3] for part in parts),
        table[None, :, 0],
        table[None, :, 1],
        table[None, :, 2],
        np.ones((1, len(parts))),
        1000.0,
        1 / 2.2,
    )
    left = deposit(mixture, np.array([wet]), {kind: np.array([k]) for kind, k in zip(KINDS, kept, strict=True)}, passes)
    put_on = wet * passes * table.sum()
    total = left.silica.sum() + left.film.sum() + left.rest.sum() + left.wiped.sum()
    assert total == pytest.approx(put_on, rel=1e-12)
    assert volume_solids(mixture)[0] > 0


@given(mass=st.floats(1e-9, 1e-2), median=DIAMETER, gsd=GSD)
def test_number_times_mean_mass_is_the_mass(mass, median, gsd):
    """Against the moment formula taken apart: N pi/6 rho <d^3> = m, N pi/4 <d^2> = shadow."""
    one = sizes(median, gsd)
    number = number_density(np.array([mass]), one)
    s = np.log(gsd)
    cube = (median * 1e-9) ** 3 * np.exp(4.5 * s**2)
    square = (median * 1e-9) ** 2 * np.exp(2 * s**2)
    assert number[0] * np.pi / 6 * SILICA_DENSITY * cube == pytest.approx(mass, rel=1e-9)
    assert number[0] * np.pi / 4 * square == pytest.approx(shadow(np.array([mass]), one)[0], rel=1e-9)


def test_moments_are_those_of_a_sample():
    """Hatch and Choate against 400,000 diameters drawn by numpy."""
    drawn = np.random.default_rng(3).lognormal(np.log(70), np.log(1.3), 400_000)
    one = sizes(70, 1.3)
    for power in (1, 2, 3):
        assert one.moment(power)[0] * 1e9**power == pytest.approx((drawn**power).mean(), rel=0.01)
    assert one.share_above(np.array([80e-9]))[0] == pytest.approx((drawn > 80).mean(), abs=0.003)
    unseen = 1 - one.share_above(np.array([80e-9]), 3)[0]
    assert unseen == pytest.approx((drawn[drawn < 80] ** 3).sum() / (drawn**3).sum(), abs=0.005)
    mass_median = parse_size(f"lognormal:{70 * np.exp(3 * np.log(1.3) ** 2)}:1.3:mass").sizes(
        1, np.random.default_rng(1)
    )
    assert mass_median.median[0] * 1e9 == pytest.approx(70)
    z_average = (drawn**6).mean() / (drawn**5).mean()
    read = parse_size(f"lognormal:{z_average}:1.3:z").sizes(1, np.random.default_rng(1))
    assert read.median[0] * 1e9 == pytest.approx(70, rel=0.03)


@given(low=SMALL, more=st.floats(1.01, 10), median=DIAMETER, gsd=GSD)
def test_more_mass_is_more_of_everything(low, more, median, gsd):
    one, mass = sizes(median, gsd), np.array([low * 1e-3])
    assert (number_density(mass * more, one) > number_density(mass, one)).all()
    assert (side_by_side(shadow(mass * more, one)) >= side_by_side(shadow(mass, one))).all()
    assert (overlapped(shadow(mass * more, one)) >= overlapped(shadow(mass, one))).all()


@given(theta=st.floats(0, 100))
def test_cover_is_never_more_than_its_convention(theta):
    over = np.array([theta])
    assert 0 <= overlapped(over)[0] <= 1
    assert overlapped(over)[0] <= theta
    assert 0 <= side_by_side(over)[0] <= HEXAGONAL


@given(diameter=DIAMETER, film=st.floats(0, 500), theta=st.floats(0, 2), more=st.floats(1, 3))
def test_more_film_buries_deeper(diameter, film, theta, more):
    d, h, over = np.array([diameter]), np.array([film]), np.array([theta])
    assert 0 <= visible_height(d, h * more, over)[0] <= visible_height(d, h, over)[0] <= diameter
    assert film_level(h, over)[0] >= film


@given(value=st.floats(1e-6, 1e6), unit=st.sampled_from(sorted(AREAL_UNITS)))
def test_units_of_mass_per_area_by_their_dimensions(value, unit):
    """Built from prefix and area, not from the table."""
    mass, area = unit.split("/")
    per_m2 = {"m2": 1.0, "cm2": 1e4, "dm2": 1e2}[area] * {"g": 1e3, "mg": 1.0, "ug": 1e-3, "ng": 1e-6}[mass]
    assert areal_mass(value, unit) == pytest.approx(value * per_m2)


@given(
    counts=st.lists(st.lists(st.integers(0, 500), min_size=1, max_size=5), min_size=1, max_size=5),
    recognised=st.floats(0.1, 1),
    background=st.floats(0, 5),
)
def test_limits_hold_the_best(counts, recognised, background):
    found = areal_density(counts, 25.0, recognised, background)
    assert 0 <= found.low <= found.best <= found.high
    better = areal_density(counts, 50.0, recognised, background)
    assert better.best == pytest.approx(found.best / 2)


def test_kept_fractions_have_one_distribution_and_the_told_correlation():
    spread = Spread(0.02, 0.1, 0.3)
    kept = kept_fractions(spread, KINDS, 40_000, np.random.default_rng(2))
    logs = {kind: np.log(values) for kind, values in kept.items()}
    for values in kept.values():
        assert np.quantile(values, [0.05, 0.5, 0.95]) == pytest.approx([0.02, 0.1, 0.3], rel=0.03)
    assert np.corrcoef(logs["fluid"], logs["particles"])[0, 1] == pytest.approx(0.5, abs=0.02)


@settings(max_examples=30)
@given(speed=st.floats(1e-4, 0.05), faster=st.floats(1.01, 8))
def test_landau_levich_grows_by_two_thirds(speed, faster):
    """Thickness goes with speed to 2/3 (ed. sources of the formula agree on the power)."""
    thin, thick = landau_levich(np.array([speed, speed * faster]), 1e-3, 0.03, 1000.0)  # type: ignore[arg-type]
    assert thick / thin == pytest.approx(faster ** (2 / 3))
    assert landau_levich(np.array([0.005]), np.array([1e-3]), np.array([0.03]), 1000.0)[0] == pytest.approx(
        5.0e-6, rel=0.02
    )


def test_the_dip_of_the_table_stays_within_the_formula():
    """Capillary number U eta / sigma of its outermost figures, nine in ten of each."""
    figures = application(open_catalog(), "dip", Ledger()).figures
    most = figures["speed"].high * figures["viscosity"].high * 1e-6 / (figures["surface_tension"].low * 1e-3)
    assert most < MOST_CAPILLARY


def test_shares_of_variance_of_a_sum_are_those_of_its_parts():
    """Independent log-normals: shares are s_i^2 over their sum; checked by that formula."""
    chance = np.random.default_rng(4)
    deviations = {"a": 1.0, "b": 0.5, "c": 0.2}
    inputs = {name: np.exp(s * chance.standard_normal(10_000)) for name, s in deviations.items()}
    shares = shares_of_variance(np.prod(list(inputs.values()), axis=0), inputs)
    total = sum(s**2 for s in deviations.values())
    for name, s in deviations.items():
        assert shares[name] == pytest.approx(s**2 / total, abs=0.02)
    assert shares["together"] == pytest.approx(0, abs=0.03)
    assert sum(shares.values()) == pytest.approx(1)
    assert pytest.approx(1.644854, abs=1e-6) == NINE_IN_TEN
