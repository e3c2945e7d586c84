"""What the dataset knows of applications, families of particles and surfaces."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import Any, NamedTuple

from formulate.catalog.store import Catalog
from formulate.domain.place import Citation
from formulate.domain.reason import UNSOURCED, Kind, Ledger
from formulate.film.apply import Application, Spread
from formulate.film.particles import Family

QUANTITY_WORDS = {
    "wet": "Liquid put on in one coat",
    "kept": "The fraction kept",
    "speed": "The speed",
    "viscosity": "The viscosity",
    "surface_tension": "The surface tension",
    "evaporation": "The evaporation",
}


class Surface(NamedTuple):
    """A surface with its roughness (root mean square), nm."""

    name: str
    title: str
    roughness: Spread
    why: str


def application_names(catalog: Catalog) -> tuple[str, ...]:
    """Names of the ways of putting a product on."""
    return tuple(str(row[0]) for row in catalog.count("select application from applications order by rowid"))


def application_for(catalog: Catalog, form: str) -> str:
    """The way in which products of a form are put on; ``any`` where the table names none."""
    rows = catalog.count("select application, forms from applications order by rowid")
    return next((str(name) for name, forms in rows if form in str(forms).split(";")), "any")


def application(catalog: Catalog, name: str, ledger: Ledger) -> Application:
    """An application with its figures, each with a reason. Raises KeyError if there is none of this name."""
    rows = catalog.records("applications", "application", name)
    if not rows:
        raise KeyError(name)
    figures, whys = {}, {}
    for row in catalog.records("application_figures", "application", name):
        quantity = row["quantity"]
        figures[quantity] = Spread(row["low"], row["typical"], row["high"])
        says = "{what} is taken as {low:.4g} to {high:.4g} {unit}, half below {typical:.4g} ({title}).{note}"
        note = f" Note: {row['note']}." if row["note"] else ""
        values: dict[str, Any] = {
            "what": QUANTITY_WORDS[quantity],
            **{key: row[key] for key in ("low", "typical", "high")},
            "unit": "" if row["unit"] == "1" else row["unit"],
            "title": rows[0]["title"],
            "note": note,
        }
        whys[quantity] = ledger.add(_kind(row), says, values, citations=[_cited(row)])
    model = {"landau-levich": "drag-out of a plate", "spin-evaporation": "thinning on a turntable"}.get(
        rows[0]["model"]
    )
    if model is not None:
        says = "Wet mass is worked out from the formula for {model}."
        because = [why for quantity, why in whys.items() if quantity != "kept"]
        whys["wet"] = ledger.add("calculated", says, {"model": model}, because, [_cited(rows[0])])
    return Application(name, rows[0]["title"], rows[0]["model"], figures, whys)


def families(catalog: Catalog, classes: Sequence[str], ledger: Ledger) -> tuple[tuple[Family, ...], str]:
    """Families of particles with their shares, shifted by the classes of the silica lines, and the reason."""
    found, cited, because = [], [], []
    rows = catalog.records("particle_families", "unit", "nm")
    for row in rows:
        hinted = set(classes) & set(row["classes"].split(";"))
        share = row["share"] * (row["odds"] if hinted else 1.0)
        spread = Spread(row["low"], row["typical"], row["high"])
        found.append(Family(row["family"], row["title"], spread, (row["gsd_low"], row["gsd_high"]), share))
        cited.append(_cited(row))
        if hinted:
            because.append(row["title"])
    total = sum(family.share for family in found)
    parts = "; ".join(
        f"{one.title} of {one.median_nm.low:g} to {one.median_nm.high:g} nm {one.share / total:.0%}" for one in found
    )
    says = "The size of the silica is not said, so it is assumed: {parts}.{hint}"
    hint = f" The list speaks for {' and '.join(because)}." if because else " Nothing in the list speaks for one."
    why = ledger.add("assumed", says, {"parts": parts, "hint": hint}, citations=cited)
    return tuple(one._replace(share=one.share / total) for one in found), why


def surface(catalog: Catalog, words: str | None, ledger: Ledger) -> Surface:
    """The surface that goes by these words; a glass slide where nobody said, or nobody knows the word."""
    wanted = (words or "").strip().lower()
    rows = catalog.records("surfaces", "unit", "nm")
    row = next((row for row in rows if wanted and wanted in (row["surface"], *row["words"].split(";"))), None)
    known = row is not None
    row = row or next(row for row in rows if row["surface"] == "glass-slide")
    roughness = Spread(row["rq_low"], sqrt(row["rq_low"] * row["rq_high"]), row["rq_high"])
    says = "{title}: roughness of {low:g} to {high:g} nm (root mean square) before anything is put on.{assumed}"
    assumed = "" if known else f" {'This surface is not known' if wanted else 'No surface was said'}, so it is assumed."
    values: dict[str, Any] = {
        "title": row["title"][:1].upper() + row["title"][1:],
        "low": row["rq_low"],
        "high": row["rq_high"],
        "assumed": assumed,
    }
    return Surface(
        row["surface"], row["title"], roughness, ledger.add(_kind(row), says, values, citations=[_cited(row)])
    )


def _kind(row: dict[str, Any]) -> Kind:
    return "assumed" if row["source"] in UNSOURCED else "looked-up"


def _cited(row: dict[str, Any]) -> Citation:
    return Citation.model_construct(source=row["source"], at=row["at"], via=row.get("via") or None)
