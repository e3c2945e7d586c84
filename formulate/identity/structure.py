"""A structure that a person gives in place of a name: which ingredient it is, or the class it betrays.

rdkit is loaded only when a line looks like a SMILES string.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.catalog.records import StructureClass
from formulate.catalog.store import Catalog

_LABEL = re.compile(r"^\s*smiles\s*[:=]\s*", re.IGNORECASE)
_LOOKS_SO = re.compile(r"[A-Za-z0-9@+\-\[\]()=#/\\.:%]{5,400}")
_BONDS = re.compile(r"[()=\[\]#]")


class Structure(NamedTuple):
    """What a structure was found to be: an ingredient of the dataset, or a class with the row that says so."""

    ingredient: str | None
    class_: str
    row: StructureClass | None


def read_structure(name: str, catalog: Catalog) -> Structure | None:
    """The ingredient or class of a name that is a SMILES string; None if it is none."""
    text = _LABEL.sub("", name).strip()
    labelled = _LABEL.match(name) is not None
    if not _LOOKS_SO.fullmatch(text) or not (labelled or (_BONDS.search(text) and "C" in text)):
        return None
    from formulate.catalog.structure_facts import canonical_smiles, heavy_atoms, matches_smarts, structure_facts

    canonical = canonical_smiles(text)
    facts = structure_facts(text)
    if canonical is None or facts is None:
        return None
    known = catalog.by_structure(canonical)
    if known is not None:
        return Structure(known, catalog.ingredient(known).class_, None)
    heavy = heavy_atoms(text)
    for row in catalog.structure_classes:
        long_enough = row.least_chain is None or facts["chain_carbons"] >= row.least_chain
        small_enough = row.most_heavy is None or heavy <= row.most_heavy
        if long_enough and small_enough and matches_smarts(text, row.smarts):
            return Structure(None, row.class_, row)
    return Structure(None, "other", None)
