"""Tables to one read-only SQLite file: names filed under their keys, structure facts as plain columns."""

from __future__ import annotations

import json
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path

from formulate.catalog.names import name_key, pattern_key, word_key
from formulate.catalog.structure_facts import FACTS, structure_facts
from formulate.catalog.tables import IngredientRow, Tables, read_tables, tables_digest

COMPILED_SCHEMA = 1
"""Version of the layout below; a file of another layout is compiled anew."""

_TABLES = f"""
create table meta (key text primary key, value text);
create table classes (class text primary key, parent text, title text, usual_roles text, definition text);
create table sources (key text primary key, record text);
create table ingredients (id text primary key, name text, inci text, kind text, cas text, ec text, class text,
    charge text, fate text, smiles text, structure_of text, source text, at text, note text,
    {", ".join(f"{fact} real" for fact in FACTS)});
create table names (key text, words text, name text, ingredient text, kind text, language text, source text, at text);
create table numbers (number text, ingredient text, kind text, source text, at text);
create table properties (ingredient text, property text, value real, value_min real, value_max real, unit text,
    unc real, origin text, conditions text, source text, at text, via text, note text);
create table supply (ingredient text, form text, solids_min real, solids_max real, unit text, source text, at text, note text);
create table roles (ingredient text, role text, strength text, source text, at text, note text);
create table class_words (key text, phrase text, class text, how text, language text, source text, at text);
create table word_forms (form text, place text, class text, certainty real, source text, at text);
create table hints (word text, hint text, value text);
create table neighbours (part text primary key);
create table viscosity (class text, up_to real, fate text, source text, at text);
create table headlines (headline text primary key, title text, classes text, ingredients text, can text, cannot text,
    hidden text, source text, at text);
create table rules (id text primary key, record text);
create index names_key on names (key);
create index names_words on names (words);
create index numbers_number on numbers (number);
create index properties_ingredient on properties (ingredient);
create index roles_ingredient on roles (ingredient);
create index class_words_key on class_words (key);
"""


def compile_tables(root: Path, target: Path) -> None:
    """Compile the dataset under ``root`` into ``target``, written whole or not at all. Raises DataError."""
    tables = read_tables(root)
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, suffix=".part")
    os.close(handle)
    connection = sqlite3.connect(name)
    try:
        connection.executescript(_TABLES)
        _fill(connection, tables)
        connection.executemany(
            "insert into meta values (?, ?)", [("digest", tables_digest(root)), ("schema", str(COMPILED_SCHEMA))]
        )
        connection.commit()
    finally:
        connection.close()
    os.replace(name, target)


def _fill(connection: sqlite3.Connection, tables: Tables) -> None:
    def put(table: str, rows: Iterator[tuple[object, ...]]) -> None:
        for row in rows:
            connection.execute(f"insert into {table} values ({','.join('?' * len(row))})", row)

    put("classes", (tuple(row.model_dump().values()) for row in tables.classes))
    put("sources", ((key, json.dumps(row.model_dump())) for key, row in tables.sources.items()))
    put("ingredients", (_with_facts(row) for row in tables.ingredients))
    put("names", _names(tables))
    put("numbers", _numbers(tables))
    put("properties", (tuple(row.model_dump().values()) for row in tables.properties))
    put("supply", (tuple(row.model_dump().values()) for row in tables.supply))
    put("roles", (tuple(row.model_dump().values()) for row in tables.roles))
    put("class_words", ((name_key(row.phrase), row.phrase, row.class_, row.how, row.language, row.source, row.at)
                        for row in tables.class_words))
    put("word_forms", ((row.form.casefold(), row.where, row.class_, row.certainty, row.source, row.at)
                       for row in tables.word_forms))
    put("hints", ((row.word.casefold(), row.hint, row.value) for row in tables.hints))
    put("neighbours", ((row.part,) for row in tables.neighbours))
    put("viscosity", (tuple(row.model_dump().values()) for row in tables.viscosity))
    put("headlines", (tuple(row.model_dump().values()) for row in tables.headlines))
    put("rules", ((rule["id"], json.dumps(rule)) for rule in tables.rules))


def _with_facts(row: IngredientRow) -> tuple[object, ...]:
    facts = structure_facts(row.smiles) if row.smiles else None
    if facts is not None and row.structure_of != "molecule":
        facts["molar_mass"] = float("nan")
    values = [None if facts is None or facts[fact] != facts[fact] else facts[fact] for fact in FACTS]
    return (*row.model_dump().values(), *values)


def _names(tables: Tables) -> Iterator[tuple[object, ...]]:
    for row in tables.ingredients:
        yield (name_key(row.name), word_key(row.name), row.name, row.id, "common", "en", row.source, row.at)
        if row.inci and name_key(row.inci) != name_key(row.name):
            yield (name_key(row.inci), word_key(row.inci), row.inci, row.id, "inci", "", row.source, row.at)
    for name in tables.names:
        if name.kind not in {"cas", "ec"}:
            key = pattern_key(name.name) if name.kind == "pattern" else name_key(name.name)
            yield (key, word_key(name.name), name.name, name.ingredient, name.kind, name.language, name.source, name.at)


def _numbers(tables: Tables) -> Iterator[tuple[object, ...]]:
    for row in tables.ingredients:
        for kind, number in (("cas", row.cas), ("ec", row.ec)):
            if number:
                yield (number, row.id, kind, row.source, row.at)
    for name in tables.names:
        if name.kind in {"cas", "ec"}:
            yield (name.name, name.ingredient, name.kind, name.source, name.at)

