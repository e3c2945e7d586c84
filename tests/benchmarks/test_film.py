"""The film: ratios to named peers in the same run; milliseconds are printed with the machine, never asserted."""

from __future__ import annotations

import numpy as np
from scipy import stats

from formulate.film.counts import areal_density
from formulate.film.deposit import plain_mixture
from formulate.film.forward import lay_down
from formulate.film.implied import posterior
from formulate.film.matters import shares_of_variance
from tests.benchmarks.test_speed import report, seconds
from tests.film.study import SETTING, SILICA, drawn

DRAWS = 10_000


def test_forward_against_the_draws_alone():
    """10,000 draws laid down, with what matters: at most 60 times what scipy takes to draw ten log-normal columns."""
    silica = SILICA.at(np.random.default_rng(1).standard_normal(DRAWS))
    mixture = plain_mixture(silica, [0.015], 0.97, 2.2)

    def forward() -> None:
        film = lay_down(mixture, SETTING, 3)
        inputs = {"silica": film.silica, "wet": film.wet, "kept": film.kept["particles"]}
        shares_of_variance(film.particles, inputs)

    columns = stats.lognorm(s=1.0)
    ours = seconds(forward, 9)
    theirs = seconds(lambda: columns.rvs((DRAWS, 10), random_state=np.random.default_rng(1)), 9)
    report("forward, 10,000 draws", ours, theirs, "scipy.stats.lognorm, ten columns")
    assert ours <= 60 * theirs


def test_weighing_a_count_against_scipy():
    """40,000 draws weighed by a count: at most the time of scipy's Poisson log-mass for the same."""
    film = drawn(40_000, 1)
    counts = [14, 17, 13, 15, 16]
    counted = areal_density([counts], 25.0)
    ours = seconds(lambda: posterior(film, counted), 9)
    theirs = seconds(lambda: np.exp(sum(stats.poisson.logpmf(one, film.counted_per_field) for one in counts)), 5)
    report("posterior, 40,000 draws, five fields", ours, theirs, "scipy.stats.poisson.logpmf")
    assert ours <= theirs
