"""Sizes of particles, and how many of them a mass is.

A distribution is log-normal: median diameter by number and standard deviation of the natural logarithm, nought for one
size. All moments follow from the two by the formula of Hatch and Choate (1929): <d^k> = median^k exp(k^2 s^2 / 2).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple, get_args

import numpy as np

from formulate.errors import UsageError
from formulate.film.apply import Array, Spread

SILICA_DENSITY = 2200.0
"""kg/m3; amorphous silica particles are given as 2100 to 2300, which moves a number by 5 %."""
Of = Literal["number", "mass", "z"]
SHIFTS: dict[str, float] = {"number": 0.0, "mass": 3.0, "z": 5.5}
"""Median by number = stated value times exp(-shift s^2).

The median by mass lies 3 s^2 above that by number (Hatch and Choate). A z-average is the harmonic mean weighted by
scattered light, <d^6>/<d^5>, which lies (36 - 25) / 2 s^2 above.
"""
MOST_NM = 1e5
"""Largest diameter that is taken for a particle of a sol or powder, nm."""


class Sizes(NamedTuple):
    """Sizes of particles in every draw: median diameter by number in m and log standard deviation, both (draws,)."""

    median: Array
    log_sd: Array

    def moment(self, power: int) -> Array:
        """Mean of d^power over the number of particles."""
        values: Array = self.median**power * np.exp(power**2 * self.log_sd**2 / 2)
        return values

    @property
    def surface_mean(self) -> Array:
        """Volume over surface, d32 = <d^3>/<d^2>: the diameter by which mass covers area."""
        values: Array = self.moment(3) / self.moment(2)
        return values

    def share_above(self, diameter: Array, power: int = 0) -> Array:
        """Share of particles larger than ``diameter`` (m); ``power`` 3: the share of their mass."""
        with np.errstate(divide="ignore", invalid="ignore"):
            score = (np.log(self.median) + power * self.log_sd**2 - np.log(np.maximum(diameter, 1e-30))) / self.log_sd
        return np.where(self.log_sd > 0, normal_share(score), (self.median >= diameter * (1 - 1e-12)).astype(float))


class StatedSize(NamedTuple):
    """A size that somebody states: one (``low`` = ``high``), between two, or a log-normal of something."""

    low: float
    high: float
    gsd: float
    of: Of

    @property
    def words(self) -> str:
        """The size as a sentence says it."""
        if self.gsd > 1:
            of = {"z": "z-average"}.get(self.of, f"median by {self.of}")
            return f"{self.low:g} nm, {of}, with a geometric standard deviation of {self.gsd:g}"
        return f"{self.low:g} nm" if self.low == self.high else f"one size between {self.low:g} and {self.high:g} nm"

    def sizes(self, draws: int, chance: np.random.Generator) -> Sizes:
        """Draws of it; between two sizes any is as likely on the log scale, and all particles have it."""
        s = np.log(self.gsd)
        stated = (
            np.exp(chance.uniform(np.log(self.low), np.log(self.high), draws)) if self.high > self.low else self.low
        )
        median = np.broadcast_to(stated * 1e-9 * np.exp(-SHIFTS[self.of] * s**2), (draws,))
        return Sizes(np.array(median), np.full(draws, s))


class Family(NamedTuple):
    """A family of particles that could be meant: median by number and spread, with its share."""

    name: str
    title: str
    median_nm: Spread
    gsd: tuple[float, float]
    share: float


def sizes_of_families(families: Sequence[Family], draws: int, chance: np.random.Generator) -> Sizes:
    """Draws of a mixture of families: in each draw the particles are of one family."""
    shares = np.array([family.share for family in families])
    chosen = chance.choice(len(families), draws, p=shares / shares.sum())
    score, place = chance.standard_normal(draws), chance.random(draws)
    medians = np.array([family.median_nm.at(score) for family in families])
    spreads = np.array([family.gsd[0] + (family.gsd[1] - family.gsd[0]) * place for family in families])
    rows = np.arange(draws)
    return Sizes(medians[chosen, rows] * 1e-9, np.log(spreads[chosen, rows]))


def number_density(mass: Array, sizes: Sizes, density: float = SILICA_DENSITY) -> Array:
    """Particles per m2 of a mass per area (kg/m2): the mass over that of the mean volume, not of the mean diameter."""
    values: Array = mass / (density * np.pi / 6 * sizes.moment(3))
    return values


def shadow(mass: Array, sizes: Sizes, density: float = SILICA_DENSITY) -> Array:
    """Area of all particles seen from above per area of surface: 3 m / (2 rho d32). Above 1 it is no single layer."""
    values: Array = 1.5 * mass / (density * sizes.surface_mean)
    return values


def parse_size(text: str) -> StatedSize:
    """Read ``70``, ``50:100`` or ``lognormal:70:1.3:number`` (or mass, z), in nm.

    Raises
    ------
    UsageError
        For anything else, for sizes that are not above nought, and for a log-normal that does not say of what.
    """
    parts = [part.strip().lower() for part in text.split(":")]
    if parts[0] == "lognormal":
        if len(parts) != 4 or parts[3] not in get_args(Of):
            raise _wrong(
                text,
                "a log-normal must say of what its median is: read wrongly the count is off 1.9 to 3 times at a "
                "spread of 1.3",
                "lognormal:70:1.3:number, or mass, or z",
            )
        median, gsd = _number(parts[1], text), _number(parts[2], text)
        _sensible(median, text)
        if not 1 <= gsd <= 5:
            raise _wrong(
                text, "a geometric standard deviation is 1 (one size) or more, at most 5", "lognormal:70:1.3:number"
            )
        return StatedSize(median, median, gsd, parts[3])  # type: ignore[arg-type]
    if len(parts) > 2:
        raise _wrong(text, "a size is one number, two, or a log-normal", "70, 50:100 or lognormal:70:1.3:number")
    low, high = _number(parts[0], text), _number(parts[-1], text)
    _sensible(low, text)
    _sensible(high, text)
    if low > high:
        raise _wrong(text, "the smaller size goes first", f"{parts[1]}:{parts[0]}")
    return StatedSize(low, high, 1.0, "number")


def _number(part: str, text: str) -> float:
    try:
        value = float(part.removesuffix("nm"))
    except ValueError:
        raise _wrong(text, f'"{part[:20]}" is not a number', "70, 50:100 or lognormal:70:1.3:number") from None
    return value


def _sensible(value: float, text: str) -> None:
    if not 0 < value <= MOST_NM:
        raise _wrong(text, "a diameter is above nought and at most 100000 nm (0.1 mm)", "a diameter in nm, such as 70")


def _wrong(text: str, why: str, right: str) -> UsageError:
    return UsageError(
        f'"{text[:60]}" is no size of particles, {why}: right would be {right}.',
        "the option diameter-nm",
        why,
        right,
        "usage-size",
    )


def normal_share(score: Array) -> Array:
    """Share of a normal distribution below a score."""
    from scipy.special import ndtr

    share: Array = ndtr(score)
    return share
