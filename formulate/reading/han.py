"""Lists in sentences of Chinese and Japanese, which print no blanks: 'made of A 5 %, B 10 % and C 2 %, in sum 100 %',
'its main components are A, B, C and so on'."""

from __future__ import annotations

from formulate.reading.amounts import shares_in
from formulate.reading.cuts import Entry
from formulate.reading.lazily import lazy

LONGEST = 20_000
_HAN = r"\u4e00-\u9fff"
_IS_HAN = lazy(rf"[{_HAN}]")
# 'made of ... composed' frames a list; 'contains', 'includes' and 'characterised by' lead to one
_LEAD = lazy(
    r"(?:^|[,:;\s]|\u4e3b\u8981)(?P<by>\u7531)|[,:;\s](?:\u5305\u62ec|\u5305\u542b|\u542b\u6709|\u5176\u7279\u5f81\u5728\u4e8e)[:\s]{0,2}"
    r"|(?:\u5236\u5907\u800c\u6210|\u7ec4\u6210|\u6210\u5206|\u7ec4\u5206|\u539f\u6599|\u914d\u65b9)[^,;:\n]{0,6}:"
)
_MADE = lazy(r"\u7ec4\u6210|\u5236\u6210|\u914d\u5236|\u6784\u6210")
_TAIL = lazy(r"[\s,.;)\u3002]*(?:(?:\u7ec4\u6210|\u5236\u6210|\u914d\u5236|\u6784\u6210)(?:\u7684)?)?[\s,.;\u3002]*")
_AFTER = lazy(r"[\s)]{0,2}(?:\((?:\u91cd\u91cf|\u8d28\u91cf)[^()\n]{0,6}\)|[(\s]?(?:wt|w/w)\)?)?")
_BETWEEN = lazy(r"[\s,;:\u3001]*(?:\u4ee5\u53ca|\u548c|\u53ca|\u4e0e|\u6216)?")
# 'able to make X and Y mix DE emulsifier': what stands before the last DE only describes the thing
_VERB = lazy(
    r"(?:\u80fd\u591f?|\u53ef\u4ee5?|\u7528\u4e8e|\u7528\u4f5c|\u5177\u6709)[^,;\u3002\n]{1,80}\u7684"
    rf"(?=[{_HAN}]{{2,20}}$)"
)
_COMPONENTS = lazy(
    r"(?:\u4e3b\u8981|\u4e3b)?(?:\u6dfb\u52a0)?(?:\u6210\u5206|\u6210\u4efd|\u7d44\u6210|\u7ec4\u6210|\u539f\u6599)\s?"
    r"(?:(?:\u4e3a|\u70ba|\u662f|\u6709|\u5305\u62ec|\u5982\u4e0b|\u306f)\s?:?|:)\s?"
)
_SO_ON = lazy(r"\u7b49|\u3067\u3059|\u3067\u3042\u308b|\u3092\u542b|\u304b\u3089|\u3002|\n|;")
_CUT = lazy(r"[,\u30fb]|\u4ee5\u53ca|\u548c|\u53ca|\u4e0e|\u8207")
_LONGEST_NAME = 24
_SUM = lazy(
    r"(?:\u603b\u548c|\u603b\u91cf|\u5408\u8ba1|\u4e4b\u548c|\u5171\u8ba1|\u603b\u8ba1)(?:\u4e3a|\u662f)?\s{0,2}$"
)


def han_entries(copy: str, start: int, end: int) -> list[Entry]:
    """Entries of a sentence where each Chinese name is printed before its share; empty where it is no such sentence."""
    if end - start > LONGEST or copy.isascii() or not _IS_HAN.search(copy, start, end):
        return []
    shares = shares_in(copy, start, end)
    if len(shares) < 2:
        return []
    lead = _LEAD.search(copy, start, shares[0].start)
    framed = lead is not None and (not lead["by"] or _MADE.search(copy, shares[-2].end, min(end, shares[-1].end + 20)))
    left = lead.end() if lead and framed else start
    entries: list[Entry] = []
    for share in shares:
        if _SUM.search(copy, max(left, share.start - 12), share.start):
            continue
        begin = _begin(copy, left, share.start)
        name = copy[begin : share.start].strip(" (:")
        if not name or len(name) > 60 or "\u3002" in name or "," in name or not _IS_HAN.search(name):
            return []
        after = _AFTER.match(copy, share.end, end)
        stop = after.end() if after else share.end
        entries.append(Entry(begin, stop))
        left = stop
    # a name without a share after the last one ('water: the rest') is left to the comma list
    tail = _TAIL.match(copy, left, end)
    closed = tail is not None and (tail.end() == end or copy.find("100", left, end) != -1)
    closed = closed or (lead is not None and bool(framed) and bool(lead["by"]))
    return entries if len(entries) > 1 and closed else []


def han_names(copy: str, start: int, end: int) -> list[Entry]:
    """Names without shares behind 'components:', parted by commas and 'and', up to 'and so on' or the full stop."""
    if end - start > LONGEST or not _IS_HAN.search(copy, start, end):
        return []
    lead = _COMPONENTS.search(copy, start, end)
    if lead is None:
        return []
    stop = _SO_ON.search(copy, lead.end(), end)
    last = stop.start() if stop else end
    entries, left = [], lead.end()
    for cut in [*_CUT.finditer(copy, lead.end(), last), None]:
        right = cut.start() if cut else last
        if copy[left:right].strip():
            entries.append(Entry(left, right))
        left = cut.end() if cut else last
    if len(entries) < 2 or any(entry.end - entry.start > _LONGEST_NAME for entry in entries):
        return []
    return entries


def _begin(copy: str, left: int, right: int) -> int:
    """Where the name before a share begins: past the sign or 'and' after the last share, and past a description."""
    between = _BETWEEN.match(copy, left, right)
    left = between.end() if between and between.end() < right else left
    verb = _VERB.match(copy, left, right)
    return verb.end() if verb else left
