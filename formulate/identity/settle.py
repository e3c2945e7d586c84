"""Numbers and name of one line together: the narrower statement, or everything that disagrees side by side."""

from __future__ import annotations

from formulate.catalog.store import Catalog
from formulate.identity.agreement import contradicts, most_general, settled
from formulate.identity.found import BESIDE_UNKNOWN_NUMBER, CONFIDENCE, Found, left_open
from formulate.identity.numbers import Numbered


def settle(known: list[Numbered], by_class: Found | None, by_name: Found | None, catalog: Catalog) -> Found:
    """Numbers and name of one line together: the narrower statement, or everything that disagrees side by side."""
    every = tuple(hit for one in known for hit in one.hits)
    first, *others = known
    number = cas = Found(first.kind, CONFIDENCE[first.kind], first.hits, looked_up=first.number)
    for other in others:
        number = _narrower(number, Found(other.kind, CONFIDENCE[other.kind], other.hits), catalog)
    if not number.hits:
        if by_name is not None and by_name.hits and _narrower(cas, by_name, catalog).hits:
            agreed = settle(known[:1], by_class, by_name, catalog)
            said = (f"EC {others[0].number} is something else's; CAS number and name agree",)
            return agreed._replace(confidence=min(agreed.confidence, BESIDE_UNKNOWN_NUMBER), tried=said)
        return left_open(every + (by_name.hits + by_name.disagree if by_name else ()), "CAS and EC number disagree")
    if by_class is not None and contradicts(by_class.class_, every, catalog):
        return left_open(every, "number and class word disagree")._replace(class_word=by_class.class_word)
    if by_name is None or not (by_name.hits or by_name.disagree):
        return number._replace(hits=(most_general(number.hits, catalog),))
    if by_name.disagree:  # the name leaves it open between several: the number may be of one of them
        named = {hit.ingredient for hit in by_name.disagree}
        held = number._replace(hits=tuple(hit for hit in number.hits if hit.ingredient in named))
    else:
        held = _narrower(number, by_name, catalog)
    if not held.hits:
        return left_open(every + by_name.hits + by_name.disagree, "number and name disagree")
    return held._replace(hits=(most_general(held.hits, catalog),))


def _narrower(one: Found, other: Found, catalog: Catalog) -> Found:
    """What two statements have in common, or the narrower of them; without hits if they disagree."""
    both = {hit.ingredient for hit in one.hits} & {hit.ingredient for hit in other.hits}
    if both:
        return one._replace(hits=tuple(hit for hit in one.hits if hit.ingredient in both))
    holds = settled(one.hits, other.hits, catalog)
    return {"number": one, "name": other, "neither": one._replace(hits=())}[holds]
