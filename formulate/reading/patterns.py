"""Signs of the trade's prints: registry numbers, withheld words, column heads, sentences that are not ingredients."""

from __future__ import annotations

import re
from functools import cache

from formulate.reading.lazily import lazy

DIGIT = lazy(r"\d")
SHARE_SIGN = lazy(r"[\d%]")
WORDY = lazy(r"[^\W_]")
LETTER = lazy(r"[^\W\d_]")
CAS = lazy(r"(?<![\d-])(?<!\d[.,/])\d{2,7}\s?-{1,2}\s?\d{2}\s?-{1,2}\s?\d(?![\d-]|[.,]\d)")
EC = lazy(r"(?<![\d-])[2-9]\d{2}\s?-\s?\d{3}\s?-\s?\d(?![\d-])")
INDEX = lazy(r"(?<![\d-])\d{3}-\d{3}-(?:\d{2}|00)-[\dXx](?![\d-])")
REACH = lazy(r"(?<![\d-])\d{2}-\d{10}-\d{2}(?:-(?:\d{4}|[xX]{4}))?(?![\d-])")
TAX = lazy(r"\b(?:RTECS|UN|EINECS|ELINCS)\s?(?:#|no\.?|nr\.?)?:?\s?[A-Z]{0,2}\d{4,9}\b", re.IGNORECASE)

INDEX_LABEL = lazy(
    r"(?:\b(?:EG|EC|CE|EU|WE)[\s-])?\b(?:index|\u00edndice|indice|nr\sindeksowy)[\s-]?(?:no|nr|number|n[\u00ba\u00b0])?\.?\s?:?\)?\s{0,2}$|\bN[\u00ba\u00b0]\s?(?:index|indice)\s{0,2}$",
    re.IGNORECASE,
)
CAS_LABEL = lazy(
    r"(?:\bC\.?A\.?S\.?(?:\s?R\.?N\.?)?(?:\s?[-\s]?(?:registry\s)?(?:no|nr|number|num|\u2116"
    r"|#)?s?\.?)?\s?[#:.]{0,2}\)?|#CAS)\s{0,3}$",
    re.IGNORECASE,
)
EC_LABEL = lazy(
    r"(?:\b(?:EC|EG|EINECS|ELINCS|WE|CE)(?:\s?[-\s]?(?:list\s)?(?:no|nr|number|\u2116|#)?\.?)?\s?[#:.]{0,2}\)?)\s{0,3}$",
    re.IGNORECASE,
)

WITHHELD = lazy(
    r"\b(?:withheld|proprietary|trade\ssecret|confidential(?:\sbusiness\sinformation)?|not\s(?:available|disclosed"
    r"|applicable|assigned|listed|established|required)|undisclosed"
    r"|n\.?\s?/\s?a\b|n\.a\.|c\.?b\.?i\b\.?|unknown|none|(?-i:N\.?D\b\.?)|n\u00e3o\s(?:dispon\u00edvel|aplic\u00e1vel)|no\s(?:disponible|aplicable)"
    r"|non\s(?:disponible|applicabile|disponibile)|nicht\s(?:verf\u00fcgbar|anwendbar)|nie\sdotyczy|geheim|segreto)(?:\s(?:no\.?|blend|information))?",
    re.IGNORECASE,
)
WORD_AMOUNT = lazy(
    r"\b(?:balance|bal\.?|q\.?\s?s\.?(?:\s?p\.?)?(?:\s(?:to|ad)\s100\s?%?)?|c\.?\s?s\.?\s?p\.?|quantum\s(?:satis|sufficit)"
    r"|(?:to|ad|add|auf)\s100\s?%?|remainder|rest(?:e|o|ante)?|spuren|trace(?:s|\samounts?)?|sufficient|as\sneeded|proprietary|trade\ssecret|confidential|withheld|not\sdisclosed)\b",
    re.IGNORECASE,
)
HAZARD_CODE = lazy(
    r"\b(?:(?i:EUH\s?\d{3}[A-Z]?|H\d{3}[A-Za-z]{0,2}|P\d{3}(?:\+P?\d{3}){0,4}|GHS\s?0[1-9])|H\s\d{3}[A-Za-z]{0,2}|P\s\d{3}"
    r"|R\s?\d{1,2}(?:[/-]\d{1,2}){0,4}|r\d{2}(?:[/-]\d{1,2}){0,4}"
    r"|S\s?\d{1,2}(?:[/-]\d{1,2}){0,4}|s\d{1,2}(?:-\d{1,2}){1,4}"
    r"|(?i:Eye|Skin|Acute|Aquatic|Flam|Asp|Repr|Carc|Muta|STOT|Resp|Press|Met|Ox)\.?\s?(?i:Irrit|Dam|Corr|Sens|Tox"
    r"|Chronic|Acute|Liq|Gas|Sol|Aerosol|SE|RE)?\.?\s?\d[A-Ca-c]?)(?![\w-])"
)
LIMIT = lazy(
    r"(?:\b(?:TLV|PEL|TWA|STEL|OEL|LD50|LC50|WEL|MAK|AGW|IDLH|C)\b[:\s]{0,3})?[<>]?\s?\d[\d.,]{0,7}\s?(?:mg/m(?:\s?(?:3"
    r"|\u00b3)|(?=\s*$))|mg/kg(?=\s*\(|\s*(?:oral|bw|rat))|mppcf|f/cc|mm\s?Hg|ppm(?=\s|$|[,;.)])|\u00b5g/m3)"
    r"(?-i:\sas\s[A-Z][a-z]{0,8}\b)?"
    r"(?:\s?\(?(?:TWA|STEL|ceiling|skin|respirable|total\sdust|TLV|PEL|oral|rat|/rat)[^)\n;]{0,20}\)?)?",
    re.IGNORECASE,
)

_HEAD_WORDS_TEXT = (
    "cas casno cas-no cas-nr casrn einecs ec eg reach no nr number numbers num # № % wt wt% weight weight-% by "
    "w/w percent percentage percentages conc concentration content contents content, gehalt einheit amount "
    "range ranges level name names chemical component components ingredient ingredients ingrediente "
    "ingredienti substance substances bestandteil bestandteile inhaltsstoffe stoffname bezeichnung function "
    "functions functional purpose role use class classification hazard hazardous ghs clp regulation "
    "registration identification identifier index symbol symbols risk phrase phrases r-sätze h-sätze gef "
    "gef.sym gefahr code codes exposure limit limits osha acgih pel tlv twa stel ld50 lc50 vp mm hg h2 health "
    "reference common inci iupac generic trade secret other mg/m3 ppm max min maximum minimum less than "
    "typical value approx approximate and or of the in to a & / - according (ec) 1272/2008 67/548/eec ld nach "
    "eg-richtlinie symbol(s) w exact material materials description specific composition information "
    "additional supplier synonyms synonym units unit nazwa stężenie zawartość numer nom nombre numéro "
    "concentrazione denominazione teneur kennzeichnung einstufung verordnung produktidentifikator anteil gew "
    "gew.-% wirkstoff gem\u00e4\u00df registrierungsnummer (class) (r r no.) "
    "registry component(s substance(s ingredient(s symbol(s phrases sara carcinogens greater fraction "
    "statement statements precautionary gefahrenhinweise "
    "nombre químico quimico química concentración concentracion casrn componente componentes clasificación "
    "clasificacion "
    "índice indice identificador registro sustancia sustancias peso peligro frases n.º nº n° "
    "nome química concentração concentracao fórmula formula molecular sinônimos sinonimos classificação classificacao "
    "faixa perigo substância impurezas de da do di en el la los las del e y chimico chimica sostanza componenti "
    "numero identificazione classificazione frasi pericolo contenuto miscela composants substances concentration "
    "contribuant aux dangers risque risques "
    "classement phrases symbole symboles chimique composant masse poids du des et danger "
    "naam stof stofnaam gehalte concentratie indeling bestanddeel nummer massaprocent chemiczna zakres stężenia "
    "klasyfikacja zwroty indeksowy wag wag. składnik we stoff konzentration spezifische konzentrationsgrenzwerte "
    "наименование вещества вещество содержание массовая доля класс опасности пдк компонент компоненты концентрация "
    "名称 化学名 成分 含量 浓度 濃度 化学名称 成分名 含有量 "
)
HEAD_WORDS = frozenset(_HEAD_WORDS_TEXT.split())
_LIKE = str.maketrans(
    "01i\u00e4\u00e0\u00e1\u00e3\u00e9\u00e8\u00ea\u0119\u00f6\u00f3\u00f5\u00f4\u00fc\u00fa\u00ed\u00e7\u0142\u017c\u015b\u0107",
    "ollaaaaeeeeoooouulclzsc",
)
_SHORTEST_FOLDED = 5


@cache
def _folded_heads() -> frozenset[str]:
    return frozenset(_folded(word) for word in HEAD_WORDS if len(word) >= _SHORTEST_FOLDED)


def _folded(word: str) -> str:
    return word.translate(_LIKE).replace("rn", "m")


def is_head_word(word: str) -> bool:
    """Whether a word in small letters is one of column heads, also as a scan or a lost accent leaves it."""
    return word in HEAD_WORDS or (len(word) >= _SHORTEST_FOLDED and _folded(word) in _folded_heads())


FUNCTION_HEAD = lazy(
    r"\b(?:functions?|functional|purpose|role|funktion|fonction|funci[o\u00f3]n|funzione|why\sit'?s\sthere)\b",
    re.IGNORECASE,
)
UPPER_BOUND_HEAD = lazy(
    r"(?:%|percent|weight|wt|conc)[^\n]{0,25}(?:\bmax(?:imum)?\b|less\sthan|<|\u2264|up\sto)|(?:\bmax(?:imum)?\b\.?"
    r"|less\sthan|<|\u2264)\s?(?:%|percent|wt|weight)",
    re.IGNORECASE,
)
VOLUME_HEAD = lazy(r"(?:\bvol(?:ume)?\b\.?\s?-?\s?%|%\s?\(?(?:by\s)?vol|\bv/v\b)", re.IGNORECASE)
WEIGHT_HEAD = lazy(r"\b(?:wt|weight|mass|gew|w/w)\b", re.IGNORECASE)
PERCENT_HEAD = lazy(
    r"%|percent|\bwt\b|weight|\bconc|gehalt|content|amount|anteil|zawarto|teneur|w/w",
    re.IGNORECASE,
)

LIST_HEAD_BEFORE = lazy(
    r"(?:^|[\n.;!?>)|\t])([ \t*#_>\"']{0,12}(?:(?:das\sprodukt"
    r"|dieses\sprodukt|il\sprodotto|le\sproduit|el\sproducto|o\sproduto|full"
    r"|also|among|complete|other|inactive|active|inert|list\sof|all|the"
    r"|product|key|our|hazardous|cosmetic|main)\s){0,2})$",
    re.IGNORECASE,
)
LIST_HEAD = lazy(
    r"(?<![a-z])(?:ingredients?(?:\s?/\s?[a-z\u00c0-\u024f]{3,15}){0,4}|ingredient\slist|ingredients\slist"
    r"|composition|contains|contents|inci(?:\sname|\slist)?|inhaltsstoffe|zusammensetzung|bestandteile|enth\u00e4lt"
    r"|contient|contiene|cont\u00e9m"
    r"|ingr[e\u00e9]dients|composici[o\u00f3]n|ingredientes|ingredienti|composizione|sk\u0142ad(?:niki)?|zawiera"
    r"|\u0441\u043e\u0441\u0442\u0430\u0432|ingredi\u00ebnten|samenstelling|bevat"
    r"|\u6210\u5206|made\s(?:with|from)|what'?s\sin(?:side|\sit)|may\scontain)"
    r"(?:\s?\((?:inci|eu|us|per\s[^)\n]{0,30}|[^)\n]{0,24})\))?"
    r"(?:\s(?:are|is|include|amongst?\sothers?"
    r"(?:\singredients)?|inter\salia|unter\sanderem|u\.\s?a\.|entre\sautres(?:\s\w{1,12})?))?"
    r"[ \t*_]{0,4}[:\uff1a=][ \t*_]{0,4}",
)
# 'INCI | Aqua, Glycerin, Parfum |': the list in the cell of a table of a product's particulars
LIST_CELL = lazy(
    r"(?:^|\n)[ \t|]{0,8}(?:ingredients?(?:\slist)?|ingr[e\u00e9]dients?|inci|inhaltsstoffe|zusammensetzung|composition"
    r"|composici[o\u00f3]n|ingredientes|ingredienti|composizione|\u0441\u043e\u0441\u0442\u0430\u0432|\u6210\u5206|\u539f\u6599)"
    r"[ \t]{0,8}[|\t][ \t|]{0,8}(?=(?P<list>[^|\n]{1,400}[,;\u30fb\u3001][^|\n]{1,400}[,;\u30fb\u3001][^|\n]{0,4000}))"
)
COMPOSITION_TITLE = lazy(
    r"(?:composition|information\son\s(?:hazardous\s)?ingredients|hazardous\s(?:ingredients|components)"
    r"|zusammensetzung|composizione|composici[o\u00f3]n|sk\u0142ad|\u0441\u043e\u0441\u0442\u0430\u0432"
    r"|ingredients?/identity|information\son\scomponents)",
    re.IGNORECASE,
)
INSTRUCTION = lazy(
    r"^\W{0,4}(?:(?:please|always|do\snot|don't|never|first|then|to\suse|for\sbest\sresults|nicht|vor\sgebrauch"
    r"|avoid|shake|keep|store|apply|spray|wipe|buff|rinse|wash|use|allow|wait|test|read|see|dispose|recycle|repeat"
    r"|leave|let|work|mix\swell"
    r"|hold|point|directions?|instructions?|how\sto|caution|warning|danger|attention|achtung|gefahr|first\said"
    r"|if\s(?:in\seyes|swallowed|on\sskin|inhaled)|call|seek|wear|ventilate|harmful|causes|may\scause|flammable"
    r"|highly|extremely|contents\sunder"
    r"|\u0441\u0440\u043e\u043a\s\u0433\u043e\u0434\u043d\u043e\u0441\u0442\u0438|\u0445\u0440\u0430\u043d\u0438\u0442\u044c|\u0441\u043f\u043e\u0441\u043e\u0431\s\u043f\u0440\u0438\u043c\u0435\u043d\u0435\u043d\u0438\u044f"
    r"|\u043f\u0440\u0438\u043c\u0435\u043d\u0435\u043d\u0438\u0435|\u0431\u0435\u0440\u0435\u0447\u044c|\u043c\u0435\u0440\u044b\s\u043f\u0440\u0435\u0434\u043e\u0441\u0442\u043e\u0440\u043e\u0436\u043d\u043e\u0441\u0442\u0438|\u0438\u0437\u0433\u043e\u0442\u043e\u0432\u0438\u0442\u0435\u043b\u044c|\u043f\u0440\u043e\u0438\u0437\u0432\u043e\u0434\u0438\u0442\u0435\u043b\u044c|\u0434\u0430\u0442\u0430\s\u0438\u0437\u0433\u043e\u0442\u043e\u0432\u043b\u0435\u043d\u0438\u044f"
    r"|conserver|tenir\shors|mode\sd'emploi|pr\u00e9cautions|fabriqu\u00e9|aufbewahren|hersteller|haltbar|mantener|modo\sde\sempleo"
    r"|modo\sd'uso|conservare|tenere\sfuori|przechowywa\u0107|spos\u00f3b\su\u017cycia"
    r"|made\sin|manufactured|distributed|best\sbefore|batch|lot\s(?:no|number)|net\s(?:wt|weight|contents?)"
    r"|not\stested|cruelty|suitable\sfor|for\s(?:external|professional|industrial)\suse|customer|questions|www\."
    r"|https?:|tel\b|phone|copyright|all\srights)\b)"
    r"|\b(?:before\suse|out\sof\s(?:the\s)?reach|of\schildren|well\sbefore|away\sfrom|in\sa\scool|room\stemperature)\b",
    re.IGNORECASE,
)
PAGE_NOISE = lazy(
    r"^\W{0,3}page\s(?:head|foot|without\stext)(?:\]|:\s).{0,400}"  # a line that intake marked as such
    r"|^\W{0,3}(?:page\s{0,8}\d+(?:\s?(?:/|of)\s?\d+)?|\d+\s?/\s?\d+|(?:seite|strona|pagina|p\u00e1gina|side|sida)\s\d+.{0,20}|revision\sdate.{0,40}"
    r"|version\s.{0,30}|print(?:ed|ing)?\sdate.{0,40}|.{0,60}revision\sdate.{0,30})\W{0,3}$",
    re.IGNORECASE,
)
MAY_CONTAIN = lazy(
    r"(?:^|(?<=[\s,;.(\[]))(?:may\s(?:also\s)?contain|kann\s(?:spuren\svon\s)?enthalten|peut\scontenir"
    r"|puede\scontener|pu\u00f2\scontenere|\[?\s?\+\s?/\s?-)\s?:?\s?",
    re.IGNORECASE,
)
_WATER_WORDS_TEXT = (
    "aqua water eau wasser agua acqua woda voda vesi vatten вода 水 purified deionized deionised distilled "
    "demineralised demineralized purificata dem. "
)
WATER_WORDS = frozenset(_WATER_WORDS_TEXT.split())
BULLET = lazy(
    r"[ \t]{0,80}(?:[\u2022\u00b7\u25aa\u25cf\u25e6\u25a0\u2023\u2043\u2713\u2714\u25ba\u27a2*+\u25cb-](?=[\s\w(])[ "
    r"\t]{0,8}|o[ \t]{2,8})(?![-*=_])"
)
NUMBERED = lazy(
    r"[ \t]{0,80}(?:[A-D]\s(?=\d{1,2}\.))?(?:\(?(?:\d{1,2}|[A-Za-z]|[ivx]{1,4})\)|(?:\d{1,3}|[A-Z])[.](?=[ \t]"
    r"|[A-Za-z\u00c0-\u024f]{2}))[ \t]{0,8}"
)

TABLE_NOTE = lazy(
    r"\b(?:this|these|the\sspecific|has\sbeen|have\sbeen|are\snot|is\snot|see\ssection|does\snot|do\snot|there\sare"
    r"|29\scfr|note:|any\sconcentration|for\sthe\sfull|full\stext|which|refer|required\sinformation|accordance"
    r"|classified|contained\sin"
    r"|pursuant|as\sper|withheld\sas|exact\s(?:percentage|concentration)s?|listed\son|wortlaut|siehe\sabschnitt"
    r"|additional\sinformation|todas\slas\sconcentraciones|est\u00e1n\sexpresad\w{2}|v\u00e9ase|texto\s(?:completo|integral|\u00edntegro)"
    r"|texte\s(?:complet|int\u00e9gral)|voir\s(?:la\s)?(?:section|rubrique)|selon\sl'article|gem\u00e4\u00df\sartikel|testo\scompleto|vedere\s(?:la\s)?sezione"
    r"|pe\u0142n\w{1,3}\s(?:znaczenie|tekst|brzmienie)|w\s(?:punkcie|sekcji)|zie\srubriek|volledige\stekst|ver\ssec\u00e7\u00e3o"
    r"|\u043f\u043e\u043b\u043d\u044b\u0439\s\u0442\u0435\u043a\u0441\u0442)\b",
    re.IGNORECASE,
)
CATCH_ALL = lazy(
    r"^\W{0,3}(?:balance\b|(?:the\s)?(?:other|remaining|further)\s(?:ingredients|components|non)"
    r"|ingredients?\s(?:not|determined)|non-?\s?hazardous\s(?:ingredients|components|materials)"
    r"|inert\s(?:ingredients|materials?))",
    re.IGNORECASE,
)
REST_SENTENCE = lazy(
    r"^\W{0,3}(?:the\s)?(?:balance|remainder|rest|other|remaining|further)\s(?:of\s(?:the\s)?)?"
    r"(?:other\s|remaining\s)?(?:ingredients|components|materials|substances|product|mixture)\s(?:is|are)\s(?:all\s|either\s)?"
    r"(?:non|not|no\s|harmless|below|less|under|present|in\sconc|at\s|proprietary|trade\s|considered|inert|withheld)",
    re.IGNORECASE,
)
NONE_DECLARED = lazy(
    r"not\scontain\s(?:any\s)?(?:hazardous|dangerous|substances?\s(?:to\sbe|which|that|required|classified|above|at))"
    r"|no\shazardous\s(?:ingredients|components)|nothing\shazardous|none\sdeclared|keine\sgef\u00e4hrlichen",
    re.IGNORECASE,
)
SUBSECTION = lazy(
    r"^\W{0,3}\d{1,2}\.\d{1,2}\.?\s{0,12}(?:substances?|mixtures?|stoffe|gemische|m\u00e9langes|mieszaniny"
    r"|substancje|miscele|mezclas|chemical\b.{0,40})\W{0,3}$|^\W{0,3}(?:mixtures?|substances?|preparation|gemische?"
    r"|stoffe?|m\u00e9langes?|mieszaniny|substancje|miscele|mezclas|sostanze|sustancias"
    r"|gef\u00e4hrliche\s(?:inhaltsstoffe|bestandteile)|chemische\scharakterisierung"
    r"|(?:pure\s)?substance\s?/\s?mixture(?:\s{0,3}:\s{0,3}(?:mixture|substance))?"
    r"|not\sapplicable\.?|(?:chemical\snature|nature\schimique|chemischer\scharakter)\b.{0,120})\W{0,3}$",
    re.IGNORECASE,
)
PROPERTY_LINE = lazy(
    r"^\W{0,3}(?:appearance|density|ph|viscosity|odou?r|colou?r|flash\spoint|non-?volatile\scontent|boiling\spoint"
    r"|specification|specifications|test|unit|value|shelf\slife|solubility|form|physical\sstate|melting\spoint"
    r"|vapou?r\spressure|refractive\sindex"
    r"|specific\sgravity|relative\sdensity|solids(?:\scontent)?|dilution|coverage|g/cm.?|g/ml|mpa.?s|formulation"
    r"|product\sdescription|description|tlv|pel|cas\.?\sno\.?)\W{0,3}$|^\W{0,3}(?:appearance|density|viscosity"
    r"|odou?r|flash\spoint|boiling\spoint|specific\sgravity|solubility|ph|(?:percent|%)\s?volatiles?)\b[^,;]{0,12}:",
    re.IGNORECASE,
)

PART = lazy(
    r"^\W{0,3}(?:part|component|komponente|teil|base|hardener|comp\.)\s?(?:[A-D]|[1-4]|I{1,3})\W{0,3}(?:\([^)\n]{0,30}\))?:?$",
    re.IGNORECASE,
)
TOTAL = lazy(
    r"^\W{0,3}(?:total|sum|summe|gesamt|totale?|suma)\b[^A-Za-z]{0,20}$"
    r"|^\W{0,3}(?:the\s)?(?:total|combined)\s(?:amounts?|concentrations?|weight|share|content)\sof\b",
    re.IGNORECASE,
)
CLASSIFYING_LIMIT = lazy(
    r"^\W{0,3}(?:spezifische\skonzentrationsgrenzwerte|specific\sconc(?:entration|\.)?\slimits?)\W{0,3}$"
    r"|^\W{0,3}C\s?(?:[<>]=?|[\u2264\u2265])\s?\d"
    r"|^[^\n]{0,60}\bH\d{3}[A-Za-z]{0,2}\s?:\s?C\s?[<>=\u2264\u2265\d]",
    re.IGNORECASE,
)
# the title of a list that names the law it follows
LAW_TITLE = lazy(
    r"^\W{0,3}(?=[^\n,;]{0,140}$)(?=[^\n]{0,140}\b(?:648/2004|907/2006|1223/2009)\b)[^\n%]{0,140}$", re.IGNORECASE
)
# What a table of effects says in the place of a name: 'None', 'Irritant, allergen', 'Oral LD50 (rat) = 847 mg/kg'
EFFECT = lazy(
    r"^\W{0,3}(?:none|(?:nuisance\sdust|irritant|allergen|narcotic|carcinogen|corrosive|sensiti[sz]er|harmful|toxic|flammable"
    r"|mild|severe|skin|eye|central\snervous\ssystem)(?:[\s,/]{1,3}(?:nuisance\sdust|irritant|allergen|narcotic|carcinogen"
    r"|corrosive|sensiti[sz]er|harmful|toxic|flammable|irritation)){0,3})\W{0,3}$"
    r"|^[^\n;]{0,60}\b(?:LD\s?50|LC\s?50)s?\b|^\W{0,3}immediate\sand\sdelayed\b.{0,40}$"
    r"|^\W{0,3}(?:OSHA|ACGIH)\b.{0,30}\b(?:TWA|STEL|PEL|TLV)\b|^\W{0,3}\d[\d.,]{0,8}\s?(?:mg/m\s?[3\u00b3]?|ppm)(?:\s(?:TWA|STEL|C))?\W{0,3}(?:STEL\b.{0,30})?$|^\W{0,3}(?:TWA|STEL)\W{0,3}$",
    re.IGNORECASE,
)
DILUTION = lazy(
    r"^\W{0,3}(?:(?:product|use|in-use|working|recommended|end-use|typical)\s){0,3}"
    r"(?:dilution|(?:use|working)\s(?:level|concentration|solution|strength))(?:\s(?:information|ratio|rate|range|level)s?)?"
    r"(?:\s\([^()\n]{0,30}\))?\s{0,3}[:=-].{0,200}$|^\W{0,3}dilute(?:d)?\s(?:to|at|with|in)\s.{0,200}$",
    re.IGNORECASE,
)
NOISE = (
    EFFECT,
    DILUTION,
    LAW_TITLE,
    PAGE_NOISE,
    SUBSECTION,
    PROPERTY_LINE,
    PART,
    TOTAL,
    REST_SENTENCE,
    CLASSIFYING_LIMIT,
)
TO_HUNDRED = lazy(
    r"\b(?:(?:q\.?\s?s\.?|balance|bal\.?|rest|remainder|make\sup|up|water)?\s?\b(?:to|ad|auf)"
    r"|(?:q\.?\s?s\.?(?:\s?p\.?)?|c\.?\s?s\.?\s?p\.?)(?:\s(?:to|ad|a|\u00e0|pour))?)"
    r"\s100(?:[.,]0{1,2})?\s?(?:%|parts|(?:g|ml)\b)?(?![\d.])",
    re.IGNORECASE,
)
