"""The nodes of this stage: text, lines, matches, product, roles, brief.

Later stations add nodes, never a second way.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, Literal, NamedTuple

from formulate.attribution.attribute import attribute
from formulate.attribution.brief import write_brief
from formulate.attribution.hints import hint_facts, product_hints
from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.edit import Edit
from formulate.domain.line import Match, Reading
from formulate.domain.product import Product
from formulate.domain.reason import Ledger, Reason
from formulate.identity.match import identify
from formulate.reading import add_left_over, add_pasted, read_text
from formulate.rules.load import load_rules, trusted_rules, with_fitted_weights
from formulate.rules.schema import Rule
from formulate.workflow.graph import Graph, Inputs, Node, Output
from formulate.workflow.reedit import edited_reading, stated_reason

AMOUNT_OPTIONS = ("rule", "measured", "one_percent_after")
FILM_OPTIONS = (
    *("silica", "film_former", "diameter_nm", "wet_g_per_m2", "kept", "passes", "field_um", "counted", "covered"),
    *("smallest_nm", "tip_nm", "recognised", "background", "application"),
)
HINT_OPTIONS = ("form", "claim", "substrate", "jurisdiction", "date", "dilution")
Result = tuple[Any, Mapping[str, Reason]]


class Matches(NamedTuple):
    """What each line is, with the reasons of identity and of each stated amount (None: no amount)."""

    matches: tuple[Match, ...]
    reasons: tuple[str, ...]
    stated: tuple[str | None, ...]


WEIGHTS: Literal["fitted", "judged"] = "fitted"
"""Which weights of the role rules count; why these stands in tests/evaluation/README.md."""


def rules_in_force() -> tuple[Rule, ...]:
    """The rules of the dataset with the weights that count."""
    return fitted_rules() if WEIGHTS == "fitted" else judged_rules()


@cache
def fitted_rules() -> tuple[Rule, ...]:
    """The rules with fitted weights, the judged ones where nothing was fitted."""
    return with_fitted_weights(judged_rules())


@cache
def judged_rules() -> tuple[Rule, ...]:
    """The rules as their files give them, checked once for each version of the data."""
    catalog = open_catalog()
    records = catalog.rule_records()
    if catalog.remembers("rules-checked"):
        return trusted_rules(records)
    rules = load_rules(records, catalog.classes, catalog.has)
    catalog.remember("rules-checked")
    return rules


def _text(inputs: Inputs, _: Mapping[str, Output]) -> Result:
    return inputs.text, {}


def _lines(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    reading, ledger = read_text(done["text"].value, inputs.text_id, open_catalog().knows)
    edited = edited_reading(reading, inputs.edits)
    for left in edited.left_over[len(reading.left_over) :]:
        add_left_over(ledger, left)
    return edited, ledger


def _matches(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    reading: Reading = done["lines"].value
    ledger = Ledger(done["lines"].reasons)
    pasted = {line.id: add_pasted(ledger, line, len(reading.lines)) for line in reading.lines}
    matches, reasons = identify(reading.lines, pasted, ledger, open_catalog(), inputs.edits)
    stated = tuple(stated_reason(line, inputs.edits, ledger) for line in reading.lines)
    return Matches(matches, reasons, stated), ledger


def _product(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    reading: Reading = done["lines"].value
    found: Matches = done["matches"].value
    ledger = Ledger(done["matches"].reasons)
    options = dict(inputs.options)
    for edit in inputs.edits:
        if edit.field in {"claim", "application"} and edit.target.startswith("/product/"):
            options[edit.target.removeprefix("/product/")] = edit.value
    product = product_hints(reading, found.matches, found.reasons, options, ledger, open_catalog())
    return product, ledger


def _roles(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    reading: Reading = done["lines"].value
    found: Matches = done["matches"].value
    product: Product = done["product"].value
    ledger = Ledger(done["product"].reasons)
    attribution = attribute(
        reading.lines,
        found.matches,
        found.reasons,
        found.stated,
        hint_facts(product),
        rules_in_force(),
        ledger,
        open_catalog(),
        inputs.edits,
    )
    return attribution, ledger


def _brief(_: Inputs, done: Mapping[str, Output]) -> Result:
    found: Matches = done["matches"].value
    ledger = Ledger(done["roles"].reasons)
    brief = write_brief(
        found.matches, found.reasons, done["roles"].value, done["product"].value, ledger, open_catalog()
    )
    return brief, ledger


AMOUNT_EDITS = frozenset({"rule", "measured", "one-percent-line", "means"})


def hard_node(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    """Hard bounds; the room behind it loads numpy and a solver, so it is loaded when first asked for."""
    from formulate.workflow import amounts

    return amounts.hard_node(inputs, done)


def draws_node(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    """Plausible compositions; loaded when first asked for."""
    from formulate.workflow import amounts

    return amounts.draws_node(inputs, done)


def deposit_node(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    """What is left on the surface; loaded when first asked for."""
    from formulate.workflow import film

    return film.deposit_node(inputs, done)


def implied_node(inputs: Inputs, done: Mapping[str, Output]) -> Result:
    """What a count implies; loaded when first asked for."""
    from formulate.workflow import film

    return film.implied_node(inputs, done)


def build_graph(catalog: Catalog) -> Graph:
    """The graph over the dataset in use."""
    none: frozenset[str] = frozenset()
    return Graph(
        [
            Node("text", 1, (), none, (), _text),
            Node("lines", 1, ("text",), frozenset({"amount", "drop"}), (), _lines),
            Node("matches", 1, ("lines",), frozenset({"ingredient", "name", "amount"}), (), _matches),
            Node("product", 1, ("lines", "matches"), frozenset({"claim", "application"}), HINT_OPTIONS, _product),
            Node("roles", 1, ("lines", "matches", "product"), frozenset({"role"}), (), _roles),
            Node("hard", 1, ("lines", "matches", "product", "roles"), AMOUNT_EDITS, AMOUNT_OPTIONS, hard_node),
            Node("draws", 1, ("text", "hard", "product"), none, (), draws_node, fast=False),
            Node("deposit", 1, ("text", "product", "hard", "draws"), none, FILM_OPTIONS, deposit_node, fast=False),
            Node(
                "implied",
                1,
                ("text", "product", "hard", "draws", "deposit"),
                none,
                FILM_OPTIONS,
                implied_node,
                fast=False,
            ),
            Node("brief", 1, ("matches", "product", "roles"), none, (), _brief),
        ],
        catalog.version,
    )


def standing(edits: tuple[Edit, ...]) -> tuple[Edit, ...]:
    """Edits in force, the last word on each target and field only."""
    last = {(edit.target, edit.field): edit for edit in edits}
    return tuple(edit for edit in edits if last[(edit.target, edit.field)] is edit)
