"""The forms in which a printed name is looked up, and the figures that stand inside names."""

from __future__ import annotations

import re
from typing import NamedTuple

_VISCOSITY = re.compile(
    r"[\s,(]*(\d+(?:[.,]\d+)?)\s*(?:cst|cs|centistokes?|mm2/s|mm²/s)\b\.?\)?(?:\s*(?:at|@)\s*\d+\s*°?\s*c)?",
    re.IGNORECASE,
)
_STRENGTH = re.compile(
    r"[\s(,]*\d+(?:[.,]\d+)?\s*(?:-|to)?\s*(?:\d+(?:[.,]\d+)?)?\s*(?:wt|vol|w/w)?\.?\s*%"
    r"(?:\s*(?:active|solids?|solution|aq\.?|in water))?\)?",
    re.IGNORECASE,
)
_QUALIFIERS = re.compile(
    r"\b(?:filtered|distilled|de-?ioni[sz]ed|demineral+i[sz]ed|softened|soft|tap|fresh|drinking|technical"
    r"|tech\.? grade|usp"
    r"|ph\.? ?eur\.?|bp grade|reagent grade|anhydrous|purified|refined|pure|virgin|organic|natural|synthetic grade"
    r"|\(?nano\)?)\b",
    re.IGNORECASE,
)
_LABEL = re.compile(r"^\(?(?:[A-Za-z]|\d{1,2}|[ivx]{1,4})[.)]\s+")
_ARTICLE = re.compile(r"^(?:an?|the|some)\s+", re.IGNORECASE)
_CELL = re.compile(
    r"\s+(?:not available|not assigned|not applicable|n/?a|none|withheld|confidential|trade secret|proprietary)\b.*$",
    re.IGNORECASE,
)
_ANNOTATION = re.compile(r"\s[(\[]([^()\[\]]*)[)\]]\s*$")
_SHARE_WITHIN = re.compile(r"\s*[(\[][^()\[\]%]{0,60}%[^()\[\]%]{0,60}[)\]]\s*$")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


class NameForms(NamedTuple):
    """What a printed name offers for look-up: forms from the whole to its parts, and figures read from it."""

    forms: tuple[str, ...]
    parts: tuple[str, ...]
    cells: bool
    annotation: str
    viscosity: float | None
    number: float | None


def name_forms(name: str) -> NameForms:
    """Forms of a name in the order they are tried.

    The whole name first; then without viscosity and strength; then without a bracket at its end
    (``annotation``); without a list label, article, or the words of an empty cell
    ('Not available'). ``viscosity`` in mm2/s; ``number`` is the last figure (Trideceth-6 -> 6);
    ``parts`` are what stands between slashes or
    semicolons, ``cells`` says that blanks stand around these.
    """
    viscosity = _VISCOSITY.search(name)
    bare = _VISCOSITY.sub(" ", name) if viscosity else name
    bare = _clean(_STRENGTH.sub(" ", bare))
    forms = [name.strip(), bare, _clean(_QUALIFIERS.sub(" ", bare))]
    within = _SHARE_WITHIN.search(name)
    if within:  # "Butane (< 0.1 % butadiene)": how much of something is in the ingredient itself
        forms.append(_clean(name[: within.start()]))
    annotation = _ANNOTATION.search(bare)
    if annotation:  # "Water (Aqua)"; a bracket inside a name, as in triethoxy(phenyl)silane, is part of it
        forms.append(_clean(bare[: annotation.start()]))
    parts = tuple(_clean(part) for part in re.split(r"[/;]", bare)) if "/" in bare or ";" in bare else ()
    plain = _ARTICLE.sub("", _LABEL.sub("", bare))
    forms.extend([plain, _clean(_QUALIFIERS.sub(" ", plain)), _clean(_CELL.sub("", plain))])
    numbers = _NUMBER.findall(bare)
    return NameForms(
        tuple(dict.fromkeys(form for form in forms if form)) or ("",),
        tuple(part for part in parts if part),
        bool(re.search(r"\s[/;]|;\s", bare)),
        _clean(annotation.group(1)) if annotation else "",
        float(viscosity.group(1).replace(",", ".")) if viscosity else None,
        float(numbers[-1]) if numbers else None,
    )


def _clean(text: str) -> str:
    return " ".join(text.split()).strip(" ,;:-–*†‡")
