"""Hazard statement codes of the product as a whole: those of the section on hazards, never those of single rows."""

from __future__ import annotations

from formulate.domain.line import HazardCode
from formulate.domain.place import LineIndex
from formulate.reading.block import Block, Outline
from formulate.reading.lazily import lazy
from formulate.reading.sections import UNNAMED, Heading

# Regulation (EC) No 1272/2008, Annex III: H200 to H420 with letters (H350i, H360FD), EUH and three digits with letter
_CODE = lazy(r"(?<![\w-])(?:EUH\s?\d{3}[A-Z]?|H\s?[2-4]\d{2}(?:i|F?D?|Fd|Df|fd|f|d)?)(?![\w-])")
_MOST = 200
_LONGEST = 200_000


def hazard_codes_in(text: str, copy: str, outline: Outline, index: LineIndex) -> tuple[HazardCode, ...]:
    """The codes printed in the sections on hazards, each once, where it stands first; none without such a section."""
    found: dict[tuple[str, str], HazardCode] = {}
    for place, heading in enumerate(outline.headings):
        if heading.kind != "hazards":
            continue
        of = _of(heading, outline.blocks)
        end = next((later.begin for later in outline.headings[place + 1 :] if later.kind != UNNAMED), len(copy))
        for match in _CODE.finditer(copy, heading.after, min(end, heading.after + _LONGEST)):
            code = match.group().replace(" ", "")
            if (of, code) not in found and len(found) < _MOST:
                found[of, code] = HazardCode.model_construct(
                    code=code, text=text[slice(*match.span())], place=index.place(*match.span()), of=of
                )
    return tuple(found.values())


def _of(heading: Heading, blocks: list[Block]) -> str:
    """Of what the codes of a section speak: the product, or the data sheet whose list follows."""
    if len({block.sheet for block in blocks}) < 2:
        return "product"
    later = next((block for block in blocks if block.start > heading.begin), blocks[-1])
    return f"sheet {later.sheet}"
