"""Random sequential adsorption: the published saturated cover, and that nothing more fits, by other means."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import Voronoi, cKDTree

from formulate.film.jamming import MOST_DISCS, Arrivals, jam
from formulate.film.refusals import SurfaceError

ONE = np.array([1.0])


def cover(found: Arrivals, diameters: np.ndarray, area: float) -> float:
    return float(np.pi / 4 * (diameters[found.kind] ** 2).sum() / area)


def widest_hole(found: Arrivals, width: float, height: float) -> float:
    """Largest distance of any place from its nearest centre: at a corner of the Voronoi cells, so it is exact."""
    centres = np.column_stack([found.x % width, found.y % height])
    shifts = [np.array([across * width, up * height]) for across in (-1, 0, 1) for up in (-1, 0, 1)]
    corners = Voronoi(np.concatenate([centres + shift for shift in shifts])).vertices
    inside = corners[((corners >= 0) & (corners < [width, height])).all(axis=1)]
    return float(cKDTree(centres, boxsize=(width, height)).query(inside)[0].max())


def closest(found: Arrivals, width: float, height: float) -> float:
    centres = np.column_stack([found.x % width, found.y % height])
    return float(cKDTree(centres, boxsize=(width, height)).query(centres, k=2)[0][:, 1].min())


@pytest.fixture(scope="module")
def covers() -> list[float]:
    """Twenty fields of some 10,000 discs; one scatters by 0.0012, so their mean by 0.0003."""
    side = math.sqrt(10_000 * math.pi / 4 / 0.547)
    return [cover(jam(side, side, ONE, seed), ONE, side * side) for seed in range(20)]


@pytest.mark.parametrize(
    "published",
    [
        pytest.param(0.5470735, id="Zhang-Torquato-2013-PRE-88-053312-abstract-0.5470735(28)-from-memory"),
        pytest.param(0.547, id="encyclopaedia-random-sequential-adsorption-discs-0.547-seen"),
    ],
)
def test_mean_cover_of_periodic_fields(published, covers):
    assert np.mean(covers) == pytest.approx(published, abs=0.0015)


@pytest.mark.parametrize("seed", range(4))
def test_saturated_and_without_overlap(seed):
    """No corner of the Voronoi cells is a diameter away from all centres: no further disc fits anywhere."""
    width, height = 60.0, 40.0
    found = jam(width, height, ONE, seed)
    assert widest_hole(found, width, height) < 1
    assert closest(found, width, height) >= 1


def test_the_check_of_saturation_can_fail():
    found = jam(40, 40, ONE, 1)
    most = len(found.x) - 1
    assert widest_hole(Arrivals(found.x[:most], found.y[:most], found.kind[:most]), 40, 40) >= 1


def test_narrow_distribution_is_saturated_for_every_size():
    sizes = np.array([0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4])
    found = jam(20, 20, sizes, 5)
    radii = sizes[found.kind] / 2
    axis = np.arange(0, 20, 0.025)
    places = np.column_stack([grid.ravel() for grid in np.meshgrid(axis, axis)])
    tree = cKDTree(np.column_stack([found.x, found.y]) % 20, boxsize=(20, 20))
    away, which = tree.query(places, k=6)
    free = (away >= radii[which] + sizes.min() / 2).all(axis=1)
    assert not free.any()
    pairs = tree.query_pairs(sizes.max(), output_type="ndarray")
    gap = np.abs(np.column_stack([found.x, found.y])[pairs[:, 0]] - np.column_stack([found.x, found.y])[pairs[:, 1]])
    gap = np.minimum(gap, 20 - gap)
    assert (np.hypot(*gap.T) >= radii[pairs[:, 0]] + radii[pairs[:, 1]] - 1e-12).all()
    assert set(found.kind) == set(range(8))


def test_early_order_is_that_of_the_plain_process():
    """At low cover the tries per disc follow 1 - 4 theta + ..., so the first few hundred are hardly ordered.

    Widom 1966, J. Chem. Phys. 44, 3888: the free part of the surface is 1 - 4 theta + (6 sqrt 3 / pi) theta^2
    (from memory); measured here on the first tenth of a field by throwing at it.
    """
    side = 100.0
    found = jam(side, side, ONE, 3)
    count = int(0.1 * side * side / (np.pi / 4))
    tree = cKDTree(np.column_stack([found.x, found.y])[:count] % side, boxsize=(side, side))
    throws = np.random.default_rng(1).random((200_000, 2)) * side
    free = (tree.query(throws)[0] >= 1).mean()
    assert free == pytest.approx(1 - 0.4 + 6 * math.sqrt(3) / math.pi * 0.01, abs=0.012)


def test_same_seed_same_field():
    one, two, other = jam(30, 30, ONE, 7), jam(30, 30, ONE, 7), jam(30, 30, ONE, 8)
    assert (one.x == two.x).all()
    assert (one.y == two.y).all()
    assert len(other.x) != len(one.x) or (other.x != one.x).any()


@settings(max_examples=25, deadline=None)
@given(
    st.floats(6, 25), st.floats(6, 25), st.lists(st.floats(0.6, 1.5), min_size=1, max_size=3), st.integers(0, 2**32)
)
def test_never_an_overlap(width, height, sizes, seed):
    found = jam(width, height, np.array(sizes), seed)
    assert closest(found, width, height) >= min(sizes) * (1 - 1e-12)
    assert cover(found, np.array(sizes), width * height) < 0.9069


@pytest.mark.parametrize(
    ("side", "sizes", "says"),
    [
        (10.0, [0.0], "above zero"),
        (10.0, [float("nan")], "above zero"),
        (-1.0, [1.0], "above zero"),
        (float("inf"), [1.0], "above zero"),
        (2.0, [1.0], "too small"),
        (100.0, [1.0, 3.5], "span"),
        (math.sqrt(MOST_DISCS) * 2, [1.0], "at most"),
    ],
)
def test_what_cannot_be_packed_is_refused(side, sizes, says):
    with pytest.raises(SurfaceError, match=says):
        jam(side, side, np.array(sizes), 1)
