"""Prints how well amounts are bounded on complete printed recipes, against three baselines.

python tests/evaluation/amounts.py [--rows]

Each recipe with printed weight percents is made into the label that a law of falling order would ask for: raw
materials counted as themselves, sorted, what is below 1 % shuffled with a fixed seed. The interval score is that of a
90 % interval on log10 of the mass fraction with a floor of 10 ppm: width plus 20 times what lies outside (Gneiting and
Raftery 2007, doi 10.1198/016214506000001437, equation 43); smaller is better.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.amounts.chains import Levels
from formulate.amounts.draws import draw
from formulate.amounts.frame import Array, frame
from formulate.amounts.hard import hard_bounds
from formulate.amounts.item import Item
from formulate.amounts.levels import prior
from formulate.catalog.store import open_catalog
from formulate.domain.reason import Ledger
from tests.conftest import SHARED
from tests.evaluation.material import as_lines, attributed

FLOOR = 1e-5
ALPHA = 0.1
LEAST_SUM, MOST_SUM = 0.97, 1.03


class Recipe(NamedTuple):
    """Names in the order of a label and their true mass fractions, which sum to one."""

    id: str
    kind: str
    names: tuple[str, ...]
    truth: Array


class Result(NamedTuple):
    """One recipe: whether the hard bounds hold the truth, and per method low and high of every item, shape (2, n)."""

    recipe: Recipe
    within: bool
    intervals: dict[str, Array]


def recipes(shared: Path) -> list[Recipe]:
    """The recipes that print weight percents of everything."""
    found = []
    for path in sorted((shared / "inputs" / "exact").glob("*.json")):
        case = json.loads(path.read_text(encoding="utf-8"))
        rows = [(row["name"], row.get("wt_pct")) for row in case["components"]]
        printed = [amount for _, amount in rows if amount is not None]
        if len(printed) < len(rows) or len(rows) < 3 or not LEAST_SUM <= sum(printed) / 100 <= MOST_SUM:
            continue
        found.append(_labelled(path.stem, case.get("product_type", ""), rows))
    return found


def _labelled(case: str, kind: str, rows: list[tuple[str, float]]) -> Recipe:
    merged: dict[str, tuple[str, float]] = {}
    for item, (name, amount) in zip(items_of([name for name, _ in rows]), rows, strict=True):
        key = item.ingredient or name  # water of part A and water of part B are one entry of a label
        first, before = merged.get(key, (name, 0.0))
        merged[key] = (first, before + amount)
    total = sum(amount for _, amount in merged.values())
    ordered = sorted(((name, amount / total) for name, amount in merged.values()), key=lambda one: -one[1])
    above = [one for one in ordered if one[1] > 0.01]
    below = [one for one in ordered if one[1] <= 0.01]
    chance = np.random.default_rng(7)
    below = [below[index] for index in chance.permutation(len(below))]
    return Recipe(case, kind, tuple(name for name, _ in above + below), np.array([share for _, share in above + below]))


def items_of(names: Sequence[str]) -> list[Item]:
    """The items of a label, in the context of one another."""
    catalog = open_catalog()
    lines = as_lines([(name, None, None, None, None) for name in names])
    matches, attribution = attributed(lines)
    return [
        Item(
            line,
            match,
            roles,
            catalog.ingredient(match.ingredient) if match.ingredient else None,
            catalog.classes[match.class_].line,
            "",
        )
        for line, match, roles in zip(lines, matches, attribution.lines, strict=True)
    ]


def result(recipe: Recipe, product_type: str = "any") -> Result:
    """Intervals of one recipe by every method."""
    count = len(recipe.names)
    known = frame([0] * count, [1] * count, tuple(range(count)), 0.01)
    hard = hard_bounds(known)
    within = bool((hard.low - 1e-9 <= recipe.truth).all() and (recipe.truth <= hard.high + 1e-9).all())
    ledger = Ledger({"": None})  # type: ignore[dict-item]
    levels = prior(items_of(recipe.names), product_type, False, open_catalog(), ledger).levels
    flat = Levels(np.zeros(count + 1), np.full(count + 1, np.inf))
    quantile = [ALPHA / 2, 1 - ALPHA / 2]
    chance = np.random.default_rng(11)
    free = np.exp(
        levels.mean[:count]
        + np.where(np.isfinite(levels.spread[:count]), levels.spread[:count], 0)
        * chance.standard_normal((20_000, count))
    )
    carrier = ~np.isfinite(levels.spread[:count])
    free[:, carrier] = np.maximum(1 - free[:, ~carrier].sum(axis=1, keepdims=True), FLOOR)
    sorted_ = -np.sort(-chance.dirichlet(np.full(count, 0.5), 20_000), axis=1)
    return Result(
        recipe,
        within,
        {
            "ours": np.quantile(draw(known, levels, 3).amounts[:, :count], quantile, axis=0),
            "flat on what is possible": np.quantile(draw(known, flat, 3).amounts[:, :count], quantile, axis=0),
            "use levels without order": np.quantile(np.minimum(free, 1), quantile, axis=0),
            "sorted Dirichlet(0.5)": np.quantile(sorted_, quantile, axis=0),
        },
    )


def interval_score(low: Array, high: Array, truth: Array) -> Array:
    """Score of each interval on log10 with the floor."""
    logs = [np.log10(np.maximum(one, FLOOR)) for one in (low, high, truth)]
    outside = np.maximum(logs[0] - logs[2], 0) + np.maximum(logs[2] - logs[1], 0)
    return np.asarray(logs[1] - logs[0] + 2 / ALPHA * outside)


def covered(low: Array, high: Array, truth: Array) -> Array:
    """Whether each interval holds the truth."""
    return np.asarray((low - 1e-9 <= truth) & (truth <= high + 1e-9))


def bootstrap(values: list[Array], repeats: int = 2000) -> tuple[float, float]:
    """90 % interval of a mean over items, recipes drawn with replacement."""
    chance = np.random.default_rng(5)
    means = []
    for _ in range(repeats):
        chosen = chance.integers(len(values), size=len(values))
        means.append(np.concatenate([values[index] for index in chosen]).mean())
    return float(np.quantile(means, 0.05)), float(np.quantile(means, 0.95))


def main(arguments: list[str]) -> None:
    """Print coverage and score of every method."""
    results = [result(recipe) for recipe in recipes(SHARED)]
    items = sum(len(one.recipe.names) for one in results)
    print(f"{len(results)} recipes, {items} items; hard bounds hold the truth in {sum(one.within for one in results)}")
    for method in results[0].intervals:
        scores = [interval_score(*one.intervals[method], one.recipe.truth) for one in results]
        hits = [covered(*one.intervals[method], one.recipe.truth) for one in results]
        low, high = bootstrap([hit.astype(float) for hit in hits])
        print(
            f"{method:<28} score {np.concatenate(scores).mean():5.2f}   covered {np.concatenate(hits).mean():6.1%}"
            f"   (bootstrap by recipe {low:.1%} to {high:.1%})"
        )
    if "--rows" in arguments:
        for one in results:
            print(f"\n{one.recipe.id} {one.recipe.kind[:70]}")
            low, high = one.intervals["ours"]
            for name, truth, least, most in zip(one.recipe.names, one.recipe.truth, low, high, strict=True):
                mark = "" if least <= truth <= most else "  <--"
                print(f"  {name[:40]:<40} {truth * 100:8.3f}   {least * 100:8.4f} {most * 100:8.4f}{mark}")


if __name__ == "__main__":
    main(sys.argv[1:])
