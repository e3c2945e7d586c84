"""Records of keys and values: 'Ingredient name: ... CAS: ... Percent: ...', on lines of their own or run together."""

from __future__ import annotations

import re

from formulate.reading import patterns
from formulate.reading.amount_words import is_amount_word
from formulate.reading.amounts import amounts_in, shares_in
from formulate.reading.item import Draft, blanked, clean_name
from formulate.reading.lazily import lazy
from formulate.reading.numbers import first, numbers_in
from formulate.reading.recipes import unmeasured
from formulate.reading.surface import stripped

_KEY = lazy(
    r"(?<![A-Za-z])(?:(?P<name>ingred(?:ient)?\.?\s?name|ingredients?|components?|chemical\s?name|common\s?name"
    r"|substance(?:\sname)?|name|stoff(?:name)?|bezeichnung|nom|nombre|nome|nazwa)"
    r"|(?P<cas>cas(?:[\s-]?(?:no|nr|number|rn|#)\.?)?\s?#?)|(?P<ec>(?:ec|eg|einecs)(?:[\s-]?(?:no|nr|number|#)\.?)?)"
    r"|(?P<amount>fraction\sby\swt\.?|(?:weight|wt\.?|mass)?\s?(?:%|percent(?:age)?)(?:\sby\s(?:weight|wt\.?))?"
    r"|conc(?:entration|\.)?(?:\s?\(?\[?%\]?\)?)?|gehalt|anteil|amount|content|range|teneur|zawarto\u015b\u0107)"
    r"|(?P<function>function|purpose|role|funktion|use)"
    r"|(?P<other>rtecs\s?(?:#|no\.?)?|other\srec\slimits|osha\s?pel|acgih\s?tlv|epa\srpt\sqty|dot\srpt\sqty"
    r"|ozone\sdepleting\schemical|classification|einstufung|reach(?:[\s-]?(?:no|nr|reg)\S{0,10})?"
    r"|index(?:[\s-]?(?:no|nr)\.?)?|hazards?|synonyms?|h-?(?:codes?|phrases?)|remarks?|notes?))"
    r"\s{0,2}:",
    re.IGNORECASE,
)


_VAPOUR = lazy(r"\s{1,3}VP:\s.{0,40}$")


def is_records(copy: str, start: int, end: int) -> bool:
    """Whether a stretch is made of keys and values: a name key, and numbers or amounts under keys of their own."""
    seen: dict[str, int] = {}
    titled = 0
    if copy.find(":", start, end) == -1:
        return False
    for number, match in enumerate(_KEY.finditer(copy, start, end)):
        if match.lastgroup and copy[match.end() : match.end() + 200].strip():
            seen[match.lastgroup] = seen.get(match.lastgroup, 0) + 1
            titled += bool(match["name"]) and "name" in match["name"].lower()
        if number > 400:
            break
    names = seen.get("name", 0)
    told = seen.get("cas", 0) + seen.get("amount", 0)
    if seen.get("cas", 0) > names + 1:
        return False  # one heading above many numbers: a table whose rows are labelled
    if names and told >= max(1, names - 1):
        return True
    # where few numbers are declared, the key 'ingredient name' and the limits under it still tell the shape
    return titled >= 2 and titled == names and told > 0 and told + seen.get("other", 0) >= names


def record_drafts(text: str, copy: str, start: int, end: int) -> list[Draft]:
    """The entries of a stretch of records; a new record starts at each name key."""
    keys = list(_KEY.finditer(copy, start, end))
    drafts: list[Draft] = []
    current: list[tuple[str, int, int]] = []
    begin = end
    for number, key in enumerate(keys):
        stop = keys[number + 1].start() if number + 1 < len(keys) else end
        if key["name"]:
            drafts += _draft(text, copy, begin, current)
            begin, current = key.start(), []
        if begin < end:
            current.append((key.lastgroup or "other", key.end(), _value_end(copy, key.end(), stop)))
    return drafts + _draft(text, copy, begin, current)


def _value_end(copy: str, start: int, stop: int) -> int:
    """A value ends at its line, at a rule of signs, or at the next key."""
    at = start
    while at < stop and copy[at] in " \t\n":
        at += 1
    line = copy.find("\n", at, stop)
    stop = line if line != -1 else stop
    rule = re.compile(r"[=_]{4,}|-{5,}").search(copy, at, stop)
    return rule.start() if rule else stop


def _draft(text: str, copy: str, begin: int, values: list[tuple[str, int, int]]) -> list[Draft]:
    if not values:
        return []
    told: dict[str, tuple[int, int]] = {}
    for group, start, end in values:
        told.setdefault(group, (start, end))
    name_at = told["name"]
    numbers = numbers_in(copy[name_at[0] : name_at[1]])
    shares = [] if "amount" in told else shares_in(numbers.masked, 0, len(numbers.masked))
    masked = blanked(numbers.masked, [(shares[0].start, shares[0].end)]) if shares else numbers.masked
    masked = _VAPOUR.sub("", masked)
    name, function = clean_name(masked)
    if ":" in name and not {"cas", "ec", "amount"} & set(told):
        return []  # a remark put in the place of a name: 'Ingredient: Ventilation: see section 8'
    if not patterns.LETTER.search(name):
        return []
    cas = first(numbers_in(copy[slice(*told["cas"])]).cas) if "cas" in told else first(numbers.cas)
    ec = first(numbers_in(copy[slice(*told["ec"])]).ec) if "ec" in told else first(numbers.ec)
    amounts = amounts_in(copy, *told["amount"]) if "amount" in told else shares_in(copy, *name_at)
    stated = amounts[0].stated(text) if amounts else None
    if stated is None and "amount" in told and is_amount_word(copy[slice(*told["amount"])].strip()):
        stated = unmeasured(text, *stripped(copy, *told["amount"]))
    if "function" in told:
        function = " ".join(copy[slice(*told["function"])].split()).strip(" .;,") or function
    last = max((span[1] for group, span in told.items() if group != "other"), default=name_at[1])
    while last > begin and copy[last - 1] in " \t\n;,":
        last -= 1
    return [Draft(((begin, last),), name, cas, ec, stated, function)]
