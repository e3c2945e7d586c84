"""Tables to one read-only SQLite file: names filed under their keys, structure facts as plain columns."""

from __future__ import annotations

import json
import os
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from formulate.catalog.cells import Sourced
from formulate.catalog.digest import tables_digest
from formulate.catalog.law import LAW
from formulate.catalog.layout import COMPILED_SCHEMA, FACTS
from formulate.catalog.names import name_key, pattern_key, word_key
from formulate.catalog.quantities import QUANTITIES
from formulate.catalog.structure_facts import canonical_smiles, structure_facts
from formulate.catalog.tables import IngredientRow, Tables, read_tables
from formulate.domain.model import Model

_TABLES = f"""
create table meta (key text primary key, value text);
create table classes (class text primary key, parent text, title text, usual_roles text, definition text);
create table sources (key text primary key, record text);
create table ingredients (
    id text primary key, name text, inci text, kind text, cas text, ec text, class text, charge text, fate text,
    smiles text, structure_of text, canonical text, note text, source text, at text,
    {", ".join(f"{fact} real" for fact in FACTS)});
create table names (
    key text, words text, name text, ingredient text, kind text, language text, source text, at text);
create table numbers (number text, ingredient text, kind text, source text, at text);
create table properties (
    ingredient text, property text, value real, value_min real, value_max real, unit text, unc real, origin text,
    conditions text, source text, at text, via text, note text);
create table supply_forms (
    ingredient text, form text, solids_min real, solids_max real, unit text, source text, at text, note text);
create table roles (ingredient text, role text, strength text, source text, at text, note text);
create table class_words (
    key text, phrase text, class text, how text, language text, source text, at text, note text);
create table word_forms (
    form text, "where" text, class text, certainty real, fires text, spares text, note text, source text, at text);
create table hints (word text, hint text, value text, note text);
create table neighbours (part text primary key, "where" text, "group" text, note text);
create table fillers (word text primary key, tells text, note text);
create table functions (key text, word text primary key, role text, note text);
create table viscosity (class text, up_to_mm2_s real, fate text, source text, at text);
create table structures (
    smarts text, least_chain real, most_heavy real, class text, certainty real, note text, source text, at text);
create table headlines (
    headline text primary key, title text, classes text, ingredients text, can text, cannot text, hidden text,
    source text, at text);
create table section_titles (
    kind text, language text, title text, stands text, source text, at text, note text);
create table rules (id text primary key, record text);
create index ingredients_canonical on ingredients (canonical);
create index names_key on names (key);
create index names_words on names (words);
create index numbers_number on numbers (number);
create index properties_ingredient on properties (ingredient);
create index roles_ingredient on roles (ingredient);
create index class_words_key on class_words (key);
create index functions_key on functions (key);
"""


def compile_tables(root: Path, target: Path) -> None:
    """Compile the dataset under ``root`` into ``target``, written whole or not at all. Raises DataError."""
    tables = read_tables(root)
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, suffix=".part")
    os.close(handle)
    connection = sqlite3.connect(name)
    try:
        connection.executescript(_TABLES + _plain_tables())
        _fill(connection, tables)
        connection.executemany(
            "insert into meta values (?, ?)", [("digest", tables_digest(root)), ("schema", str(COMPILED_SCHEMA))]
        )
        connection.commit()
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    finally:
        connection.close()
    Path(name).replace(target)


def _plain_tables() -> str:
    """The tables of law and of quantities, column for column as their rows."""
    made = []
    for table, shape in {**LAW, **QUANTITIES}.items():
        columns = ", ".join(f'"{field.alias or name}"' for name, field in shape.model_fields.items())
        made.append(f"create table {table} ({columns});")
        made += [f"create index {table}_of on {table} (ingredient);"] if "ingredient" in shape.model_fields else []
    return "\n".join(made)


Record = dict[str, object]


def _fill(connection: sqlite3.Connection, tables: Tables) -> None:
    """Put every table, each row by the names of its columns."""
    plain: dict[str, Iterable[Model]] = {
        "classes": tables.classes,
        "properties": tables.properties,
        "supply_forms": tables.supply,
        "roles": tables.roles,
        "word_forms": tables.word_forms,
        "hints": tables.hints,
        "neighbours": tables.neighbours,
        "fillers": tables.fillers,
        "viscosity": tables.viscosity,
        "structures": tables.structures,
        "headlines": tables.headlines,
        **tables.law._asdict(),
        **tables.quantities._asdict(),
        "section_titles": tables.section_titles,
    }
    for table, rows in plain.items():
        _put(connection, table, (row.model_dump() for row in rows))
    cards = {key: json.dumps(row.model_dump()) for key, row in tables.sources.items()}
    _put(connection, "sources", ({"key": key, "record": card} for key, card in cards.items()))
    _put(connection, "ingredients", (_with_facts(row) for row in tables.ingredients))
    _put(connection, "names", _names(tables))
    _put(connection, "numbers", _numbers(tables))
    _put(connection, "class_words", ({"key": name_key(row.phrase), **row.model_dump()} for row in tables.class_words))
    _put(connection, "functions", ({"key": name_key(row.word), **row.model_dump()} for row in tables.functions))
    _put(connection, "rules", ({"id": rule["id"], "record": json.dumps(rule)} for rule in tables.rules))


def _put(connection: sqlite3.Connection, table: str, rows: Iterable[Record]) -> None:
    for row in rows:
        columns = ", ".join(f'"{name}"' for name in row)
        marks = ", ".join("?" * len(row))
        connection.execute(f"insert into {table} ({columns}) values ({marks})", tuple(row.values()))


def _with_facts(row: IngredientRow) -> Record:
    """An ingredient with its structure facts; a molar mass only where the structure is the molecule."""
    facts = (structure_facts(row.smiles) if row.smiles else None) or {}
    return {
        **row.model_dump(),
        "canonical": canonical_smiles(row.smiles) if row.smiles and row.structure_of == "molecule" else None,
        **{fact: facts.get(fact) for fact in FACTS if fact != "molar_mass" or row.structure_of == "molecule"},
    }


def _names(tables: Tables) -> Iterator[Record]:
    taken = {name_key(row.name) for row in tables.names} | {name_key(row.inci) for row in tables.ingredients}
    for row in tables.ingredients:
        yield _filed(row.name, row.id, "common", "en", row)
        bare = row.name.partition(" (")[0]
        if bare != row.name and name_key(bare) not in taken:  # "Montan wax (crude)" answers to "montan wax" too
            yield _filed(bare, row.id, "common", "en", row)
        if row.inci and name_key(row.inci) != name_key(row.name):
            yield _filed(row.inci, row.id, "inci", "", row)
    for name in tables.names:
        if name.kind not in {"cas", "ec"}:
            yield _filed(name.name, name.ingredient, name.kind, name.language, name)


def _filed(name: str, ingredient: str, kind: str, language: str, row: Sourced) -> Record:
    return {
        "key": pattern_key(name) if kind == "pattern" else name_key(name),
        "words": word_key(name),
        "name": name,
        "ingredient": ingredient,
        "kind": kind,
        "language": language,
        "source": row.source,
        "at": row.at,
    }


def _numbers(tables: Tables) -> Iterator[Record]:
    for row in tables.ingredients:
        for kind, number in (("cas", row.cas), ("ec", row.ec)):
            if number:
                yield {"number": number, "ingredient": row.id, "kind": kind, "source": row.source, "at": row.at}
    for name in tables.names:
        if name.kind in {"cas", "ec"}:
            yield {
                "number": name.name,
                "ingredient": name.ingredient,
                "kind": name.kind,
                "source": name.source,
                "at": name.at,
            }
