"""Every rule file: named for its id, fires on its own example, stays silent on its counter-example."""

from __future__ import annotations

import re
import tomllib

import pytest

from formulate.catalog.store import open_catalog
from formulate.rules.schema import Rule
from formulate.workflow.nodes import rules_in_force
from tests.rules.engine_room import HINTS, RULE_FOLDER, firings, position_of, prepare

RULES = {
    path.stem: Rule.model_validate(tomllib.loads(path.read_text("utf-8")))
    for path in sorted(RULE_FOLDER.rglob("*.toml"))
}
CASES = [
    (name, kind, number)
    for name, rule in RULES.items()
    for kind in ("fires", "silent")
    for number in range(len(getattr(rule, kind)))
]


def test_every_rule_in_force_is_tested_here() -> None:
    assert set(RULES) == {rule.id for rule in rules_in_force()} != set()


@pytest.mark.parametrize("name", RULES)
def test_file_is_named_for_its_rule(name: str) -> None:
    assert RULES[name].id == name
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name)


@pytest.mark.parametrize("name", RULES)
def test_classes_and_ingredients_exist(name: str) -> None:
    catalog = open_catalog()
    rule = RULES[name]
    for condition in (*rule.all, *rule.none):
        with_ = condition.with_
        for class_ in (*condition.class_, *(with_.class_ + with_.except_class if with_ else ())):
            assert class_ in catalog.classes, class_
        for named in (condition, *((with_,) if with_ else ())):
            for ingredient in (*named.ingredient, *named.ingredient_too, *named.except_ingredient):
                assert catalog.ingredient(ingredient).id == ingredient


@pytest.mark.parametrize(("name", "kind", "number"), CASES)
def test_example(name: str, kind: str, number: int) -> None:
    rule = RULES[name]
    example = getattr(rule, kind)[number]
    scene = prepare(example.list, {key: getattr(example, key) for key in HINTS})
    position = position_of(scene, example.line)
    fired = any(firing.rule.id == name and firing.position == position for firing in firings(scene, [rule]))
    assert fired is (kind == "fires"), example.note or f"{example.line} in {example.list}"
