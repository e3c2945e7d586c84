"""Images that touch, against simulated discs."""

from __future__ import annotations

import numpy as np
import pytest

from formulate.film.touching import MOST_PSI, PEAK_PSI, branches, clumps, imaged_width


def simulated(psi: float, discs: int = 40_000) -> float:
    """Clumps per disc of overlapping discs at random on a torus (components of the graph of near pairs, scipy)."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import cKDTree

    side = np.sqrt(discs * np.pi / 4 / psi)
    places = np.random.default_rng(int(psi * 1e6)).random((discs, 2)) * side
    near = cKDTree(places, boxsize=side).query_pairs(1.0, output_type="ndarray")
    graph = coo_matrix((np.ones(len(near)), (near[:, 0], near[:, 1])), shape=(discs, discs))
    return connected_components(graph, directed=False)[0] / discs


@pytest.mark.parametrize("psi", [0.05, 0.137, 0.25, 0.4, 0.6, 0.8, 1.0])
def test_clumps_agree_with_simulated_discs(psi):
    """Three standard errors of one simulation of 40,000 discs are about 1.5 % at psi 0.1 and 5 % at 1."""
    width = 40.0
    density = psi / (np.pi * width**2 / 4 * 1e-6)
    share = clumps(np.array([density]), np.array([width]))[0] / density
    assert share == pytest.approx(simulated(psi), rel=0.01 + 0.03 * psi)


def test_the_first_term_is_that_of_pairs():
    """Armitage 1949: few discs make N (1 - 2 psi) clumps, each near pair one fewer."""
    psi, area = 1e-4, np.pi * 100 / 4 * 1e-6
    share = clumps(np.array([psi / area]), np.array([10.0]))[0] / (psi / area)
    assert share == pytest.approx(1 - 2 * psi, abs=1e-7)


def test_the_peak_is_near_0_4():
    psi = np.linspace(0.01, 1.1, 1000)
    area = np.pi * 40**2 / 4 * 1e-6
    assert psi[clumps(psi / area, np.full_like(psi, 40.0)).argmax()] == pytest.approx(PEAK_PSI, abs=0.002)
    assert MOST_PSI < PEAK_PSI


def test_both_branches_give_the_count_back():
    both = branches(80.0, 40.0)
    made = clumps(np.array([both.few, both.many]), np.array([40.0, 40.0]))
    assert made == pytest.approx([80.0, 80.0], rel=1e-9)


@pytest.mark.parametrize(
    ("diameter", "tip", "width"),
    [
        pytest.param(20, 10, 40.0, id="4 sqrt(rR), sphere on a plane under a spherical tip: 10 and 10 nm"),
        pytest.param(20, None, 20.0, id="no tip: as wide as itself"),
        pytest.param(200, 10, 200.0, id="a tip that cannot reach under: as wide as itself"),
    ],
)
def test_imaged_width(diameter, tip, width):
    assert imaged_width(np.array([float(diameter)]), tip)[0] == pytest.approx(width)
