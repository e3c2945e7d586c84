"""The base of every model: frozen, named as in the contract."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from pydantic import BaseModel, ConfigDict


class Model(BaseModel):
    """Frozen value; refuses unknown fields; ``class_``, ``schema_`` and ``try_`` are written without the underscore.

    What comes from outside (tables, rules, cases) goes through validation. What the program makes itself is built
    with ``model_construct``, whose arguments mypy checks: building the run-time checks would take a third of the
    time that one command takes.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        serialize_by_alias=True,
        validate_by_name=True,
        validate_by_alias=True,
        defer_build=True,  # a command builds only the models it uses: the start is what a person waits for
    )


def digest(value: Any) -> str:
    """Short hash (12 hex digits) of plain content: equal things are equal everywhere."""
    text = json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"), default=_plain)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:12]


def short_hash(value: tuple[object, ...]) -> str:
    """Short hash (12 hex digits) of a tuple of plain values (text, numbers, None, lists and tuples of these)."""
    return hashlib.sha256(repr(value).encode("utf-8", "backslashreplace")).hexdigest()[:12]


def _plain(value: Any) -> Any:
    if isinstance(value, BaseModel):
        return value.model_dump(mode="json")
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    raise TypeError(f"{type(value).__name__} has no plain form")
