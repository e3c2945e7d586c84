"""Patterns of printed measurements: the words for a quantity, its values, units, methods and conditions."""

from __future__ import annotations

import re

from formulate.reading.lazily import lazy

_LABELS = {
    "ph": r"ph(?:[\s-]?(?:value|wert|valeur|v\u00e4rde|v\u00e6rdi|waarde))?"
    r"(?![\s-]?(?:adjust|regul|control|neutral|modif|stab|buffer))",
    "density_g_per_ml": r"(?:relative\s|relativ\s|density\s/\s)?(?:density|dichte)|specific\sgravity|sp\.?\s?gr\.?"
    r"|densit\u00e9(?:\srelative)?|masse\svolumique|densit\u00e0(?:\srelativa)?|peso\sspecifico"
    r"|densidad(?:e)?(?:\srelativa)?"
    r"|g\u0119sto\u015b\u0107(?:\swzgl\u0119dna)?|(?:relatieve\s)?dichtheid|(?:relativ\s)?densitet|hustota",
    "flash_point_c": r"flash\s?point|flammpunkt|point\sd.\u00e9clair|punto\sde\sinflamaci\u00f3n"
    r"|punto\sd.infiammabilit\u00e0"
    r"|punto\sdi\sinfiammabilit\u00e0|ponto\sde\s(?:inflama\u00e7\u00e3o|fulgor)|vlampunt|flampunkt"
    r"|temperatura\szap\u0142onu|bod\svzplanut\u00ed",
    "boiling_point_c": r"(?:initial\s)?boiling\s(?:point|range)|siede(?:punkt|beginn|bereich)"
    r"|point\s(?:initial\s)?d.\u00e9bullition|punto\s(?:iniziale\s)?di\sebollizione"
    r"|punto\s(?:inicial\s)?de\sebullici\u00f3n"
    r"|ponto\sde\sebuli\u00e7\u00e3o|kookpunt|kokpunkt|kogepunkt|temperatura\swrzenia|bod\svaru",
    "melting_point_c": r"melting\spoint|freezing\spoint|schmelzpunkt|point\sde\sfusion|punto\sdi\sfusione"
    r"|punto\sde\sfusi\u00f3n",
    "solids_by_volume": r"(?:volume\ssolids|solids\sby\svolume)",
    "nonvolatile": r"non-?\s?volatiles?(?:\s(?:content|matter))?|(?:total\s|weight\s)?solids?(?:\scontent"
    r"|\sby\sweight)?"
    r"|festk\u00f6rper(?:gehalt|anteil)?|extrait\ssec|residuo\ssecco|contenido\sde\ss\u00f3lidos",
    "voc": r"voc(?:s)?(?:\scontent)?|volatile\sorganic\scompounds?(?:\s\(voc\))?(?:\scontent)?|voc-gehalt",
    "volatile": r"(?<!non-)(?<!non\s)(?:percent\s|%\s)?volatiles?(?!\sorganic)(?:\sby\s(?:wt\.?|weight|volume))?",
    "vapour_pressure_pa": r"vapou?r\spressure|dampfdruck|pression\sde\svapeur|tensione\sdi\svapore"
    r"|presi\u00f3n\sde\svapor"
    r"|dampspanning|\u00e5ngtryck|damptryk|pr\u0119\u017cno\u015b\u0107\spar",
    "viscosity_mm2_s": r"(?:kinematic\s|dynamic\s)?viscosity(?:,?\s(?:kinematic|dynamic))?"
    r"|viskosit\u00e4t(?:,?\s(?:kinematisch|dynamisch))?"
    r"|viscosit\u00e9|viscosit\u00e0|viscosidad|viscositeit|viskositet|lepko\u015b\u0107",
}
_BEGINS = {
    "ph": "p",
    "density_g_per_ml": "rdsmpgh",
    "flash_point_c": "fpvtb",
    "boiling_point_c": "ibspktb",
    "melting_point_c": "mfsp",
    "solids_by_volume": "vs",
    "nonvolatile": "ntwsferc",
    "voc": "v",
    "volatile": "pv%",
    "vapour_pressure_pa": "vdpt\u00e5",
    "viscosity_mm2_s": "kdvl",
}
LABEL = lazy(
    "(?<![\\w-])(?=[%a-z\u00e5])(?:"
    + "|".join(f"(?=[{_BEGINS[key]}])(?P<{key}>{label})" for key, label in _LABELS.items())
    + r")(?![^\W\d_])"
)
ANCHOR = lazy(r"(?:^|[\n;|.,\t(*\u2022\u00b7_:)>-]|\s\s)\s?$")
# the density of the vapour, of loose powder, or of what is not the product
OTHER_DENSITY = lazy(r"(?:vapou?r|bulk|gas|powder|vapeur|vapor|pary|par)\W{0,3}(?:relative\W{1,2})?$")
OF_VAPOUR = lazy(r"vapou?r|vapeur|vapore|dampf|air\s?=|luft\s?=")

_UNIT = (
    r"\u00b0\s?[CFcf]\b|deg\.?\s?[CFcf]\b|[CF]\b|K\b|(?:k?g|mg)\s?/\s?(?:cm\s?\^?[3\u00b3]|cc|ml|mL|l|L"
    r"|dm\s?[3\u00b3]|m\s?\^?[3\u00b3])"
    r"|(?:lbs?|pounds)\.?\s?/\s?(?:US\s)?(?:gal(?:lon)?|ft\s?3)|%|mm\s?/?\s?[Hh]g"
    r"|[hkM]?Pa(?:[\s.*\u00b7\u00d7-]{0,2}s\b)?|mbar|bar\b|torr|psia?|atm\b"
    r"|[mc]m\s?[2\u00b2]\s?/\s?s|m[2\u00b2]/s|c[Ss]t|cps?\b|cP\b|centistokes|cpoise|mPa\s?s"
)
_NUMBER = r"[-+]?\d{1,6}(?:[.,]\d{1,6})?"
_SIGN = (
    r"</=|>/=|<=|>=|<|>|\u2264|\u2265|~|\u2248|ca\.?|circa|approx(?:\.|imately)?|about|max\.?|min\.?|up\sto"
    r"|less\sthan|greater\sthan"
    r"|more\sthan|above|below|over|under|at\sleast|at\smost|typically|typ\.?|est\.?|unter|\u00fcber|env\.?|c\.\s"
)
VALUE = lazy(
    rf"(?P<sign>(?:{_SIGN})(?:\s?(?:<|>|~))?)?\s{{0,3}}(?P<a>{_NUMBER})(?:\s{{0,2}}(?P<ua>{_UNIT})?\s{{0,2}}(?:-"
    rf"|to|bis|\u2026|\u00e0(?!\s?\d{{1,2}}\s?\u00b0)|\bund)"
    rf"\s{{0,2}}(?P<b>{_NUMBER}))?[ \t]{{0,3}}(?P<unit>{_UNIT})?(?![\d])",
    re.IGNORECASE,
)
WORDS = lazy(
    r"(?:none(?:\sto\sboiling(?:\spoint)?)?|not\sapplicable|non-?\s?applicable|n\.?/?a\.?(?=\s|$)"
    r"|non-?\s?flammable|not\sflammable"
    r"|(?:does\snot|no)\sflash(?:es)?(?:\s(?:to|up\sto|before)\sboiling(?:\spoint)?)?|no\sflash\spoint"
    r"|entf\u00e4llt|nicht\sanwendbar|nicht\szutreffend"
    r"|sans\sobjet|non\sapplicabile|no\saplicable|nie\sdotyczy|ej\still\u00e4mpligt"
    r"|niet\svan\stoepassing)(?![^\W\d_])",
    re.IGNORECASE,
)
BETWEEN = lazy(
    r"[ \t]*(?:[:=|*_]|\s-\s|\.{2,}|\[[^\[\]\n]{0,60}\]|\([^()\n]{0,60}\)|(?:\n[ \t]{0,20}){1,3}(?=[:=|<>~(\d.+-]"
    r"|n(?:one|ot|on)\b|g/|%|\u00b0)"
    r"|(?:at|@|bei|\u00e0|a|vid|przy|bij)\s\d{1,2}\s?\u00b0?\s?[CF]\b|(?:g/cm\s?[3\u00b3]|g/ml|\u00b0\s?[CF]"
    r"|%)(?=\s{0,3}[:|)\n])|,(?=\s?\u00b0))"
)
TALK = lazy(r"[^\n:=<>\u2264\u2265~\u2248\d;|()\[\]]{1,40}(?=[:=|<>\u2264\u2265\d(\[~\u2248]|$)")
_CUPS = (
    r"(?:closed|open)[\s-]{0,2}cup|geschlossene[rn]?\s(?:Tiegel|Becher)|offene[rn]?\sTiegel"
    r"|coupelle\s(?:ferm\u00e9e|ouverte)|vaso\s(?:chiuso|cerrado|aperto|abierto)|(?:st\u00e4ngd|sluten"
    r"|\u00f6ppen)\sb\u00e4gare"
    r"|lukket\skop|gesloten\skroes"
)
_METHODS = (
    rf"{_CUPS}|PMCC|TCC|TOC\b|COC\b|SCC\b|Pensky[\s-]{{0,2}}Martens|\bTag(?:liabue)?\b|Cleveland|Seta\s?flash"
    rf"|Abel(?:[\s-]Pensky)?|c\.c\.|o\.c\."
    r"|ASTM\s?D\s?-?\d{2,4}|(?:EN\s)?ISO\s?\d{3,5}|DIN\s?(?:EN\s)?(?:ISO\s)?\d{3,5}|IP\s?\d{2,3}|OECD\s?\d{3}"
    r"|\bc/c\b|\bo/c\b"
)
METHOD = lazy(_METHODS, re.IGNORECASE)
TAIL = lazy(
    rf"[ \t]{{0,4}}(?:[,;]?[ \t]?[(\[][^()\[\]\n]{{0,70}}[)\]]|[-,;]?[ \t]?(?:{_METHODS})(?:[ \t](?:method|test))?"
    rf"|(?:,\s?)?(?:at|@|bei|\u00e0|vid)\s\d{{1,2}}\s?\u00b0?\s?[CF]\b"
    r"|\n?[ \t]{0,8}(?:test\s)?m(?:e|\u00e9)thod[eo]?[ \t]{0,3}\n?[ \t]{0,3}:[^\n]{2,60})",
    re.IGNORECASE,
)
OPEN_CUP = lazy(r"open|\u00f6ppen|\bTOC\b|\bCOC\b|Cleveland|offen|ouvert|apert|abiert|o\.c\.|\bo/c\b", re.IGNORECASE)
CLOSED_CUP = lazy(
    r"closed|st\u00e4ngd|sluten|lukket|gesloten|PMCC|TCC|SCC|Pensky|Seta|Abel|geschlossen|ferm|chius|cerrad|c\.c\."
    r"|\bc/c\b|D\s?-?(?:93|56|3278|3828)\b"
    r"|ISO\s?(?:2719|3679|1523|13736)\b",
    re.IGNORECASE,
)
BRACKETED = lazy(r"[(\[]([^()\[\]]{1,70})[)\]]")
METHOD_USED = lazy(r"(?:test\s)?method(?:\sused)?", re.IGNORECASE)
AT = lazy(r"(?:at|@|bei|\u00e0|vid)\s\d{1,2}\s?\u00b0?\s?[CF]\b", re.IGNORECASE)
A_UNIT = lazy(_UNIT)
ONLY_UNITS = lazy(
    rf"\W{{0,3}}(?:(?:{_SIGN})?\s?(?:{_NUMBER}(?:\s?-\s?{_NUMBER})?\s?)?(?:{_UNIT})[\s/,;]{{0,3}}){{1,3}}\W{{0,3}}",
    re.IGNORECASE,
)
NAMED_METHOD = lazy(r"m(?:e|\u00e9)thod[eo]?\s{0,3}:\s{0,3}([^\n]{2,60})", re.IGNORECASE)
