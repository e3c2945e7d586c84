"""The nodes of the amounts: what is certain (fast), and draws of what is plausible (slow)."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import formulate.workflow.graph as graph
from formulate.amounts.bounds import Certain, certain
from formulate.amounts.draws import Draws, draw
from formulate.amounts.frame import Frame
from formulate.amounts.gather import gather, softly_ordered
from formulate.amounts.item import Item
from formulate.amounts.levels import Prior, prior
from formulate.amounts.measured import MeasuredValue, measured_value
from formulate.amounts.rest import unnamed
from formulate.amounts.statements import bands_as_totals
from formulate.catalog.amounts import DisclosureRule, disclosure_rule, product_type_for
from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.edit import Edit
from formulate.domain.line import Reading, Stated
from formulate.domain.product import Product
from formulate.domain.reason import Ledger, Reason
from formulate.domain.roles import Attribution
from formulate.domain.vocabulary import RULES
from formulate.errors import InputError, Stopped, UsageError

ORDER_HOLDS = 0.7
"""Judged chance that a list under no law stands in falling order all the same."""


MOST_LINES = 200
"""Lines of one list; no label or data sheet met so far has half as many."""


class Hard(NamedTuple):
    """What is certain, under which rule, and the reason of that."""

    certain: Certain
    rule: DisclosureRule
    why_rule: str
    measured: tuple[MeasuredValue, ...]


class Plausible(NamedTuple):
    """Draws of compositions and the use levels behind them; None where nothing could be drawn."""

    draws: Draws | None
    prior: Prior | None
    product_type: str
    why: str

    def __repr__(self) -> str:
        """Content in short, for the digest of the node: arrays print in part only."""
        content = self.draws.amounts.tobytes() if self.draws is not None else b""
        return f"Plausible({hashlib.sha256(content).hexdigest()}, {self.product_type!r}, {self.why!r})"


def items_of(done: Mapping[str, graph.Output], catalog: Catalog) -> list[Item]:
    """The lines with what they are and do."""
    reading: Reading = done["lines"].value
    found = done["matches"].value
    attribution: Attribution = done["roles"].value
    return [
        Item(
            line,
            match,
            roles,
            catalog.ingredient(match.ingredient) if match.ingredient else None,
            catalog.classes[match.class_].line,
            why,
        )
        for line, match, roles, why in zip(reading.lines, found.matches, attribution.lines, found.reasons, strict=True)
    ]


def hard_node(inputs: graph.Inputs, done: Mapping[str, graph.Output]) -> tuple[Hard, Mapping[str, Reason]]:
    """Hard bounds of every ingredient and total."""
    catalog = open_catalog()
    ledger = Ledger(done["roles"].reasons)
    rule, why_rule = _rule(inputs, ledger, catalog)
    items = items_of(done, catalog)
    _check_length(items)
    items = _meant(items, inputs.edits, ledger)
    told = _line_told(inputs, items)
    statements = gather(items, rule, why_rule, done["matches"].value.stated, told, catalog, ledger)
    measured = tuple(measured_value(text) for text in _measured(inputs))
    return Hard(certain(items, statements, measured, rule.complete, catalog, ledger), rule, why_rule, measured), ledger


def _check_length(items: Sequence[Item]) -> None:
    """Refuse a list that no bottle has. Raises InputError."""
    if len(items) > MOST_LINES:
        raise InputError(
            f"{len(items):,} lines are too many for amounts.",
            "the list that was recognised",
            f"bounds are worked out for up to {MOST_LINES} lines: the work grows faster than the cube of the length.",
            "give the list of one product; read and roles take longer ones.",
            "too-large",
        )


def draws_node(inputs: graph.Inputs, done: Mapping[str, graph.Output]) -> tuple[Plausible, Mapping[str, Reason]]:
    """Plausible compositions: use levels cut to what is certain."""
    hard: Hard = done["hard"].value
    product: Product = done["product"].value
    ledger = Ledger(done["hard"].reasons)
    kind, why = product_type(product, ledger)
    known = hard.certain
    if known.hard is None or not known.items:
        return Plausible(None, None, kind, why), ledger
    sheet = hard.rule.rule.startswith("sds") or any(item.line.cas for item in known.items)
    levels = prior(known.items, kind, sheet, open_catalog(), ledger)
    seed = inputs.seed if inputs.seed is not None else _seed(inputs.text)
    totals = [*known.totals.values(), *bands_as_totals(known.statements, len(known.items))]
    frames = _frames(hard, sheet)
    why = _drawn_from(hard, frames, why, ledger)
    split = unnamed(tuple(known.totals))
    parts = [
        (draw(one, levels.levels, seed, totals, split, stop=inputs.stop, progress=inputs.progress), weight)
        for one, weight in frames
    ]
    return Plausible(_mixed(parts, seed), levels, kind, why), ledger


def _meant(items: list[Item], edits: Sequence[Edit], ledger: Ledger) -> list[Item]:
    """The items with what a person said an amount means: the ingredient itself, or the raw material it came in."""
    said = {edit.target: edit for edit in edits if edit.field == "means" and edit.value in MEANINGS}
    if not said:
        return items
    return [item if item.line.id not in said else _as_meant(item, said[item.line.id], ledger) for item in items]


def _as_meant(item: Item, edit: Edit, ledger: Ledger) -> Item:
    stated = item.line.stated or Stated.model_construct(low=None, high=None, text="")
    line = item.line.model_copy(update={"stated": stated.model_copy(update={"means": edit.value})})
    note = f" ({edit.note})" if edit.note else ""
    values = {"name": item.name, "means": MEANINGS[edit.value or ""], "note": note}
    why = ledger.add("corrected", "You said that the amount of {name} means {means}{note}.", values, [item.why])
    return item._replace(line=line, why=why)


MEANINGS = {"active": "the ingredient itself", "as-supplied": "the raw material as it is sold"}
"""What an amount can mean, in words."""


def _line_told(inputs: graph.Inputs, items: Sequence[Item]) -> str | int | None:
    """After what the one-percent line falls: the line a person pointed at last, if it is still there, or a name."""
    said = [edit for edit in inputs.edits if edit.field == "one-percent-line"]
    if not said:
        return inputs.options.get("one_percent_after")
    if said[-1].value is None:
        return None
    return next((index for index, item in enumerate(items) if item.line.id == said[-1].target), None)


def _frames(hard: Hard, sheet: bool) -> list[tuple[Frame, float]]:
    """What is possible, and where no law orders a label the same with its order believed."""
    known = hard.certain.frame
    if known.ordered or sheet:
        return [(known, 1.0)]
    ordered = softly_ordered(hard.certain.items, known)
    return [(known, 1.0)] if ordered is None else [(ordered, ORDER_HOLDS), (known, 1 - ORDER_HOLDS)]


def _drawn_from(hard: Hard, frames: Sequence[tuple[Frame, float]], why: str, ledger: Ledger) -> str:
    """The reason that all likely ranges share: kind of product, an order that was believed, what was measured."""
    because = [why, *(one.why for one in hard.certain.statements if one.kind == "total")]
    if len(frames) > 1:
        says = (
            "No law orders this list; that it stands in falling order all the same is given {chance:g} chances in 10."
        )
        because.append(ledger.add("assumed", says, {"chance": ORDER_HOLDS * 10}, [hard.why_rule]))
    if len(because) == 1:
        return why
    return ledger.add("calculated", "What all likely ranges of this list rest on.", {}, because)


def _mixed(parts: Sequence[tuple[Draws, float]], seed: int) -> Draws:
    """Draws of several frames in the shares of their weights."""
    import numpy as np

    if len(parts) == 1:
        return parts[0][0]
    most = min(len(draws.amounts) / weight for draws, weight in parts)
    chance = np.random.default_rng(seed)
    amounts, totals = [], []
    for draws, weight in parts:
        chosen = chance.choice(len(draws.amounts), int(most * weight), replace=False)
        amounts.append(draws.amounts[chosen])
        totals.append(draws.totals[chosen])
    return Draws(
        np.concatenate(amounts),
        np.concatenate(totals),
        seed,
        min(draws.effective for draws, _ in parts),
        max(draws.r_hat for draws, _ in parts),
        all(draws.settled for draws, _ in parts),
    )


def product_type(product: Product, ledger: Ledger) -> tuple[str, str]:
    """The kind of product whose use levels are taken, by what was said of its substrate; 'any' where nothing was."""
    substrate = product.substrate.value if product.substrate is not None else ""
    kind = (product_type_for(open_catalog(), substrate) if substrate else None) or "any"
    if kind == "any":
        says = "Use levels of any kind of product are taken: nothing tells which kind this is."
        return kind, ledger.add("assumed", says, {})
    says = "Use levels of {kind} are taken, because the product is for {substrate}."
    because = [product.substrate.why] if product.substrate is not None else []
    return kind, ledger.add("calculated", says, {"kind": kind.replace("-", " "), "substrate": substrate}, because)


def _rule(inputs: graph.Inputs, ledger: Ledger, catalog: Catalog) -> tuple[DisclosureRule, str]:
    said = [edit.value for edit in inputs.edits if edit.field == "rule"]
    name = (said[-1] if said else inputs.options.get("rule")) or "none"
    check_rule(name)
    rule = disclosure_rule(catalog, name)
    says = "You chose the rule {title}: {says}" if name != "none" else "{says}"
    kind = "looked-up" if rule.citation.source not in {"common-practice", "memory"} else "assumed"
    why = ledger.add(kind, says, {"title": rule.title, "says": rule.says}, citations=[rule.citation])  # type: ignore[arg-type]
    return rule, why


def check_rule(name: str) -> None:
    """Refuse a rule of disclosure that is not known. Raises UsageError."""
    if name not in RULES:
        raise UsageError(
            f'"{name[:40]}" is not a rule of disclosure.',
            "the option rule",
            "without a known law nothing certain follows from the order of a list.",
            f"one of {', '.join(RULES)}",
        )


def _measured(inputs: graph.Inputs) -> list[str]:
    given = (inputs.options.get("measured") or "").split("\n")
    return [text for text in (*given, *(edit.value or "" for edit in inputs.edits if edit.field == "measured")) if text]


def _seed(text: str) -> int:
    """First 8 bytes of sha256 of the text and the node's name: the same input gives the same numbers everywhere."""
    return int.from_bytes(hashlib.sha256((text + "draws").encode("utf-8", "surrogatepass")).digest()[:8], "big")


__all__ = ["Hard", "Plausible", "Stopped", "check_rule", "draws_node", "hard_node", "items_of"]
