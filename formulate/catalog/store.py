"""The compiled dataset, opened read-only. One process opens it once."""

from __future__ import annotations

import json
import os
import sqlite3
from contextlib import closing
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from formulate._version import __version__
from formulate.catalog.digest import remembered_digest
from formulate.catalog.layout import COMPILED_SCHEMA, FACTS
from formulate.catalog.names import name_key, name_words, pattern_keys, word_key
from formulate.catalog.records import (
    ClassRecord,
    ClassWord,
    Headline,
    IngredientRecord,
    NameHit,
    NeighbourPart,
    PropertyRecord,
    RoleRecord,
    StructureClass,
    WordForm,
)
from formulate.catalog.spellings import Spellings
from formulate.domain.place import Citation

MOST_REMEMBERED = 4096
"""Answers of the dataset that are kept at hand."""
_PACKAGE = Path(__file__).resolve().parents[1]


def data_root() -> Path:
    """Folder of the tables: $FORMULATE_DATA if set, else inside the installed package, else beside the repository."""
    chosen = os.environ.get("FORMULATE_DATA")
    if chosen:
        return Path(chosen).resolve()
    inside = _PACKAGE / "data_public"
    return inside if inside.is_dir() else _PACKAGE.parent / "data_public"


def cache_folder() -> Path:
    """The user's cache folder of the program."""
    from platformdirs import user_cache_path

    return user_cache_path("formulate")


def compiled_path(root: Path, digest: str) -> Path:
    """The compiled file for tables with this digest: the one of the wheel if it fits, else one in the user's cache."""
    shipped = root / "compiled.sqlite"
    if shipped.is_file() and _header(shipped) == (digest, str(COMPILED_SCHEMA)):
        return shipped
    cached = cache_folder() / f"tables-{digest}-{COMPILED_SCHEMA}.sqlite"
    if not cached.is_file() or _header(cached) != (digest, str(COMPILED_SCHEMA)):
        from formulate.catalog.compile import compile_tables

        try:
            compile_tables(root, cached)
        except OSError:  # no cache that can be written: compile for this process alone
            import tempfile

            cached = Path(tempfile.mkdtemp(prefix="formulate-")) / cached.name
            compile_tables(root, cached)
    return cached


def _header(path: Path) -> tuple[str, str] | None:
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as connection:
            meta = dict(connection.execute("select key, value from meta").fetchall())
        return meta["digest"], meta["schema"]
    except (sqlite3.Error, KeyError):
        return None


class Catalog:
    """Look-ups in the dataset. Every record carries its citation."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.version = remembered_digest(root, cache_folder())
        path = compiled_path(root, self.version)
        self._db = sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True, check_same_thread=False)
        self._named: dict[str, list[NameHit]] = {}
        self._asked: dict[tuple[str, tuple[object, ...]], list[Any]] = {}

    def _rows(self, sql: str, *values: object) -> list[Any]:
        """Rows of a query, never changed by a caller; what was asked lately is remembered: the file never changes."""
        asked = (sql, values)
        rows = self._asked.get(asked)
        if rows is None:
            if len(self._asked) >= MOST_REMEMBERED:
                self._asked.clear()
            rows = self._asked[asked] = self._db.execute(sql, values).fetchall()
        return rows

    @cached_property
    def classes(self) -> dict[str, ClassRecord]:
        """Every class with the line of classes above it."""
        rows = {row[0]: row for row in self._rows("select class, parent, title, usual_roles from classes")}
        found = {}
        for name, (_, _, title, _roles) in rows.items():
            line = [name]
            while rows[line[-1]][1]:
                line.append(rows[line[-1]][1])
            usual = frozenset(role for member in line for role in rows[member][3].split(";") if role)
            found[name] = ClassRecord(name, title, tuple(line), usual)
        return found

    def ingredient(self, key: str) -> IngredientRecord:
        """One ingredient by id. Raises KeyError."""
        columns = "id, name, inci, kind, cas, ec, class, charge, fate, smiles, structure_of, source, at, note"
        rows = self._rows(f"select {columns}, {', '.join(FACTS)} from ingredients where id = ?", key)
        if not rows:
            raise KeyError(key)
        row = rows[0]
        structure = {fact: value for fact, value in zip(FACTS, row[14:], strict=True) if value is not None}
        return IngredientRecord(
            row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8], row[9], row[10],
            Citation.model_construct(source=row[11], at=row[12]), row[13], structure,
        )  # fmt: skip

    def by_structure(self, canonical: str) -> str | None:
        """Id of the ingredient whose molecule has this canonical SMILES."""
        rows = self._rows("select id from ingredients where canonical = ? order by id", canonical)
        return str(rows[0][0]) if rows else None

    @cached_property
    def structure_classes(self) -> list[StructureClass]:
        """Patterns that betray a class, in the order of the table."""
        columns = "smarts, least_chain, most_heavy, class, certainty, source, at"
        return [
            StructureClass(row[0], row[1], row[2], row[3], row[4], Citation.model_construct(source=row[5], at=row[6]))
            for row in self._rows(f"select {columns} from structures order by rowid")
        ]

    def has(self, key: str) -> bool:
        """Whether there is an ingredient with this id."""
        return bool(self._rows("select 1 from ingredients where id = ?", key))

    def by_number(self, number: str) -> list[NameHit]:
        """Ingredients that bear this CAS or EC number."""
        return [
            NameHit(row[0], row[1], row[2], Citation.model_construct(source=row[3], at=row[4]))
            for row in self._rows("select number, ingredient, kind, source, at from numbers where number = ?", number)
        ]

    def by_name(self, name: str) -> list[NameHit]:
        """Ingredients filed under this name's key; never changed by a caller, names asked lately are remembered."""
        hits = self._named.get(name)
        if hits is None:
            if len(self._named) >= MOST_REMEMBERED:
                self._named.clear()
            hits = self._named[name] = self._names("key = ? and kind != 'pattern'", name_key(name))
        return hits

    def by_pattern(self, name: str) -> list[NameHit]:
        """Families whose pattern fits this name; a pattern that keeps more of its numbers goes first."""
        for key in pattern_keys(name):
            hits = self._names("key = ? and kind = 'pattern'", key)
            if hits:
                return hits
        return []

    def by_words(self, name: str) -> list[NameHit]:
        """Ingredients with a name of the same words in another order."""
        return self._names("words = ? and kind != 'pattern'", word_key(name))

    def _names(self, condition: str, key: str) -> list[NameHit]:
        rows = self._rows(f"select name, ingredient, kind, source, at from names where {condition}", key)
        return [NameHit(row[0], row[1], row[2], Citation.model_construct(source=row[3], at=row[4])) for row in rows]

    @cached_property
    def name_keys(self) -> list[str]:
        """Every key of the name index, for the spelling search."""
        return [row[0] for row in self._rows("select distinct key from names where kind != 'pattern'")]

    @cached_property
    def spellings(self) -> Spellings:
        """How the names look letter by letter, for the spelling search; built once, when a name is first missed."""
        words = {word for row in self._rows("select distinct words from names") for word in row[0].split()}
        words.update(word for row in self._rows("select phrase from class_words") for word in name_words(row[0]))
        return Spellings(self.name_keys, words)

    def by_key(self, key: str) -> list[NameHit]:
        """Ingredients filed under a key as it stands."""
        return self._names("key = ? and kind != 'pattern'", key)

    def class_word(self, phrase: str, exact: bool = False) -> ClassWord | None:
        """The phrase as a class word or a withholding word; singular and plural alike unless ``exact``."""
        key = name_key(phrase)
        for tried in (key,) if exact else (key, key.removesuffix("s"), key + "s"):
            rows = self._rows("select phrase, class, how, source, at from class_words where key = ?", tried)
            if rows:
                row = rows[0]
                return ClassWord(row[0], row[1], row[2], Citation.model_construct(source=row[3], at=row[4]))
        return None

    @cached_property
    def withholding_words(self) -> list[ClassWord]:
        """Phrases that withhold, longest first."""
        rows = self._rows("select phrase, class, how, source, at from class_words where how = 'withheld'")
        words = [ClassWord(row[0], row[1], row[2], Citation.model_construct(source=row[3], at=row[4])) for row in rows]
        return sorted(words, key=lambda word: -len(word.phrase))

    @cached_property
    def word_forms(self) -> tuple[WordForm, ...]:
        """Parts of names that betray a class, in the order of the table: the most telling first."""
        rows = self._rows('select form, "where", class, certainty, source, at from word_forms order by rowid')
        return tuple(
            WordForm(row[0], row[1], row[2], row[3], Citation.model_construct(source=row[4], at=row[5])) for row in rows
        )

    @cached_property
    def hints(self) -> list[tuple[str, str, str]]:
        """Words around a list that tell form, substrate or headline: (word, hint, value)."""
        return [(row[0], row[1], row[2]) for row in self._rows("select word, hint, value from hints")]

    @cached_property
    def section_titles(self) -> tuple[tuple[str, str, str], ...]:
        """Headings of the sections of a safety data sheet: (kind, title, stands), in the order of the table."""
        return tuple(
            (row[0], row[1], row[2])
            for row in self._rows("select kind, title, stands from section_titles order by rowid")
        )

    @cached_property
    def neighbours(self) -> tuple[NeighbourPart, ...]:
        """Parts of names across which no spelling is repaired."""
        return tuple(NeighbourPart(*row) for row in self._rows('select part, "where", "group" from neighbours'))

    @cached_property
    def fillers(self) -> frozenset[str]:
        """Words that describe without naming."""
        return frozenset(row[0] for row in self._rows("select word from fillers"))

    @cached_property
    def mere_fillers(self) -> frozenset[str]:
        """Words that describe a substance without making it another one ('filtered', not 'branched')."""
        return frozenset(row[0] for row in self._rows("select word from fillers where tells = ''"))

    def role_of_function(self, phrase: str) -> str | None:
        """The role that a word for a function names, or None where the word says nothing definite."""
        rows = self._rows("select role from functions where key = ?", name_key(phrase))
        return str(rows[0][0]) if rows and rows[0][0] else None

    def is_function(self, phrase: str) -> bool:
        """Whether a phrase is a word by which lists tell what an ingredient is for."""
        return bool(self._rows("select 1 from functions where key = ?", name_key(phrase)))

    def fate_by_viscosity(self, class_: str, viscosity: float) -> tuple[str, Citation] | None:
        """Whether a silicone of this class and viscosity (mm2/s, 25 C) leaves or stays, and who says so."""
        for row in self._rows(
            "select up_to_mm2_s, fate, source, at from viscosity where class = ? "
            "order by up_to_mm2_s is null, up_to_mm2_s",
            class_,
        ):
            if row[0] is None or viscosity <= row[0]:
                return row[1], Citation.model_construct(source=row[2], at=row[3])
        return None

    def properties(self, ingredient: str, name: str) -> list[PropertyRecord]:
        """Values of one property of one ingredient, from memory last; doubtful ones only where nothing else is."""
        rows = self._rows(
            "select property, value, value_min, value_max, unit, origin, conditions, source, at, via, note "
            "from properties where ingredient = ? and property = ? order by origin = 'from-memory', rowid",
            ingredient,
            name,
        )
        rows = [row for row in rows if not row[10].startswith("doubtful")] or rows
        return [
            PropertyRecord(
                row[0],
                row[1],
                row[2],
                row[3],
                row[4],
                row[5],
                row[6],
                Citation.model_construct(source=row[7], at=row[8], via=row[9] or None),
                row[10],
            )
            for row in rows
        ]

    def roles(self, ingredient: str) -> list[RoleRecord]:
        """Roles an ingredient is known for, most typical first."""
        rows = self._rows(
            "select role, strength, source, at from roles where ingredient = ? order by rowid", ingredient
        )
        return [RoleRecord(row[0], row[1], Citation.model_construct(source=row[2], at=row[3])) for row in rows]

    def headline(self, key: str) -> Headline | None:
        """What a word on the front promises, or None."""
        for row in self._rows("select * from headlines where headline = ?", key):
            return Headline(
                row[0],
                row[1],
                frozenset(filter(None, row[2].split(";"))),
                frozenset(filter(None, row[3].split(";"))),
                row[4],
                row[5],
                row[6],
                Citation.model_construct(source=row[7], at=row[8]),
            )
        return None

    def records(self, table: str, column: str, *values: str) -> list[dict[str, Any]]:
        """Rows of a compiled table whose column holds one of the values, by the names of its columns, in their order.

        ``table`` and ``column`` are names of the layout, never text from outside.
        """
        marks = ", ".join("?" * len(values))
        found = self._db.execute(f'select * from {table} where "{column}" in ({marks}) order by rowid', values)
        names = [head[0] for head in found.description]
        return [dict(zip(names, row, strict=True)) for row in found]

    def count(self, sql: str, *values: object) -> list[Any]:
        """Rows of a counting question that a module of this room asks."""
        return self._rows(sql, *values)

    def remembers(self, what: str) -> bool:
        """Whether :meth:`remember` was called for this with this version of the data and of the program."""
        return self._mark(what).exists()

    def remember(self, what: str) -> None:
        """Remember in the cache folder that something has been checked; where it cannot be written, do without."""
        try:
            self._mark(what).touch()
        except OSError:
            pass

    def _mark(self, what: str) -> Path:
        return cache_folder() / f"{what}-{self.version}-{__version__}-{COMPILED_SCHEMA}"

    def rule_records(self) -> list[dict[str, Any]]:
        """Rule files as dictionaries."""
        return [json.loads(row[0]) for row in self._rows("select record from rules order by id")]

    def source(self, key: str) -> dict[str, Any]:
        """The card of a source. Raises KeyError."""
        rows = self._rows("select record from sources where key = ?", key)
        if not rows:
            raise KeyError(key)
        card: dict[str, Any] = json.loads(rows[0][0])
        return card

    def knows(self, name: str) -> bool:
        """Whether the word list has this name: for cuts that the text does not fix.

        A name with a comma is known only if it is filed with one: 'butane, propane' is two names although
        'butane/propane' is filed. A word for a function is not a name: 'Dimethicone Film former' is one entry.
        """
        hits = self.by_name(name) or self.by_pattern(name)
        if "," in name:
            return any("," in hit.name for hit in hits)
        if hits:
            return True
        return self.class_word(name) is not None and not self.is_function(name)


@cache
def open_catalog(root: Path | None = None) -> Catalog:
    """The dataset under ``root`` (default: the one that came with the program), opened once per process."""
    return Catalog(root or data_root())
