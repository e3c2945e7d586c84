"""Reasons: why a number or statement is so, down to where it was pasted or published.

A reason's id hashes what it says and what it rests on, so a reason can only rest
on reasons that exist already: the ledger has no cycles by construction.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Literal

from formulate.domain.model import Model, short_hash
from formulate.domain.place import Citation, Place

Kind = Literal["pasted", "looked-up", "rule", "calculated", "assumed", "corrected", "measured"]
Value = str | float | int | bool | None

LEAF_KINDS: frozenset[str] = frozenset({"pasted", "looked-up", "assumed", "corrected", "measured"})
"""Kinds that may end a chain. A ``rule`` ends in the citations it carries; ``calculated`` never ends one."""

UNSOURCED: frozenset[str] = frozenset({"common-practice", "memory"})
"""Source keys that stand for 'no source': a citation of one counts as an assumption."""


class Reason(Model):
    """One step of an argument.

    ``template`` is filled from ``values``; ``says`` is the filled sentence, so words
    and numbers cannot disagree. ``against`` marks a step that spoke against.
    """

    id: str
    kind: Kind
    says: str
    template: str
    values: dict[str, Value]
    because: tuple[str, ...] = ()
    citations: tuple[Citation, ...] = ()
    place: Place | None = None
    against: bool = False


class Ledger(Mapping[str, Reason]):
    """Reasons by id. ``add`` returns the id; adding the same reason twice is one reason."""

    def __init__(self, reasons: Mapping[str, Reason] | None = None) -> None:
        self._reasons: dict[str, Reason] = dict(reasons or {})

    def __getitem__(self, key: str) -> Reason:
        return self._reasons[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._reasons)

    def __len__(self) -> int:
        return len(self._reasons)

    def add(
        self,
        kind: Kind,
        template: str,
        values: Mapping[str, Value] | None = None,
        because: Iterable[str] = (),
        citations: Iterable[Citation] = (),
        place: Place | None = None,
        against: bool = False,
    ) -> str:
        """Add a reason and return its id.

        Raises
        ------
        KeyError
            If ``because`` names a reason that is not in this ledger, or the
            template names a value that is not given.
        """
        named = dict(values or {})
        rests_on = tuple(dict.fromkeys(because))
        cited = tuple(citations)
        missing = [key for key in rests_on if key not in self._reasons]
        if missing:
            raise KeyError(f"reasons not in the ledger: {missing}")
        spot = (place.text_id, place.start, place.end) if place else None
        key = short_hash(
            (kind, template, sorted(named.items()), rests_on, [(c.source, c.at, c.via) for c in cited], spot, against)
        )
        if key not in self._reasons:
            self._reasons[key] = Reason.model_construct(
                id=key,
                kind=kind,
                says=template.format_map(_Shown(named)),
                template=template,
                values=named,
                because=rests_on,
                citations=cited,
                place=place,
                against=against,
            )
        return key

    def update(self, other: Mapping[str, Reason]) -> None:
        """Take over the reasons of another room."""
        self._reasons.update(other)

    def closure(self, ids: Iterable[str]) -> dict[str, Reason]:
        """The reasons named and all they rest on."""
        wanted: dict[str, Reason] = {}
        stack = list(ids)
        while stack:
            key = stack.pop()
            if key not in wanted:
                wanted[key] = self._reasons[key]
                stack.extend(self._reasons[key].because)
        return wanted


class _Shown(dict[str, Any]):
    """Values as they are shown: a value nobody knows reads 'not known'."""

    def __getitem__(self, key: str) -> Any:
        value = super().__getitem__(key)
        return "not known" if value is None else value


class Node(Model):
    """A reason as a tree node; ``children`` are what it rests on, in order."""

    id: str
    kind: Kind
    says: str
    citations: tuple[Citation, ...]
    place: Place | None
    against: bool
    children: tuple[Node, ...]


def tree(reasons: Mapping[str, Reason], key: str) -> Node:
    """The tree of reasons under one id. Raises KeyError if a reason is missing."""
    reason = reasons[key]
    return Node(
        id=key,
        kind=reason.kind,
        says=reason.says,
        citations=reason.citations,
        place=reason.place,
        against=reason.against,
        children=tuple(tree(reasons, child) for child in reason.because),
    )


def leaves(node: Node) -> Iterator[Node]:
    """The nodes where the argument ends: no children."""
    if not node.children:
        yield node
    for child in node.children:
        yield from leaves(child)
