"""Water on the film: contact angles of mixed and rough surfaces, and what silica can add to beading at a dose."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from formulate.film.refusals import SurfaceError, positive, within

WATER_TENSION = 72.8
"""Surface tension of water at 20 C: Owens and Wendt 1969, J. Appl. Polym. Sci. 13, 1741. [mN/m]"""

SPHERE_ADDS = 4.0
"""Wetted area that a sphere adds for each unit of its shadow, standing on the film and wetted all round."""

CAP_ADDS = 1.0
"""The same for a half-buried sphere: a hemisphere has twice the area of its base, which it covers."""


class Angle(NamedTuple):
    """A contact angle of water as a range; ``best`` lies within. [deg]"""

    low: float
    best: float
    high: float


class Beading(NamedTuple):
    """What silica can do to the angle of a film. Angles in degrees.

    ``film`` without silica; ``with_silica`` from bare silica that water wets (low) to silica that is coated like the
    film and stands on it (high), best a half-buried coated one; ``most_gain`` is the most that silica adds to the
    film's best angle; ``cover_for_ten`` the cover that adds ten degrees at the very best; ``air`` whether air can
    stay between the particles, without which no angle much above the film's own is possible.
    """

    film: Angle
    with_silica: Angle
    most_gain: float
    cover_for_ten: float | None
    air: bool


def wenzel(angle: float, roughness: float) -> float:
    """Contact angle on a rough surface of one kind, wetted everywhere. [deg]

    :param angle: on the smooth surface. [deg]
    :param roughness: true area over its shadow, 1 or more. [1]
    :returns: 0 or 180 where the formula leaves the range of a cosine: there the surface is wetted or keeps air.
    :raises SurfaceError: angle outside 0 to 180, roughness below 1.

    Source: Wenzel 1936, Ind. Eng. Chem. 28, 988: cos = r cos.
    """
    _angle(angle)
    within("The roughness", roughness, 1, np.inf)
    return _degrees(roughness * _cos(angle))


def cassie_baxter(angle: float, solid: float) -> float:
    """Contact angle on tops with air between them. [deg]

    :param angle: on the smooth solid. [deg]
    :param solid: part of the drop's base that rests on solid, 0 to 1. [1]

    Source: Cassie and Baxter 1944, Trans. Faraday Soc. 40, 546: cos = f (cos + 1) - 1.
    """
    _angle(angle)
    _part("The solid fraction", solid)
    return _degrees(solid * (_cos(angle) + 1) - 1)


def patches(angles: Sequence[float], parts: Sequence[float]) -> float:
    """Contact angle on a smooth surface of several kinds. [deg]

    :param angles: on each kind, shape (n,). [deg]
    :param parts: of the area, shape (n,), summing to 1. [1]

    Source: Cassie 1948, Discuss. Faraday Soc. 3, 11: the mean of the cosines by area.
    """
    if len(angles) != len(parts) or not angles:
        raise SurfaceError.outside("The number of parts", len(parts), 1, len(angles))
    for angle, part in zip(angles, parts, strict=True):
        _angle(angle)
        _part("A part of the surface", part)
    if abs(sum(parts) - 1) > 1e-9:
        raise SurfaceError.outside("The sum of the parts", sum(parts), 1, 1)
    return _degrees(sum(part * _cos(angle) for angle, part in zip(angles, parts, strict=True)))


def young(solid: float, solid_liquid: float, liquid: float = WATER_TENSION) -> float:
    """Contact angle from the three tensions; 0 where the liquid spreads. [deg]

    :param solid: surface energy of the solid. [mJ/m2]
    :param solid_liquid: of the boundary of solid and liquid. [mJ/m2]
    :param liquid: surface tension of the liquid. [mN/m]

    Source: Young 1805, Phil. Trans. R. Soc. 95, 65: cos = (solid - solid_liquid) / liquid.
    """
    positive("The surface energy", solid, "mJ/m2")
    positive("The surface tension", liquid, "mN/m")
    within("The energy of the boundary", solid_liquid, 0, np.inf, "mJ/m2")
    return _degrees((solid - solid_liquid) / liquid)


def from_parts(disperse: float, polar: float) -> float:
    """Contact angle of water on a solid from the two parts of its surface energy. [deg]

    :param disperse: disperse part of the solid's surface energy. [mJ/m2]
    :param polar: polar part. [mJ/m2]

    Source: Owens and Wendt 1969, J. Appl. Polym. Sci. 13, 1741, with water 21.8 + 51.0 mN/m: boundary energy by
    geometric means, then Young's equation.
    """
    for value in (disperse, polar):
        within("A part of the surface energy", value, 0, np.inf, "mJ/m2")
    gained = 2 * (np.sqrt(disperse * 21.8) + np.sqrt(polar * 51.0))
    return _degrees(gained / WATER_TENSION - 1)


def from_energy(energy: float) -> float:
    """Contact angle of water on a smooth solid of which only the surface energy is known. [deg]

    A rough stand-in where no angle was published: within 15 degrees of the published one for repellent solids up to
    32 mJ/m2 (compared here), worse above. Critical surface tensions, which tables often print, are not quite surface
    energies.

    :param energy: surface energy of the solid, 5 to 72.8. [mJ/m2]

    Source: Li and Neumann 1992, J. Colloid Interface Sci. 148, 190 (equation of state, beta 0.0001247 m4/mJ2; from
    memory).
    """
    within("The surface energy", energy, 5, WATER_TENSION, "mJ/m2")
    pull = 2 * np.sqrt(energy / WATER_TENSION) * np.exp(-1.247e-4 * (WATER_TENSION - energy) ** 2)
    return _degrees(pull - 1)


def film_angle(film: Angle, covered: float, ground: Angle) -> Angle:
    """Contact angle where the film covers only a part and the bare ground shows between. [deg]

    :param film: on the whole film.
    :param covered: part of the surface under film, 0 to 1. [1]
    :param ground: on the bare ground (glass in room air 25 to 50; from memory).
    """
    _part("The part under film", covered)
    mixed = (patches((one, other), (covered, 1 - covered)) for one, other in zip(film, ground, strict=True))
    return Angle(*mixed)


def keeps_air(angle: float, solid: float, roughness: float) -> bool:
    """Whether air between the tops is the state of lower energy.

    :param angle: on the smooth solid. [deg]
    :param solid: part of the area that is tops, below 1. [1]
    :param roughness: true area over its shadow. [1]

    Source: Bico, Thiele and Quere 2002, Colloids Surf. A 206, 41: cos < (f - 1) / (r - f). Above that angle air
    may be caught for a while and is lost under pressure.
    """
    _angle(angle)
    _part("The part that is tops", solid)
    if roughness <= solid:
        return False
    return _cos(angle) < (solid - 1) / (roughness - solid)


BARE_SILICA = Angle(0, 20, 40)
"""Bare silica: below 6 degrees where freshly oxidised (PMC2784167 table 1), up to 40 after room air (from memory)."""


def beading(film: Angle, covered: float, silica: Angle = BARE_SILICA) -> Beading:
    """What particles on a film can do to the angle of water.

    :param film: contact angle of the film without them.
    :param covered: part of the surface in the particles' shadow, 0 to 0.9069. [1]
    :param silica: contact angle of bare silica.
    :returns: range of the angle with them, the most they can add, the cover that would add ten degrees.
    :raises SurfaceError: angles outside 0 to 180 or not in order, cover outside its range.

    Bare silica on the surface lowers the angle (Cassie 1948). Silica under a skin of the film former adds area
    (Wenzel 1936): roughness 1 + 4 cover for spheres standing free, 1 + cover for half-buried ones. Geometry of equal
    spheres that do not touch; at close cover neighbours hinder each other and the gain is less.
    """
    for angle in (*film, *silica):
        _angle(angle)
    within("The best angle of the film", film.best, film.low, film.high, "deg")
    within("The cover of a single layer", covered, 0, 0.9069)
    standing, buried = 1 + SPHERE_ADDS * covered, 1 + CAP_ADDS * covered
    reached = [
        patches((film.low, silica.low), (1 - covered, covered)),
        wenzel(film.low, standing),
        wenzel(film.high, standing),
    ]
    with_silica = Angle(min(reached), wenzel(film.best, buried), max(*reached, film.high))
    gain = max(0.0, wenzel(film.best, standing) - film.best)
    return Beading(film, with_silica, gain, cover_for(film.best, 10), keeps_air(film.best, covered, standing))


def cover_for(angle: float, gain: float) -> float | None:
    """Cover by free-standing coated particles that raises the angle by ``gain`` degrees; None where none does.

    Inverse of Wenzel's formula with roughness 1 + 4 cover: (cos(angle + gain) / cos(angle) - 1) / 4.
    """
    _angle(angle)
    positive("The gain", gain, "deg")
    if angle <= 90 or angle + gain > 180:
        return None
    cover = (_cos(angle + gain) / _cos(angle) - 1) / SPHERE_ADDS
    return cover if cover <= 0.9069 else None


def _cos(angle: float) -> float:
    return float(np.cos(np.radians(angle)))


def _degrees(cosine: float) -> float:
    return float(np.degrees(np.arccos(np.clip(cosine, -1, 1))))


def _angle(angle: float) -> None:
    within("The contact angle", angle, 0, 180, "deg")


def _part(what: str, part: float) -> None:
    within(what, part, 0, 1)
