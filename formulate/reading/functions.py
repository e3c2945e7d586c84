"""What a list itself says an ingredient is for: the trade's words for functions, as labels print them."""

from __future__ import annotations

import re

from formulate.reading.lazily import lazy

_WORD = (
    r"(?:anti-?\s?(?:foam|static|microbial|oxidant|fog|corrosive)(?:\sagent|ing\sagent)?|abrasive|absorber|binder"
    r"|bittering\sagent|bitterant|biocide|buffer(?:ing)?(?:\sagent)?|builder|carrier(?:\ssolvent)?"
    r"|chelat(?:ing\sagent|or|ant)|cleaning\sagent|co-?solvent"
    r"|colou?r(?:ant|ing)?(?:\sagent)?|conditioner|conditioning\sagent|corrosion\sinhibitor|de-?foamer|detergent"
    r"|diluent|dispersant|dispersing\sagent|drying\s(?:aid|agent)|dye|emulsifier|emulsifying\sagent"
    r"|emulsion\sstabili[sz]er|film[\s-]?former|film[\s-]forming\sagent"
    r"|fragrance(?:\singredient)?|gloss(?:\sagent)?|humectant|hydrotrope|lubricant|neutrali[sz](?:er|ing\sagent)"
    r"|opacifier|ph[\s-]adjust(?:er|or|ing\sagent)|ph[\s-]control(?:ler)?|ph[\s-]regulator|plasticis?z?er"
    r"|polish(?:ing\sagent)?|preservative|processing\said|propellant|protectant"
    r"|rheology\smodifier|scent|sequestrant|shine\s(?:agent|enhancer)|slip\sagent|softener|solubili[sz]er|solvent"
    r"|stabili[sz]er|surfactant|suspending\sagent|thickener|thickening\sagent|uv[\s-](?:absorber|filter|protectant"
    r"|stabili[sz]er)|viscosity\s(?:modifier|control(?:ler)?)"
    r"|water\srepellent|wax|wetting\sagent|crosslinker|catalyst|coupling\sagent|impurity"
    r"|hydrophobi[cz](?:ing)?\sagent|l\u00f6sungsmittel|konservierungsmittel|duftstoff|verdicker|tensid|emulgator"
    r"|tr\u00e4gerstoff)s?"
)
_FUNCTION = (
    rf"(?:(?:[\w-]{2, 14}\s)?(?:mild|primary|secondary|nonionic|anionic|cationic|gloss|film|surface|water|main|natural"
    rf"|organic)\s)?{_WORD}(?:\s?(?:/|,|&|and)\s?{_WORD}){{0,2}}"
)
FUNCTION = lazy(_FUNCTION, re.IGNORECASE)
_TAIL = lazy(
    rf"(?P<name>\S.{{0,300}}?)\s?(?:\s-\s|\s?:\s|\s?\((?=[^()]*\)$)|\s=\s)(?:as\s(?:an?\s)?|used\sas\s"
    rf"|function:?\s)?(?P<function>{_FUNCTION})\)?$",
    re.IGNORECASE,
)
_AS = lazy(
    rf"(?P<name>\S.{{0,200}}?),?\s(?:used\s)?as\s(?:an?\s|the\s)?(?P<function>{_FUNCTION})$",
    re.IGNORECASE,
)


def function_tail(name: str) -> tuple[str, str | None]:
    """Split 'Citric acid - pH adjuster' or 'water (solvent)' into the name and the stated function."""
    if len(name) > 400:
        return name, None
    match = None
    if name.endswith(")") or any(sign in name for sign in (" - ", ":", " = ")):
        match = _TAIL.fullmatch(name)
    if match is None and " as " in name.casefold():
        match = _AS.fullmatch(name)
    if match is None:
        return name, None
    return match["name"].strip(" -:("), match["function"]
