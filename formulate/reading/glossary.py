"""Lists whose entries are explained: 'Lanolin: an oil that softens', 'Ethanol is a solvent that also ...'."""

from __future__ import annotations

from formulate.reading.amounts import shares_in
from formulate.reading.lazily import lazy

Span = tuple[int, int]
_DESCRIBED = lazy(r"(?P<name>[^:\n]{2,90}?)\s?:\s(?=\S)")
_TOLD_WORDS = 4
_IS = lazy(
    r"(?P<name>[^.,:;\n]{2,60}?),?\s(?:is|are|was|(?:also|often|commonly|sometimes)\s(?:known|used|called))\s",
)
_LONG = 8
_TITLE = 6


def described(copy: str, spans: list[Span]) -> list[Span]:
    """The names of lines 'Name (5 %): what it does, told in a sentence'; empty where lines are not of this kind."""
    colons = [_DESCRIBED.match(copy, *span) for span in spans]
    told = [len(copy[match.end() : span[1]].split()) for match, span in zip(colons, spans, strict=True) if match]
    if len(told) < 2 or len(told) * 3 < len(spans) * 2 or sorted(told)[len(told) // 2] < _TOLD_WORDS:
        return []
    if sum(
        bool(shares_in(copy, match.end(), span[1])) for match, span in zip(colons, spans, strict=True) if match
    ) * 2 > len(told):
        return []
    return [(span[0], match.end("name")) for match, span in zip(colons, spans, strict=True) if match]


def explained(copy: str, spans: list[Span]) -> list[Span]:
    """The names of lines that each tell in a sentence what one thing is; a title above such a line names it once."""
    names: list[Span] = []
    used = 0
    for number, (start, end) in enumerate(spans):
        match = _IS.match(copy, start, end) if len(copy[start:end].split()) >= _LONG else None
        if match is None:
            continue
        used += 1
        above = spans[number - 1] if number else None
        title = copy[slice(*above)].strip().casefold() if above else ""
        if above and len(title.split()) <= _TITLE and match["name"].strip().casefold().startswith(title):
            used += 1
            names.append(above)
        else:
            names.append((start, match.end("name")))
    return names if len(names) > 1 and used * 5 >= len(spans) * 4 else []
