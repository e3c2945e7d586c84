"""What if: whether an amount is possible, how plausible it is, and what it forces on the others."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from formulate.amounts.bounds import Certain
from formulate.amounts.chains import Levels, Total
from formulate.amounts.draws import Draws, draw
from formulate.amounts.frame import Array
from formulate.amounts.gather import named
from formulate.amounts.linear import Program, Sum
from formulate.amounts.rest import unnamed
from formulate.amounts.statements import bands_as_totals, sums_of
from formulate.errors import UsageError


class Supposed(NamedTuple):
    """What a supposed value does: ``below`` and ``above`` are the shares of the draws to either side of it.

    ``hard`` are the bounds of every item under it, shape (2, n), ``totals`` those of every total, shape (2, totals);
    ``likely`` draws under it, with the same totals first.
    """

    what: str
    value: float
    possible: bool
    below: float | None
    above: float | None
    hard: Array | None
    likely: Draws | None
    totals: Array | None = None


CLOSE_TO = 0.03
"""Relative width at which a supposed value is held while the others are drawn."""
ENOUGH = 1000
"""Effective draws of the others under a supposition."""


def supposed(
    text: str,
    known: Certain,
    draws: Draws | None,
    levels: Levels | None,
    stop: Callable[[], bool] | None = None,
) -> Supposed:
    """Work out NAME=VALUE, NAME a total or an item of the list; without ``draws`` only what is certain.

    Raises
    ------
    UsageError
        For what cannot be read.
    Stopped
        If ``stop()`` turns true while the others are drawn.
    """
    name, sign, written = text.partition("=")
    value = _fraction(written, text) if sign else None
    if value is None:
        raise UsageError(
            f'"{text}" does not suppose anything that can be read.',
            "--suppose",
            "a name, an equals sign and an amount are needed.",
            "write silica=0.02 or silica=2 %.",
            "bad-supposition",
        )
    what = name.strip().lower()
    least, most, series = _what(what, known, draws)
    sums = [
        *sums_of([one for one in known.statements if one.kind == "sum"], len(known.items)),
        Sum(least, most, value, value),
    ]
    program = Program(known.frame, sums)
    below = None if series is None else float((series < value).mean())
    above = None if series is None else float((series > value).mean())
    if not program.places:
        return Supposed(what, value, False, below, above, None, None)
    count = len(known.items)
    each = [(one, one) for one in np.eye(count + 1)[:-1]]
    found = np.array(program.totals([*each, *((total.least, total.most) for total in known.totals.values())])).T
    likely = None
    if draws is not None and levels is not None and value > 0:
        held = [
            *known.totals.values(),
            Total(least, most, value, CLOSE_TO * value),
            *bands_as_totals(known.statements, count),
        ]
        split = unnamed(tuple(known.totals))
        likely = draw(known.frame, levels, draws.seed, held, split, wanted=ENOUGH, stop=stop)
    return Supposed(what, value, True, below, above, found[:, :count], likely, found[:, count:])


def _what(what: str, known: Certain, draws: Draws | None) -> tuple[Array, Array, Array | None]:
    """Weights of a total or an item, and its draws."""
    key = "nonvolatile_110c" if what == "nonvolatile" else what
    if key in known.totals and key != "density_g_per_ml":
        total = known.totals[key]
        column = list(known.totals).index(key)
        return total.least, total.most, None if draws is None else draws.totals[:, column]
    item = named(known.items, what)
    weights = np.eye(len(known.items) + 1)[item]
    return weights, weights, None if draws is None else draws.amounts[:, item]


def _fraction(written: str, text: str) -> float | None:
    written = written.strip().replace(",", ".")
    scale = 0.01 if written.endswith("%") else 1e-6 if written.lower().endswith("ppm") else 1.0
    try:
        value = float(written.rstrip("%").lower().removesuffix("ppm")) * scale
    except ValueError:
        return None
    if not 0 <= value <= 1:
        hint = f"{value:g} %" if scale == 1.0 and 1 < value <= 100 else "a fraction from 0 to 1"
        raise UsageError(
            f'"{text}" supposes more than all of it, or less than nothing.',
            "--suppose",
            "a share of a mixture lies between 0 and 100 %.",
            f"write {hint}.",
            "bad-supposition",
        )
    return value
