"""Amounts told in running sentences: '... as one ingredient from 5 to 95 % of a solvent. It includes 2 % of a wax'."""

from __future__ import annotations

import re

from formulate.reading.amounts import shares_in
from formulate.reading.cuts import Known
from formulate.reading.item import Draft, clean_name
from formulate.reading.lazily import lazy
from formulate.reading.surface import squeezed

PART_DOUBT = "the sentence may give it as a share of a part of the product"
LONGEST = 20_000
_LONGEST_NAME = 160
_OF = lazy(
    r"[\s)]{0,3}(?:(?:by\s(?:weight|wt\.?|mass|volume)|w/w)[\s)]{0,3})?of\s(?:(?:an?|the|at\sleast\sone|one\sor\smore)\s)?"
    r"(?=[^\W\d_])",
    re.IGNORECASE,
)
_BY_WEIGHT = lazy(r"\b(?:wt|weight|mass|w/w)\b", re.IGNORECASE)
_WHOLE = lazy(
    r"(?:(?:total|whole|entire|final|overall)\s)?(?:weight|mass|volume|composition|mixture|formulation|product|total|solution)\b",
    re.IGNORECASE,
)
_NAME_END = lazy(
    r"[.,;:]\s|\n\n|\s\(?(?:\d|[ivx]{1,4}\))|\s(?:and|or|plus)\s(?:from|about|between|an?\smixture|contains?|\(|\d)"
    r"|[.;:]?$",
    re.IGNORECASE,
)
MODIFIER = lazy(
    r",?\s(?:having|wherein|whereby|which|that|whose|being|(?:selected|chosen)\sfrom|such\sas|based\son|in\s(?:liquid|solid"
    r"|powder(?:ed)?|gaseous)\sform|for\s(?:an?|the|said)|is|are|to\s(?:impart|provide|give|form|make))\b",
    re.IGNORECASE,
)
_PART = lazy(
    r"\b(?:components?|mixture|blend|phase|system|part|premix|solution|solvents?|emulsion|propellant)\s(?:of|has|have"
    r"|contains?|comprises?|comprising|containing|consists?\sof|consisting\sof|is|includes?)\b",
    re.IGNORECASE,
)


def claim_drafts(text: str, copy: str, start: int, end: int, known: Known) -> list[Draft]:
    """The ingredients of sentences that tell each amount before 'of' and a name; at least two, and no other amounts.

    Empty where an amount is told in another way: then the sentence is no plain row of shares. '80 % of the rust' is
    an ingredient only if its share is said to be one by weight or the word list has the name.
    """
    if end - start > LONGEST or not _OF.search(copy, start, end):
        return []
    drafts: list[Draft] = []
    for amount in shares_in(copy, start, end):
        of = _OF.match(copy, amount.end, end)
        if of is None or _WHOLE.match(copy, of.end(), end):
            return []
        name, stop = _name(copy, of.end(), end)
        if not name or not (_BY_WEIGHT.search(copy, amount.start, of.end()) or known(name)):
            return []
        doubt = PART_DOUBT if _PART.search(copy, _sentence(copy, start, amount.start), amount.start) else None
        stated = amount.stated(text)
        if doubt:
            stated = stated.model_copy(update={"doubtful": True})
        drafts.append(Draft(((amount.start, stop),), name, None, None, stated, None, doubt))
    return drafts if len(drafts) > 1 else []


def _name(copy: str, start: int, end: int) -> tuple[str, int]:
    """The name after 'of', without what the sentence says of it, and where it ends."""
    stop = _NAME_END.search(copy, start, min(end, start + _LONGEST_NAME))
    last = stop.start() if stop else min(end, start + _LONGEST_NAME)
    modifier = MODIFIER.search(copy, start, last)
    last = modifier.start() if modifier else last
    name, _ = clean_name(copy[start:last])
    return (squeezed(name), last) if stop or modifier else ("", last)


def _sentence(copy: str, start: int, at: int) -> int:
    """Where the sentence that holds ``at`` begins, looking back 400 characters at most."""
    low = max(start, at - 400)
    dots = [match.end() for match in re.compile(r"[.;]\s(?=[A-Z])").finditer(copy, low, at)]
    return dots[-1] if dots else low
