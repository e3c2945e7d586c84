"""How a product gets onto a surface: wet mass per area, and what fraction of it is left after wiping and buffing.

Inside: SI units and arrays over draws, shape (draws,). Figures of an application are given as ranges that hold nine in
ten, in the unit of the table, and are taken as log-normal on each side of the typical value.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

NINE_IN_TEN = 1.6448536269514722
"""Half width, in standard deviations, of the range that holds nine in ten of a normal distribution."""
GRAVITY = 9.80665
"""m/s2, standard value (CGPM 1901)."""
MOST_CAPILLARY = 0.01
"""Capillary number up to which the formula of Landau and Levich is used."""
KEPT_TOGETHER = 0.5
"""Correlation of the kept fractions of fluid, wax and particles, on the log scale: judged, not measured."""


class Spread(NamedTuple):
    """A positive quantity: nine in ten lie between ``low`` and ``high``, half below ``typical``."""

    low: float
    typical: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Spread:
        """A value that is taken as known."""
        return cls(value, value, value)

    @property
    def is_exact(self) -> bool:
        """Whether nothing is left open."""
        return self.low == self.high

    def at(self, score: Array) -> Array:
        """Values at normal scores: log-normal on each side of the typical value."""
        above = np.log(self.high / self.typical) / NINE_IN_TEN
        below = np.log(self.typical / self.low) / NINE_IN_TEN
        values: Array = self.typical * np.exp(np.where(score > 0, above, below) * score)
        return values


class Application(NamedTuple):
    """A way of putting a product on. ``figures`` by quantity, in the unit of the table; see ``application_figures``."""

    name: str
    title: str
    model: str
    figures: Mapping[str, Spread]
    whys: Mapping[str, str]


def landau_levich(speed: Array, viscosity: Array, tension: Array, density: float) -> Array:
    """Film that a plate drags out of a bath, in m: 0.944 l (U eta / sigma)^(2/3), l = sqrt(sigma / (rho g)).

    Parameters
    ----------
    speed, viscosity, tension
        m/s, Pa s, N/m.
    density
        kg/m3.

    Notes
    -----
    For a clean Newtonian liquid, a vertical plate and capillary numbers up to about 0.01 (:data:`MOST_CAPILLARY`);
    above that gravity thins the film and the formula gives too much. Surfactant thickens it by up to 4^(2/3).
    """
    length = np.sqrt(tension / (density * GRAVITY))
    thickness: Array = 0.944 * length * (speed * viscosity / tension) ** (2 / 3)
    return thickness


def spun_film(turns: Array, viscosity: Array, evaporation: Array, density: float) -> Array:
    """Liquid left on a turntable when evaporation takes over from flow, in m: (3 eta E / (2 rho omega^2))^(1/3).

    Parameters
    ----------
    turns, viscosity, evaporation
        Turns per second, Pa s, m/s of liquid that evaporates.
    density
        kg/m3.

    Notes
    -----
    Meyerhofer's estimate for a dilute liquid; nothing more flows off from then on, so all solids in it stay.
    """
    omega = 2 * np.pi * turns
    thickness: Array = (3 * viscosity * evaporation / (2 * density * omega**2)) ** (1 / 3)
    return thickness


def wet_mass(application: Application, draws: int, density: float, chance: np.random.Generator) -> Array:
    """Wet mass per area put on in one pass, g/m2, shape (draws,). ``density`` of the product in kg/m3."""

    def drawn(quantity: str) -> Array:
        return application.figures[quantity].at(chance.standard_normal(draws))

    if "wet" in application.figures:
        return drawn("wet")
    if application.model == "landau-levich":
        thickness = landau_levich(
            drawn("speed") / 1e3, drawn("viscosity") / 1e3, drawn("surface_tension") / 1e3, density
        )
    else:
        thickness = spun_film(drawn("speed") / 60, drawn("viscosity") / 1e3, drawn("evaporation") / 1e6, density)
    return thickness * density * 1e3


def kept_fractions(
    spread: Spread, kinds: Sequence[str], draws: int, chance: np.random.Generator, together: float = KEPT_TOGETHER
) -> dict[str, Array]:
    """Fraction left after wiping and buffing, for each kind of component; at most 1.

    A cloth takes fluid, wax and particles differently, but a thorough wipe takes more of each: all have the same
    distribution and the correlation ``together`` on the log scale.
    """
    common = chance.standard_normal(draws)
    own = {kind: chance.standard_normal(draws) for kind in kinds}
    return {
        kind: np.minimum(spread.at(np.sqrt(together) * common + np.sqrt(1 - together) * score), 1.0)
        for kind, score in own.items()
    }
