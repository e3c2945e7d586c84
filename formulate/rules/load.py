"""Rule files to rules: checked once for each version of the data, retired ones left out."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from pydantic import ValidationError

from formulate.errors import DataError
from formulate.rules.schema import Conclusion, Condition, Example, Fitted, Rule, RuleSource, Selection


def load_rules(
    records: Iterable[Mapping[str, Any]], classes: Container[str], is_ingredient: Callable[[str], bool]
) -> tuple[Rule, ...]:
    """Check rule records and return those in force, by id.

    ``classes`` and ``is_ingredient`` say what exists in the dataset. Raises DataError naming the file and the key.
    """
    rules = []
    for record in records:
        try:
            rules.append(Rule.model_validate(record))
        except ValidationError as error:
            first = error.errors()[0]
            key = ".".join(map(str, first["loc"])) or "rule"
            raise DataError(
                f"A rule file is broken: {record.get('id', '?')}.toml, key {key}.",
                f"data_public/rules, {key}",
                str(first["msg"]),
                "correct the file; DEVELOPERS.md says how a rule is written",
            ) from None
    for rule in rules:
        missing_names = sorted(_names_nothing(rule, classes, is_ingredient))
        if missing_names:
            raise DataError(
                f"A rule file is broken: {rule.id}.toml names {missing_names[0]!r}.",
                "data_public/rules, all or none",
                "the dataset has no such class or ingredient",
                "correct the id",
            )
    known = {rule.id for rule in rules}
    for rule in rules:
        missing = set(rule.instead_of) - known
        if missing:
            raise DataError(
                f"A rule file is broken: {rule.id}.toml, key instead_of.",
                "data_public/rules, instead_of",
                f"no rule is called {sorted(missing)}",
                "name a rule that exists",
            )
    return tuple(sorted((rule for rule in rules if rule.status != "retired"), key=lambda rule: rule.id))


def _names_nothing(rule: Rule, classes: Container[str], is_ingredient: Callable[[str], bool]) -> Iterator[str]:
    """Classes and ingredients in the conditions of a rule that the dataset does not have."""
    for condition in (*rule.all, *rule.none):
        chosen = condition.with_
        named = (*condition.class_, *((*chosen.class_, *chosen.except_class) if chosen else ()))
        ids = [name for one in (condition, chosen) if one is not None for name in _ingredients(one)]
        yield from (name for name in named if name not in classes)
        yield from (name for name in ids if not is_ingredient(name))


def _ingredients(named: Condition | Selection) -> tuple[str, ...]:
    """Every ingredient that a condition or selection names."""
    return (*named.ingredient, *named.ingredient_too, *named.except_ingredient)


def trusted_rules(records: Iterable[Mapping[str, Any]]) -> tuple[Rule, ...]:
    """Rules in force from records that :func:`load_rules` has accepted before, without checking them again."""
    rules = (
        Rule.model_construct(
            **{
                **record,
                "instead_of": tuple(record.get("instead_of", ())),
                "then": Conclusion.model_construct(**record["then"]),
                "all": tuple(_condition(one) for one in record["all"]),
                "none": tuple(_condition(one) for one in record.get("none", ())),
                "sources": tuple(RuleSource.model_construct(**one) for one in record["sources"]),
                "fires": tuple(Example.model_construct(**one) for one in record["fires"]),
                "silent": tuple(Example.model_construct(**one) for one in record["silent"]),
                "fitted": Fitted.model_construct(**record["fitted"]) if "fitted" in record else None,
            }
        )
        for record in records
        if record["status"] != "retired"
    )
    return tuple(sorted(rules, key=lambda rule: rule.id))


def with_fitted_weights(rules: Iterable[Rule]) -> tuple[Rule, ...]:
    """The rules with fitted weights in place of the judged ones, where there are any."""
    return tuple(rule if rule.fitted is None else _weighted(rule, rule.fitted) for rule in rules)


def _weighted(rule: Rule, fitted: Fitted) -> Rule:
    weights = {"log_odds": fitted.log_odds, "side_log_odds": fitted.side_log_odds}
    found = {name: weight for name, weight in weights.items() if weight is not None}
    return rule.model_copy(update={"then": rule.then.model_copy(update={**found, "weight": "fitted"})})


def _condition(record: Mapping[str, Any]) -> Condition:
    values = {**_defaults(Condition), **{name: _tuple(value) for name, value in record.items() if name != "with"}}
    if "with" in record:
        chosen = {**_defaults(Selection), **{name: _tuple(value) for name, value in record["with"].items()}}
        values["with"] = Selection.model_construct(**chosen)
    return Condition.model_construct(**values)


@cache
def _defaults(model: type[Condition] | type[Selection]) -> dict[str, Any]:
    """What the fields of a model hold where nothing is said, by the names of the files; worked out once."""
    return {field.alias or name: field.default for name, field in model.model_fields.items() if not field.is_required()}


def _tuple(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value
