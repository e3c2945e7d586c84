"""Which input matters most: share of the variance of log(result) that each input explains alone."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from formulate.film.apply import Array

BINS = 40
LEAST_DRAWS = 200


def shares_of_variance(result: Array, inputs: Mapping[str, Array]) -> dict[str, float]:
    """First-order share of each input from draws already made, and ``together`` for what no input explains alone.

    Draws are put in order of one input and cut into bins of equal number; the variance of the bins' means, less what
    chance alone would give them, is what this input explains alone. Correlated inputs share what they explain, so the
    remainder can be below nought. All nought where the result does not vary.

    Parameters
    ----------
    result, inputs
        Positive arrays of shape (draws,); draws where the result is nought are left out.
    """
    known = result > 0
    values = np.log(result[known])
    if len(values) < LEAST_DRAWS or values.var() < 1e-20:
        return {**dict.fromkeys(inputs, 0.0), "together": 0.0}
    bins = min(BINS, len(values) // 50)
    shares = {name: _alone(values, one[known], bins) for name, one in inputs.items()}
    return {**shares, "together": 1.0 - sum(shares.values())}


def _alone(values: Array, one: Array, bins: int) -> float:
    if one.std() <= 1e-12 * abs(one).max():
        return 0.0
    parts = np.array_split(values[np.argsort(one, kind="stable")], bins)
    means = np.array([part.mean() for part in parts])
    within = np.mean([part.var(ddof=1) / len(part) for part in parts])
    return float(np.clip((means.var(ddof=1) - within) / values.var(), 0.0, 1.0))
