"""How amounts are printed: numbers, comparisons, units, and what looks like an amount and is none."""

from __future__ import annotations

import re

from formulate.reading.lazily import lazy

NUM = r"(?:\d{1,3}(?:[ ]\d{3}){1,2}(?=\s?(?:ppm|ppb|mg/kg)\b)|\d{1,7}(?:[.,]\d{1,6})?|[.,]\d{1,6})"
CMP = (
    r"(?:</=|>/=|<=|>=|=<|=>|=/<|=/>|<|>|\u2264|\u2265|~|\u2248|\u00b1(?=\s?\d)"
    r"|\b(?:less\sthan\sor\sequal\sto|not\smore\sthan|no\smore\sthan|less\sthan|more\sthan|greater\sthan|at\sleast"
    r"|at\smost|up\sto"
    r"|maximum|minimum|max\.?|min\.?|approx\.?|approximately|about|around|circa|ca\.?|environ|ungef\u00e4hr|aproximadamente|aprox\.?|\u043e\u043a\u043e\u043b\u043e|below|under|above|over"
    r"|bis\szu|unter|\u00fcber"
    r"|nicht\smehr\sals|mindestens|h\u00f6chstens|etwa|weniger\sals|mehr\sals|jusqu'\u00e0|pas\splus\sde|hasta|fino\sa"
    r"|\u043d\u0435\s\u0431\u043e\u043b\u0435\u0435|\u043d\u0435\s\u043c\u0435\u043d\u0435\u0435|\u043c\u0435\u043d\u0435\u0435"
    r"|\u0431\u043e\u043b\u0435\u0435|\u0434\u043e|menos\sde|moins\sde|plus\sde|meno\sdi|meno\sdel|menos\sdel|poni\u017cej|powy\u017cej)"
    r"(?=[\s\d]))"
)
UNIT = (
    r"(?:%\s?\(?(?:w/w|m/m|by\s(?:weight|wt\.?|mass|volume|vol\.?)|wt\.?|v/v|vol\.?|w/v)\)?"
    r"|(?:wt|w/w|weight|mass|gew|vol|volume|mol|masse|poids|peso)\b[.\-]{0,2}\s?-?(?:%|percent|per\scent)"
    r"|%|percent(?:\sby\s(?:weight|mass|volume))?|per\scent(?:\sby\sweight)?|prozent"
    r"|ppm|ppb|mg/kg|g/kg|(?:weight\s)?parts?(?:\sby\s(?:weight|mass|volume))?|teile?|partes"
    r"|(?:\u91cd\u91cf|\u8cea\u91cf|\u8d28\u91cf)\s?%|(?:\u91cd\u91cf|\u8cea\u91cf)?\u90e8"
    r"|\u0447\u0430\u0441\u0442(?:\u0435\u0439|\u0438|\u044c)|phr|pbw|g/l|mg/l|g/100\s?(?:g|ml)"
    r"|(?:\u91cd\u91cf|\u8d28\u91cf)?\u4efd)(?![A-Za-z0-9])"
)
# '5 % \u2264 x < 10 %' names what lies between
SEP = (
    r"(?:[<\u2264]=?\s?[xc]\s?%?\s{0,2}(?=[<\u2264])|-{1,2}|\bto\b|\bbis\b|\bthrough\b|\u2026|\.\.\.?|~|\ba\b"
    r"|\b\u0434\u043e\b|/(?=\s?[<>\u2264\u2265]))"
)
BUT = r"(?:,?\s?(?:\b(?:and|but|aber|jedoch|pero|ma|und|\u043d\u043e|\u0438|et|mais|y|e)\b)?\s?)"
_OR = r"(?:or|and|oder|und|ou|et|o|y|e|\u0438\u043b\u0438|\u0438)"
_MORE = (
    r"(?:more|above|greater|over|mehr|dar\u00fcber|plus|m\u00e1s|pi\u00f9"
    r"|\u0431\u043e\u043b\u0435\u0435|\u0432\u044b\u0448\u0435)"
)
_LESS = r"(?:less|below|weniger|moins|menos|meno|\u043c\u0435\u043d\u0435\u0435)"
OPENING = r"(?<![A-Za-z0-9_\u00c0-\u024f\u0370-\u04ff.'#])(?<![A-Za-z0-9)\]]-)(?<!\d,)"
AMOUNT = lazy(
    rf"(?:(?P<between>\b(?:between|from|von|zwischen|de|od|\u043e\u0442)\s{{1,3}})(?={CMP}?\s?{NUM}|about\s|approx))?"
    rf"(?:(?P<c1>{CMP})\s{{0,6}}(?:(?:about|approx\.?|ca\.?)\s)?|{OPENING})"
    rf"(?P<n1>{NUM})(?![\d])(?:\s{{0,2}}(?P<u1>{UNIT}))?"
    rf"(?P<more>\s{_OR}\s{_MORE}(?=,?\s(?:but|and|aber|jedoch|und|mais|et|pero|ma|\u043d\u043e|\u0438)\s))?"
    rf"(?:\s{{0,3}}(?:(?:{SEP}|(?<=[\s%])and\b)\s{{0,3}}(?P<c2>{CMP})?|{BUT}(?P<c3>{CMP}))"
    rf"\s{{0,6}}(?:(?:about|approx\.?|ca\.?)\s)?(?P<n2>\d{{1,7}}(?:[.,]\d{{1,6}})?"
    rf"|[.,]\d{{1,6}})(?!\d)(?:\s{{0,2}}(?P<u2>{UNIT}))?)?"
    rf"(?P<tail>\s?\(?{_OR}\s(?:{_MORE}|{_LESS})\b\)?|\s?(?:max|min|maximum|minimum)\b\.?)?",
    re.IGNORECASE,
)
LOSS = lazy(
    rf"{OPENING}(?P<n1>\d{{1,3}}(?:[.,]\d{{1,4}})?)\s{{1,2}}(?P<n2>\d{{1,3}}(?:[.,]\d{{1,4}})?)\s?(?P<u2>{UNIT})",
    re.IGNORECASE,
)
NUMBERED_NAME = lazy(
    r"(?:polysorbate|laureth|steareth|ceteareth|quaternium|polyquaternium|poloxamer|peg|ppg|yellow|red|blue|green"
    r"|orange|violet|black|acid|ci|no\.?|type|grade|hlb|#)\s$",
    re.IGNORECASE,
)
UNREADABLE = lazy(
    r"(?:<|>|\u2264|\u2265)\s?[!lIiOo|]\s?%|(?<![^\s\t(:|])(?:NaN|N/A|#VALUE!|\?{1,3}|[xX]{1,3}(?:[.,][xX]{1,2})?)\s?%(?!\w)"
)
IN_NAME_AFTER = lazy(
    r"[\s)]{0,2}(?:max\.?\s)?(?:of\s)?(?:total\s)?(?:d'arom|arom[a\u00e1]t|w\u0119glowod|n-?\s?hexaan|n-?\s?esan|n-?\s?hexan|hexan|benz[eo]|sulfur|sulphur"
    r"|activ[es]|aktiv|solids|solid\b|solution|soln|l\u00f6sung|aqueous|aq\b"
    r"|in\s(?:water|h2o|ethanol|wasser|isopropanol)|strength|pur(?:e|ity)|hydroly[sz]ed|ethoxylat|dispersion"
    r"|emulsion|suspension|free\b|denatur|vinegar|proof|acetyl"
    r"|propylene\s?oxide|ethylene\s?oxide|EO\b|PO\b|dmso|water\s?solution|of\s(?:the\s)?(?:silicone\scomponent"
    r"|fatty|substances|chemicals))",
    re.IGNORECASE,
)
SOLIDS_FIRST = lazy(r"\s?(?:solids|actives?|aqueous|strength)\b(?!\s[a-z])", re.IGNORECASE)
OF_NAME_FIRST = lazy(
    r"\s?(?:d'arom|arom[a\u00e1]t|w\u0119glowod|n-?\s?hexa\w{0,3}\b|n-?\s?esano|benzene?\b|benzol|solids|actives?\b)",
    re.IGNORECASE,
)
NOT_A_SHARE = lazy(
    r"\s?(?:mg|\u00b5g|ug|g|kg|ml|l|m\u00b3|m3|cst|cps|mm2?|mm\u00b2|nm|\u00b5m|um|mpa|pa\b|\u00b0|deg|c\b|f\b"
    r"|hours?|h\b|min\b|bar|psi|oz|lbs?|kda|da\b|mol\b|eo\b|po\b|hlb|centistokes|cp\b|k\b|ci\b|litre|liter"
    r"|cm|mm\s?hg|mg/m|parts|drops|v\b|w\b)(?![A-Za-z%])",
    re.IGNORECASE,
)
BROKEN = lazy(r"[.,]{1,2}[.,\d]")
EXPOSURE_NEAR = lazy(
    r"(?:tlv|pel|twa|stel|lc50|ld50|oel|exposure|limit|ceiling|vapou?r)\b[^\n;]{0,20}$",
    re.IGNORECASE,
)
LOWER = {
    ">",
    ">=",
    ">/=",
    "=>",
    "=/>",
    "\u2265",
    "more than",
    "greater than",
    "at least",
    "minimum",
    "min",
    "above",
    "over",
    "\u00fcber",
    "mindestens",
    "mehr als",
    "\u0431\u043e\u043b\u0435\u0435",
    "\u043d\u0435 \u043c\u0435\u043d\u0435\u0435",
    "plus de",
    "powy\u017cej",
}
CLOSED = {
    "<=",
    ">=",
    "</=",
    ">/=",
    "=<",
    "=>",
    "=/<",
    "=/>",
    "\u2264",
    "\u2265",
    "at least",
    "at most",
    "up to",
    "maximum",
    "minimum",
    "max",
    "min",
    "not more than",
    "nicht mehr als",
    "pas plus de",
    "jusqu'\u00e0",
    "hasta",
    "fino a",
    "\u043d\u0435 \u0431\u043e\u043b\u0435\u0435",
    "\u043d\u0435 \u043c\u0435\u043d\u0435\u0435",
    "no more than",
    "bis zu",
    "mindestens",
    "h\u00f6chstens",
    "\u0434\u043e",
    "less than or equal to",
}
MORE_WORDS = lazy(rf"{_MORE}$|min(?:imum)?$", re.IGNORECASE)
ABOUT = {"~", "\u2248", "\u00b1", "approx", "approximately", "about", "around", "circa", "ca", "etwa"}
ABOUT |= {"environ", "ungef\u00e4hr", "aproximadamente", "aprox", "\u043e\u043a\u043e\u043b\u043e"}
