"""``data``: what is known of an ingredient and who says so; how well the dataset is backed; the dataset as a file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date as date_
from pathlib import Path
from typing import Any, TypeVar

from formulate._version import __version__
from formulate.catalog import counts
from formulate.catalog.export import FORMATS, export, write_section
from formulate.catalog.find import look_up
from formulate.catalog.quality import coverage
from formulate.catalog.store import Catalog, open_catalog
from formulate.catalog.tables import read_tables
from formulate.domain.model import Model
from formulate.domain.place import Citation
from formulate.domain.reason import UNSOURCED, Ledger
from formulate.errors import UsageError
from formulate.workflow.answers import ProductEcho
from formulate.workflow.data_answers import (
    CoverageSaid,
    DataAnswer,
    HazardSaid,
    IngredientData,
    LevelSaid,
    LimitSaid,
    NameSaid,
    PropertySaid,
    Quality,
    RestrictionSaid,
    RoleSaid,
    SupplySaid,
)
from formulate.workflow.data_words import (
    hazard_words,
    level_words,
    limit_words,
    property_words,
    restriction_words,
    supply_words,
)
from formulate.workflow.quality_page import BEGIN, END, page

Shape = TypeVar("Shape", bound=Model)
WORDS: dict[str, Callable[[Any], str]] = {
    "names": lambda row: f"{row.name}, {row.kind}",
    "properties": property_words,
    "roles": lambda row: f"{row.role}, {row.strength}",
    "supply_forms": supply_words,
    "hazards": hazard_words,
    "exposure_limits": limit_words,
    "restrictions": restriction_words,
    "use_levels": level_words,
}
"""How a row of each list of a record is said."""


def data(
    search: str | None = None,
    *,
    quality: bool = False,
    export: str | None = None,
    output: str | Path | None = None,
    date: str | None = None,
) -> DataAnswer:
    """What the dataset knows of an ingredient or a class, with the source of every value.

    Parameters
    ----------
    search
        An id, a name in any spelling that is filed, a CAS or EC number, a class, or the beginning of a name;
        ``class:wax`` asks for the class alone. None gives no record.
    quality
        Add counts, coverage and ages of the checks; with ``output`` the page of them is written there too.
    export
        ``csv`` (a zip), ``json``, ``sqlite`` or ``parquet`` (a zip): write the whole dataset to ``output``.
    output
        The file to write.
    date
        The day of the answer, as 2026-11-25; None counts ages to the day of the newest check.

    Raises
    ------
    UsageError
        If the call makes no sense: an unknown format, an export without a file.
    InputError
        If the file cannot be written.
    """
    catalog = open_catalog()
    today = _day(date) or counts.latest_check(catalog)
    _check(export, output, quality)
    ledger = Ledger()
    search = search if search and search.strip() else None
    looked = look_up(catalog, search) if search else None
    records = _records(catalog, looked.ingredients, today) if looked else ()
    why = _reasons(records, ledger)
    notes = _notes(search, looked.ingredients if looked else None, looked.nearest if looked else (), ledger)
    why.update({f"/notes/{i}": reason for i, (_, reason) in enumerate(notes)})
    backed = measure(catalog, today) if quality else None
    return DataAnswer.model_construct(
        schema_="formulate/data/1",
        formulate=__version__,
        data=catalog.version,
        product=_echo(date),
        notes=tuple(says for says, _ in notes),
        why=why,
        reasons=ledger.closure(why.values()),
        search=search,
        found_by=looked.how if looked else None,
        records=records,
        nearest=looked.nearest if looked else (),
        quality=backed,
        written=_write(catalog, export, output, backed),
    )


def _check(form: str | None, output: str | Path | None, quality: bool) -> None:
    if form is not None and form not in FORMATS:
        raise UsageError(
            f'"{form[:40]}" is no format that can be written.',
            "export",
            f"it is one of {', '.join(FORMATS)}",
            "choose one",
        )
    if form is not None and output is None:
        raise UsageError(
            "There is no file to write to.", "--export", "the dataset is written into one file", "add -o FILE", "output"
        )
    if output is not None and form is None and not quality:
        raise UsageError(
            "There is nothing to write.", "-o", "a record is printed, not written", "add --export csv, or --quality"
        )


def _write(catalog: Catalog, form: str | None, output: str | Path | None, backed: Quality | None) -> str | None:
    """Write the export, else the page of quality; the name of the file."""
    if output is None:
        return None
    target = Path(output)
    if form is not None:
        export(catalog.root, form, target)
    elif backed is not None:
        write_section(target, page(backed), BEGIN, END)
    return str(target)


def _day(given: str | None) -> str | None:
    try:
        return date_.fromisoformat(given).isoformat() if given else None
    except ValueError:
        raise UsageError(
            f'"{(given or "")[:40]}" is not a date.',
            "date",
            "ages of checks and rules of law depend on the date",
            "write it as 2026-11-25",
            "usage-date",
        ) from None


def _echo(date: str | None) -> ProductEcho:
    return ProductEcho.model_construct(
        form="unknown",
        form_origin="assumed",
        claim=None,
        substrate=None,
        jurisdiction=("eu", "us"),
        date=date,
        dilution=None,
    )


def _notes(
    search: str | None, found: tuple[str, ...] | None, nearest: tuple[str, ...], ledger: Ledger
) -> list[tuple[str, str]]:
    if search is None or found:
        return []
    near = f" Near it: {'; '.join(nearest)}." if nearest else ""
    says = f'Nothing in the dataset goes by "{search.strip()[:80]}".{near}'
    return [
        (says, ledger.add("calculated", "{note}", {"note": says}, because=[ledger.add("pasted", "You asked.", {})]))
    ]


def _records(catalog: Catalog, ids: tuple[str, ...], today: str) -> tuple[IngredientData, ...]:
    titles: dict[str, str] = {}
    meanings = {row["sign"]: row["meaning"] for row in catalog.records("hazard_notes", "sign", *_signs(catalog))}
    return tuple(_record(catalog, key, today, titles, meanings) for key in ids)


def _signs(catalog: Catalog) -> list[str]:
    return [row[0] for row in catalog.count("select sign from hazard_notes")]


def _record(
    catalog: Catalog, key: str, today: str, titles: dict[str, str], meanings: Mapping[str, str]
) -> IngredientData:
    """All rows about one ingredient; rules and usual amounts of its classes come after its own."""

    def title(source: str) -> str:
        if source not in titles:
            titles[source] = str(catalog.source(source)["title"])
        return titles[source]

    def rows(table: str, shape: type[Shape], column: str, *values: str, **extra: Any) -> tuple[Shape, ...]:
        fields = {field.alias or name for name, field in shape.model_fields.items()}
        return tuple(
            shape.model_validate(
                {name: cell for name, cell in row.items() if name in fields}
                | {"source_title": title(row["source"])}
                | {name: make(row) for name, make in extra.items()}
            )
            for row in catalog.records(table, column, *values)
        )

    card = catalog.ingredient(key)
    line = catalog.classes[card.class_].line
    hazards = rows("hazards", HazardSaid, "ingredient", key, meanings=lambda row: _meanings(row, meanings))
    rules = {"applies": lambda row: row["valid_from"] <= today if row["valid_from"] else None}
    own, of_class = (
        rows("restrictions", RestrictionSaid, column, *values, **rules)
        for column, values in (("ingredient", (key,)), ("class", line))
    )
    levels = rows("use_levels", LevelSaid, "ingredient", key)
    return IngredientData.model_construct(
        ingredient=key,
        name=card.name,
        inci=card.inci,
        kind=card.kind,
        cas=card.cas or None,
        ec=card.ec or None,
        class_=line[-1],
        subclass=card.class_,
        charge=card.charge,
        fate=card.fate,
        smiles=card.smiles or None,
        structure_of=card.structure_of or None,
        note=card.note,
        source=card.citation.source,
        at=card.citation.at,
        source_title=title(card.citation.source),
        names=rows("names", NameSaid, "ingredient", key),
        properties=rows("properties", PropertySaid, "ingredient", key),
        roles=rows("roles", RoleSaid, "ingredient", key),
        supply_forms=rows("supply_forms", SupplySaid, "ingredient", key),
        hazards=hazards if hazards or card.cas else None,
        exposure_limits=rows("exposure_limits", LimitSaid, "ingredient", key),
        restrictions=own + tuple(row for row in of_class if row.act not in {one.act for one in own}),
        use_levels=levels or rows("use_levels", LevelSaid, "class", *line),
    )


def _meanings(row: Mapping[str, Any], known: Mapping[str, str]) -> tuple[str, ...]:
    """What the notes and marks of a hazard row mean, as 'P: ...'."""
    return tuple(f"{sign}: {known[sign]}" for sign in (*row["mark"].split(), *row["notes"].split()) if sign in known)


def _reasons(records: tuple[IngredientData, ...], ledger: Ledger) -> dict[str, str]:
    """A reason for every row of every record: what it says, and who says so."""
    why = {}
    for i, record in enumerate(records):
        says = {"name": record.name}
        cited = Citation.model_construct(source=record.source, at=record.at, via=None)
        why[f"/records/{i}"] = ledger.add(_kind(record.source), "{name} is in the dataset.", says, citations=[cited])
        for field, words in WORDS.items():
            for j, row in enumerate(getattr(record, field) or ()):
                cited = Citation.model_construct(source=row.source, at=row.at, via=getattr(row, "via", None) or None)
                told = {"name": record.name, "what": words(row)}
                why[f"/records/{i}/{field}/{j}"] = ledger.add(
                    _kind(row.source), "{name}: {what}", told, citations=[cited]
                )
    return why


def _kind(source: str) -> Any:
    return "assumed" if source in UNSOURCED else "looked-up"


def measure(catalog: Catalog, today: str) -> Quality:
    """Counts of the dataset, coverage and ages of its checks at a day."""
    few, ingredients = counts.few_names(catalog)
    return Quality.model_construct(
        tables=tuple(counts.backing(catalog)),
        origins=dict(counts.origins(catalog)),
        coverage=_coverage(catalog),
        law=dict(counts.law(catalog)),
        classes=dict(counts.classes(catalog)),
        languages=dict(counts.languages(catalog)),
        few_names=few,
        ingredients=ingredients,
        checked=tuple(counts.checked(catalog, today)),
        overdue=tuple(counts.overdue(catalog, today)),
    )


def _coverage(catalog: Catalog) -> tuple[CoverageSaid, ...]:
    """What is asked of the properties, group by group, and how far it is met."""
    fields = CoverageSaid.model_fields
    lines = coverage(read_tables(catalog.root))
    return tuple(CoverageSaid.model_validate({name: getattr(line, name) for name in fields}) for line in lines)
