"""Which ingredients does a person mean who looks something up in the dataset?"""

from __future__ import annotations

from typing import NamedTuple

from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog

LONGEST = 200
"""Characters of a search that are read."""
MOST_BY_PREFIX = 40
MOST_NEAREST = 6


class Looked(NamedTuple):
    """Ids found, how they were found, and names near the search where nothing was."""

    ingredients: tuple[str, ...]
    how: str
    nearest: tuple[str, ...] = ()


def look_up(catalog: Catalog, search: str) -> Looked:
    """Ingredients by id, number, name, class, or the beginning of a name; ``class:wax`` asks for the class alone.

    The first way that finds anything decides; what fits nothing gets the nearest names.
    """
    asked = search.strip()[:LONGEST].encode("utf-8", "replace").decode("utf-8")  # half a surrogate pair is no name
    head, colon, tail = asked.partition(":")
    if colon and head.strip().casefold() == "class":
        return _of_class(catalog, tail) or Looked((), "none", _near_classes(catalog, tail))
    if catalog.has(asked.casefold()):
        return Looked((asked.casefold(),), "id")
    ways = (
        ("number", catalog.by_number(asked)),
        ("name", catalog.by_name(asked)),
        ("pattern", catalog.by_pattern(asked)),
        ("words", catalog.by_words(asked)),
    )
    for how, hits in ways:
        if hits and name_key(asked):
            return Looked(tuple(dict.fromkeys(hit.ingredient for hit in hits)), how)
    return _of_class(catalog, asked) or _by_prefix(catalog, asked) or Looked((), "none", _nearest(catalog, asked))


def _of_class(catalog: Catalog, asked: str) -> Looked | None:
    """Every ingredient of a class, named by its id, its title or a word for it."""
    key = name_key(asked)
    classes = catalog.classes.items()
    named = {
        name for name, record in catalog.classes.items() if key and key in {name_key(name), name_key(record.title)}
    }
    word = catalog.class_word(asked)
    if not named and word is not None and word.how == "class-only":
        named = {word.class_}
    wanted = [name for name, record in classes if named & set(record.line)]
    ids = tuple(row["id"] for row in catalog.records("ingredients", "class", *wanted)) if wanted else ()
    return Looked(ids, "class") if ids else None


def _by_prefix(catalog: Catalog, asked: str) -> Looked | None:
    key = name_key(asked)
    if len(key) < 3:
        return None
    keys = [one for one in catalog.name_keys if one.startswith(key)][: 4 * MOST_BY_PREFIX]
    ids = dict.fromkeys(hit.ingredient for one in keys for hit in catalog.by_key(one))
    return Looked(tuple(ids)[:MOST_BY_PREFIX], "beginning") if ids else None


def _nearest(catalog: Catalog, asked: str) -> tuple[str, ...]:
    """Names that look like the search, nearest first."""
    key = name_key(asked)
    if len(key) < 3:
        return ()
    from rapidfuzz import fuzz, process

    near = process.extract(key, catalog.name_keys, scorer=fuzz.ratio, score_cutoff=60, limit=4 * MOST_NEAREST)
    names = dict.fromkeys(catalog.ingredient(catalog.by_key(one)[0].ingredient).name for one, _, _ in near)
    return tuple(names)[:MOST_NEAREST]


def _near_classes(catalog: Catalog, asked: str) -> tuple[str, ...]:
    from rapidfuzz import process

    near = process.extract(asked.strip()[:LONGEST], list(catalog.classes), score_cutoff=60, limit=MOST_NEAREST)
    return tuple(f"class:{name}" for name, _, _ in near)
