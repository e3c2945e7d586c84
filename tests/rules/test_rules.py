"""Every rule file: named for its id, fires on its own example, stays silent on its counter-example."""

from __future__ import annotations

import csv
import re
import tomllib

import pytest

from formulate.catalog.store import open_catalog
from formulate.catalog.tables import RuleWeightRow, with_weights
from formulate.rules.schema import Condition, Rule
from formulate.workflow.nodes import fitted_rules, rules_in_force
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


WEIGHTS = list(csv.DictReader((RULE_FOLDER.parent / "rule_weights.csv").read_text("utf-8").splitlines()))


@pytest.mark.parametrize("row", WEIGHTS, ids=[f"{row['rule']}-{row['part']}" for row in WEIGHTS])
def test_fitted_weight_stands_beside_the_judged_one_of_its_rule(row: dict[str, str]) -> None:
    """If this fails a weight was judged anew: ``python tests/evaluation/fit_weights.py --write``."""
    then = RULES[row["rule"]].then
    assert float(row["judged"]) == (then.log_odds if row["part"] == "main" else then.side_log_odds)
    assert float(row["judged"]) * float(row["fitted"]) > 0, "a fitted weight keeps the sign of the judged one"
    rule = next(one for one in fitted_rules() if one.id == row["rule"])
    used = rule.then.log_odds if row["part"] == "main" else rule.then.side_log_odds
    assert (rule.then.weight, used) == ("fitted", float(row["fitted"]))


def test_a_weight_judged_anew_sets_its_fitted_one_aside() -> None:
    row = RuleWeightRow(rule="some", part="main", judged=2.0, fitted=2.5, rows=7)
    same = {"id": "some", "then": {"role": "builder", "log_odds": 2.0}}
    other = {"id": "some", "then": {"role": "builder", "log_odds": 3.0}}
    assert with_weights([same], [row]) == [{**same, "fitted": {"log_odds": 2.5, "rows": 7}}]
    assert with_weights([other], [row]) == [other]


def test_switch_of_weights(monkeypatch: pytest.MonkeyPatch) -> None:
    fitted = {rule.id: rule.then.weight for rule in rules_in_force()}
    monkeypatch.setattr("formulate.workflow.nodes.WEIGHTS", "judged")
    assert "fitted" in fitted.values()
    assert {rule.then.weight for rule in rules_in_force()} == {"judged"}


def test_class_or_these_ingredients_and_except_these() -> None:
    rule = RULES["strong-alkali"]
    for text, fired in (
        ("Aqua, Sodium Hydroxide, Sodium Laureth Sulfate", False),
        ("Aqua, Sodium Metasilicate, Sodium Laureth Sulfate", True),
        ("Aqua, Sodium Silicate, Laureth-7", False),
    ):
        assert bool(firings(prepare(text, {}), [rule])) is fired, text
    with pytest.raises(ValueError, match="ingredient_too adds to a class"):
        Condition.model_validate({"fact": "hlb", "op": ">", "value": 1, "ingredient_too": ["sodium-metasilicate"]})
