"""The forms in which a printed name is looked up, and the figures that stand inside names."""

from __future__ import annotations

import re
from typing import NamedTuple

_VISCOSITY = re.compile(
    r"[\s,(]*(\d+(?:[.,]\d+)?)\s*(?:cst|cs|centistokes?|mm2/s|mm²/s)\b\.?\)?(?:\s*(?:at|@)\s*\d+\s*°?\s*c)?", re.IGNORECASE
)
_STRENGTH = re.compile(r"[\s(,]*\d+(?:[.,]\d+)?\s*(?:-|to)?\s*(?:\d+(?:[.,]\d+)?)?\s*(?:wt|vol|w/w)?\.?\s*%(?:\s*(?:active|solids?|solution|aq\.?|in water))?\)?", re.IGNORECASE)
_QUALIFIERS = re.compile(
    r"\b(?:technical|tech\.? grade|usp|ph\.? ?eur\.?|bp grade|reagent grade|anhydrous|purified|refined|pure|virgin|organic|natural|synthetic grade|\(?nano\)?)\b",
    re.IGNORECASE,
)
_BRACKETS = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


class NameForms(NamedTuple):
    """What a printed name offers for look-up: forms from the whole to its parts, and figures read from it."""

    forms: tuple[str, ...]
    viscosity: float | None
    number: float | None


def name_forms(name: str) -> NameForms:
    """Forms of a name in the order they are tried.

    The whole name first; then without viscosity and strength; then without brackets; what stands in
    the brackets; the parts between slashes. ``viscosity`` in mm2/s; ``number`` is the last figure (Trideceth-6 -> 6).
    """
    viscosity = _VISCOSITY.search(name)
    bare = _VISCOSITY.sub(" ", name) if viscosity else name
    bare = _clean(_STRENGTH.sub(" ", bare))
    forms = [name.strip(), bare, _clean(_QUALIFIERS.sub(" ", bare))]
    outside = _clean(_BRACKETS.sub(" ", bare))
    if outside != bare:
        forms.append(outside)
        forms.extend(_clean(inner) for inner in _BRACKETS.findall(bare))
    if "/" in bare:
        forms.extend(_clean(part) for part in bare.split("/"))
    numbers = _NUMBER.findall(bare)
    return NameForms(
        tuple(dict.fromkeys(form for form in forms if form)),
        float(viscosity.group(1).replace(",", ".")) if viscosity else None,
        float(numbers[-1]) if numbers else None,
    )


def _clean(text: str) -> str:
    return " ".join(text.split()).strip(" ,;:-–*†‡")
