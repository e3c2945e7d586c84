"""Corrections as events, and the case that keeps them."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import ConfigDict, Field, model_validator

from formulate.domain.model import Model

Field_ = Literal[
    "ingredient",
    "name",
    "amount",
    "means",
    "role",
    "one-percent-line",
    "drop",
    "join",
    "cut",
    "measured",
    "rule",
    "application",
    "setting",
    "bench",
    "claim",
    "assumption",
]
SCHEMA = 1


class Edit(Model):
    """One correction: ``target`` is a line id or a JSON pointer; ``when`` is ISO 8601, passed in by the face.

    A ``field`` of a newer program is kept and does nothing.
    """

    model_config = ConfigDict(frozen=True, extra="allow", serialize_by_alias=True)

    id: str
    when: str
    who: str
    target: str
    field: str
    value: str | None
    note: str = ""


class PastedText(Model):
    """A text as it came. ``id`` hashes the content."""

    model_config = ConfigDict(frozen=True, extra="allow", serialize_by_alias=True)

    id: str
    text: str


class Case(Model):
    """What is kept of one bottle. Nothing derived is stored; undo moves ``cursor``.

    Unknown fields of newer programs are kept (``extra``), not dropped.
    """

    model_config = ConfigDict(
        frozen=True, extra="allow", serialize_by_alias=True, validate_by_name=True, validate_by_alias=True
    )

    schema_: int = Field(default=SCHEMA, alias="schema", strict=True, ge=1)
    id: str
    texts: tuple[PastedText, ...] = ()
    edits: tuple[Edit, ...] = ()
    cursor: int = Field(default=0, ge=0)
    plans: tuple[dict[str, Any], ...] = ()
    results: tuple[dict[str, Any], ...] = ()
    notes: tuple[str, ...] = ()
    data: str = ""
    program: str = ""
    seed: int | None = None

    @model_validator(mode="after")
    def _cursor_within(self) -> Case:
        if self.cursor > len(self.edits):
            raise ValueError(f"the cursor {self.cursor} is behind the last of {len(self.edits)} edits")
        return self

    def standing(self) -> tuple[Edit, ...]:
        """The edits in force: those before the cursor."""
        return self.edits[: self.cursor]
