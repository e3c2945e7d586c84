"""Take each rule away in turn: some list of the corpus must look different to a person."""

from __future__ import annotations

import pytest

from formulate.workflow.nodes import rules_in_force
from tests.rules.engine_room import corpus, corpus_scene, judge, outcome

pytestmark = pytest.mark.slow


def lists_that_change(name: str) -> list[str]:
    """Lists whose top roles, further functions, conflicts or cautions change without the rule."""
    rest = [
        rule.model_copy(update={"instead_of": tuple(one for one in rule.instead_of if one != name)})
        for rule in rules_in_force()
        if rule.id != name
    ]
    own = {example.list for rule in rules_in_force() if rule.id == name for example in rule.fires}
    changed = []
    for key, record in corpus():
        scene = corpus_scene(key)
        if record["list"] not in own and outcome(judge(scene)) != outcome(judge(scene, rest)):
            changed.append(key)
    return changed


@pytest.mark.parametrize("name", [rule.id for rule in rules_in_force() if rule.then.caution is None])
def test_rule_matters(name: str) -> None:
    assert lists_that_change(name), "without this rule no list of the corpus changes"
