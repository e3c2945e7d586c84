"""The models that the functions return and ``--json`` prints."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from formulate.domain.brief import HeadlineSaid, Sentence
from formulate.domain.line import GivenProperty, HazardCode, How, LeftOver, Stated, StatedFact
from formulate.domain.model import Model
from formulate.domain.place import Place
from formulate.domain.reason import Node, Reason
from formulate.domain.roles import AlsoRole, Evidence, RoleChoice, Severity


class ProductEcho(Model):
    """What was assumed or given about the product; ``form_origin`` given, read or assumed."""

    form: str
    form_origin: str
    claim: str | None
    substrate: str | None
    jurisdiction: tuple[str, ...]
    date: str | None
    dilution: str | None


class Answer(Model):
    """What every answer carries."""

    schema_: str = Field(alias="schema")
    formulate: str
    data: str
    product: ProductEcho
    notes: tuple[str, ...]
    why: dict[str, str]
    reasons: dict[str, Reason]


class MatchSaid(Model):
    """How a line was matched, how sure, and what was tried."""

    how: How
    confidence: float
    tried: tuple[str, ...]


class ReadLine(Model):
    """What was understood of one line."""

    id: str
    position: int
    place: Place
    raw: str
    name: str
    ingredient: str | None
    cas: str | None
    ec: str | None
    class_: str = Field(alias="class")
    subclass: str
    class_guessed: bool
    match: MatchSaid
    stated: Stated | None
    candidates: tuple[str, ...] = ()
    function: str | None = None
    doubtful: str | None = None
    properties: tuple[GivenProperty, ...] = ()
    part: str | None = None


class ReadAnswer(Answer):
    """Answer of ``read``."""

    lines: tuple[ReadLine, ...]
    left_over: tuple[LeftOver, ...]
    facts: dict[str, StatedFact]
    hazard_codes: tuple[HazardCode, ...] = ()


class IngredientRoles(Model):
    """What one ingredient is and does. ``roles`` sum to 1; ``fate`` leaves, stays, depends, reacts or null."""

    position: int
    line: str
    raw: str
    name: str
    ingredient: str | None
    class_: str = Field(alias="class")
    subclass: str
    class_guessed: bool
    how: How
    confidence: float
    fate: str | None
    roles: tuple[RoleChoice, ...]
    also: tuple[AlsoRole, ...]
    corrected: bool


class ConflictSaid(Model):
    """Ingredients that do not go together."""

    conflict: str
    between: tuple[int, ...]
    says: str
    severity: Severity
    sources: tuple[str, ...]


class CautionSaid(Model):
    """What can hurt and how one works; ``lines`` are positions. ``certainty`` is possibly if it rests on a line that
    stays open between several ingredients, of which not all call for it."""

    caution: str
    lines: tuple[int, ...]
    says: str
    severity: Severity
    sources: tuple[str, ...]
    certainty: Literal["at least", "possibly"] = "at least"


class RolesAnswer(Answer):
    """Answer of ``roles``."""

    ingredients: tuple[IngredientRoles, ...]
    conflicts: tuple[ConflictSaid, ...]
    cautions: tuple[CautionSaid, ...]


class BriefAnswer(Answer):
    """Answer of ``brief``."""

    sentences: tuple[Sentence, ...]
    unknown: tuple[int, ...]
    carrier: tuple[str, ...]
    stays: tuple[str, ...]
    evaporates: tuple[str, ...]
    headline: HeadlineSaid | None
    caution: Sentence | None


class WhyAnswer(Model):
    """The tree of reasons under one pointer of an answer."""

    schema_: str = Field(default="formulate/why/1", alias="schema")
    pointer: str
    tree: Node
    sources: dict[str, str]


class ErrorSaid(Model):
    """An error in four parts."""

    reference: str
    what: str
    at: str
    why: str
    try_: str = Field(alias="try")


class ErrorAnswer(Model):
    """What ``--json`` prints on standard error when a command fails."""

    schema_: str = Field(default="formulate/error/1", alias="schema")
    error: ErrorSaid


__all__ = [
    "AlsoRole",
    "Answer",
    "BriefAnswer",
    "CautionSaid",
    "ConflictSaid",
    "ErrorAnswer",
    "ErrorSaid",
    "Evidence",
    "IngredientRoles",
    "MatchSaid",
    "ProductEcho",
    "ReadAnswer",
    "ReadLine",
    "RolesAnswer",
    "WhyAnswer",
]
