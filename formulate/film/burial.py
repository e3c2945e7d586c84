"""How far a particle stands out of the film around it, and whether that is seen over the roughness of the surface."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from formulate.film.apply import Array
from formulate.film.layers import JAMMED

TIMES_ROUGHNESS = 5.0
"""A single bump is told from the surface if it is this many times as high as the roughness (root mean square)."""


def film_level(film: Array, shadow: Array) -> Array:
    """Height up to which film fills the gaps between particles: film / (1 - shadow), in the unit of ``film``.

    Parameters
    ----------
    film
        Thickness that the soft matter would have alone.
    shadow
        Area of the particles seen from above over the area; more than a jammed layer is counted as that, because the
        rest lies on top.

    Notes
    -----
    Particles count as upright columns. Spheres leave room under their shoulders, so the true level is lower by up to
    ``shadow`` / 3 of their diameter; a meniscus that climbs them works the other way.
    """
    level: Array = film / (1 - np.minimum(shadow, JAMMED))
    return level


def visible_height(diameter: Array, film: Array, shadow: Array) -> Array:
    """How far particles of a diameter stand out of the film, in its unit; nought if they are buried."""
    return np.maximum(0.0, diameter - film_level(film, shadow))


def stands_out(height: Array, roughness: Array, noise: float = 0.0) -> NDArray[np.bool_]:
    """Whether a bump is told from a surface of this roughness (root mean square) and noise, same unit."""
    return np.asarray(height >= TIMES_ROUGHNESS * np.hypot(roughness, noise))
