"""A structure that a person gives in place of a name: which ingredient it is, or the class it betrays.

rdkit is loaded only when a line looks like a SMILES string or an InChI, and thermo only where the structure is not
in the dataset.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.catalog.records import StructureClass
from formulate.catalog.store import Catalog
from formulate.catalog.structure_facts import Described

LONGEST = 400
"""Signs of the longest SMILES or InChI that is read."""
DEEPEST = 60
"""Brackets within brackets up to which a SMILES is read."""
MOST_OPEN = 6
"""Open ends ('*') up to which a SMILES is read: aromatic ones are tried in every combination."""
_LABEL = re.compile(r"^\s*(?:smiles\s*[:=]|inchi\s*[:=](?=\s*InChI=))\s*(?=\S)", re.IGNORECASE)
_SMILES = re.compile(r"[A-Za-z0-9@+\-\[\]()=#/\\.:%*$]{4,}")
_BACKBONE = re.compile(r"[Cc]|Si")
_BONDS = re.compile(r"[()=\[\]#]")
_INCHI = re.compile(r"InChI=1S?/[A-Za-z0-9.()\-,/+*?;]{2,}")


class Structure(NamedTuple):
    """What a structure was found to be: an ingredient of the dataset, or a class with the row that says so.

    ``described`` and ``facts`` are what is counted on it; ``said`` is a sentence where it is not a
    plain molecule of known class.
    """

    ingredient: str | None
    class_: str
    row: StructureClass | None
    described: Described | None = None
    facts: dict[str, float] | None = None
    said: str = ""


def read_structure(name: str, catalog: Catalog) -> Structure | None:
    """The ingredient or class of a name that is a SMILES string or an InChI; None if it is neither.

    A structure beyond the limits of size is said to be too large and not looked at; nothing is raised.
    """
    text = _LABEL.sub("", name[: 2 * LONGEST]).strip()
    is_inchi = text.startswith("InChI=")
    if not _looks_like_a_structure(text, is_inchi, labelled=_LABEL.match(name) is not None):
        return None
    if len(text) > LONGEST or _depth(text) > DEEPEST or text.count("*") > MOST_OPEN:
        limits = f"{LONGEST} signs, {DEEPEST} nested brackets or {MOST_OPEN} open ends"
        return Structure(None, "other", None, said=f"structure: more than {limits}")
    from formulate.catalog.structure_facts import describe, smiles_of_inchi, structure_facts

    smiles = smiles_of_inchi(text) if is_inchi else text
    described = describe(smiles) if smiles else None
    facts = structure_facts(described.smiles) if described is not None else None
    if described is None or facts is None:
        return Structure(None, "other", None, said="structure: cannot be read") if is_inchi else None
    known = catalog.by_structure(described.smiles)
    if known is not None:
        return Structure(known, catalog.ingredient(known).class_, None, described, facts)
    if described.pieces > 1 and not described.charged:
        return Structure(None, "other", None, described, facts, "structure: several molecules, not one")
    row = _class_row(described, facts, catalog)
    return Structure(None, row.class_ if row is not None else "other", row, described, facts)


def _looks_like_a_structure(text: str, is_inchi: bool, labelled: bool) -> bool:
    if is_inchi:
        return _INCHI.fullmatch(text) is not None
    return _SMILES.fullmatch(text) is not None and (labelled or bool(_BONDS.search(text) and _BACKBONE.search(text)))


def _depth(text: str) -> int:
    """How deep brackets stand within brackets."""
    depth = deepest = 0
    for sign in text:
        depth += (sign in "([") - (sign in ")]")
        deepest = max(deepest, depth)
    return deepest


def _class_row(described: Described, facts: dict[str, float], catalog: Catalog) -> StructureClass | None:
    """The first row of the table that fits: its pattern, at least its chain, at most its atoms."""
    from formulate.catalog.structure_facts import matches_smarts

    for row in catalog.structure_classes:
        long_enough = row.least_chain is None or facts["chain_carbons"] >= row.least_chain
        small_enough = row.most_heavy is None or described.heavy <= row.most_heavy
        if long_enough and small_enough and matches_smarts(described.smiles, row.smarts):
            return row
    return None
