"""What an instrument would show of a simulated field, and what would be counted in it by a stated rule."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from formulate.film.field import Field
from formulate.film.refusals import SurfaceError, within

Array = npt.NDArray[np.float64]

COUNTING_RULE = (
    "connected bright areas (corners count as touching) of at least {least} pixels; those that touch the right or "
    "upper edge are left to the next field"
)

SURE = 5.0
"""Times the noise that an image must stand out to be marked: Rose 1948, J. Opt. Soc. Am. 38, 196 (from memory)."""

FULL_WIDTH = 2 * float(np.sqrt(2 * np.log(2)))
"""Full width at half height of a normal curve, in standard deviations."""


class Afm(NamedTuple):
    """A scanning tip. Lengths in nm.

    Radius of its end; root mean square roughness of the bare surface and the distance over which its hills fade to
    1/e; noise of the height; pixels along the longer side. Usual ones: ``instruments.csv``.
    """

    tip_nm: float
    roughness_nm: float
    hill_nm: float
    noise_nm: float
    pixels: int

    @property
    def threshold(self) -> float:
        """Height above the film from which something counts: five times roughness and noise together. [nm]"""
        return SURE * float(np.hypot(self.roughness_nm, self.noise_nm))


class Sem(NamedTuple):
    """An electron microscope. Lengths in nm.

    Full width of the beam at half its height; metal laid on for conduction; noise as a part of full contrast; pixels
    along the longer side. Usual ones: ``instruments.csv``.
    """

    beam_nm: float
    metal_nm: float
    noise: float
    pixels: int

    @property
    def threshold(self) -> float:
        """Part of full contrast from which a pixel counts: half, or five times the noise."""
        return max(0.5, SURE * self.noise)


class Shown(NamedTuple):
    """An image, shape (rows, columns), row 0 at the bottom; sides of a pixel [nm]; what marks a pixel."""

    image: Array
    pixel_nm: tuple[float, float]
    threshold: float


class Counted(NamedTuple):
    """What is counted in one image: areas marked, the covered fraction as marked, and by which rule."""

    areas: int
    covered: float
    rule: str


def dilated(field: Field, tip_nm: float, film_nm: float, pixels: int) -> Array:
    """Height of a tip scanned over spheres that stand on the ground, above the film between them, without noise. [nm]

    The tip ends in a sphere; a sphere over a sphere is a larger sphere, so the grey dilation has a closed form for
    each particle, and that of all is the highest. Neither image nor ground is cut into pixels for it.
    Width at the ground: 4 sqrt(tip radius * particle radius) for a tip blunter than the particle, else the sum of
    both diameters, as the shaft meets the widest part.

    :param tip_nm: radius of the tip; 0 gives the surface itself seen from above. [nm]
    :param film_nm: thickness of the film that fills the space between the particles. [nm]
    :param pixels: pixels along the longer side.
    :returns: shape (rows, columns).
    """
    columns, rows, across, up = _grid(field, pixels)
    height = np.zeros((rows, columns))
    for diameter in np.unique(field.diameter):
        if diameter <= film_nm:
            continue
        radius = diameter / 2
        reach = 2 * np.sqrt(tip_nm * radius) if tip_nm >= radius else tip_nm + radius
        chosen = field.diameter == diameter
        top = tip_nm + radius

        def profile(away: Array, top: float = top, rest: float = radius - tip_nm) -> Array:
            return np.asarray(np.sqrt(np.maximum(top * top - away * away, 0)) + rest)

        _stamp(height, field.x[chosen], field.y[chosen], reach, (across, up), profile)
    return np.asarray(np.maximum(height - film_nm, 0))


def afm(field: Field, instrument: Afm, film_nm: float, seed: int) -> Shown:
    """The height image of a scanning tip: dilation by the tip, a rough ground, and noise. [nm]

    :param film_nm: thickness of the film around the particles. [nm]
    :param seed: whole number from which roughness and noise are drawn.
    :raises SurfaceError: a radius, roughness, noise or thickness is negative, or the image is not 16 to 4096 pixels.
    """
    from scipy.ndimage import gaussian_filter

    for what, value in zip(("tip", "roughness", "hills", "noise"), instrument, strict=False):
        within(f"The {what} of the instrument", value, 0, np.inf, "nm")
    within("The film", film_nm, 0, np.inf, "nm")
    image = dilated(field, instrument.tip_nm, film_nm, instrument.pixels)
    across, up = field.width / image.shape[1], field.height / image.shape[0]
    chance = np.random.default_rng([seed, 2])
    if instrument.roughness_nm:
        hills = chance.standard_normal(image.shape, dtype=np.float32)
        if instrument.hill_nm:
            hills = gaussian_filter(hills, (instrument.hill_nm / up / 2, instrument.hill_nm / across / 2), mode="wrap")
        image = image + hills * float(instrument.roughness_nm / hills.std())
    if instrument.noise_nm:
        image = image + chance.standard_normal(image.shape, dtype=np.float32) * instrument.noise_nm
    return Shown(image, (across, up), instrument.threshold)


def sem(field: Field, instrument: Sem, film_nm: float, seed: int) -> Shown:
    """The brightness image of an electron microscope: metal makes particles wider, the beam blurs, noise is added.

    Contrast is by what stands out of the film: a particle below its surface is not seen. Metal levels what is lower
    than itself: contrast is taken as height / (height + metal), a judged form; common practice, no source.

    :param film_nm: thickness of the film around the particles. [nm]
    :param seed: whole number from which the noise is drawn.
    :raises SurfaceError: a length or the noise is negative, or the image is not 16 to 4096 pixels.
    """
    from scipy.ndimage import gaussian_filter

    for what, value in zip(("beam", "metal", "noise"), instrument, strict=False):
        within(f"The {what} of the instrument", value, 0, np.inf, "nm")
    within("The film", film_nm, 0, np.inf, "nm")
    columns, rows, across, up = _grid(field, instrument.pixels)
    image = np.zeros((rows, columns))
    pixel = float(np.sqrt(across * up))
    for diameter in np.unique(field.diameter):
        if diameter <= film_nm:
            continue
        deep = max(film_nm - diameter / 2, 0.0)  # what stands out is a cap narrower than the particle
        radius = float(np.sqrt(diameter * diameter / 4 - deep * deep)) + instrument.metal_nm
        proud = diameter - film_nm
        whole = min(1.0, np.pi * radius * radius / (pixel * pixel)) * proud / (proud + instrument.metal_nm)
        chosen = field.diameter == diameter

        def profile(away: Array, radius: float = radius, whole: float = whole) -> Array:
            return np.asarray(whole * np.clip((radius - away) / pixel + 0.5, 0, 1))

        _stamp(image, field.x[chosen], field.y[chosen], radius + pixel / 2, (across, up), profile)
    if instrument.beam_nm:
        sigma = instrument.beam_nm / FULL_WIDTH
        image = gaussian_filter(image, (sigma / up, sigma / across), mode="wrap")
    if instrument.noise:
        image = image + _grain(image.shape, seed) * instrument.noise
    return Shown(image, (across, up), instrument.threshold)


def count(shown: Shown, least_pixels: int = 4) -> Counted:
    """Count what stands out in an image.

    Edge rule: an area at the left or lower edge counts, one at the right or upper edge does not, so that of many
    fields side by side each area is counted once (Gundersen 1977, J. Microsc. 111, 219).

    :param least_pixels: smaller areas are taken for noise.
    """
    from scipy.ndimage import label

    marked = shown.image > shown.threshold
    areas, found = label(marked, structure=np.ones((3, 3)))
    sizes = np.bincount(areas.ravel(), minlength=found + 1)
    counts = sizes >= least_pixels
    counts[0] = False
    counts[areas[-1]] = False
    counts[areas[:, -1]] = False
    return Counted(int(counts.sum()), float(marked.mean()), COUNTING_RULE.format(least=least_pixels))


def seen(field: Field, instrument: Afm | Sem, film_nm: float, seed: int, least_pixels: int = 4) -> Counted:
    """What would be counted in a field by an instrument; see :func:`afm`, :func:`sem` and :func:`count`."""
    if isinstance(instrument, Afm):
        return count(afm(field, instrument, film_nm, seed), least_pixels)
    return count(sem(field, instrument, film_nm, seed), least_pixels)


class Expected(NamedTuple):
    """Mean and standard deviation of what is counted in a field, the mean of what lies in it, and fields simulated."""

    counted: float
    scatter: float
    present: float
    fields: int


def expected(fields: Sequence[Field], instrument: Afm | Sem, film_nm: float, seed: int) -> Expected:
    """What an instrument counts on average in fields of one kind (as of several seeds), beside what lies in them.

    :raises SurfaceError: there is no field.
    """
    if not fields:
        raise SurfaceError.not_positive("The number of fields", 0, "")
    counts = np.array([seen(field, instrument, film_nm, seed + number).areas for number, field in enumerate(fields)])
    present = float(np.mean([len(field.x) for field in fields]))
    return Expected(float(counts.mean()), float(counts.std(ddof=min(1, len(fields) - 1))), present, len(fields))


def _grain(shape: tuple[int, ...], seed: int) -> npt.NDArray[np.float32]:
    return np.random.default_rng([seed, 3]).standard_normal(shape, dtype=np.float32)


def _grid(field: Field, pixels: int) -> tuple[int, int, float, float]:
    """Columns, rows and the sides of a pixel."""
    within("The number of pixels", pixels, 16, 4096)
    side = max(field.width, field.height) / pixels
    columns, rows = max(4, round(field.width / side)), max(4, round(field.height / side))
    return columns, rows, field.width / columns, field.height / rows


def _stamp(
    image: Array,
    x: Array,
    y: Array,
    reach: float,
    pixel: tuple[float, float],
    profile: Callable[[Array], Array],
) -> None:
    """Raise the image to ``profile(distance)`` around each centre, round the edges."""
    across, up = pixel
    rows, columns = image.shape
    wide, tall = int(np.ceil(reach / across)), int(np.ceil(reach / up))
    column, row = np.floor(x / across).astype(np.int64), np.floor(y / up).astype(np.int64)
    flat = image.ravel()
    for step_up in range(-min(tall, rows // 2), min(tall, rows // 2) + 1):
        above = (row + step_up + 0.5) * up - y
        line = (row + step_up) % rows * columns
        for step in range(-min(wide, columns // 2), min(wide, columns // 2) + 1):
            aside = (column + step + 0.5) * across - x
            away = np.hypot(aside, above)
            within = away <= reach
            at = (line + (column + step) % columns)[within]
            np.maximum.at(flat, at, profile(away[within]))
