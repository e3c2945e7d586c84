"""What is said of the amounts, statement by statement, so that a contradiction can be traced to those that clash."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

import numpy as np

from formulate.amounts.chains import Total
from formulate.amounts.frame import SLACK, Frame, envelope
from formulate.amounts.linear import Program, Sum

Kind = Literal["amount", "sum", "order", "line", "complete", "total"]


class Statement(NamedTuple):
    """One statement about the amounts of a list of n items.

    ``amount``: limits of one item. ``sum``: limits of several together. ``order``: ``items`` stand in falling order
    above ``low``. ``line``: exactly ``place`` items stand above the one-percent line. ``complete``: nothing is unnamed.
    ``total``: a measured weighted sum. ``says`` is the sentence a person is shown, ``why`` the id of its reason.
    """

    kind: Kind
    says: str
    why: str
    items: tuple[int, ...] = ()
    low: float = 0.0
    high: float = 1.0
    place: int | None = None
    total: Total | None = None


LIMITS_OF_A_MEASUREMENT = 4.0
"""Standard uncertainties beyond which a measured total counts as outside what is possible."""


def frame_of(statements: Sequence[Statement], count: int) -> Frame:
    """The limits that statements set; sums and totals apart, which a frame does not hold."""
    lower, upper = np.zeros(count), np.ones(count)
    order: tuple[int, ...] = ()
    line, rest, place = 0.01, (0.0, 1.0), None
    for one in statements:
        if one.kind == "amount":
            item = one.items[0]
            lower[item], upper[item] = max(lower[item], one.low), min(upper[item], one.high)
        elif one.kind == "order":
            order, line = one.items, one.low
        elif one.kind == "line":
            place = one.place
        elif one.kind == "complete":
            rest = (0.0, 0.0)
    return Frame(lower, upper, order, line, rest, place)


def sums_of(statements: Sequence[Statement], count: int) -> list[Sum]:
    """Limits on several items together as totals: the middle of the band, give or take a quarter of it."""
    sums = []
    for one in statements:
        if one.kind == "sum":
            weights = np.zeros(count + 1)
            weights[list(one.items)] = 1.0
            sums.append(Sum(weights, weights, one.low, one.high))
        elif one.total is not None and one.total.measured is not None:
            width = LIMITS_OF_A_MEASUREMENT * one.total.uncertainty
            sums.append(Sum(one.total.least, one.total.most, one.total.measured - width, one.total.measured + width))
    return sums


def bands_as_totals(statements: Sequence[Statement], count: int) -> list[Total]:
    """Limits on several items together as totals that draws must keep."""
    return [
        Total(one.least, one.most, band=(one.low, one.high))
        for one in sums_of([one for one in statements if one.kind == "sum"], count)
    ]


def is_possible(statements: Sequence[Statement], count: int) -> bool:
    """Whether any composition agrees with all statements."""
    known, sums = frame_of(statements, count), sums_of(statements, count)
    if (known.lower > known.upper + SLACK).any():
        return False
    return bool(envelope(known).fits.any()) if not sums else bool(Program(known, sums).places)


def clash(statements: Sequence[Statement], count: int) -> tuple[Statement, ...]:
    """A set of statements that cannot all hold, none of which can be left out; empty if all agree.

    A deletion filter: each statement is left out in turn and stays out if the others still clash (Chinneck and
    Dravnieks 1991, doi 10.1287/ijoc.3.2.157). That everything adds up to 100 % is never left out.
    """
    if is_possible(statements, count):
        return ()
    kept = list(statements)
    for one in statements:
        without = [other for other in kept if other is not one]
        if not is_possible(without, count):
            kept = without
    return tuple(kept)
