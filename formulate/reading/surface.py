"""The working copy of a text: same length, one sign for each look-alike, so that places stay true."""

from __future__ import annotations

import re

from formulate.reading.lazily import lazy
from formulate.reading.scanned_numbers import mended
from formulate.reading.slips import digits_restored, letters_restored

_SAME = {
    "\u00a0": " ",
    "\u2007": " ",
    "\u2009": " ",
    "\u202f": " ",
    "\u3000": " ",
    "\ufeff": " ",
    "\r": " ",
    "\x0c": "\n",
    "\u2028": "\n",
    "\u2029": "\n",
    "\x0b": "\n",
    "\x85": "\n",
    "\u2010": "-",
    "\u2011": "-",
    "\u2012": "-",
    "\u2013": "-",
    "\u2014": "-",
    "\u2015": "-",
    "\u2212": "-",
    "\ufe63": "-",
    "\uff0d": "-",
    "\uff5e": "~",
    "\u301c": "~",
    "\u223c": "~",
    "\uff05": "%",
    "\ufe6a": "%",
    "\u066a": "%",
    "\uff0c": ",",
    "\u3001": ",",
    "\uff1b": ";",
    "\uff1a": ":",
    "\uff08": "(",
    "\uff09": ")",
    "\uff1c": "<",
    "\uff1e": ">",
    "\u2264": "\u2264",
    "\u2a7d": "\u2264",
    "\u2266": "\u2264",
    "\u2a7e": "\u2265",
    "\u2267": "\u2265",
    "\u02c2": "<",
    "\u02c3": ">",
    "\u2019": "'",
    "\u2018": "'",
    "\u2032": "'",
    "\u201c": '"',
    "\u201d": '"',
    "\u00b9": " ",
    "\u2022": "\u2022",
    "\u00b7": "\u00b7",
}
_HIDDEN = [
    *range(0x09),
    *range(0x0E, 0x20),
    *range(0x7F, 0x85),
    *range(0x86, 0xA0),
    *range(0x200B, 0x2010),
    *range(0x202A, 0x202F),
    *range(0x2060, 0x206A),
    0x00AD,
]
_TABLE: dict[int, str] = {ord(key): value for key, value in _SAME.items()} | dict.fromkeys(_HIDDEN, " ")
_TABLE |= {0xFF10 + digit: str(digit) for digit in range(10)}

_SIGNS = frozenset(map(chr, _TABLE))
_LONG = 100_000

_ESCAPE = lazy(r"\x1b(?:\[[0-9;?]{0,30}[A-Za-z]|\][^\x07\x1b]{0,200}\x07?)")
_LEADERS = lazy(r"\.{3,}")
_CELL = "td|th"
_BREAK = "br|p|li|tr|div|ul|ol|dl|dt|dd|table|h[1-6]|section|article|hr|tbody|thead"
_INLINE = (
    "b|i|u|em|strong|span|sup|sub|a|font|small|big|html|body|head|script|style|img|center|pre|code|title|meta|link"
)
_TAG = lazy(rf"</?(?:(?P<cell>{_CELL})|(?P<brk>{_BREAK})|(?:{_INLINE}))(?=[\s/>])[^<>]{{0,300}}>", re.IGNORECASE)
_UNSEEN = lazy(r"<(!--|script(?=[\s>])|style(?=[\s>]))", re.IGNORECASE)
_UNSEEN_ENDS = {
    "!--": lazy("-->"),
    "script": lazy(r"</script\s{0,9}>", re.IGNORECASE),
    "style": lazy(r"</style\s{0,9}>", re.IGNORECASE),
}
_NO_BREAK = lazy(r"[^\n]")
_ENTITY = lazy(r"&(amp|nbsp|lt|gt|quot|le|ge|ndash|mdash|#\d{2,4});", re.IGNORECASE)
_ENTITIES = {
    "amp": "&",
    "nbsp": " ",
    "lt": "<",
    "gt": ">",
    "quot": '"',
    "le": "\u2264",
    "ge": "\u2265",
    "ndash": "-",
    "mdash": "-",
}


def working_copy(text: str) -> str:
    """A copy of ``text`` of the same length in which dashes, spaces, tags and control characters have one form.

    Every offset of the copy is an offset of the text. A tag becomes blanks (a line break or tab where it
    separated), an entity its sign and blanks; a registry number that a scan broke is mended.
    """
    if "\x1b" in text:
        text = _ESCAPE.sub(lambda match: " " * (match.end() - match.start()), text)
    copy = _translated(text).replace("\u4ee5\u53ca", ", ")
    if "..." in copy:
        copy = _LEADERS.sub(lambda match: " " * (match.end() - match.start()), copy)
    if "<" in copy:
        copy = _TAG.sub(_blank_tag, _without_unseen(copy))
    if "&" in copy:
        copy = _ENTITY.sub(_blank_entity, copy)
    return mended(letters_restored(digits_restored(copy)))


def _without_unseen(copy: str) -> str:
    """Blanks for what a browser does not show: scripts, styles and comments that are closed."""
    pieces: list[str] = []
    at = 0
    endless: set[str] = set()  # searched once to the end of the text, so that reading stays linear
    for match in _UNSEEN.finditer(copy):
        kind = match[1].lower()
        if match.start() < at or kind in endless:
            continue
        close = _UNSEEN_ENDS[kind].search(copy, match.end())
        if close is None:
            endless.add(kind)
            continue
        pieces += [copy[at : match.start()], _NO_BREAK.sub(" ", copy[match.start() : close.end()])]
        at = close.end()
    return "".join([*pieces, copy[at:]]) if pieces else copy


def _blank_tag(match: re.Match[str]) -> str:
    size = match.end() - match.start()
    if match["brk"] and "\n" not in match.group():
        return "\n" + " " * (size - 1)
    first = "\t" if match["cell"] else " "
    return first + "".join("\n" if sign == "\n" else " " for sign in match.group()[1:])


def _blank_entity(match: re.Match[str]) -> str:
    name = match[1].lower()
    sign = _ENTITIES.get(name)
    if sign is None:
        code = int(name[1:])
        sign = chr(code) if 32 <= code < 0xD800 else " "
        sign = sign.translate(_TABLE) if len(sign.translate(_TABLE)) == 1 else " "
    return sign + " " * (match.end() - match.start() - 1)


def _translated(text: str) -> str:
    """The text with one sign for each look-alike. In a long text few signs differ, and putting those is quicker."""
    if len(text) < _LONG or text.isascii():
        return text.translate(_TABLE)
    for sign in set(text) & _SIGNS:
        text = text.replace(sign, _TABLE[ord(sign)])
    return text


def blanked(copy: str, spans: list[tuple[int, int]]) -> str:
    """A text of the same length with these stretches, given in order, made blank."""
    pieces, at = [], 0
    for start, end in spans:
        pieces += [copy[at:start], " " * (end - max(start, at))]
        at = max(at, end)
    return "".join([*pieces, copy[at:]])


def stripped(copy: str, start: int, end: int) -> tuple[int, int]:
    """A stretch without the blanks at its ends."""
    printed = copy[start:end]
    return start + len(printed) - len(printed.lstrip()), end - len(printed) + len(printed.rstrip())


def squeezed(text: str) -> str:
    """The text with runs of white space as one space."""
    return " ".join(text.split())
