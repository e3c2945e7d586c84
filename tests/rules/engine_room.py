"""Reads a list once and runs any set of rules over it, so that a rule can be taken away and its absence be seen."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from formulate.attribution.attribute import attribute
from formulate.attribution.facts import line_facts
from formulate.attribution.hints import hint_facts, product_hints
from formulate.catalog.store import open_catalog
from formulate.domain.reason import Ledger
from formulate.domain.roles import Attribution
from formulate.identity.match import identify
from formulate.reading import add_pasted, add_stated, read_text
from formulate.rules.engine import Firing, run_rules
from formulate.rules.schema import Rule
from formulate.workflow.nodes import rules_in_force

HERE = Path(__file__).parent
RULE_FOLDER = HERE.parents[1] / "data_public" / "rules"
CORPUS_FOLDER = HERE.parent / "corpus"
HINTS = ("form", "claim", "substrate")


class Scene(NamedTuple):
    """A list read and identified, with what was said about the product; rules have not spoken yet."""

    reading: Any
    matches: Any
    reasons: Any
    stated: Any
    product: Any
    ledger: Ledger


def prepare(text: str, options: Mapping[str, str | None]) -> Scene:
    """Everything up to the rules."""
    catalog = open_catalog()
    reading, ledger = read_text(text, "scene", catalog.knows)
    pasted = {line.id: add_pasted(ledger, line, len(reading.lines)) for line in reading.lines}
    matches, reasons = identify(reading.lines, pasted, ledger, catalog, ())
    product = product_hints(reading, matches, reasons, {key: options.get(key) for key in HINTS}, ledger, catalog)
    stated = [add_stated(ledger, line) if line.stated is not None else None for line in reading.lines]
    return Scene(reading, matches, reasons, stated, product, ledger)


def judge(scene: Scene, rules: Sequence[Rule] | None = None) -> Attribution:
    """Roles and conflicts of a prepared list under a set of rules (all in force if none are given)."""
    return attribute(
        scene.reading.lines,
        scene.matches,
        scene.reasons,
        scene.stated,
        hint_facts(scene.product),
        rules_in_force() if rules is None else rules,
        scene.ledger,
        open_catalog(),
    )


def firings(scene: Scene, rules: Sequence[Rule]) -> tuple[Firing, ...]:
    """What fires, before anything is added up."""
    facts = line_facts(scene.reading.lines, scene.matches, scene.reasons, scene.stated, scene.ledger, open_catalog())
    return run_rules(rules, facts, hint_facts(scene.product), scene.ledger)


def position_of(scene: Scene, name: str) -> int:
    """Position of the line printed as ``name``; the test fails loudly if the reader did not see it."""
    wanted = name.casefold()
    for line in scene.reading.lines:
        if wanted in (line.name.casefold(), line.raw.casefold().strip()):
            return int(line.position)
    for line in scene.reading.lines:
        if wanted in line.raw.casefold():
            return int(line.position)
    raise AssertionError(f"no line {name!r} in {[line.raw for line in scene.reading.lines]}")


@cache
def corpus() -> tuple[tuple[str, dict[str, Any]], ...]:
    """All lists of the corpus by id."""
    return tuple((path.stem, tomllib.loads(path.read_text("utf-8"))) for path in sorted(CORPUS_FOLDER.glob("*.toml")))


@cache
def corpus_scene(name: str) -> Scene:
    """A list of the corpus, read once."""
    record = dict(corpus())[name]
    return prepare(record["list"], {key: record.get(key) for key in HINTS})


def outcome(found: Attribution) -> tuple[Any, ...]:
    """What a person would see change: top role and further functions of each line, conflicts, cautions."""
    lines = tuple((line.position, line.roles[0].role, frozenset(one.role for one in line.also)) for line in found.lines)
    conflicts = frozenset((one.id, one.between) for one in found.conflicts)
    return lines, conflicts, frozenset((one.id, one.lines) for one in found.cautions)
