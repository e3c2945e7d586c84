"""Kitchen and workshop measures: '2 1/2 ounces', 'half a cup', '30 gouttes', '8 oz'; and lists made of them."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.item import Draft, clean_name, trimmed
from formulate.reading.lazily import lazy
from formulate.reading.recipes import PARTITIVE, RECIPE, unmeasured

Known = Callable[[str], bool]

DOUBT = "the sentence tells how much to take, not a share"
LONGEST = 20_000
_LONGEST_NAME = 80
_MOST_WORDS = 7
_NAME_END = lazy(
    r"[.,;:!?()\n]|\s(?:and|und|et|y|e|or|oder|into|in|to|at|with|from|for|onto|over|per|until|while|then|plus|mit|zu|in"
    r"|dans|avec|en|con|auf|pour|antes|hasta|before|after|bis|avant|prima)\s|\s(?:is|are|was|were)\s",
    re.IGNORECASE,
)
_STEPS = lazy(
    r"^\W{0,4}(?:method|methods|directions?|instructions?|equipment|tools?|utensils|materials?|supplies|preparation"
    r"|procedure|steps?|how\sto|to\s(?:use|make|apply)|notes?|tips?|hints?|you\s(?:will|also)?\s?need|recette"
    r"|pr\u00e9paration|mat\u00e9riel|\u00e9tapes|mode\sd'emploi|pas\s\u00e0\spas|zubereitung|anleitung|anwendung"
    r"|herstellung|modo\sde|preparaci[o\u00f3]n|procedimiento|preparazione|procedimento|werkwijze|bereiding|wykonanie)\b",
    re.IGNORECASE,
)
_USE = lazy(
    r"\b(?:dilute|rinse|wash|soak|apply|spray|wipe|verd\u00fcnnen|sp\u00fclen|diluer|rincer|diluir|enjuagar)\b[^.!?]{0,70}$",
    re.IGNORECASE,
)
_BRACKET = lazy(r"\([^()\n]{0,200}\)")
_CARRIES_ON = lazy(r"\s{0,3}(?:[,;]|and\b|&)")
_PARTS = lazy(r"\d\s{0,2}(?:parts?|teile?|partes?|parti)\b", re.IGNORECASE)
_RUNNING = lazy(
    r"[.!?:]$|\b(?:is|are|was|were|until|then|your|you|it|them|this|that|which|when|stir|melt|pour|mix|heat|cool"
    r"|apply|rub|label)\b",
    re.IGNORECASE,
)


def is_measured(draft: Draft) -> bool:
    """Whether the amount of an entry is a measure that is no share."""
    stated = draft.stated
    if stated is None or stated.low is not None or stated.high is not None:
        return False
    return RECIPE.search(stated.text) is not None or _PARTS.search(stated.text) is not None


def without_steps(copy: str, drafts: list[Draft]) -> list[Draft]:
    """The entries of a recipe without its title and its steps; all of them where the list is no recipe."""
    measured = [number for number, draft in enumerate(drafts) if is_measured(draft)]
    if len(measured) < 2 or len(measured) * 2 < measured[-1] - measured[0] + 1:
        return drafts
    if any(draft.cas or (draft.stated and draft.stated.high is not None) for draft in drafts):
        return drafts
    kept = drafts[measured[0] : measured[-1] + 1]
    for draft in drafts[measured[-1] + 1 :]:
        start, end = draft.spans[0]
        printed = copy[start : end + 1].rstrip()
        between = copy[kept[-1].spans[-1][1] : start]
        name = _BRACKET.sub(" ", printed)
        if _CARRIES_ON.match(between):
            kept.append(draft)
            continue
        if (
            "\n\n" in between
            or between.count("\n") > 1
            or _STEPS.match(printed)
            or _RUNNING.search(name)
            or len(name.split()) > _MOST_WORDS
        ):
            break
        kept.append(draft)
    return kept


def measured_drafts(text: str, copy: str, start: int, end: int, known: Known) -> list[Draft]:
    """The ingredients of steps in running sentences: 'Melt half a pound of beeswax ... add 4 oz of turpentine'.

    Each is told once, where it is first measured. Empty unless at least two are, and most of them are known names.
    """
    if end - start > LONGEST:
        return []
    drafts: dict[str, Draft] = {}
    hits = 0
    for measure in RECIPE.finditer(copy, start, end):
        if _USE.search(copy, max(start, measure.start() - 80), measure.start()):
            continue  # 'Rinse with 2 litres of water' uses the product
        partitive = PARTITIVE.match(copy, measure.end(), end)
        begin = partitive.end() if partitive else measure.end()
        if not copy[begin : begin + 2].strip():
            continue
        stop = _NAME_END.search(copy, begin, min(end, begin + _LONGEST_NAME))
        last = stop.start() if stop else (end if end - begin < _LONGEST_NAME else begin)
        first, last = trimmed(copy, begin, last)
        name, _ = clean_name(copy[first:last])
        if not patterns.LETTER.search(name) or len(name.split()) > _MOST_WORDS or name.lower() in drafts:
            continue
        hits += _is_thing(name, known)
        stated = unmeasured(text, measure.start(), measure.end())
        drafts[name.lower()] = Draft(((measure.start(), last),), name, stated=stated, doubtful=DOUBT)
    return list(drafts.values()) if len(drafts) > 1 and hits * 2 > len(drafts) else []


def _is_thing(name: str, known: Known) -> bool:
    words = name.split()
    return any(known(" ".join(words[at:])) for at in range(len(words)))
