"""Simulated fields: beginnings of one sequence are fields, with the scatter their process has."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.film.field import Pattern, equal_shares, sequence
from formulate.film.refusals import SurfaceError


def counts_in_squares(x, y, side, squares):
    return np.histogram2d(x, y, bins=squares, range=[[0, side], [0, side]])[0]


@pytest.mark.parametrize("arrangement", ["poisson", "jammed", "clustered"])
def test_lower_cover_is_a_beginning(arrangement):
    drawn = sequence(arrangement, 3000, 3000, [70], 4, most_per_um2=40)
    few, many = drawn.at(10), drawn.at(30)
    assert len(few.x) < len(many.x)
    assert (many.x[: len(few.x)] == few.x).all()
    assert not many.full


@pytest.mark.parametrize("arrangement", ["poisson", "clustered"])
def test_mean_and_scatter_over_seeds_are_poissons(arrangement):
    """The count of a field is a Poisson draw of its mean: over 400 seeds mean and variance agree within 4 errors."""
    counts = [len(sequence(arrangement, 1000, 1000, [20], seed, most_per_um2=60).at(50).x) for seed in range(400)]
    assert np.mean(counts) == pytest.approx(50, abs=4 * np.sqrt(50 / 400))
    assert np.var(counts) == pytest.approx(50, abs=4 * 50 * np.sqrt(2 / 400))


def test_clusters_have_the_scatter_of_the_thomas_process():
    """Variance to mean in windows much wider than a cluster: 1 + offspring kept (Thomas 1949; Diggle 2003, 5.3)."""
    pattern = Pattern(per_cluster=8, spread_nm=30)
    ratios = []
    for seed in range(12):
        drawn = sequence("clustered", 20_000, 20_000, [20], seed, most_per_um2=10, pattern=pattern)
        counts = counts_in_squares(drawn.x, drawn.y, 20_000, 20)
        ratios.append(counts.var() / counts.mean())
    assert np.mean(ratios) == pytest.approx(9, rel=0.12)


def test_poisson_places_are_independent():
    drawn = sequence("poisson", 20_000, 20_000, [20], 2, most_per_um2=50)
    counts = counts_in_squares(drawn.x, drawn.y, 20_000, 40)
    assert counts.var() / counts.mean() == pytest.approx(1, abs=4 * np.sqrt(2 / 1600))


def test_ridge_and_streaks_move_particles_and_keep_distances():
    pattern = Pattern(ridge=6, ridge_nm=300, streaks=0.9, streak_nm=1000)
    drawn = sequence("jammed", 5000, 5000, [70], 1, pattern=pattern)
    near, far = (drawn.x < 300).sum() / 300, (drawn.x > 2500).sum() / 2500
    assert near > 2.5 * far
    phase = np.cos(2 * np.pi * drawn.y / 1000)
    assert (phase < 0).sum() > 2 * (phase > 0).sum()
    even = sequence("jammed", 5000, 5000, [70], 1)
    assert {(x, y) for x, y in zip(drawn.x, drawn.y, strict=True)} <= {
        (x, y) for x, y in zip(even.x, even.y, strict=True)
    }


def test_more_than_fits_is_said():
    drawn = sequence("jammed", 2000, 2000, [70], 1)
    field = drawn.at(1000)
    assert field.full
    assert field.theta == pytest.approx(0.547, abs=0.02)


def test_density_of_the_worked_case():
    """70 nm at 6.33 per um2 on 5 x 5 um: 158 of them cover 2.44 % (mass balance of 2.5 mg/m2 at 2.2 g/cm3)."""
    field = sequence("jammed", 5000, 5000, [70], 1).at(6.33)
    assert len(field.x) == 158
    assert field.theta == pytest.approx(0.0244, abs=0.00005 + 0.5 / 158 * 0.0244)  # last digit and half a particle


def test_equal_shares_have_the_median_and_spread():
    sizes = equal_shares(70, 1.3, 200)
    assert np.exp(np.log(sizes).mean()) == pytest.approx(70, rel=1e-9)
    assert np.exp(np.log(sizes).std()) == pytest.approx(1.3, rel=0.01)
    assert equal_shares(70, 1.0).tolist() == [70.0]


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(["poisson", "jammed", "clustered"]),
    st.floats(5, 200),
    st.floats(0, 60),
    st.integers(0, 2**31),
    st.floats(1, 20),
    st.floats(0, 1),
)
def test_particles_lie_in_the_field(arrangement, diameter, density, seed, ridge, streaks):
    pattern = Pattern(ridge=ridge, streaks=streaks)
    field = sequence(arrangement, 900, 1200, [diameter], seed, most_per_um2=60, pattern=pattern).at(density)
    assert ((field.x >= 0) & (field.x <= 900) & (field.y >= 0) & (field.y <= 1200)).all()
    assert (field.diameter == diameter).all()


@pytest.mark.parametrize(
    "wrong",
    [
        {"diameters_nm": [-5]},
        {"diameters_nm": []},
        {"diameters_nm": [2000]},
        {"width_nm": 0},
        {"arrangement": "gaussian"},
        {"most_per_um2": 1e9},
        {"most_per_um2": float("nan")},
        {"seed": -1},
        {"pattern": Pattern(streaks=2)},
        {"pattern": Pattern(ridge=0.5)},
        {"pattern": Pattern(per_cluster=0)},
    ],
    ids=str,
)
def test_what_cannot_be_a_field_is_refused(wrong):
    told = {"arrangement": "poisson", "width_nm": 5000, "height_nm": 5000, "diameters_nm": [70], "seed": 1} | wrong
    with pytest.raises(SurfaceError):
        sequence(**told)


def test_negative_density_is_refused():
    drawn = sequence("poisson", 5000, 5000, [70], 1, most_per_um2=10)
    with pytest.raises(SurfaceError, match="density"):
        drawn.at(-1)
    with pytest.raises(SurfaceError, match="density"):
        drawn.at(float("nan"))
