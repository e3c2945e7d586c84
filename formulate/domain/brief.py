"""The mixture in a few sentences."""

from __future__ import annotations

from formulate.domain.model import Model


class Sentence(Model):
    """A sentence and the id of the reason it hangs on."""

    text: str
    why: str


class HeadlineSaid(Model):
    """What the front promises, whether the list holds it (None: cannot be said), and what follows."""

    headline: str
    in_list: bool | None
    says: str
    why: str


class Brief(Model):
    """A few sentences; every one hangs on a reason and is absent when the reason is."""

    sentences: tuple[Sentence, ...]
    carrier: tuple[str, ...] = ()
    stays: tuple[str, ...] = ()
    evaporates: tuple[str, ...] = ()
    headline: HeadlineSaid | None = None
    caution: Sentence | None = None
    why_carrier: str | None = None
    why_stays: str | None = None
    why_evaporates: str | None = None
