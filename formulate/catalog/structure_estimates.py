"""Properties that a structure lets one estimate, with the error that the authors of the method state.

The groups are counted and summed by the ``thermo`` library, imported only when an estimate is asked for.
"""

from __future__ import annotations

from typing import NamedTuple

from formulate.catalog.structure_facts import Described, matches_smarts
from formulate.domain.place import Citation

METHOD = "Joback group contribution, with Stein and Brown's correction"
KELVIN = 273.15
JOBACK_SPREAD_K = 17.85
"""Standard deviation of the method over 438 compounds (mean absolute error 12.91 K, 3.6 %): Joback and Reid 1987."""
LEVEL = 0.95
"""Share of cases meant to lie in the range: two standard deviations to each side, were the errors normal."""
HIGHEST_K = 700.0
"""Sum of groups up to which Stein and Brown's correction is used; above it nothing is estimated."""
MOST_ATOMS = 100
"""Atoms other than hydrogen of the largest molecule that is looked at."""
ELEMENTS: frozenset[str] = frozenset({"C", "H", "O", "N", "S", "F", "Cl", "Br", "I"})
"""Elements for which the method has groups."""
BEYOND: tuple[tuple[str, str], ...] = (
    ("[NX3][CX3]=O", "an amide: the method adds its groups without their attraction to each other"),
    ("[CX3;R](=O)[OX2;R]", "a ring ester: the method has no group for it"),
    ("[CX3](=O)[OX2][CX3]=O", "an anhydride: the method has no group for it"),
    ("[OX2][CX3](=O)[OX2]", "a carbonate: the method has no group for it"),
)
"""Groups that the sum of parts is known to miss."""

JOBACK = Citation.model_construct(source="joback-1987", at="p. 233-243; error as stated by thermo 0.6, Joback.Tb")
STEIN = Citation.model_construct(source="stein-brown-1994", at="correction of the sum of groups up to 700 K")
CITED = (JOBACK, STEIN)


class Estimated(NamedTuple):
    """An estimated boiling point at 101.3 kPa in C, or the reason why there is none (numbers None)."""

    low: float | None
    best: float | None
    high: float | None
    why_not: str = ""


def boiling_point_estimate(described: Described) -> Estimated:
    """Normal boiling point of a molecule by group contribution.

    Returns
    -------
    Estimated
        ``best`` is the corrected sum; the range runs two stated standard deviations beyond the lower and the
        higher of the sum with and without correction. Where the method has no groups for the molecule the
        numbers are None and ``why_not`` says why; nothing is raised.
    """
    why_not = _out_of_reach(described)
    if why_not:
        return Estimated(None, None, None, why_not)
    from thermo.group_contribution.joback import Joback

    fragments = Joback(described.smiles)
    plain = Joback.Tb(fragments.counts) if fragments.success else None
    if plain is None:
        return Estimated(None, None, None, "it holds a group that the method lacks")
    if not 0 < plain <= HIGHEST_K:
        return Estimated(None, None, None, f"the groups sum to more than {HIGHEST_K:g} K, where the method fails")
    corrected = stein_brown(plain)
    reach = 2 * JOBACK_SPREAD_K
    ends = (min(plain, corrected) - reach, corrected, max(plain, corrected) + reach)
    low, best, high = (round(end - KELVIN) for end in ends)
    return Estimated(low, best, high)


def stein_brown(kelvin: float) -> float:
    """The correction that Stein and Brown (1994) found for sums of groups up to 700 K, which run high above 500 K."""
    return kelvin - 94.84 + 0.5577 * kelvin - 0.0007705 * kelvin**2


def _out_of_reach(described: Described) -> str:
    """Why the method says nothing about this structure; empty if it does."""
    foreign = sorted(described.elements - ELEMENTS - {"*"})
    if described.wild:
        return "the structure is a repeat unit, not a molecule"
    if described.pieces > 1:
        return "the structure holds several pieces"
    if described.charged and not matches_smarts(described.smiles, "[N+](=O)[O-]"):
        return "the structure bears charges"
    if foreign:
        return f"the method has no groups for {', '.join(foreign)}"
    if described.heavy > MOST_ATOMS:
        return f"it has more than {MOST_ATOMS} atoms beside hydrogen"
    if "C" not in described.elements or described.heavy < 2:
        return "the method is for organic molecules of two atoms and more"
    return next((why for smarts, why in BEYOND if matches_smarts(described.smiles, smarts)), "")
