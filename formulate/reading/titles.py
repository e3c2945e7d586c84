"""Headings of the sections of a safety data sheet, as the dataset lists them: which one a printed line is."""

from __future__ import annotations

import re
import unicodedata
from functools import cache, cached_property
from typing import NamedTuple

from formulate.catalog.store import open_catalog

_STEM = 3
_LONGEST = 110
_PLAIN = str.maketrans({"ß": "ss", "ł": "l", "ø": "o", "æ": "ae", "œ": "oe", "đ": "d"})


def fold(text: str) -> str:
    """The letters of a text in lower case, without accents: 'First-Aid Measures' and 'FIRST AID MEASURES' are one."""
    return "".join(map(_folded, text))


@cache
def _folded(sign: str) -> str:
    """The letters of one sign: 'e' for an accented E, nothing for a blank."""
    plain = unicodedata.normalize("NFD", sign.lower().translate(_PLAIN))
    return "".join(one for one in plain if one.isalpha())


class Title(NamedTuple):
    """A heading of the dataset. ``numbered``: it opens a section only after a number."""

    kind: str
    letters: str
    numbered: bool


class Titles:
    """The headings, filed under their first letters, and patterns for what may stand before one."""

    def __init__(self, rows: tuple[tuple[str, str, str], ...]) -> None:
        self._filed: dict[str, list[Title]] = {}
        stems: set[str] = set()
        for kind, title, stands in rows:
            letters = fold(title)
            if kind == "word":
                continue
            self._filed.setdefault(letters[:_STEM], []).append(Title(kind, letters, stands == "numbered"))
            stems |= {title.lower()[:_STEM], _bare(title)[:_STEM]}
        for filed in self._filed.values():
            filed.sort(key=lambda title: -len(title.letters))
        self._stems = sorted(stems)
        self._words = sorted(
            {form for kind, title, _ in rows if kind == "word" for form in (title.lower(), _bare(title))}
        )

    def told_in(self, low: str) -> bool:
        """Whether a short text holds a heading at all: its letters hold those of one, or a word such as 'section'."""
        letters = fold(low)
        named = any(title.letters in letters for filed in self._filed.values() for title in filed)
        return named or any(word in low for word in self._words)

    @cached_property
    def _parts(self) -> tuple[str, str, str, str]:
        """What both patterns are made of: beginnings of titles, a number behind a word, a number, what follows."""
        stem, word = _trie(self._stems), _trie(self._words)
        number = r"(?:0?\d{1,2}|[ivxl]{1,4})(?![\w%])"
        after = r"[ \t]{0,4}(?:[-:.)|#*_=/]{1,4}\s{0,3}){0,3}\s{0,12}"
        with_word = rf"(?P<word>{word})\.?\s{{0,3}}[-:#]?\s{{0,3}}(?P<of_word>{number}){after}"
        return stem, with_word, number, after

    @cached_property
    def at_line_start(self) -> re.Pattern[str]:
        """A heading, or a number that announces one, at the start of a line."""
        stem, with_word, number, after = self._parts
        return re.compile(
            rf"\n[ \t*#=_>|~\u2022\u00b7\[(-]{{0,200}}(?:{with_word}"
            rf"|(?P<alone>{number})(?:\.0)?(?!\.\d){after})?(?P<title>(?={stem})|(?<=[-:.)|\s*\d])(?(word)|(?!)))"
        )

    @cached_property
    def in_line(self) -> re.Pattern[str]:
        """A numbered heading inside a long line."""
        stem, with_word, _, _ = self._parts
        return re.compile(
            rf"(?<=[\s.;:)|_=*-])(?:{with_word}"
            rf"|(?P<alone>1?\d(?!\d))\s?[.:)-]{{1,2}}\s{{0,3}})(?P<title>(?={stem}))"
        )

    def find(self, low: str, at: int) -> tuple[Title, int] | None:
        """The longest heading that the text at ``at`` begins with, and where it ends."""
        filed = self._filed.get(fold(low[at : at + 3 * _STEM])[:_STEM])
        if filed is None:
            return None
        window = low[at : at + _LONGEST]
        letters = fold(window)
        for title in filed:
            if letters.startswith(title.letters):
                return title, at + _length_of(window, len(title.letters))
        return None


def _length_of(window: str, letters: int) -> int:
    """How many signs of a text hold its first so many letters."""
    for place, sign in enumerate(window):
        letters -= len(_folded(sign))
        if letters <= 0:
            return place + 1
    return len(window)


def _bare(word: str) -> str:
    """A word without its accents: sheets in capitals leave them out."""
    return "".join(sign for sign in unicodedata.normalize("NFD", word.lower()) if not unicodedata.combining(sign))


def _trie(words: list[str]) -> str:
    """A pattern for any of these words that looks at each sign of the text once."""
    if words == [""] or not words:
        return ""
    heads: dict[str, list[str]] = {}
    for word in words:
        heads.setdefault(word[:1], []).append(word[1:])
    ends = "" in heads
    branches = [re.escape(head) + _trie(tails) for head, tails in sorted(heads.items()) if head]
    whole = branches[0] if len(branches) == 1 and not ends else f"(?:{'|'.join(branches)})"
    return whole + "?" if ends else whole


@cache
def section_titles() -> Titles:
    """The headings of the dataset, made ready once per process."""
    return Titles(open_catalog().section_titles)
