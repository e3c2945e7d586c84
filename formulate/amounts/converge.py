"""Whether chains agree, and how many independent draws they are worth."""

from __future__ import annotations

import numpy as np

from formulate.amounts.frame import Array


def nested_r_hat(values: Array, starts: int) -> float:
    """Nested R-hat of one quantity: chains that began together against chains that began apart.

    Parameters
    ----------
    values
        Shape (draws, chains); the chains of one start stand together.
    starts
        Number of different starting points.

    Notes
    -----
    sqrt(1 + B / W) with B the variance of the means of the groups and W the mean over groups of the variance between
    its chains plus the mean variance within them (Margossian et al. 2024, doi 10.1214/24-BA1453).
    """
    draws, chains = values.shape
    grouped = values.reshape(draws, starts, chains // starts)
    means = grouped.mean(axis=0)
    within = grouped.var(axis=0, ddof=1).mean(axis=1) if draws > 1 else np.zeros(starts)
    between_chains = means.var(axis=1, ddof=1)
    inner = float((within + between_chains).mean())
    outer = float(means.mean(axis=1).var(ddof=1))
    return float(np.sqrt(1 + outer / inner)) if inner > 0 else 1.0 if outer == 0 else float("inf")


def effective_draws(values: Array) -> float:
    """Effective number of draws of one quantity, values of shape (draws, chains).

    Autocorrelation pooled over chains, summed over pairs while their sum stays positive and falling (Geyer's initial
    monotone sequence; Vehtari et al. 2021, doi 10.1214/20-BA1221, equation 10 to 13 without splitting).
    """
    draws, chains = values.shape
    centred = values - values.mean(axis=0)
    size = 2 ** int(np.ceil(np.log2(2 * draws)))
    power = np.fft.rfft(centred, n=size, axis=0)
    covariance = np.fft.irfft(power * np.conj(power), n=size, axis=0)[:draws].mean(axis=1) / draws
    within = covariance[0] * draws / (draws - 1)
    pooled = within * (draws - 1) / draws + (values.mean(axis=0).var(ddof=1) if chains > 1 else 0.0)
    if pooled <= 0:
        return float(draws * chains)
    rho = 1 - (within - covariance * draws / (draws - 1)) / pooled
    rho[0] = 1.0
    pairs = rho[: draws // 2 * 2].reshape(-1, 2).sum(axis=1)
    positive = np.flatnonzero(pairs <= 0)
    kept = np.minimum.accumulate(pairs[: positive[0]] if len(positive) else pairs)
    tau = max(2 * float(kept.sum()) - 1, 1 / np.log10(draws * chains))
    return float(draws * chains / tau)
