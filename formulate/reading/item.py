"""One printed entry: its name, numbers, amount and function, each with its place."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.domain.line import Means, Stated
from formulate.reading import patterns
from formulate.reading.amount_patterns import NUMBERED_NAME
from formulate.reading.amounts import Amount, amounts_in
from formulate.reading.functions import function_tail
from formulate.reading.lazily import lazy
from formulate.reading.numbers import MASK, REPAIRED, first, numbers_in
from formulate.reading.recipes import PARTITIVE, RECIPE, unmeasured, without_measure
from formulate.reading.strengths import READ_AS, strength_before, strengths_in
from formulate.reading.surface import squeezed

MORE_THAN_ONE = "more than one amount is printed for it"
_TRIM = " \t\n,;:.*\u2020\u2021\u00a7|_=\"'\x01/"
_LEAD = lazy(
    r"^(?:and|&|und|et|plus|also|as\swell\sas|\(and\)|or\s(?=\())\s+|^(?:in)?active(?:\singredients?)?:\s+|^(?:also\s)?(?:contains?|comprises?|comprising"
    r"|consisting\sof)\s*:?\s+",
    re.IGNORECASE,
)
_END_AND = lazy(r"[\s,;]+(?:and|und|or|et)$", re.IGNORECASE)
_ARTICLE = lazy(r"^(?:of\s)?(?:an?|the|at\sleast\sone|one\sor\smore)\s(?=\S)", re.IGNORECASE)
_BEFORE_AMOUNT = lazy(
    r"(?:\s(?:is|are)\spresent)?\s?(?:\bin\s(?:an\samounts?|the\samounts?|amounts?|the\srange|a\sconcentration"
    r"|concentrations?)\b(?:\sof)?|\b(?:on|in|of)\sthe\sorder\sof|\bto\sthe\sextent\sof)?\s?(?:\bin\b)?(?:\s-)?[\s:=,(\[@]*$|\bamount\sof\s?$",
    re.IGNORECASE,
)
_AFTER_AMOUNT = lazy(
    r"^[\s)\]]*(?:(?:by\s(?:weight|wt\.?|mass|volume)\b|w/w\b|wt\b\.?|weight\b|\(w/w\)|\(\u91cd\u91cf\)"
    r"|\([wW]t\.?\)|volume\b|vol\b\.?)[\s)\]]*)?(?:of\s(?=\S))?(?:[:=-]\s)?",
    re.IGNORECASE,
)
_WEIGHT_WORDS = lazy(r"by\sweight|by\smass|w/w|wt\.?|weight|max\.?|min\.?|\u91cd\u91cf", re.IGNORECASE)
_STRENGTH = lazy(
    r"\b(?:solution|emulsion|dispersion|sol|soln|aqueous|aq|l\u00f6sung|suspension|hydroxide|ammonia|acid|alcohol"
    r"|peroxide|concentrate|arom[a\u00e1]t\w{0,6})\b\W{0,3}$",
    re.IGNORECASE,
)
_DECIMALS = lazy(r"\d{1,2}[.,]\d{2}")
_EMPTY_BRACKETS = lazy(r"[(\[{]\s*(?:CAS|EC|EINECS|no|nr|number|[#:.,;/|\s-])*\s*[)\]}]", re.IGNORECASE)
_WT_WORDS = lazy(r"[\s(]*(?:by\sweight|w/w|wt\.?\s?%|%\s?wt)[\s)]*$", re.IGNORECASE)
_CLAUSE = lazy(
    r",?\s(?:(?:selected|chosen)\sfrom\b|in\san\s(?:effective\s|sufficient\s)?amount\b|to\sthe\sextent\sof\b|all\spercentages|per\s100\sparts|based\son\sthe\stotal"
    r"|the\spercentages).*$",
    re.IGNORECASE,
)
_WITHHELD_END = lazy(r"(?<=\w)\W{1,3}(?:trade\ssecret|withheld|confidential)\W*$", re.IGNORECASE)


class Draft(NamedTuple):
    """An entry before it is a line. ``spans`` are the stretches of the text it takes, in reading order."""

    spans: tuple[tuple[int, int], ...]
    name: str
    cas: str | None = None
    ec: str | None = None
    stated: Stated | None = None
    function: str | None = None
    doubtful: str | None = None


def read_item(
    text: str, copy: str, start: int, end: int, *, bare: bool = False, bracketed: bool = False, means: Means = "either"
) -> Draft | None:
    """Read one entry of a list; None if nothing in it is a name.

    ``bare`` says that the list gives amounts as bare numbers (its head, or its sum, says so);
    ``bracketed`` that it gives them in brackets, so that '(28 %)' is no strength.
    """
    start, end = trimmed(copy, start, end)
    if start >= end:
        return None
    numbers = numbers_in(copy[start:end])
    masked = numbers.masked
    words = _words_amount(masked)
    amounts = amounts_in(masked, 0, len(masked)) if words is None else []
    chosen, doubt = chosen_amount(masked, amounts, bare, bracketed)
    strengths = strengths_in(masked, amounts, chosen)
    if doubt == MORE_THAN_ONE and (before := strength_before(masked, amounts)):
        chosen, strengths = amounts[1], [before]
        doubt = READ_AS.format(squeezed(masked[amounts[0].start : amounts[0].end]))
    taken = [(one.start, one.end) for one in strengths] if words is None else [_with_of(masked, words)]
    name, function = named(blanked(masked, taken), chosen)
    if not patterns.LETTER.search(name):
        return None
    stated = None
    if chosen:
        shifted = chosen._replace(start=start + chosen.start, end=start + chosen.end)
        stated = shifted.stated(text, means, (strengths[0].low, strengths[0].high) if strengths else None)
    elif words:
        stated = unmeasured(text, start + words[0], start + words[1])
    else:
        stated = word_amount(text, masked, start)
    return Draft(
        ((start, end),),
        name,
        first(numbers.cas),
        first(numbers.ec),
        stated,
        function,
        doubt or (REPAIRED if numbers.repaired else None),
    )


def _words_amount(masked: str) -> tuple[int, int] | None:
    """An amount that is no share: 'q.s. to 100 %', or grams and spoons at the edge of an entry."""
    to_hundred = patterns.TO_HUNDRED.search(masked)
    if to_hundred and masked[: to_hundred.start()].strip():
        return to_hundred.end() - len(to_hundred.group().lstrip()), to_hundred.end()
    if "%" in masked:
        return None
    for recipe in RECIPE.finditer(masked):
        before, after = masked[: recipe.start()].strip(_TRIM + "(-"), masked[recipe.end() :].strip(_TRIM + ")")
        if bool(before) != bool(after):
            return recipe.span()
    return None


def _with_of(masked: str, words: tuple[int, int]) -> tuple[int, int]:
    """A measure with the 'of' behind it: '200 ml of', '100 g de'."""
    partitive = PARTITIVE.match(masked, words[1])
    return (words[0], partitive.end()) if partitive else words


def blanked(masked: str, spans: list[tuple[int, int]]) -> str:
    """The stretch with some spans as blanks, same length."""
    for start, end in spans:
        masked = masked[:start] + " " * (end - start) + masked[end:]
    return masked


def trimmed(copy: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without blanks, bullets, separators and leading 'and'."""
    while start < end and copy[start] in " \t\n,;|":
        start += 1
    while end > start and (
        copy[end - 1] in " \t\n,;|" or (copy[end - 1] == "." and not copy[max(start, end - 6) : end - 1].isupper())
    ):
        end -= 1
    tail = _END_AND.search(copy, max(start, end - 8), end)
    if tail and tail.start() > start:
        end = tail.start()
    lead = _LEAD.match(copy[start : min(end, start + 24)])
    return (start + lead.end(), end) if lead and start + lead.end() < end else (start, end)


def chosen_amount(
    masked: str, amounts: list[Amount], bare: bool, bracketed: bool = False
) -> tuple[Amount | None, str | None]:
    """Which of the amounts of an entry is the entry's own, and the doubt that remains."""
    if not amounts:
        return None, None
    outside: list[Amount] = []
    inside: list[Amount] = []
    for amount in amounts:
        (inside if _bracketed(masked, amount) else outside).append(amount)
    own = [amount for amount in outside if _counts(masked, amount, bare)]
    if own:
        ranges = [amount for amount in own if amount.range_]
        if len(own) > 1 and len(ranges) == 1 and own[0].compared:
            # 'naphtha, < 0.1 % benzene  25 - 50 %': the bound belongs to the name, the range is the amount
            return ranges[0], None
        return own[0], (MORE_THAN_ONE if len(own) > 1 else None)
    shares = [amount for amount in inside if (amount.unit or bare) and _fills_bracket(masked, amount)]
    if len(shares) == 1:
        opening = max(masked.rfind("(", 0, shares[0].start), masked.rfind("[", 0, shares[0].start))
        if not bracketed and _STRENGTH.search(masked, max(0, opening - 16), max(0, opening)):
            return (
                None,
                f"'{squeezed(masked[shares[0].start : shares[0].end])}' may be the strength of the raw material",
            )
        return shares[0], None
    return None, None


def _fills_bracket(masked: str, amount: Amount) -> bool:
    """Whether a bracket holds the amount and nothing else: '(5 %)', not '(RCS < 1 %)'."""
    before = re.split(r"[(\[]", masked[: amount.start])[-1]
    after = re.split(r"[)\]]", masked[amount.end :], maxsplit=1)[0]
    return not patterns.LETTER.search(before) and not patterns.LETTER.search(_WEIGHT_WORDS.sub("", after))


def _counts(masked: str, amount: Amount, bare: bool) -> bool:
    if amount.unit or (amount.range_ and amount.compared):
        return True
    tail = masked[amount.end :].strip(_TRIM + "()")
    head = masked[: amount.start].strip(_TRIM + "(")
    at_edge = not tail or not head
    spaced = amount.start == 0 or masked[amount.start - 1] in " \t\x01(:=|" or amount.compared
    numbered = NUMBERED_NAME.search(masked, max(0, amount.start - 24), amount.start)
    if not (at_edge and spaced) or (numbered and not _DECIMALS.fullmatch(masked, amount.start, amount.end)):
        return False  # 'Acid 2' is a name, 'Oleic acid 2.00' is not
    return (
        amount.compared
        or bare
        or (amount.range_ and not re.search(r"[A-Za-z]-?$", masked[: amount.start]) and bool(head))
    )


def _bracketed(masked: str, amount: Amount) -> bool:
    before = masked[: amount.start]
    for opening, closing in ("()", "[]"):
        at = before.rfind(opening)
        if at != -1 and before.find(closing, at) == -1 and masked.find(closing, amount.end - 1) != -1:
            return True
    return False


def named(masked: str, amount: Amount | None) -> tuple[str, str | None]:
    """The clean name of an entry, and the function it states."""
    if amount is not None:
        before, after = masked[: amount.start], masked[amount.end :]
        before = _BEFORE_AMOUNT.sub("", before) if before.strip(" (") else ""
        after = _AFTER_AMOUNT.sub("", after)
        masked = f"{before} {after}" if after.strip(_TRIM + ")") else before
        masked = without_measure(masked)
    else:
        words = patterns.WORD_AMOUNT.search(masked)
        if (
            words
            and (words.start() == 0 or words.end() == len(masked.rstrip(") ")))
            and masked[: words.start()].strip(" (:-")
            and masked[words.start() - 1 : words.start()] in " (:-\t\n,"
        ):
            masked = masked[: words.start()].rstrip(" (:-")
    return clean_name(masked)


def clean_name(masked: str) -> tuple[str, str | None]:
    """A name without marks, empty brackets, articles and trailing function; and that function."""
    name = _EMPTY_BRACKETS.sub(" ", masked.replace(MASK, " "))
    name = squeezed(name).strip(_TRIM + "-")
    name = _WITHHELD_END.sub("", _WT_WORDS.sub("", name)).strip(_TRIM)
    name = _CLAUSE.sub("", name).strip(_TRIM)
    if name.count("(") != name.count(")"):
        name = _balanced(name)
    name, function = function_tail(name)
    name = _ARTICLE.sub("", _LEAD.sub("", name)).strip(_TRIM)
    return _restored(name, masked), function


def _restored(name: str, masked: str) -> str:
    """A name of the index kind keeps the hyphen it ends in ('1,2-dimethyl-')."""
    at = masked.rfind(name[-12:] + "-") if name else -1
    after = masked[at + len(name[-12:]) + 1 :][:1] if at != -1 else "x"
    return name + "-" if not after or after in " \t\n\x01),;" else name


def _balanced(name: str) -> str:
    if name.endswith("(") or name.startswith(")"):
        return name.strip("() ")
    if name.count("(") > name.count(")") and name.startswith("("):
        return name[1:]
    if name.count(")") > name.count("(") and name.endswith(")"):
        return name[:-1].rstrip()
    return name


def word_amount(text: str, masked: str, base: int) -> Stated | None:
    """An amount in words ('balance', 'q.s.', 'proprietary' in the amount's place): no limits, doubtful."""
    words = patterns.WORD_AMOUNT.search(masked)
    if words is None:
        return None
    alone = masked[: words.start()].strip(" (:-\t\n," + MASK)
    last = not masked[words.end() :].strip(" ).\t")
    if not alone or not last or masked[words.start() - 1] not in " (:-\t|\n,":
        return None
    return unmeasured(text, base + words.start(), base + words.end())
