"""Outputs of the amount nodes to the answer of ``bounds``, every figure with its reason."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from formulate.amounts.bounds import Certain
from formulate.amounts.draws import Draws
from formulate.amounts.frame import Array
from formulate.amounts.item import Item
from formulate.amounts.shares import Share
from formulate.amounts.suppose import Supposed, supposed
from formulate.catalog.store import Catalog
from formulate.domain.line import Reading
from formulate.domain.reason import Ledger
from formulate.reading import add_fact
from formulate.workflow.amount_answers import (
    BoundsAnswer,
    Contradiction,
    IngredientBounds,
    PlausibleRange,
    RuleSaid,
    Sampling,
    SuppliedAs,
    SupposedSaid,
    TotalBounds,
)
from formulate.workflow.amounts import Hard, Plausible
from formulate.workflow.assemble import common, echo, notes_of
from formulate.workflow.graph import Output

LEVEL = 0.9
PRINTED = (("nonvolatile", "nonvolatile", 100.0, "%"), ("density_g_per_ml", "density", 1.0, ""))
"""Facts of a sheet that a measured value can be made of: key, quantity, scale and unit in which it is typed."""
CONTRADICTED = "These statements cannot all be true of one bottle; leave any one of them out and the others agree."


NOT_DRAWN = Plausible(None, None, "any", "")


def bounds_answer(
    done: Mapping[str, Output],
    catalog: Catalog,
    suppose: str | None = None,
    stop: Callable[[], bool] | None = None,
) -> BoundsAnswer:
    """How much of each ingredient and total there can be; only what is certain where nothing was drawn yet.

    Raises
    ------
    UsageError
        For a supposition that cannot be read.
    Stopped
        If ``stop()`` turns true while something is drawn for a supposition.
    """
    hard: Hard = done["hard"].value
    plausible: Plausible = done["draws"].value if "draws" in done else NOT_DRAWN
    known = hard.certain
    ledger = Ledger(done["draws" if "draws" in done else "hard"].reasons)
    why = {"/rule": hard.why_rule}
    after = _line_said(known, why)
    ingredients = tuple(_ingredient(known, plausible, index, ledger, why) for index in range(len(known.items)))
    totals = {total: _total(known, plausible, total, ledger, why) for total in known.totals} if known.items else {}
    unnamed = _unnamed(known, plausible, ledger, why)
    product, why_product = echo(done["product"].value)
    why.update(why_product)
    contradiction: Contradiction | str = "none"
    if known.clash:
        says = " + ".join(one.says for one in known.clash)
        why["/contradiction"] = ledger.add(
            "calculated", "{says}: " + CONTRADICTED, {"says": says}, [one.why for one in known.clash]
        )
        why.update({f"/contradiction/statements/{i}": one.why for i, one in enumerate(known.clash)})
        contradiction = Contradiction.model_construct(
            statements=tuple(one.says for one in known.clash), because=CONTRADICTED
        )
    said = (
        _supposed(
            supposed(suppose, known, plausible.draws, plausible.prior.levels if plausible.prior else None, stop),
            known,
            ledger,
            why,
        )
        if suppose and known.hard
        else None
    )
    reading: Reading = done["lines"].value
    notes = [*notes_of(reading, ledger, True), *_notes(hard, plausible, ledger), *_printed(reading, hard, ledger)]
    draws = plausible.draws
    unnamed = _unnamed(known, plausible, ledger, why)  # before the reasons are collected: it adds its own
    return BoundsAnswer.model_construct(
        **common("bounds", product, notes, why, ledger, catalog),
        rule=RuleSaid.model_construct(
            name=hard.rule.rule, title=hard.rule.title, says=hard.rule.says, why=hard.why_rule
        ),
        one_percent_after=after,
        ingredients=ingredients,
        unnamed=unnamed,
        totals=totals,
        contradiction=contradiction,
        sampling=_sampling(draws),
        supposed=said,
        seed=draws.seed if draws is not None else None,
    )


def _line_said(known: Certain, why: dict[str, str]) -> str | None:
    """Name of the ingredient after which the one-percent line was said to fall."""
    line = next((one for one in known.statements if one.kind == "line"), None)
    if line is None:
        return None
    why["/one_percent_after"] = line.why
    order = next(one.items for one in known.statements if one.kind == "order")
    return known.items[order[(line.place or 1) - 1]].name


def _ingredient(
    known: Certain, plausible: Plausible, index: int, ledger: Ledger, why: dict[str, str]
) -> IngredientBounds:
    item, share = known.items[index], known.supplied[index]
    pointer = f"/ingredients/{index}"
    for field in ("name", "raw", "ingredient", "class", "how"):
        why[f"{pointer}/{field}"] = item.why
    why[f"{pointer}/supplied_as"] = share.why
    if known.hard is not None:
        why[f"{pointer}/hard/0"] = known.why_low[index]
        why[f"{pointer}/hard/1"] = known.why_high[index]
        why[f"{pointer}/hard"] = ledger.add(
            "calculated",
            "{name} is certainly between {low:.4g} and {high:.4g} %.",
            {"name": item.name, "low": known.hard.low[index] * 100, "high": known.hard.high[index] * 100},
            dict.fromkeys([known.why_low[index], known.why_high[index]]),
        )
    if plausible.draws is not None and plausible.prior is not None:
        because = [plausible.prior.why[index], plausible.why, *([why[f"{pointer}/hard"]] if known.hard else [])]
        likely = _range(plausible.draws.amounts[:, index])
        says = "{name} is likely between {low:.3g} and {high:.3g} %: nine in ten of the compositions drawn lie there."
        values: dict[str, str | float] = {"name": item.name, "low": likely.low * 100, "high": likely.high * 100}
        why[f"{pointer}/plausible"] = ledger.add("calculated", says, values, because)
    told = (f"{pointer}/plausible", f"{pointer}/hard")  # asked for a name, the amounts are meant
    why[pointer] = next((why[one] for one in told if one in why), item.why)
    return IngredientBounds.model_construct(
        **_identity(item),
        hard=None if known.hard is None else (float(known.hard.low[index]), float(known.hard.high[index])),
        plausible=None if plausible.draws is None else _range(plausible.draws.amounts[:, index]),
        supplied_as=_supplied(share),
        carrier=plausible.prior is not None and plausible.prior.carrier == index,
    )


def _identity(item: Item) -> dict[str, Any]:
    """What a row says of its line."""
    return {
        "position": item.line.position,
        "line": item.line.id,
        "raw": item.line.raw,
        "name": item.name,
        "ingredient": item.ingredient,
        "class_": item.classes[-1],
        "how": item.match.how,
    }


def _supplied(share: Share) -> SuppliedAs:
    return SuppliedAs.model_construct(low=share.low, high=share.high, why=share.why)


def _unnamed(known: Certain, plausible: Plausible, ledger: Ledger, why: dict[str, str]) -> IngredientBounds | None:
    if known.hard is None or known.hard.rest[1] <= 0 or not known.items:
        return None
    why["/unnamed"] = ledger.add(
        "assumed", "A list need not name everything: what it does not name stays in every sum.", {}
    )
    return IngredientBounds.model_construct(
        position=0,
        line="",
        raw="",
        how="withheld",
        name="what the list does not name",
        ingredient=None,
        class_="other",
        hard=known.hard.rest,
        plausible=None if plausible.draws is None else _range(plausible.draws.amounts[:, -1]),
        supplied_as=SuppliedAs.model_construct(low=0.0, high=1.0, why=why["/unnamed"]),
    )


def _total(known: Certain, plausible: Plausible, total: str, ledger: Ledger, why: dict[str, str]) -> TotalBounds:
    why[f"/totals/{total}"] = known.why_totals[total]
    series = None
    if plausible.draws is not None:
        series = plausible.draws.totals[:, list(known.totals).index(total)]
        series = 1 / series if total == "density_g_per_ml" else series
        says = "Nine in ten of the compositions drawn have this total."
        why[f"/totals/{total}/plausible"] = ledger.add("calculated", says, {}, [known.why_totals[total], plausible.why])
    measured = known.totals[total].measured
    told = next((one.why for one in known.statements if one.total is known.totals[total]), None)
    if told is not None:
        why[f"/totals/{total}/measured"] = told
    if measured is not None and total == "density_g_per_ml":
        measured = 1 / measured
    return TotalBounds.model_construct(
        hard=known.total_bounds.get(total),
        plausible=None if series is None else _range(series),
        unit=_unit(total),
        measured=measured,
    )


def _unit(total: str) -> str:
    return "g/mL" if total == "density_g_per_ml" else "mass fraction"


def _range(series: Array) -> PlausibleRange:
    low, best, high = np.quantile(series, [(1 - LEVEL) / 2, 0.5, (1 + LEVEL) / 2])
    return PlausibleRange.model_construct(low=float(low), best=float(best), high=float(high), level=LEVEL)


def _sampling(draws: Draws | None) -> Sampling | None:
    if draws is None:
        return None
    return Sampling.model_construct(
        draws=len(draws.amounts),
        effective=round(draws.effective, 1),
        r_hat=round(draws.r_hat, 4),
        seed=draws.seed,
        settled=draws.settled,
    )


def _supposed(found: Supposed, known: Certain, ledger: Ledger, why: dict[str, str]) -> SupposedSaid:
    values: dict[str, str | float | None] = {"what": found.what, "value": found.value * 100}
    says = "You suppose {what} at {value:.4g} %."
    why["/supposed"] = ledger.add("assumed", says, values)
    forces = []
    if found.hard is not None:
        for index, item in enumerate(known.items):
            low, high = float(found.hard[0, index]), float(found.hard[1, index])
            for side, bound, because in ((0, low, known.why_low), (1, high, known.why_high)):
                why[f"/supposed/forces/{index}/hard/{side}"] = ledger.add(
                    "calculated",
                    "With that, {name} would be {side} {bound:.4g} %.",
                    {"name": item.name, "side": ("at least", "at most")[side], "bound": bound * 100},
                    [why["/supposed"], because[index]],
                )
            if found.likely is not None:
                why[f"/supposed/forces/{index}/plausible"] = _likely_under(why, f"/ingredients/{index}", ledger)
            forces.append(
                IngredientBounds.model_construct(
                    **_identity(item),
                    hard=(low, high),
                    plausible=None if found.likely is None else _range(found.likely.amounts[:, index]),
                    supplied_as=_supplied(known.supplied[index]),
                )
            )
    return SupposedSaid.model_construct(
        what=found.what,
        value=found.value,
        possible=found.possible,
        share_of_draws_below=found.below,
        share_of_draws_above=found.above,
        forces=tuple(forces),
        totals=_supposed_totals(found, known, ledger, why),
    )


def _likely_under(why: dict[str, str], pointer: str, ledger: Ledger) -> str:
    """The reason of a likely range under what is supposed."""
    says = "Nine in ten of the compositions drawn with that lie in this range."
    return ledger.add("calculated", says, {}, [why["/supposed"], why[f"{pointer}/plausible"]])


def _supposed_totals(found: Supposed, known: Certain, ledger: Ledger, why: dict[str, str]) -> dict[str, TotalBounds]:
    """Every total under a supposition. A density is the inverse of the specific volume that was worked with."""
    if found.totals is None:
        return {}
    totals = {}
    for index, total in enumerate(known.totals):
        low, high = float(found.totals[0, index]), float(found.totals[1, index])
        series = None if found.likely is None else found.likely.totals[:, index]
        why[f"/supposed/totals/{total}"] = ledger.add(
            "calculated", "This is the sum with that.", {}, [why["/supposed"], why[f"/totals/{total}"]]
        )
        if series is not None:
            why[f"/supposed/totals/{total}/plausible"] = _likely_under(why, f"/totals/{total}", ledger)
        if total == "density_g_per_ml":
            low, high = 1 / high, 1 / low
            series = None if series is None else 1 / series
        totals[total] = TotalBounds.model_construct(
            hard=(low, high), plausible=None if series is None else _range(series), unit=_unit(total), measured=None
        )
    return totals


def _printed(reading: Reading, hard: Hard, ledger: Ledger) -> list[tuple[str, str]]:
    """Measurements that the sheet itself prints and that were not given: how to let them count."""
    given = {one.quantity for one in hard.measured}
    notes = []
    for key, quantity, scale, unit in PRINTED:
        fact = reading.facts.get(key)
        if fact is None or fact.best is None or quantity in given:
            continue
        value = f"{fact.best * scale:g}{unit}"
        says = f"The text prints “{fact.text.strip()[:60]}”; to let it count, give --measured {quantity}={value}."
        notes.append((says, add_fact(ledger, key, fact)))
    return notes


def _notes(hard: Hard, plausible: Plausible, ledger: Ledger) -> list[tuple[str, str]]:
    notes = [(f"Law: {hard.rule.says}", hard.why_rule)]
    for said in hard.certain.statements:
        if said.kind == "total" and hard.certain.hard is not None:
            notes.append((f"The likely ranges are weighed by {said.says}; the certain ones hold without it.", said.why))
    for one in hard.measured:
        if one.quantity == "ph":
            says = "A measured pH says nothing certain of amounts and is not used here."
            notes.append((says, ledger.add("assumed", says, {})))
        elif one.assumed:
            says = f"No uncertainty was given for {one.quantity}: {one.uncertainty:.3g} is assumed."
            notes.append((says, ledger.add("assumed", "{says}", {"says": says})))
    if plausible.draws is not None and not plausible.draws.settled:
        says = "The draws did not settle in time: plausible ranges are rough."
        notes.append((says, ledger.add("calculated", says, {})))
    return notes
