"""Entries that name more than one thing: 'A or B', 'A/B', 'a class, e.g. A'. Which one it is, the text leaves open."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from formulate.catalog.names import name_key, name_words
from formulate.catalog.records import ClassWord, NameHit
from formulate.catalog.store import Catalog
from formulate.identity.forms import without_fillers
from formulate.identity.variants import NameForms, name_forms

MOST_PARTS = 6
"""Alternatives of one entry that are looked up."""
ALIKE = 60.0
"""Likeness (0 to 100) from which a word counts as the same word in another language."""
LONG_WORD = 4
"""Words shorter than this are not compared across languages."""
_OR = re.compile(r"\s+(?:and/or|und/oder|et/ou|or|oder|ou|lub|bzw\.?)\s+(?:of\s+)?", re.IGNORECASE)
_EXAMPLE = re.compile(
    r"[\s,;(\[]+(?:e\.\s?g\.?|for\s(?:example|instance)|such\sas|z\.\s?B\.|zum\sBeispiel|par\sexemple|p\.\s?ex\.)[\s,:]+",
    re.IGNORECASE,
)
_JOINED = re.compile(r"(?:polymer|resin|ester|triglycerides?|acids?|crosspolymer)s?$", re.IGNORECASE)
"""Names in which slashes join the parts of one substance ('styrene/acrylates copolymer')."""


class Alternatives(NamedTuple):
    """What each part was found to be; ``complete`` if every part was found."""

    hits: tuple[NameHit, ...]
    complete: bool

    @property
    def one(self) -> bool:
        """Whether every part names the same ingredient."""
        return self.complete and len({hit.ingredient for hit in self.hits}) == 1


def class_with_examples(name: str, catalog: Catalog) -> ClassWord | None:
    """The class word in front of 'e.g.': the examples do not say which of the class it is."""
    found = _EXAMPLE.search(name)
    return catalog.class_word(name[: found.start()].strip(" ,;:-")) if found else None


def alternatives(forms: NameForms, catalog: Catalog) -> Alternatives | None:
    """The things between which an entry leaves the choice; None if it does not, or if none of them is known."""
    name = forms.forms[min(1, len(forms.forms) - 1)]
    example = _EXAMPLE.search(name)
    rest = name[example.end() :].rstrip(" )]") if example else name
    split = [part for part in _OR.split(rest) if part.strip()]
    if len(split) < 2 and not example:
        return _between_slashes(forms, catalog)
    parts = [part for one in split for part in re.split(r",\s+", one) if part.strip()]
    parts = parts[:MOST_PARTS]
    found = [_hits(part, parts[-1], catalog) for part in parts]
    hits = tuple(hit for those in found for hit in those)
    return Alternatives(hits, all(found) and not example) if hits else None


def _between_slashes(forms: NameForms, catalog: Catalog) -> Alternatives | None:
    """'Ethanol/isopropanol': every part a known name, and no slash that joins the parts of one substance."""
    if not 2 <= len(forms.parts) <= MOST_PARTS or _JOINED.search(forms.parts[-1]):
        return None
    found = [_exact(part, catalog) for part in forms.parts]
    return Alternatives(tuple(hit for those in found for hit in those), True) if all(found) else None


def _hits(part: str, last: str, catalog: Catalog) -> Sequence[NameHit]:
    """What a part is; 'sodium' of 'sodium or potassium hydroxide' is looked up with the words of the last one."""
    tail = last.split()[1:]
    if part != last and tail and len(part.split()) == 1:
        shared = _exact(" ".join((part, *tail)), catalog)
        if shared:
            return shared
    return _exact(part, catalog)


def _exact(part: str, catalog: Catalog) -> Sequence[NameHit]:
    for form in (*name_forms(part).forms, without_fillers(part, catalog)):
        hits = form and (catalog.by_name(form) or catalog.by_pattern(form))
        if hits:
            return hits
    return ()


def same_in_another_language(known: str, other: str) -> bool:
    """Whether a part that the dataset lacks looks like the known one in another language ('cellulose', 'celulosa')."""
    from rapidfuzz import fuzz

    ours = [word for word in name_words(known) if len(word) >= LONG_WORD]
    theirs = [word for word in name_words(other) if len(word) >= LONG_WORD]
    if fuzz.ratio(name_key(known), name_key(other)) >= ALIKE:
        return True
    return any(fuzz.ratio(one, word) >= ALIKE for one in ours for word in theirs) and len(theirs) <= len(ours) + 1
