"""What cells of the tables may hold, and what every sourced row has."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field
from stdnum import casrn
from stdnum.eu import ecnumber

from formulate.domain.model import Model
from formulate.domain.vocabulary import ROLES


def _cas(value: str) -> str:
    if value and not casrn.is_valid(value):
        raise ValueError("not a CAS number: the check digit fails")
    return value


def _ec(value: str) -> str:
    if value and not ecnumber.is_valid(value):
        raise ValueError("not an EC number: the check digit fails")
    return value


def _role(value: str) -> str:
    if value not in ROLES:
        raise ValueError("not a role of the vocabulary")
    return value


def _slug(value: str) -> str:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", value):
        raise ValueError("an id is lower-case words joined by hyphens")
    return value


def _day(value: str) -> str:
    if value and date.fromisoformat(value).isoformat() != value:
        raise ValueError("write a date as 2026-11-25")
    return value


def _number(value: Any) -> Any:
    return None if value == "" else value


Cas = Annotated[str, AfterValidator(_cas)]
Ec = Annotated[str, AfterValidator(_ec)]
Role = Annotated[str, AfterValidator(_role)]
Slug = Annotated[str, AfterValidator(_slug)]
Day = Annotated[str, AfterValidator(_day)]
Number = Annotated[float | None, BeforeValidator(_number)]
Share = Annotated[Annotated[float, Field(ge=0, le=1)] | None, BeforeValidator(_number)]
Positive = Annotated[Annotated[float, Field(gt=0)] | None, BeforeValidator(_number)]
AtLeastOne = Annotated[Annotated[float, Field(ge=1)] | None, BeforeValidator(_number)]
Filled = Annotated[str, Field(min_length=1)]
Fate = Literal["leaves", "stays", "depends", "reacts"]


class Sourced(Model):
    """A row that says where it was seen: key of ``sources.toml`` and the place in that source."""

    source: Filled
    at: Filled


class OfIngredient(Sourced):
    """A sourced row about one ingredient."""

    ingredient: Slug
