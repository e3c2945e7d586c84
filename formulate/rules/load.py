"""Rule files to rules: checked, retired ones left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import ValidationError

from formulate.errors import DataError
from formulate.rules.schema import Rule


def load_rules(records: Iterable[Mapping[str, Any]]) -> tuple[Rule, ...]:
    """Check rule records and return those in force, by id. Raises DataError naming the file and the key."""
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
