"""The dataset as one file in a format of the reader's choice, and pages written whole or not at all."""

from __future__ import annotations

import csv
import io
import json
import os
import sqlite3
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from formulate.errors import InputError, UsageError

FORMATS: tuple[str, ...] = ("csv", "json", "sqlite", "parquet")
BESIDE = ("datapackage.json", "sources.toml", "README.md", "LICENSE")
"""What goes along with the tables."""

Table = tuple[str, list[str], list[list[str | float | None]]]
"""Name, columns and rows; numbers are numbers, a blank number is None."""


def export(root: Path, form: str, target: Path) -> int:
    """Write every table under ``root`` into ``target`` and say how many. Raises UsageError, InputError."""
    write = {"csv": _csv, "json": _json, "sqlite": _sqlite, "parquet": _parquet}[form]
    content = write(root)
    write_whole(target, content)
    return len(_package(root)["resources"])


def write_whole(target: Path, content: bytes) -> None:
    """Write a file whole or not at all. Raises InputError."""
    part = ""
    try:
        handle, part = tempfile.mkstemp(dir=target.parent, suffix=".part")
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
        Path(part).chmod(0o644)
        Path(part).replace(target)
    except OSError as error:
        if part:
            Path(part).unlink(missing_ok=True)
        raise InputError(
            "The file cannot be written.",
            str(target),
            str(error.strerror or error),
            "choose a folder that exists and can be written to",
            "output",
        ) from None


def write_section(target: Path, text: str, begin: str, end: str) -> None:
    """Put ``text`` between two marks of a page, or write it as a page of its own where the marks are missing."""
    try:
        old = target.read_text(encoding="utf-8") if target.exists() else ""
    except (OSError, UnicodeDecodeError) as error:
        raise InputError("The page cannot be read.", str(target), str(error), "choose another file", "output") from None
    before, mark, rest = old.partition(begin)
    _, closing, after = rest.partition(end)
    page = f"{before}{begin}\n{text}{end}{after}" if mark and closing else f"{begin}\n{text}{end}\n"
    write_whole(target, page.encode("utf-8"))


def _package(root: Path) -> dict[str, Any]:
    package: dict[str, Any] = json.loads((root / "datapackage.json").read_text(encoding="utf-8"))
    return package


def _tables(root: Path) -> Iterator[Table]:
    for resource in _package(root)["resources"]:
        numbers = {field["name"] for field in resource["schema"]["fields"] if field["type"] == "number"}
        with (root / resource["path"]).open(encoding="utf-8", newline="") as stream:
            reader = csv.reader(stream)
            columns = next(reader)
            kinds = [name in numbers for name in columns]
            rows = [[_cell(cell, kind) for cell, kind in zip(row, kinds, strict=True)] for row in reader]
        yield resource["name"], columns, rows


def _cell(cell: str, number: bool) -> str | float | None:
    if not number:
        return cell
    return float(cell) if cell else None


def _csv(root: Path) -> bytes:
    """A zip of the tables as they stand, the rules, and the description of both."""
    names = [resource["path"] for resource in _package(root)["resources"]]
    names += [name for name in BESIDE if (root / name).is_file()]
    names += sorted(path.relative_to(root).as_posix() for path in (root / "rules").rglob("*.toml"))
    return _zip((name, (root / name).read_bytes()) for name in names)


def _zip(files: Iterator[tuple[str, bytes]]) -> bytes:
    """A zip whose bytes depend on its content alone."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files:
            archive.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def _json(root: Path) -> bytes:
    tables = {name: [dict(zip(columns, row, strict=True)) for row in rows] for name, columns, rows in _tables(root)}
    whole = {"datapackage": _package(root), "sources": _sources(root), "tables": tables}
    return (json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _sources(root: Path) -> dict[str, Any]:
    import tomllib

    cards = tomllib.loads((root / "sources.toml").read_text(encoding="utf-8"))
    return {key: {name: str(cell) for name, cell in card.items()} for key, card in cards.items()}


def _sqlite(root: Path) -> bytes:
    """Plain tables, ``sources`` by key, and the description in ``datapackage``."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "tables.sqlite"
        connection = sqlite3.connect(path)
        try:
            for name, columns, rows in _tables(root):
                heads = ", ".join(f'"{column}"' for column in columns)
                connection.execute(f'create table "{name}" ({heads})')
                marks = ", ".join("?" * len(columns))
                connection.executemany(f'insert into "{name}" values ({marks})', rows)
            connection.execute("create table sources (key text primary key, record text)")
            cards = ((key, json.dumps(card, ensure_ascii=False)) for key, card in _sources(root).items())
            connection.executemany("insert into sources values (?, ?)", cards)
            connection.execute("create table datapackage (content text)")
            connection.execute("insert into datapackage values (?)", (json.dumps(_package(root)),))
            connection.commit()
        finally:
            connection.close()
        return path.read_bytes()


def _parquet(root: Path) -> bytes:
    """A zip with one Parquet file a table. Raises UsageError where the library for it is missing."""
    try:
        import pyarrow
        from pyarrow import parquet
    except ImportError:
        raise UsageError(
            "Parquet files cannot be written here.",
            "--export parquet",
            "the library pyarrow is not installed; it is large and nothing else needs it",
            "pip install 'formulate-surface[parquet]', or choose csv, json or sqlite",
            "export-parquet",
        ) from None

    def files() -> Iterator[tuple[str, bytes]]:
        for name, columns, rows in _tables(root):
            packed = io.BytesIO()
            table = pyarrow.table({column: [row[i] for row in rows] for i, column in enumerate(columns)})
            parquet.write_table(table, packed)
            yield f"{name}.parquet", packed.getvalue()
        for name in BESIDE:
            if (root / name).is_file():
                yield name, (root / name).read_bytes()

    return _zip(files())
