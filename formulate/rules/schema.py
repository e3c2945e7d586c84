"""The shape of a rule file. One rule, one TOML file, named for its id; its examples are its tests."""

from __future__ import annotations

import string
from collections.abc import Iterator
from typing import Literal

from pydantic import Field, model_validator

from formulate.domain.model import Model
from formulate.domain.vocabulary import ROLES

Group = Literal["identity", "context", "amount", "hint"]
Severity = Literal["grave", "serious", "care", "note"]
Op = Literal[">=", "<=", ">", "<", "=="]
Where = Literal["anywhere", "above", "below"]

TEXT_FACTS: frozenset[str] = frozenset({"fate", "kind", "charge"})
NUMBER_FACTS: frozenset[str] = frozenset(
    {
        "position",
        "from_end",
        "lines",
        "stated_low",
        "stated_high",
        "viscosity_mm2_s",
        "number",
        "boiling_point_c",
        "molar_mass",
        "silicon",
        "alkoxy_on_si",
        "methoxy_on_si",
        "alkyl_on_si",
        "amine",
        "carboxylic_acid",
        "chain_carbons",
        "fluorinated_carbons",
        "hlb",
        "pka",
        "melting_point_c",
        "flash_point_c",
    }
)


class Selection(Model):
    """Which lines are meant: every part given must hold; ``ingredient_too`` are meant whatever the rest says."""

    ingredient: tuple[str, ...] = ()
    class_: tuple[str, ...] = Field(default=(), alias="class")
    fate: tuple[str, ...] = ()
    charge: tuple[str, ...] = ()
    ingredient_too: tuple[str, ...] = ()
    except_kind: tuple[str, ...] = ()
    except_ingredient: tuple[str, ...] = ()
    except_class: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _says_something(self) -> Selection:
        if not (self.ingredient or self.class_ or self.fate or self.charge):
            raise ValueError("a selection needs ingredient, class, fate or charge")
        return self


class Condition(Model):
    """One thing a rule looks at. Exactly one of ``ingredient``, ``class``, ``fact``, ``hint``, ``with``, ``known``.

    ``with`` looks for other lines; ``as`` names them for the reason; ``least`` says how many are needed.
    Beside ``class``, ``ingredient_too`` are meant in addition. A condition never holds on a line whose ingredient
    stands in ``except_ingredient``: among ``none`` that spares it.
    """

    ingredient: tuple[str, ...] = ()
    class_: tuple[str, ...] = Field(default=(), alias="class")
    ingredient_too: tuple[str, ...] = ()
    except_ingredient: tuple[str, ...] = ()
    fact: str | None = None
    op: Op | None = None
    value: float | None = None
    is_: tuple[str, ...] = Field(default=(), alias="is")
    hint: Literal["form", "claim", "substrate"] | None = None
    any: tuple[str, ...] = ()
    with_: Selection | None = Field(default=None, alias="with")
    where: Where = "anywhere"
    least: int = 1
    as_: str = Field(default="other", alias="as")
    known: bool = False
    told: bool = False

    @model_validator(mode="after")
    def _one_kind(self) -> Condition:
        kinds = [
            bool(self.ingredient),
            bool(self.class_),
            self.fact is not None,
            self.hint is not None,
            self.with_ is not None,
            self.known,
            self.told,
        ]
        if sum(kinds) != 1:
            raise ValueError("a condition looks at exactly one of ingredient, class, fact, hint, with, known, told")
        if self.ingredient_too and not self.class_:
            raise ValueError("ingredient_too adds to a class: give 'class'")
        if self.fact is not None:
            self._check_fact(self.fact)
        if self.hint is not None and not self.any:
            raise ValueError("a hint condition needs 'any': words of which one must be given")
        return self

    def _check_fact(self, fact: str) -> None:
        if fact in TEXT_FACTS:
            if not self.is_:
                raise ValueError(f"fact {fact} is a word: give 'is'")
        elif fact in NUMBER_FACTS:
            if self.op is None or self.value is None:
                raise ValueError(f"fact {fact} is a number: give 'op' and 'value'")
        else:
            raise ValueError(f"no such fact: {fact}")

    def names(self) -> Iterator[str]:
        """The names a reason may use because this condition tested them."""
        if self.fact is not None:
            yield self.fact
        if self.hint is not None:
            yield self.hint
        if self.with_ is not None:
            yield self.as_
        if self.class_:
            yield "class_name"
        if self.known or self.told:
            yield from ("known_role", "strength")


class Conclusion(Model):
    """What a rule supports (``log_odds`` > 0) or speaks against (< 0), the conflict it reports, or the caution."""

    role: str | None = None
    log_odds: float | None = None
    side_log_odds: float | None = None
    weight: Literal["judged", "fitted"] = "judged"
    conflict: str | None = None
    caution: str | None = None
    severity: Severity | None = None
    first: bool = False
    """Stands before other cautions of the same severity."""

    @model_validator(mode="after")
    def _one_conclusion(self) -> Conclusion:
        if sum(part is not None for part in (self.role, self.conflict, self.caution)) != 1:
            raise ValueError("a conclusion has one of role, conflict, caution")
        if self.role is not None:
            if self.role not in ROLES and self.role not in {"$known", "$told"}:
                raise ValueError(f"no such role: {self.role}")
            if self.log_odds is None or self.log_odds == 0 or abs(self.log_odds) > 6:
                raise ValueError("log_odds must be given, not 0, within -6 to 6")
        elif self.severity is None:
            raise ValueError("a conflict or caution needs a severity")
        return self


class RuleSource(Model):
    """Source of a rule: key of ``sources.toml`` and the place in it."""

    id: str
    at: str


class Example(Model):
    """A list in which the rule fires (or stays silent) at ``line`` (a name as printed in ``list``)."""

    list: str
    line: str
    form: str | None = None
    claim: str | None = None
    substrate: str | None = None
    note: str = ""


class Fitted(Model):
    """Weights of a rule as fitted (``rule_weights.csv``), each with the rows in which it spoke."""

    log_odds: float | None = None
    rows: int = 0
    side_log_odds: float | None = None
    side_rows: int = 0


class Rule(Model):
    """A rule. ``all`` must hold, ``none`` must not; a missing fact satisfies neither."""

    id: str
    title: str
    status: Literal["draft", "reviewed", "retired"]
    since: str
    group: Group
    instead_of: tuple[str, ...] = ()
    reason: str
    limits: str
    then: Conclusion
    all: tuple[Condition, ...]
    none: tuple[Condition, ...] = ()
    sources: tuple[RuleSource, ...]
    fires: tuple[Example, ...]
    silent: tuple[Example, ...]
    fitted: Fitted | None = None

    @model_validator(mode="after")
    def _whole(self) -> Rule:
        if not (self.all and self.sources and self.fires and self.silent):
            raise ValueError("a rule needs conditions, a source, an example where it fires and one where it must not")
        tested = {"name"} | {name for condition in self.all for name in condition.names()}
        used = {field for _, field, _, _ in string.Formatter().parse(self.reason) if field}
        if used - tested:
            raise ValueError(f"the reason names what the premise does not test: {sorted(used - tested)}")
        if self.then.role in {"$known", "$told"} and "known_role" not in tested:
            raise ValueError("role $known needs a condition known = true, $told one told = true")
        return self
