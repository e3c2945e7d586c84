"""What was said about the product around its list, and how it came to be said."""

from __future__ import annotations

from typing import Literal

from formulate.domain.model import Model

Origin = Literal["given", "read", "assumed"]


class Hint(Model):
    """A hint (form, claim, substrate): its value, whether it was given as an option, read in the text, or
    assumed, and the reason."""

    value: str
    origin: Origin
    why: str


class Product(Model):
    """The hints that the rooms work with. ``form`` 'unknown' means nobody said how it is put on."""

    form: Hint
    claim: Hint | None = None
    substrate: Hint | None = None
    headlines: tuple[Hint, ...] = ()
    jurisdiction: str | None = None
    date: str | None = None
    dilution: str | None = None
