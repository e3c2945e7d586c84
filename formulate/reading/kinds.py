"""Which section of a data sheet a text looks like, where section 3 is not among what was pasted."""

from __future__ import annotations

from bisect import bisect_right

from formulate.domain.line import Line
from formulate.reading import patterns
from formulate.reading.block import Outline
from formulate.reading.lazily import lazy
from formulate.reading.sections import COMPOSITION, UNNAMED

Span = tuple[int, int]
_NAMED = {
    "hazards": "section 2 (hazards)",
    "exposure": "section 8 (exposure limits)",
    "properties": "section 9 (physical and chemical properties)",
    "toxicology": "section 11 (toxicological information)",
    "ecology": "section 12 (ecological information)",
    "transport": "section 14 (transport)",
    "regulation": "section 15 (regulation)",
}
_NO_AMOUNTS = {
    "exposure": "what it prints are limits in workplace air, not contents.",
    "toxicology": "what it prints are doses and concentrations in tests, not contents.",
    "ecology": "what it prints are doses and concentrations in tests, not contents.",
}
_NO_FACTS = frozenset(
    {COMPOSITION, "toxicology", "ecology", "stability", "first-aid", "release", "disposal", "exposure"}
)
_LIMIT_WORD = lazy(r"\b(?:TLV|PEL|TWA|STEL|WEL|MAK|AGW|OEL|IDLH|TEEL|VLEP|VLA|NDS)\b")
_LIMIT = lazy(r"\d\s?(?:ppm|mg/m\s?[3\u00b3])", 0x2)
_DOSE = lazy(r"\bL[DC]\s?50\b|\bEC\s?50\b", 0x2)
_LAW = lazy(r"\b(?:SARA|TSCA|CERCLA|Prop(?:osition)?\.?\s?65|DSL|NDSL|AICS|ENCS|RCRA|Clean\s(?:Air|Water)\sAct)\b")
_LOOKED = 60_000


def looks_like(copy: str, outline: Outline) -> str | None:
    """The kind of section that a text without a section on composition looks like, or None."""
    kinds = [heading.kind for heading in outline.headings]
    if COMPOSITION in kinds or any(block.why == "head" for block in outline.blocks):
        return None
    named = [kind for kind in kinds if kind in _NAMED]
    if named:
        return named[0] if len(set(named)) == 1 or named[0] in _NO_AMOUNTS else "sheet"
    if [kind for kind in kinds if kind != UNNAMED]:
        return None
    shown = copy[:_LOOKED]
    if "%" in shown:
        return None
    if len(_LIMIT_WORD.findall(shown)) > 1 and len(_LIMIT.findall(shown)) > 1:
        return "exposure"
    if len(_DOSE.findall(shown)) > 1:
        return "toxicology"
    return "regulation" if len(set(_LAW.findall(shown))) > 1 else None


def kind_at(place: int, outline: Outline, looks: str | None) -> str | None:
    """Kind of the section that a place lies in."""
    later = bisect_right(outline.headings, place, key=lambda heading: heading.begin)
    return outline.headings[later - 1].kind if later else looks


def tells_no_amounts(kind: str | None) -> bool:
    """Whether numbers in a section of this kind are limits or doses, never contents."""
    return kind in _NO_AMOUNTS


def fact_areas(outline: Outline, length: int) -> list[Span] | None:
    """The sections that speak of the product as a whole; None where no section on properties tells them apart."""
    headings = outline.headings
    if not any(heading.kind == "properties" for heading in headings):
        return None
    ends = [*(heading.begin for heading in headings[1:]), length]
    areas = [(0, headings[0].begin)]
    areas += [(one.after, end) for one, end in zip(headings, ends, strict=True) if one.kind not in _NO_FACTS]
    return areas


def section_notes(copy: str, outline: Outline, looks: str | None, lines: tuple[Line, ...]) -> list[str]:
    """What to say of the section that was pasted."""
    notes = []
    if looks == "sheet":
        notes.append("Sections of a safety data sheet were found, but none on composition (section 3).")
    elif looks is not None:
        about = _NO_AMOUNTS.get(looks, "it does not list what the product is made of.")
        notes.append(f"This looks like {_NAMED[looks]} of a safety data sheet, not like section 3: {about}")
    declared = next(
        (
            block
            for block in outline.blocks
            if patterns.NONE_DECLARED.search(copy, block.start, min(block.end, block.start + _LOOKED))
        ),
        None,
    )
    if declared is not None and not lines:
        notes.append("The text says that nothing hazardous has to be declared: that is no list of the ingredients.")
    return notes
