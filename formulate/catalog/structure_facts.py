"""Facts that a structure alone gives. The only module that imports rdkit."""

from __future__ import annotations

from typing import Any, NamedTuple

SMARTS: dict[str, str] = {
    "silicon": "[Si]",
    "alkoxy_on_si": "[Si][OX2][CX4]",
    "methoxy_on_si": "[Si][OX2][CH3]",
    "amine": "[NX3;H2,H1,H0;!$(N[C,S]=[O,N]);!$(N=*);!$(N-[N,O]);!$([N+])]([#1,C])",
    "carboxylic_acid": "[CX3](=O)[OX2H1]",
    "fluorinated_carbons": "[CX4](F)(F)",
}


def structure_facts(smiles: str) -> dict[str, float] | None:
    """Counts and molar mass of a structure, or None where rdkit cannot read it.

    Returns
    -------
    dict
        ``silicon``, ``alkoxy_on_si``, ``amine``, ``carboxylic_acid``, ``fluorinated_carbons`` (counts of matches),
        ``alkyl_on_si`` (carbons of the longest unbranched carbon chain that starts on silicon), ``chain_carbons``
        (longest path through non-aromatic carbon) and ``molar_mass`` in g/mol. Wild-card atoms of repeat
        units are left out of the mass.
    """
    from rdkit import Chem, RDLogger
    from rdkit.Chem.Descriptors import MolWt  # type: ignore[attr-defined]

    RDLogger.DisableLog("rdApp.*")  # type: ignore[attr-defined]
    molecule = Chem.MolFromSmiles(smiles)
    if molecule is None:
        return None
    facts = {
        name: float(len(molecule.GetSubstructMatches(Chem.MolFromSmarts(smarts)))) for name, smarts in SMARTS.items()
    }
    on_silicon = [
        neighbour.GetIdx()
        for atom in molecule.GetAtoms()
        if atom.GetSymbol() == "Si"
        for neighbour in atom.GetNeighbors()
        if _in_chain(neighbour)
    ]
    facts["alkyl_on_si"] = float(max((_longest(molecule, start) for start in on_silicon), default=0))
    starts = [atom.GetIdx() for atom in molecule.GetAtoms() if _in_chain(atom)]
    facts["chain_carbons"] = float(max((_longest(molecule, start) for start in starts), default=0))
    facts["molar_mass"] = round(float(MolWt(molecule)), 3)
    return facts


def _in_chain(atom: Any) -> bool:
    return bool(atom.GetSymbol() == "C" and not atom.GetIsAromatic())


def _longest(molecule: Any, start: int) -> int:
    """Carbons on the longest path from ``start`` through chain carbon; breadth first, so rings end the walk."""
    seen = {start}
    layer, length = [start], 0
    while layer:
        length += 1
        following = []
        for index in layer:
            for neighbour in molecule.GetAtomWithIdx(index).GetNeighbors():
                if _in_chain(neighbour) and neighbour.GetIdx() not in seen:
                    seen.add(neighbour.GetIdx())
                    following.append(neighbour.GetIdx())
        layer = following
    return length


def canonical_smiles(smiles: str) -> str | None:
    """The one spelling under which rdkit files a structure, or None where it cannot read it."""
    from rdkit import Chem, RDLogger

    RDLogger.DisableLog("rdApp.*")  # type: ignore[attr-defined]
    molecule = Chem.MolFromSmiles(smiles)
    return None if molecule is None else str(Chem.MolToSmiles(molecule))


class Described(NamedTuple):
    """A structure read: its canonical SMILES, its formula, and what is counted on it.

    ``charge`` is the net charge, ``charged`` the number of atoms that bear one, ``heavy`` the atoms other than
    hydrogen, ``pieces`` the parts between the points of a SMILES, ``wild`` whether an atom is left open ('*').
    """

    smiles: str
    formula: str
    charge: int
    charged: int
    heavy: int
    pieces: int
    wild: bool
    elements: frozenset[str]


def smiles_of_inchi(inchi: str) -> str | None:
    """The canonical SMILES of an InChI, or None where rdkit cannot read it."""
    from rdkit import Chem, RDLogger

    RDLogger.DisableLog("rdApp.*")  # type: ignore[attr-defined]
    molecule = Chem.MolFromInchi(inchi)  # type: ignore[no-untyped-call]
    return None if molecule is None else str(Chem.MolToSmiles(molecule))


def describe(smiles: str) -> Described | None:
    """What a structure is made of, or None where rdkit cannot read it."""
    from rdkit import Chem
    from rdkit.Chem.rdMolDescriptors import CalcMolFormula

    canonical = canonical_smiles(smiles)
    if not canonical:
        return None
    molecule = Chem.MolFromSmiles(canonical)
    if molecule is None:
        return None
    atoms = list(molecule.GetAtoms())
    return Described(
        canonical,
        str(CalcMolFormula(molecule)),
        sum(atom.GetFormalCharge() for atom in atoms),
        sum(1 for atom in atoms if atom.GetFormalCharge()),
        int(molecule.GetNumHeavyAtoms()),
        canonical.count(".") + 1,
        any(atom.GetAtomicNum() == 0 for atom in atoms),
        frozenset(atom.GetSymbol() for atom in atoms),
    )


def matches_smarts(smiles: str, smarts: str) -> bool:
    """Whether a structure holds a pattern."""
    from rdkit import Chem

    molecule, pattern = Chem.MolFromSmiles(smiles), Chem.MolFromSmarts(smarts)
    return molecule is not None and pattern is not None and bool(molecule.HasSubstructMatch(pattern))
