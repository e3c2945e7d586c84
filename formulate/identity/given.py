"""What follows from a structure that the line gives: counted, summed or estimated, each with its reason."""

from __future__ import annotations

from collections.abc import Iterator

from formulate.catalog.layout import FACTS
from formulate.domain.line import GivenProperty
from formulate.domain.place import Citation
from formulate.domain.reason import Ledger
from formulate.identity.structure import Structure

COUNTED: tuple[str, ...] = tuple(fact for fact in FACTS if fact != "molar_mass")


def given_properties(structure: Structure, pasted: str, ledger: Ledger) -> tuple[GivenProperty, ...]:
    """Formula, molar mass, charge, counts of groups and an estimated boiling point of a structure not in the dataset.

    ``pasted`` is the reason that the line was pasted. Values are computed by rdkit; the boiling point is marked
    estimated, has a range, or says why there is none.
    """
    return tuple(_properties(structure, pasted, ledger))


def _properties(structure: Structure, pasted: str, ledger: Ledger) -> Iterator[GivenProperty]:
    described, facts = structure.described, structure.facts
    if described is None or facts is None:
        return
    cited = Citation.model_construct(source="rdkit", at=f"from {described.smiles}")

    def computed(name: str, value: float | None, unit: str, text: str = "") -> GivenProperty:
        says = "The structure given has {property} {shown}, computed."
        shown = text or f"{value:g}{'' if unit == '1' else ' ' + unit}"
        values = {"property": name.replace("_", " "), "shown": shown}
        why = ledger.add("calculated", says, values, (pasted,), (cited,))
        return GivenProperty.model_construct(
            property=name, low=value, best=value, high=value, level=1.0, unit=unit, origin="computed", method="rdkit",
            text=text, why=why,
        )  # fmt: skip

    yield computed("formula", None, "", described.formula)
    if not described.wild:
        yield computed("molar_mass", facts["molar_mass"], "g/mol")
    yield computed("net_charge", float(described.charge), "1")
    for name in COUNTED:
        if facts[name]:
            yield computed(name, facts[name], "1")
    yield _boiling_point(structure, pasted, ledger)


def _boiling_point(structure: Structure, pasted: str, ledger: Ledger) -> GivenProperty:
    from formulate.catalog.structure_estimates import CITED, LEVEL, METHOD, boiling_point_estimate

    assert structure.described is not None
    estimate = boiling_point_estimate(structure.described)
    if estimate.best is None:
        text = f"cannot be estimated: {estimate.why_not}"
        why = ledger.add(
            "calculated", "The boiling point {text} ({method}).", {"text": text, "method": METHOD}, (pasted,), CITED
        )
    else:
        text = ""
        values = {"best": estimate.best, "low": estimate.low, "high": estimate.high, "method": METHOD}
        says = "Boiling point estimated from the structure, not measured: {best:g} C ({low:g} to {high:g}), {method}."
        why = ledger.add("calculated", says, values, (pasted,), CITED)
    return GivenProperty.model_construct(
        property="boiling_point", low=estimate.low, best=estimate.best, high=estimate.high, level=LEVEL, unit="degC",
        origin="estimated", method=METHOD, text=text, why=why,
    )  # fmt: skip
