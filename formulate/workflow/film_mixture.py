"""From draws of a composition to what of it can stay on a surface, part by part."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from formulate.amounts.bounds import Certain
from formulate.amounts.draws import Draws
from formulate.amounts.frame import Array
from formulate.amounts.item import Item
from formulate.film.deposit import Mixture
from formulate.film.particles import SILICA_DENSITY, StatedSize

SOLIDS = frozenset({"abrasive", "mineral", "silica"})
"""Classes whose lines are particles, as a cloth takes them."""
_SIZE = re.compile(r"(?<![\d.,])(\d{1,4}(?:[.,]\d)?)\s{0,2}(?:nm\b|nanomet)", re.IGNORECASE)
NAMED_WITHIN = 1.2
"""A size in a name is taken to hold within this factor: it is nominal."""


def kind_of(item: Item) -> str:
    """How a cloth takes a line: fluid, wax or particles."""
    if SOLIDS & set(item.classes):
        return "particles"
    return "wax" if "wax" in item.classes else "fluid"


def size_in_names(items: Sequence[Item], silica: Sequence[bool]) -> tuple[StatedSize, Item] | None:
    """A size printed in the name of a silica line ('colloidal silica 20 nm')."""
    for item, is_silica in zip(items, silica, strict=True):
        match = _SIZE.search(item.line.raw) if is_silica else None
        value = float(match[1].replace(",", ".")) if match else 0.0
        if value > 0:
            return StatedSize(value / NAMED_WITHIN, value * NAMED_WITHIN, 1.0, "number"), item
    return None


def silica_lines(known: Certain) -> list[bool]:
    """Which lines can be silica particles."""
    return [bool(most > 0) for most in known.totals["silica"].most[: len(known.items)]]


def mixture_of(
    known: Certain, draws: Draws, count: int, seed: int, dilution: float, silica: float | None
) -> tuple[Mixture, Array]:
    """What of the named lines can stay, in ``count`` draws, and the silica in the bottle.

    Parameters
    ----------
    known, draws
        The lines and their totals; draws of compositions.
    count, seed
        Draws wanted, taken from those with replacement; seed of the chance.
    dilution
        Mass of the product over that of the liquid used.
    silica
        Silica that somebody says is in the bottle; the lines share it as the draws have it.
    """
    chance = np.random.default_rng([seed % 2**63, 1])
    rows = chance.integers(0, len(draws.amounts), count)
    lines = len(known.items)
    amounts = draws.amounts[rows, :lines]

    def part(total: str) -> Array:
        weights = known.totals[total]
        least, most = weights.least[:lines], weights.most[:lines]
        values: Array = least + (most - least) * chance.random((count, lines))
        return values

    solid = amounts * part("silica")
    volume = part("density_g_per_ml")
    film = np.minimum(amounts * part("film_formers"), np.maximum(amounts - solid, 0))
    stays = amounts * part("nonvolatile_one_day")
    rest = np.maximum(stays - solid - film, 0.0)
    names = [item.name for item in known.items]
    kinds = [kind_of(item) for item in known.items]
    if silica is not None:
        solid, names, kinds, (film, rest, volume) = _told(solid, silica, names, kinds, (film, rest, volume))
    bottle = solid.sum(axis=1)
    density = 1e3 / float(np.median((amounts * volume[:, :lines]).sum(axis=1) / amounts.sum(axis=1)))
    mixture = Mixture(
        tuple(names),
        tuple(kinds),
        solid * dilution,
        film * dilution,
        rest * dilution,
        volume,
        1e3 + (density - 1e3) * dilution,
        1e3 / SILICA_DENSITY,
    )
    return mixture, bottle


def _told(
    solid: Array, silica: float, names: list[str], kinds: list[str], others: tuple[Array, ...]
) -> tuple[Array, list[str], list[str], tuple[Array, ...]]:
    """The silica that was told: shared among the lines in every draw, or a part of its own where no line is silica."""
    total = solid.sum(axis=1, keepdims=True)
    if (total > 0).all():
        return solid / total * silica, names, kinds, others
    own = np.full((len(solid), 1), silica)
    blank = (np.zeros_like(own), np.zeros_like(own), np.ones_like(own))
    more = tuple(np.concatenate(pair, axis=1) for pair in zip(others, blank, strict=True))
    return np.concatenate([solid * 0, own], axis=1), [*names, "silica"], [*kinds, "particles"], more
