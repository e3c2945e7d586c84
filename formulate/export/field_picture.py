"""A simulated field of view as a picture: characters for the terminal, SVG for reports. Both say they are simulated.

The pictures stand here and not in a face: both faces and the written report show the same ones, and what draws knows
nothing of how the field came about.
"""

from __future__ import annotations

from typing import NamedTuple
from xml.sax.saxutils import escape

import numpy as np
import numpy.typing as npt

from formulate.errors import FormulateError
from formulate.export.canvas import ACROSS, DOWN, bar, length_words, round_length, rows, wrapped
from formulate.film.field import Field
from formulate.film.instrument import Shown

Array = npt.NDArray[np.float64]

MOST_DRAWN = 20_000
"""Circles in one SVG: some two megabytes. More are shown in part, and the picture says so."""

LEAST_CELLS, LEAST_LINES = 12, 5


class PictureError(FormulateError):
    """A picture that cannot be drawn in the room it was given."""

    reference = "picture"


class _View(NamedTuple):
    """The discs that show in a window from the lower left corner, with those reaching in from the far edges. [nm]"""

    x: Array
    y: Array
    radius: Array
    width: float
    height: float

    @property
    def particles(self) -> int:
        """Discs whose middle lies in the window."""
        return int(((self.x < self.width) & (self.x >= 0) & (self.y < self.height) & (self.y >= 0)).sum())


def field_text(
    field: Field, cells: int, lines: int, *, ascii_only: bool = False, window_nm: float | None = None
) -> str:
    """The field in characters, to scale, with a scale bar and a line that says it is simulated.

    :param field: what to draw; a disc narrower than a dot is drawn as one dot, and the caption says so.
    :param cells: width in character cells, at least 12.
    :param lines: height in lines, at least 5, bar and caption among them.
    :param ascii_only: no letters beyond ASCII.
    :param window_nm: draw only so much of the field, from its lower left corner. [nm]
    :returns: plain text of at most ``lines`` lines, none longer than ``cells``.
    :raises PictureError: too little room, or a window that is not above zero.
    """
    _room(cells, lines)
    view = _view(field, window_nm)
    below = 1
    for _ in range(3):  # the caption says the size of a dot, and a dot is as large as the caption leaves room for
        nm_per_dot = max(view.width / (cells * ACROSS), view.height / ((lines - 1 - below) * DOWN))
        caption = _caption(view, cells, nm_per_dot)
        if len(caption) <= below:
            break
        below = min(len(caption), lines - 3)
    down = max(1, round(view.height / nm_per_dot / DOWN)) * DOWN
    across = max(1, round(view.width / nm_per_dot / ACROSS)) * ACROSS
    dots = _disc_dots(view, down, across, nm_per_dot)
    return "\n".join([*rows(dots, ascii_only), _scale(nm_per_dot, cells, ascii_only), *caption[:below]])


def marks_text(shown: Shown, cells: int, lines: int, *, ascii_only: bool = False) -> str:
    """What an instrument would mark in its image, in characters, to scale; arguments as in :func:`field_text`."""
    _room(cells, lines)
    marked = shown.image > shown.threshold
    width, height = marked.shape[1] * shown.pixel_nm[0], marked.shape[0] * shown.pixel_nm[1]
    nm_per_dot = max(width / (cells * ACROSS), height / ((lines - 2) * DOWN))
    down, across = max(DOWN, round(height / nm_per_dot)), max(ACROSS, round(width / nm_per_dot))
    down, across = down // DOWN * DOWN, across // ACROSS * ACROSS
    dots = np.zeros((down, across), dtype=bool)
    row, column = np.nonzero(marked)
    dots[down - 1 - row * down // marked.shape[0], column * across // marked.shape[1]] = True
    caption = wrapped("simulated image, what would be marked", cells)[:1]
    return "\n".join([*rows(dots, ascii_only), _scale(nm_per_dot, cells, ascii_only), *caption])


def field_svg(field: Field, title: str, width_px: int = 480, window_nm: float | None = None) -> str:
    """The field as an SVG of its own, to scale, with a scale bar and the word simulation in it.

    :param field: what to draw.
    :param title: any text; it is escaped, and letters that XML forbids are left out.
    :param width_px: width on the page, 100 to 4000. [px]
    :param window_nm: draw only so much of the field, from its lower left corner. [nm]
    :returns: one ``svg`` element without scripts, styles or references.
    :raises PictureError: a width outside its range, or a window that is not above zero.
    """
    if not 100 <= width_px <= 4000:
        raise PictureError(
            f"A picture {width_px} px wide cannot be drawn.", "picture", "it would not be seen", "take 100 to 4000 px"
        )
    view = _view(field, window_nm)
    said = f"Simulation, not a photograph: {view.particles} particles"
    if len(view.x) > MOST_DRAWN:
        part = float(np.sqrt(MOST_DRAWN / len(view.x)))
        view = _view(field, min(view.width, view.height) * part * 0.95)
        said = f"Simulation, not a photograph: part of the field, {view.particles} particles"
    said += f", {length_words(round(view.width))} by {length_words(round(view.height))}"
    scale = width_px / view.width
    high = view.height * scale
    length = round_length(view.width / 4)
    heading = escape(_printable(title))
    circles = "".join(
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius:.2f}"/>'
        for x, y, radius in zip(view.x * scale, high - view.y * scale, view.radius * scale, strict=True)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width_px}" height="{high + 60:.0f}" '
        f'viewBox="0 0 {width_px} {high + 60:.0f}"><title>{heading}</title><desc>{said}</desc>'
        f'<svg width="{width_px}" height="{high:.1f}" viewBox="0 0 {width_px} {high:.1f}">'
        f'<rect width="{width_px}" height="{high:.1f}" fill="#f4f4f4"/>'
        f'<g fill="#335577" fill-opacity="0.8">{circles}</g></svg>'
        f'<path d="M2 {high + 8:.1f}v8m0 -4h{length * scale:.1f}m0 -4v8" stroke="#000" fill="none"/>'
        f'<g font-family="sans-serif" font-size="12"><text x="2" y="{high + 32:.0f}">{length_words(length)}</text>'
        f'<text x="2" y="{high + 50:.0f}">{said}</text></g></svg>'
    )


def _view(field: Field, window_nm: float | None) -> _View:
    if window_nm is not None and not window_nm > 0:
        raise PictureError(
            f"A window of {window_nm:g} nm shows nothing.", "window", "it must be wider than nothing", "leave it out"
        )
    width = min(field.width, window_nm or np.inf)
    height = min(field.height, window_nm or np.inf)
    radius = field.diameter / 2
    parts = []
    for across in (-field.width, 0.0, field.width):
        for up in (-field.height, 0.0, field.height):
            x, y = field.x + across, field.y + up
            inside = (x > -radius) & (x < width + radius) & (y > -radius) & (y < height + radius)
            parts.append((x[inside], y[inside], radius[inside]))
    x, y, reach = (np.concatenate(column) for column in zip(*parts, strict=True))
    return _View(x, y, reach, float(width), float(height))


def _disc_dots(view: _View, down: int, across: int, nm_per_dot: float) -> npt.NDArray[np.bool_]:
    """Dots whose middle a disc covers, and the nearest dot of each disc that covers none."""
    dots = np.zeros((down, across), dtype=bool)
    x, y, radius = view.x / nm_per_dot, view.y / nm_per_dot, view.radius / nm_per_dot
    column, row = np.floor(x).astype(np.int64), np.floor(y).astype(np.int64)
    widest = int(np.ceil(radius.max())) if len(radius) else 0
    for step_up in range(-widest, widest + 1):
        for step in range(-widest, widest + 1):
            aside, above = column + step + 0.5 - x, row + step_up + 0.5 - y
            covers = aside * aside + above * above <= radius * radius
            if step == step_up == 0:
                covers = np.ones_like(covers)
            at, line = (column + step)[covers], (row + step_up)[covers]
            inside = (at >= 0) & (at < across) & (line >= 0) & (line < down)
            dots[down - 1 - line[inside], at[inside]] = True
    return dots


def _caption(view: _View, cells: int, nm_per_dot: float) -> list[str]:
    """Says that this is simulated, and what a dot is."""
    said = f"simulated, {view.particles} particles; a dot is {_short(nm_per_dot)}"
    if len(view.radius) and 2 * float(view.radius.max()) < nm_per_dot:
        said += ", wider than a particle"
    return wrapped(said, cells)


def _short(nm: float) -> str:
    """A length with two or three figures."""
    if nm >= 1000:
        return f"{nm / 1000:.2g} um"
    return f"{nm:.0f} nm" if nm >= 10 else f"{nm:.2g} nm"


def _scale(nm_per_dot: float, cells: int, ascii_only: bool) -> str:
    """A bar of a round length, with that length."""
    nm_per_cell = nm_per_dot * ACROSS
    length = round_length(nm_per_cell * max(3, cells // 3))
    line = f"{bar(round(length / nm_per_cell), ascii_only)} {length_words(length)}"
    return line[:cells]


def _room(cells: int, lines: int) -> None:
    if cells < LEAST_CELLS or lines < LEAST_LINES:
        raise PictureError(
            f"{cells} by {lines} cells are too few for a picture.",
            "picture",
            "bar and caption alone need as much",
            f"give at least {LEAST_CELLS} by {LEAST_LINES}",
        )


def _printable(text: str) -> str:
    """Text without letters that XML forbids."""
    return "".join(letter for letter in text[:200] if letter.isprintable())
