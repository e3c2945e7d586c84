"""A simulated field of view: where particles lie, seeded, in an order of which every beginning is a field of its own.

The sequence is drawn once for a seed. Its first n particles are a fair field at the density of n, for every
arrangement: so a changed setting shows at once, and more particles never move those that were there.
"""

from __future__ import annotations

from typing import Literal, NamedTuple, get_args

import numpy as np
import numpy.typing as npt

from formulate.film.jamming import MOST_DISCS, check_sizes, jam
from formulate.film.refusals import SurfaceError, positive, within

Array = npt.NDArray[np.float64]

Arrangement = Literal["poisson", "jammed", "clustered"]
"""Independent places; no two overlap; in clusters (Thomas process)."""


class Pattern(NamedTuple):
    """What is not even about the surface, and how clusters are made.

    ``per_cluster`` is the mean number of particles in a cluster and ``spread_nm`` the standard deviation of their
    distance from its middle, along each axis. ``ridge`` is how many times denser the left edge is (where a tape was
    pulled off), falling off over ``ridge_nm``. ``streaks`` from 0 to 1 is how deep the wiping shows across the
    vertical, in bands ``streak_nm`` apart.
    """

    per_cluster: float = 8.0
    spread_nm: float = 150.0
    ridge: float = 1.0
    ridge_nm: float = 300.0
    streaks: float = 0.0
    streak_nm: float = 1000.0


EVEN = Pattern()


class Field(NamedTuple):
    """Particles in a rectangle that repeats at its edges: centres and diameters, each shape (n,). [nm]

    ``full`` is True where more were asked for than fit without overlap.
    """

    x: Array
    y: Array
    diameter: Array
    width: float
    height: float
    full: bool = False

    @property
    def area_um2(self) -> float:
        """Area of the field. [um2]"""
        return self.width * self.height * 1e-6

    @property
    def theta(self) -> float:
        """Sum of the particles' shadows over the area; above the covered fraction where they overlap."""
        return float(np.pi / 4 * (self.diameter**2).sum() / (self.width * self.height))


class Sequence(NamedTuple):
    """Particles in order of arrival, each shape (n,), and the chance that decides how many a field holds.

    ``complete`` says that the sequence ends because nothing more fits.
    """

    x: Array
    y: Array
    diameter: Array
    width: float
    height: float
    arrangement: Arrangement
    luck: float
    complete: bool

    def first(self, count: int) -> Field:
        """The field of the first ``count`` particles; all there are, marked full, where there are fewer."""
        if count < 0:
            raise SurfaceError.outside("The number of particles", count, 0, len(self.x))
        part = slice(0, count)
        full = count > len(self.x)
        return Field(self.x[part], self.y[part], self.diameter[part], self.width, self.height, full)

    def at(self, per_um2: float) -> Field:
        """The field at a mean density.

        :param per_um2: particles per area. [1/um2]
        :returns: as many particles as one field of that mean holds: drawn from the Poisson law by the luck of the
            seed where places are independent or clustered, and the mean itself where particles keep out of each
            other's way (their number then scatters less than Poisson's).
        :raises SurfaceError: the density is negative or not finite.
        """
        within("The density", per_um2, 0, np.inf, "per um2")
        mean = per_um2 * self.width * self.height * 1e-6
        if self.arrangement == "jammed":
            return self.first(round(mean))
        from scipy.special import pdtrik

        drawn = pdtrik(self.luck, mean) if mean > 0 else 0.0
        return self.first(max(0, int(np.ceil(drawn))) if np.isfinite(drawn) else 0)


def sequence(
    arrangement: Arrangement,
    width_nm: float,
    height_nm: float,
    diameters_nm: npt.ArrayLike,
    seed: int,
    most_per_um2: float = 0.0,
    pattern: Pattern = EVEN,
) -> Sequence:
    """Draw the places of particles for one field of view.

    :param arrangement: ``poisson``, ``jammed`` or ``clustered``.
    :param width_nm: width of the field. [nm]
    :param height_nm: its height. [nm]
    :param diameters_nm: sizes that are equally frequent, shape (k,): of a distribution, the middles of k equal shares
        by number. [nm]
    :param seed: whole number; the same seed gives the same field.
    :param most_per_um2: density up to which the sequence must reach; a jammed one always reaches its end. [1/um2]
    :param pattern: clusters, ridge and streaks.
    :raises SurfaceError: sizes, sides or pattern out of range, a field smaller than about five particles, or more
        particles than are simulated.

    Sources: Poisson and Thomas processes: Thomas 1949, Biometrika 36, 18 (as used in spatial statistics: parents by
    a Poisson process, numbers of offspring by a Poisson law, normal displacements); leaving out particles at random
    makes a Thomas process of fewer offspring, so the beginning of a shuffled one is one. Jammed: see
    :mod:`formulate.film.jamming`. Unevenness is made by leaving out particles with the local probability, which
    keeps distances.
    """
    if arrangement not in get_args(Arrangement):
        raise SurfaceError.unknown_word("arrangement", str(arrangement), get_args(Arrangement))
    sizes = np.atleast_1d(np.asarray(diameters_nm, dtype=float))
    _check(width_nm, height_nm, sizes, pattern)
    within("The seed", seed, 0, 2**63)
    within("The density", most_per_um2, 0, np.inf, "per um2")
    chance = np.random.default_rng([seed, 1])
    luck = float(chance.random())
    if arrangement == "jammed":
        discs = jam(width_nm, height_nm, sizes, seed)
        x, y, diameter = discs.x, discs.y, sizes[discs.kind]
    else:
        count = _reserve(most_per_um2, width_nm * height_nm * 1e-6, pattern, arrangement)
        places = _independent if arrangement == "poisson" else _clustered
        x, y = places(chance, count, width_nm, height_nm, pattern)
        diameter = sizes[chance.integers(0, len(sizes), len(x))]
    keep = _uneven(chance, x, y, height_nm, pattern)
    complete = arrangement == "jammed"
    return Sequence(x[keep], y[keep], diameter[keep], width_nm, height_nm, arrangement, luck, complete)


def _reserve(most_per_um2: float, area_um2: float, pattern: Pattern, arrangement: str) -> int:
    """Particles to draw so that the densest field asked for can be made, with its scatter."""
    mean = most_per_um2 * area_um2
    cluster = 1 + pattern.per_cluster if arrangement == "clustered" else 1.0
    count = (mean + 6 * np.sqrt(mean * cluster) + 50) * _peak(pattern) / _level(pattern)
    if count > MOST_DISCS:
        raise SurfaceError.too_many(int(count), MOST_DISCS)
    return int(count)


def _independent(
    chance: np.random.Generator, count: int, width: float, height: float, pattern: Pattern
) -> tuple[Array, Array]:
    return chance.random(count) * width, chance.random(count) * height


def _clustered(
    chance: np.random.Generator, count: int, width: float, height: float, pattern: Pattern
) -> tuple[Array, Array]:
    """Clusters of Poisson numbers, shuffled, so that every beginning holds some of each cluster."""
    parents = max(1, int(chance.poisson(count / pattern.per_cluster)))
    family = np.repeat(np.arange(parents), chance.poisson(pattern.per_cluster, parents))
    chance.shuffle(family)
    middle_x, middle_y = chance.random(parents) * width, chance.random(parents) * height
    x = middle_x[family] + chance.normal(0, pattern.spread_nm, len(family))
    y = middle_y[family] + chance.normal(0, pattern.spread_nm, len(family))
    return x % width, y % height


def _uneven(chance: np.random.Generator, x: Array, y: Array, height: float, pattern: Pattern) -> npt.NDArray[np.bool_]:
    """Which particles stay under a ridge at the left edge and streaks of wiping."""
    ridge = 1 + (pattern.ridge - 1) * np.exp(-x / pattern.ridge_nm)
    bands = max(1, round(height / pattern.streak_nm))  # whole bands, so that the field still repeats
    streak = 1 - pattern.streaks * (0.5 + 0.5 * np.cos(2 * np.pi * bands * y / height))
    return np.asarray(chance.random(len(x)) * _peak(pattern) <= ridge * streak)


def _peak(pattern: Pattern) -> float:
    """Highest of the local probabilities, unscaled."""
    return max(1.0, pattern.ridge)


def _level(pattern: Pattern) -> float:
    """A share of the surface that is surely kept, unscaled: the ridge left out, half the depth of the streaks."""
    return 1 - pattern.streaks / 2


def _check(width: float, height: float, sizes: Array, pattern: Pattern) -> None:
    check_sizes(width, height, sizes)
    if sizes.max() > min(width, height) / 4:
        raise SurfaceError.field_too_small(min(width, height), float(sizes.max()))
    positive("The number of particles in a cluster", pattern.per_cluster, "")
    positive("The spread of a cluster", pattern.spread_nm, "nm")
    positive("The width of the ridge", pattern.ridge_nm, "nm")
    positive("The distance of streaks", pattern.streak_nm, "nm")
    within("The ridge", pattern.ridge, 1, 50)
    within("The depth of streaks", pattern.streaks, 0, 1)


def equal_shares(median: float, gsd: float, shares: int = 8) -> Array:
    """Middles of equal shares by number of a lognormal distribution, shape (shares,).

    :param median: median by number. [any length]
    :param gsd: geometric standard deviation, 1 or more. [1]
    :param shares: how many sizes stand for the distribution; one where gsd is 1.
    """
    positive("The median size", median, "nm")
    within("The geometric standard deviation", gsd, 1, 10)
    if gsd == 1:
        return np.array([median])
    from scipy.special import ndtri

    middle = (np.arange(shares) + 0.5) / shares
    return np.asarray(median * np.exp(np.log(gsd) * ndtri(middle)))
