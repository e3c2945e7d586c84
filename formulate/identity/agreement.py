"""Number and name of one line: do they say the same, one more than the other, or something else?"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal

from formulate.catalog.records import IngredientRecord, NameHit
from formulate.catalog.store import Catalog

GRADED: frozenset[str] = frozenset({"hydrocarbon-solvent", "aromatic-solvent", "mineral-oil"})
"""Classes of petroleum cuts: one number stands for many cuts, one cut is sold under several numbers."""
SOLID_WORDS: frozenset[str] = frozenset({"silane", "silicone", "wax", "silica"})
"""Classes whose words say so much that another number contradicts them."""
_STEREO_ATOM = re.compile(r"\[([A-Z][a-z]?)@{1,2}H?\]")
_STEREO_BOND = re.compile(r"[/\\]")

Settled = Literal["number", "name", "neither"]


def settled(number: tuple[NameHit, ...], name: tuple[NameHit, ...], catalog: Catalog) -> Settled:
    """Which of two statements on one line holds: the narrower if one includes the other; neither if they disagree.

    A number says more than a name that only names the kind of thing, or that leaves the mirror image open; a name says
    more than the number of a petroleum cut or of the whole kind ('hydrated silica' beside the number of any silica).
    """
    numbered, named = _records(number, catalog), _records(name, catalog)
    if all(_includes(one, other, catalog) for one in named for other in numbered):
        return "number"
    if all(_includes(one, other, catalog) for one in numbered for other in named):
        return "name"
    family = all(hit.kind == "pattern" for hit in name)
    if all(_grades(one, other, family) for one in named for other in numbered):
        return "name"
    return "neither"


def contradicts(class_: str, hits: tuple[NameHit, ...], catalog: Catalog) -> bool:
    """Whether a word for a silane, silicone, wax or silica stands beside the number of something that is none."""
    named = catalog.classes[class_].top
    numbered = {catalog.classes[record.class_].top for record in _records(hits, catalog)}
    return named in SOLID_WORDS and numbered <= SOLID_WORDS | {"solvent", "water"} and named not in numbered


def most_general(hits: Iterable[NameHit], catalog: Catalog) -> NameHit:
    """Of several ingredients with one number the one with the widest class: a number alone does not say more."""

    def width(hit: NameHit) -> tuple[int, bool]:
        record = catalog.ingredient(hit.ingredient)
        return len(catalog.classes[record.class_].line), record.kind != "substance"

    return min(hits, key=width)


def _records(hits: Iterable[NameHit], catalog: Catalog) -> list[IngredientRecord]:
    return [catalog.ingredient(key) for key in dict.fromkeys(hit.ingredient for hit in hits)]


def _includes(wide: IngredientRecord, narrow: IngredientRecord, catalog: Catalog) -> bool:
    """Whether ``wide`` only names the kind of thing that ``narrow`` is."""
    same_atoms = bool(wide.smiles) and _without_stereo(wide.smiles) == _without_stereo(narrow.smiles)
    if wide.class_ == narrow.class_:
        mixture = wide.kind == "mixture" and narrow.kind == "substance"
        mirror_image_left_open = wide.smiles != narrow.smiles and _without_stereo(wide.smiles) == wide.smiles
        return same_atoms and (mixture or mirror_image_left_open)
    above = wide.class_ in catalog.classes[narrow.class_].line
    return above and (wide.kind != "substance" or same_atoms)


def _without_stereo(smiles: str) -> str:
    return _STEREO_BOND.sub("", _STEREO_ATOM.sub(r"\1", smiles))


def _grades(named: IngredientRecord, numbered: IngredientRecord, family: bool) -> bool:
    """Whether two entries are grades of one thing: cuts of petroleum, or a member of a family by its name."""
    if named.class_ != numbered.class_ or "substance" in {named.kind, numbered.kind}:
        return False
    return family or named.class_ in GRADED
