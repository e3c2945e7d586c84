"""Prints how far the words of a name betray its class, on names whose class or function somebody else lists.

python tests/evaluation/forms.py [--rows] [--confused]

Three vocabularies, each name taken as unknown: the names of our own dataset (its class is right if it is the
ingredient's), the public cosmetic inventory (right if one of its listed functions fits the class) and the names of
the EC inventory subset (class by CAS number through our dataset). The last two need the shared facts.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.catalog.records import WordForm
from formulate.catalog.store import open_catalog
from formulate.identity.forms import betrayed_by
from tests.conftest import SHARED

SURFACTANTS = (
    "SURFACTANT", "CLEANSING", "FOAM", "EMULSIFYING", "EMULSION", "ANTISTATIC", "HAIR CONDITIONING", "HYDROTROPE",
    "CLEANING", "OPACIFYING", "VISCOSITY",
)  # fmt: skip
FUNCTIONS: dict[str, tuple[str, ...]] = {
    "surfactant": SURFACTANTS,
    "emulsifier": (*SURFACTANTS, "EMOLLIENT", "SKIN CONDITIONING", "ANTICAKING", "REFATTING"),
    "preservative": ("PRESERVATIVE", "ANTIMICROBIAL", "DEODORANT", "ANTIPLAQUE"),
    "uv-absorber": ("UV", "LIGHT", "ANTIOXIDANT"),
    "colorant": ("COLORANT", "HAIR DYEING", "OPACIFYING"),
    "thickener": ("VISCOSITY", "FILM", "BINDING", "EMULSION", "GEL", "HAIR FIXING"),
    "polymer": ("FILM", "VISCOSITY", "BINDING", "HAIR FIXING", "ANTISTATIC", "EMULSION", "HAIR CONDITIONING",
                "HUMECTANT", "SOLVENT", "GEL", "DISPERSING", "BULKING", "ADHESIVE", "NAIL", "OPACIFYING"),
    "oil": ("EMOLLIENT", "SKIN CONDITIONING", "HAIR CONDITIONING", "PERFUMING", "PLASTICISER", "OCCLUSIVE",
            "SOLVENT", "FRAGRANCE", "REFATTING", "SKIN PROTECTING", "TONIC", "SMOOTHING"),
    "wax": ("EMOLLIENT", "SKIN CONDITIONING", "VISCOSITY", "FILM", "BINDING", "EMULSION", "DEPILATORY", "OPACIFYING",
            "HAIR CONDITIONING", "OCCLUSIVE", "SKIN PROTECTING"),
    "solvent": ("SOLVENT", "VISCOSITY", "PERFUMING", "FRAGRANCE", "PROPELLANT", "PLASTICISER", "EMOLLIENT"),
    "humectant": ("HUMECTANT", "SOLVENT", "SKIN CONDITIONING", "VISCOSITY"),
    "chelator": ("CHELATING", "BUFFERING", "VISCOSITY"),
    "ph-adjuster": ("BUFFERING", "PH ADJUSTERS", "DENATURANT", "KERATOLYTIC", "HUMECTANT", "ANTIMICROBIAL",
                    "CHELATING"),
    "silicone": ("SKIN CONDITIONING", "HAIR CONDITIONING", "EMOLLIENT", "ANTIFOAMING", "FILM", "SOLVENT", "VISCOSITY",
                 "ANTISTATIC", "BINDING", "EMULSI", "SURFACTANT", "SKIN PROTECTING", "HAIR FIXING"),
    "silica": ("ABRASIVE", "ABSORBENT", "ANTICAKING", "BULKING", "OPACIFYING", "VISCOSITY", "SURFACE MODIFIER"),
    "mineral": ("ABRASIVE", "ABSORBENT", "ANTICAKING", "BULKING", "OPACIFYING", "VISCOSITY", "COLORANT", "UV",
                "SURFACE MODIFIER", "SKIN PROTECTING"),
    "abrasive": ("ABRASIVE", "ABSORBENT", "ANTICAKING", "BULKING", "OPACIFYING", "VISCOSITY"),
    "salt": ("BULKING", "BUFFERING", "VISCOSITY", "ABRASIVE", "ANTICAKING", "ORAL CARE", "CHELATING", "HUMECTANT"),
    "dispersant": ("DISPERSING", "EMULSION", "FILM", "VISCOSITY", "BINDING", "CHELATING", "SURFACTANT"),
    "corrosion-inhibitor": ("ANTICORROSIVE", "BUFFERING", "CHELATING", "PRESERVATIVE"),
    "propellant": ("PROPELLANT", "SOLVENT"),
}  # fmt: skip
"""Beginnings of the functions of the inventory that fit a class. Judged: the inventory lists uses, not chemistry.
Classes that say nothing about use there (silane, fragrance, water, other) are left out of its count."""


class Judged(NamedTuple):
    """One name, the form that fired (None: none did), and whether its class fits what is listed."""

    name: str
    form: WordForm | None
    right: bool
    listed: str


def own_names() -> Iterator[Judged]:
    """Every name of our dataset, pretended unknown; patterns left out."""
    catalog = open_catalog()
    rows = catalog._rows("select distinct names.name, class from names join ingredients on id = ingredient "
                         "where names.kind != 'pattern' order by names.name, class")  # fmt: skip
    classes: dict[str, set[str]] = defaultdict(set)
    for name, class_ in rows:
        classes[name].add(class_)
    for name, listed in classes.items():
        yield _judged(name, {catalog.classes[one].top for one in listed}, "/".join(sorted(listed)))


def inventory_names() -> Iterator[Judged]:
    """Names of the cosmetic inventory whose functions say something about what they are."""
    catalog = open_catalog()
    path = SHARED / "facts" / "cosing" / "cosing_inventory_2020-12-30.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            functions = row["function"].upper()
            if functions in {"", "NOT REPORTED"}:
                continue
            form = betrayed_by(row["inci_name"], catalog)
            top = catalog.classes[form.class_].top if form is not None else ""
            if form is not None and top not in FUNCTIONS:
                continue
            listed = [one.strip() for one in functions.split(",")]
            right = any(one.startswith(start) for one in listed for start in FUNCTIONS.get(top, ()))
            yield Judged(row["inci_name"], form, right, functions)


def ec_names() -> Iterator[Judged]:
    """Names of the EC inventory subset; the class is that of our ingredient with the CAS number."""
    catalog = open_catalog()
    path = SHARED / "facts" / "eu_ec_inventory" / "eci_subset_candidates.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            hits = catalog.by_number(row["cas_no"]) if row["cas_no"] else []
            listed = {catalog.ingredient(hit.ingredient).class_ for hit in hits}
            if listed:
                yield _judged(row["ec_name"], {catalog.classes[one].top for one in listed}, "/".join(sorted(listed)))


def _judged(name: str, tops: set[str], listed: str) -> Judged:
    catalog = open_catalog()
    form = betrayed_by(name, catalog)
    return Judged(name, form, form is not None and catalog.classes[form.class_].top in tops, listed)


def report(title: str, judged: list[Judged], rows: bool, confused: bool) -> None:
    """Coverage, precision, and the rows below nine in ten."""
    fired = [one for one in judged if one.form is not None]
    right = sum(one.right for one in fired)
    share = right / len(fired) if fired else 1.0
    covered = len(fired) / len(judged)
    print(f"{title:<46} {len(judged):>6} names, {covered:6.1%} with a form, {share:6.1%} of these right")
    by_form: dict[tuple[str, str, str], list[Judged]] = defaultdict(list)
    for one in fired:
        if one.form is not None:
            by_form[(one.form.form, one.form.where, one.form.class_)].append(one)
    for key, group in sorted(by_form.items(), key=lambda item: -len(item[1])):
        good = sum(one.right for one in group)
        stated = group[0].form.certainty if group[0].form else 0.0
        if rows and (good / len(group) < 0.9 or len(group) >= 30):
            measured = len(group) >= 30 and good / len(group) < min(0.9, stated - 0.05)
            flag = " LOW" if measured else ""
            print(f"    {' '.join(key):<70} {good:>4} of {len(group):<4} stated {stated:.2f}{flag}")
            if confused:
                wrong = Counter(f"{one.name[:50]} [{one.listed[:45]}]" for one in group if not one.right)
                print("".join(f"          {name}\n" for name, _ in wrong.most_common(6)), end="")


def main(arguments: list[str]) -> None:
    """Print what was asked for."""
    rows, confused = "--rows" in arguments, "--confused" in arguments
    report("names of our own dataset", list(own_names()), rows, confused)
    if not (SHARED / "facts").is_dir():
        print("the shared facts are absent: the two neutral vocabularies are skipped")
        return
    report("cosmetic inventory, functions", list(inventory_names()), rows, confused)
    report("EC inventory subset", list(ec_names()), rows, confused)


if __name__ == "__main__":
    main(sys.argv[1:])
