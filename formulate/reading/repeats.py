"""Entries that a text repeats: rows of a second table of limits, and sentences that a page prints below each name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from formulate.reading.item import Draft

Known = Callable[[str], bool]
_WORDS_OF_A_NAME = 4


def without_repeats(drafts: list[Draft]) -> list[Draft]:
    """Without rows that repeat the number and name of a row above and tell no amount (tables of further limits)."""
    kept: list[Draft] = []
    told: set[tuple[str, str]] = set()
    for draft in drafts:
        key = (draft.cas or "", draft.name.lower().split(" (")[0])
        if draft.cas and draft.stated is None and key in told:
            continue
        kept.append(draft)
        if draft.stated is not None:
            told.add(key)
    return kept


def without_refrains(drafts: list[Draft], known: Known) -> list[Draft]:
    """Without sentences that a page repeats below its entries: 'No risk is known to this day'."""
    times = Counter(draft.name for draft in drafts)
    return [
        draft
        for draft in drafts
        if times[draft.name] == 1
        or draft.stated is not None
        or draft.cas is not None
        or len(draft.name.split()) <= _WORDS_OF_A_NAME
        or known(draft.name)
    ]
