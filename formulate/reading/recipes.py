"""How measures of a recipe are printed: numbers with fractions, units of the kitchen and the bench, 'of'."""

from __future__ import annotations

import re

from formulate.domain.line import Stated
from formulate.reading.lazily import lazy

_FRACTION = "\u00bc-\u00be\u2150-\u215e"
_NUMBER = (
    rf"(?:\d{{1,5}}(?:[.,/]\d{{1,3}})?(?:\s?[{_FRACTION}]|\s\d/\d{{1,2}}(?!\d))?|[{_FRACTION}]"
    r"|\b(?:an?(?:\sfew)?|some|several|one|two|three|four|five|six|half|medi[ao]|mezzo|eine?n?|zwei|drei|une?|deux|trois|una?|dos|due)(?:\s(?:an?|of\san?))?(?=\s))"
)
_UNIT = (
    r"(?:g|gr|gms?|grams?|grammes?|gramm|gramos?|grammi|gram|kg|kilos?|mg|ml|mls|cc|c\.c|l|litres?|liters?|litros?|litri|dl|cl"
    r"|(?:fl\.?\s?)?oz|(?:fluid\s)?ounces?|lbs?|pounds?|gallons?|gal|pints?|quarts?|tablespoons?|teaspoons?|tbsps?|tsps?"
    r"|tblsp|cups?|drops?|dashe?s?|capfuls?|spoons?|scoops?|squirts?|el|tl|essl\u00f6ffeln?|teel\u00f6ffeln?"
    r"|tropfen|tassen?|cuill\u00e8res?|gouttes?|gotas?|gocce|cucharad(?:it)?as?|cucchiai(?:no)?|colheres?|druppels?|eetlepels?"
    r"|\u0433|\u043a\u0433|\u043c\u0433|\u043c\u043b|\u043b|\u043a\u0430\u043f(?:\u043b\u0438|\u0435\u043b\u044c))"
)
_WORD_UNIT = r"(?:units?|parts?|volumes?|teile?)"
# Word numbers lead to nothing but words: 'a cup', 'half a pound', 'two parts'; 'a g' is no measure.
RECIPE = lazy(
    rf"(?<![\w.,/%-])(?:{_NUMBER}(?:\s?(?:-|to|tot|bis|\u00e0)\s?(?:\d{{1,5}}(?:[.,/]\d{{1,3}})?[{_FRACTION}]?|[{_FRACTION}]))?"
    rf"[\s\n]?{_UNIT}\b\.?(?:/\d{{1,4}}(?:[.,]\d{{1,3}})?\s?{_UNIT}\b)?(?!/)"
    rf"|(?:\b(?:one|two|three|four|five|six|half\sa|equal)\s|\d{{1,3}}(?:[.,/]\d{{1,2}})?\s(?=units?\b|(?:weight\s)?parts?\sof\b))(?:weight\s)?{_WORD_UNIT}\b)",
    re.IGNORECASE,
)
_LONGEST_ENTRY = 400
_NUMBER_ONLY = lazy(rf"\d{{1,3}}(?:\s?[{_FRACTION}/]\d{{0,2}})?|[{_FRACTION}]")
_UNIT_FIRST = lazy(rf"{_UNIT}\s(?=[^\W\d_])", re.IGNORECASE)
PARTITIVE = lazy(
    r"\s{0,2}(?:\([^()\n]{1,20}\)\s?)?(?:(?:of|de|di|von|van|do|da)\s(?:(?:the|an?)\s)?|d'|each\s(?:of\s)?)?",
    re.IGNORECASE,
)


def unmeasured(text: str, start: int, end: int) -> Stated:
    """An amount that is told but gives no share: a measure, 'q.s.', 'balance'. ``text`` is what was pasted."""
    return Stated.model_construct(low=None, high=None, text=text[start:end].strip(), doubtful=True)


def without_measure(piece: str) -> str:
    """A piece without the measure it begins or ends with: '8 oz of boiled linseed oil'."""
    for measure in RECIPE.finditer(piece):
        if not piece[: measure.start()].strip(" (-*\u2022"):
            partitive = PARTITIVE.match(piece, measure.end())
            return piece[partitive.end() if partitive else measure.end() :]
        if not piece[measure.end() :].strip(" ).,|="):
            return piece[: measure.start()].rstrip(" (-|=")
    return piece


def is_measured_line(stretch: str) -> bool:
    """Whether a stretch begins with a measure and holds no other: one entry, whatever names are in it."""
    if len(stretch) > _LONGEST_ENTRY:
        return False
    at = len(stretch) - len(stretch.lstrip(" (-*\u2022"))
    first = RECIPE.match(stretch, at)
    return (
        first is not None and bool(stretch[first.end() :].strip(" .,")) and RECIPE.search(stretch, first.end()) is None
    )


def is_number_apart(number: str, line: str) -> bool:
    """Whether a line is the number of the measure that the next line begins with: '\u00bc', 'cup mineral oil'."""
    return _NUMBER_ONLY.fullmatch(number) is not None and _UNIT_FIRST.match(line) is not None
