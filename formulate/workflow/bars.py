"""Amounts as words and as bars, the same in every face: digits, ranges, and a bar on a log scale."""

from __future__ import annotations

from math import log10

from formulate.workflow.amount_answers import PlausibleRange

BAR = 20
"""Cells of a bar, unless a face has room for more."""
LEAST = 1e-5
"""Mass fraction at the left end of a bar, 10 ppm; the right end is all of it."""
LINE, BLOCK, MARK = "─", "█", "●"
LEFT, RIGHT, ONE = "├", "┤", "│"
"""Ends of the certain range, and a range of one cell."""
TITLES = {
    "nonvolatile_110c": "stays, dried at 110 C",
    "nonvolatile_one_day": "stays, a day in the room",
    "silica": "silica particles",
    "silica_forming": "silica that forms",
    "silicon_as_sio2": "all silicon, as SiO2",
    "film_formers": "film formers",
    "water": "water",
    "voc_eu": "volatile organic, EU",
    "voc_us": "volatile organic, US",
    "density_g_per_ml": "density, g/mL",
}
"""Totals in words."""


def digits(fraction: float) -> str:
    """A mass fraction in per cent, three digits.

    >>> digits(0.258), digits(1), digits(0)
    ('25.8', '100', '0')
    """
    return f"{fraction * 100:.3g}" if fraction > 1e-6 else "0"


def span(low: float, high: float) -> str:
    """Two fractions in per cent; ppm where both are small.

    >>> span(0, 0.25), span(1e-6, 1.5e-5)
    ('0 - 25 %', '1 - 15 ppm')
    """
    if 0 < high < 1e-4:
        return f"{low * 1e6:.3g} - {high * 1e6:.3g} ppm"
    return f"{digits(low)} - {digits(high)} %"


def bar(hard: tuple[float, float], plausible: PlausibleRange | None, cells: int = BAR) -> str:
    """Certain range as a line between two ends, likely range as a block, the middle as a mark; log scale from 10 ppm.

    >>> bar((0.0, 0.25), None, 20)
    '├───────────────┤   '
    """
    drawn = [" "] * cells
    first, last = cell_of(hard[0], cells), cell_of(hard[1], cells)
    drawn[first : last + 1] = LEFT + LINE * (last - first - 1) + RIGHT if last > first else ONE
    if plausible is not None:
        low, high = cell_of(plausible.low, cells), cell_of(plausible.high, cells)
        drawn[low : high + 1] = BLOCK * (high + 1 - low)
        drawn[cell_of(plausible.best, cells)] = MARK
    return "".join(drawn)


def cell_of(fraction: float, cells: int = BAR) -> int:
    """The cell of a bar that a mass fraction falls in; less than 10 ppm falls in the first."""
    share = 1 - log10(max(fraction, LEAST)) / log10(LEAST)
    return max(0, min(cells - 1, round(share * (cells - 1))))
