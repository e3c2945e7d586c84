"""Ingredients named in running sentences: 'a polish comprising at least one wax, a solvent and water'; 'a silane is
mixed with an alcohol'. Amounts need not be told; names need not be known, but most must look like things one mixes."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amounts import shares_in
from formulate.reading.claims import MODIFIER
from formulate.reading.cuts import bare_name, comma_entries
from formulate.reading.endings import sentence_end
from formulate.reading.functions import FUNCTION
from formulate.reading.item import Draft, clean_name, read_item, trimmed
from formulate.reading.lazily import lazy

Known = Callable[[str], bool]
DOUBT = "named in a running sentence"
LONGEST = 20_000
_MOST_SENTENCES = 60
_MOST_WORDS = 12
_HOLDS = lazy(
    r"\bingredients?\s?(?=-{1,2}\s|:)|\b(?:compris(?:ing|es?)|consist(?:ing|s)?\s(?:essentially\s|mainly\s)?of|(?:be(?:steht|stehen|stehend)\saus)"
    r"|composed\sof|made\s(?:up\s)?(?:of|from|with)|contain(?:ing|s)|includ(?:ing|es)|formulated\s(?:on|with|from)"
    r"|(?:mixture|blend|combination|mix|emulsion|solution)\sof|(?:has|have)\sa\s(?:wide\s)?(?:range|variety|combination)\sof"
    r"|(?:ingredients|components)\s(?:are|include|used\sare)|(?:bestehend|zubereitung|gemisch|mischung)\saus"
    r"|compos\u00e9e?\sde|(?:contient|contenant)|compuesto\s(?:de|por)|contiene|(?:componentes|ingredientes)\s(?:incluyen|incluem|s\u00e3o|son))"
    r"\s?(?::|-{1,2})?(?:\s(?:the\sfollowing|following)(?:\s(?:ingredients|components))?\s?:?)?\s{1,3}(?!(?:no|neither|none|not|nothing)\b)",
    re.IGNORECASE,
)
_MIXED = lazy(
    r"(?P<name>(?:[^\s,.;:()]{1,30}\s){1,7}?)(?P<amount>in\s(?:the|an)\samounts?\sof\s[^,.;]{1,90}?\s)?"
    r"(?:is|are|was|were)\s(?:then\s|first\s)?(?P<verb>mixed|blended|combined|added|dissolved|diluted|dispersed"
    r"|stirred|emulsified|suspended|hydroly[sz]ed)(?:\s(?:together\s)?(?:with|in|into|to)\s(?P<other>[^,.;:()]{2,90}))?",
    re.IGNORECASE,
)
_ARTICLE = lazy(
    r"^(?:,\s?)?(?:(?:and|or|then|also|first|next|finally|here|preferably|e|y|et|und|sowie)\s)?(?:at\sleast\sone(?:\s(?:species|kind|type|member|selected)\sof)?|one\sor\smore(?:\s(?:of|kinds\sof))?"
    r"|a\s(?:plurality|small\samount|number|variety|series|range|mixture)\sof|an\samount\sof|(?:a|an|the|some|said|dem|der|die|das|den"
    r"|ein(?:e[mnr]?)?|une?|la|le|les|de\sla|du|des|o|os|as|uma?|el|los|las)(?=\s))\s",
    re.IGNORECASE,
)
_DISPERSED = lazy(
    r"\s(?:\w{2,20}ly\s)?(?:dispersed|dissolved|suspended|emulsified|diluted)\s(?:in|with|into)\s", re.IGNORECASE
)
_MADE_OF_IT = lazy(
    r"^(?:the|this|these|that|said|it|they|mixed|resulting|obtained|diluted|above|such|mixture|solution|composition"
    r"|product|layer|coating|surface|film)\b",
    re.IGNORECASE,
)
_END = lazy(
    r"[,;]\s(?:which|wherein|whereby|said|this|that|the\s\w+\sbeing|to\s(?:give|provide|form|make)|added|thereby|and\sthereby"
    r"|(?:structurally|as)\s(?:depicted|shown))\b|;\s(?:and\s)?\w{2,20}ing\s|\sso\sas\sto\s|\s(?:which|wherein|that)\s"
    r"|,?\s(?:structurally\sdepicted|as\s(?:shown|defined))\b|\sbesteh(?:t|en)\b",
    re.IGNORECASE,
)
_VERB = lazy(
    r"\b(?:is|are|was|were|has|have|can|may|will|would|should|gives?|helps?|provides?|makes?|leaves?|you|your|we|our|i"
    r"|it|they|ist|sind|wird|werden)\b",
    re.IGNORECASE,
)
_ASIDE = lazy(r"\([^()\n]{0,120}\)")
_JOINT = lazy(r"(?:e|y|et|und|sowie|and|or)\s", re.IGNORECASE)
_ORDER = lazy(r"(?:then|first|next|finally|thereafter|also|and),?\s", re.IGNORECASE)
_RELATIVE = lazy(
    r",?\s(?:que|qui|che|die|der|das|welche[rs]?|kt\u00f3r\w|\u043a\u043e\u0442\u043e\u0440\w{2})\s", re.IGNORECASE
)
_THING_FIRST = lazy(
    r"^(?:\u00f3leo|olio|huile|aceite|cera|cire|[a\u00e1]cido|acide|[a\u00e1]lcool|alcool|alcohol|resina|r\u00e9sine|goma|gomme|gomma"
    r"|[a\u00e1]gua|eau|acqua|extra\w{1,4}|sulfato|cloreto|cloruro|[\w-]{2,20}(?:eno|\u00e8ne|ano|ato|ido|ilo))\b",
    re.IGNORECASE,
)
_THING = lazy(
    r"(?:(?:agent|compound|particle|additive|material|ingredient|component|emulsion|dispersion|solution|copolymer"
    r"|polymer|fluid|extract|juice|powder|salt|catalyst|initiator|pigment|filler|binder|sol|sand|clay|alkanol|alcohol)s?"
    r"|\w{2,30}(?:silane|siloxane|silicone|silicate|oxide|acid|ane|ene|ol|ate|ite|ide|amine|ester|ether))$",
    re.IGNORECASE,
)


def prose_drafts(text: str, copy: str, start: int, end: int, known: Known) -> list[Draft]:
    """The ingredients that sentences name, each once; empty where fewer than two, or where most look like no things."""
    if end - start > LONGEST:
        return []
    drafts: dict[str, Draft] = {}
    at = start
    for _ in range(_MOST_SENTENCES):
        if at >= end:
            break
        stop = sentence_end(copy, at, end)
        for draft in _listed(text, copy, at, stop, known) or _mixed(copy, at, stop):
            drafts.setdefault(draft.name.lower(), draft)
        at = stop
    found = list(drafts.values())
    things = sum(is_thing(draft.name, known) for draft in found)
    return found if len(found) > 1 and things * 4 >= len(found) * 3 else []


def is_thing(name: str, known: Known) -> bool:
    """Whether a name looks like something that is mixed: its last words are known, or name an agent or a substance."""
    words = _ASIDE.sub(" ", name).split()
    if any(known(" ".join(words[at:])) for at in range(max(0, len(words) - 4), len(words))):
        return True
    if any(known(" ".join(words[:size])) for size in range(1, min(4, len(words)))) or _THING_FIRST.match(name):
        return True  # 'cera de ...': in many languages the thing stands first
    last = " ".join(words[-2:])
    return _THING.search(last) is not None or FUNCTION.search(last) is not None


def _listed(text: str, copy: str, start: int, stop: int, known: Known) -> list[Draft]:
    """What stands behind the verb of a sentence that tells what something is made of."""
    found: list[Draft] = []
    at = start
    while holds := _HOLDS.search(copy, at, stop):
        at = holds.end()
        if copy.count("(", start, holds.start()) > copy.count(")", start, holds.start()):
            continue  # 'an alkane (including butane)' describes a name
        while nested := _HOLDS.match(copy, at, stop):
            at = nested.end()
        end = _END.search(copy, at, stop)
        body = end.start() if end else stop
        found += _entries(text, copy, at, body, known)
        at = body
    return found


def _entries(text: str, copy: str, start: int, body: int, known: Known) -> list[Draft]:
    """The entries of one list in a sentence; where one cannot be a name, what stands before it if that is a list."""
    drafts: list[Draft] = []
    for entry in comma_entries(copy, start, body, known, several=True):
        at = entry.start
        for cut in [*_DISPERSED.finditer(copy, entry.start, entry.end), None]:
            draft = _named(text, copy, at, cut.start() if cut else entry.end)
            if draft is None:
                return drafts if len(drafts) > 1 else []
            drafts.append(draft)
            at = cut.end() if cut else entry.end
    return drafts


def _named(text: str, copy: str, start: int, end: int) -> Draft | None:
    modifier = MODIFIER.search(copy, start, end)
    group = modifier is not None and modifier.group().strip(" ,").lower().startswith(("select", "chosen"))
    end = modifier.start() if modifier and not group and modifier.start() > start else end
    start, end = trimmed(copy, start, end)
    label = patterns.NUMBERED.match(copy, start, end) or _JOINT.match(copy, start, end)
    start = label.end() if label else start
    article = _ARTICLE.match(copy[start : start + 60])
    start += article.end() if article else 0
    relative = _RELATIVE.search(copy, start, end)
    end = relative.start() if relative else end
    comma = copy.find(",", start, end)
    if comma != -1 and len(copy[start:end].split()) > _MOST_WORDS and not group:
        end = comma  # 'carnauba wax, which gives the hard shine and ...;'
    draft = None if _MADE_OF_IT.match(copy[start : start + 40]) else read_item(text, copy, start, end)
    if draft is None or len(draft.name.split()) > _MOST_WORDS or (_VERB.search(draft.name) and not group):
        return None
    return draft._replace(doubtful=draft.doubtful or DOUBT)


def _mixed(copy: str, start: int, stop: int) -> list[Draft]:
    """'A silane is mixed with an alcohol', 'water is added': what is mixed, and with what; not what came of it."""
    drafts = []
    for match in _MIXED.finditer(copy, start, min(stop, start + 2_000)):
        for group in ("name", "other"):
            if match[group] is None:
                continue
            begin, end = match.span(group)
            if group == "name":
                comma = max(copy.rfind(sign, start, end) for sign in ",;:")
                begin = max(begin, comma + 1)
            cut = re.compile(
                r"\s(?:in\s(?:the|an?)|such\sthat|so\s(?:as|that)|to|for|at|and|by|until|ranging)\s"
            ).search(copy, begin, end)
            end = cut.start() if cut else end
            begin, end = trimmed(copy, begin, end)
            order = _ORDER.match(copy, begin, end)
            begin = order.end() if order else begin
            article = _ARTICLE.match(copy[begin : begin + 60])
            bare = copy[begin : begin + 60]
            if _MADE_OF_IT.match(bare) or (article and _MADE_OF_IT.match(bare[article.end() :])):
                continue
            name, _ = clean_name(copy[begin + (article.end() if article else 0) : end])
            if patterns.LETTER.search(name) and len(name.split()) <= 6 and not shares_in(name, 0, len(name)):
                drafts.append(Draft(((begin, end),), bare_name(name), doubtful=DOUBT))
    return drafts
