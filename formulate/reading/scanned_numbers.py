"""Registry numbers that a scan broke, mended in the working copy: only where the check digit then fits.

The copy keeps its length, so that places stay true: a letter becomes the figure that looks like it, a blank inside a
number moves in front of it, a dash that was lost takes the place of a blank.
"""

from __future__ import annotations

from collections.abc import Iterator

from formulate.reading.lazily import lazy

_FIGURES = {"O": "0", "o": "0", "Q": "0", "I": "1", "l": "1", "S": "5", "s": "5", "B": "8", "Z": "2", "z": "2"}
"""Letters that scanners print for figures."""
_SIGN = rf"[\d{''.join(_FIGURES)}]"
_TAIL = lazy(rf"-{_SIGN}{{2,3}}-{_SIGN}(?![\w-])")
_HEAD = lazy(rf"(?<![\w-]){_SIGN}{{2,7}}$")
_LABELLED = lazy(
    r"CAS(?<![A-Za-z0-9]CAS)\b(?:[\s.:#-]|N[or]\.?|number){0,4}(?<![\dA-Za-z-])"
    rf"({_SIGN}[\d {''.join(_FIGURES)}-]{{3,12}})"
)
_WHOLE = lazy(r"\d{2,7}-\d{2}-\d(?!\d)")
_FIRST_FIGURES = lazy(r"(?<![\d-])\d{2,7}$")
_GLUED = lazy(r"(-\d{2}-\d)(\d{1,3}) (?=[-<>%\d])")
_SPACED = lazy(rf"{_SIGN}{{2,7}} {_SIGN}{{2}} {_SIGN}(?![\w-])")
MOST_LETTERS = 3
"""Letters in a number, at most: a word that looks like figures throughout is a word."""
LONGEST = 10
FEWEST = 5
"""Figures of a CAS number."""


def mended(copy: str) -> str:
    """The working copy with broken registry numbers mended; the same length, linear in the text."""
    changes = [*_letters_for_figures(copy), *_labelled_and_torn(copy), *_glued_to_an_amount(copy)]
    if not changes:
        return copy
    parts, at = [], 0
    for start, number in sorted(changes):
        if start >= at:
            parts += [copy[at:start], number]
            at = start + len(number)
    return "".join(parts) + copy[at:]


def _letters_for_figures(copy: str) -> Iterator[tuple[int, str]]:
    """'67-63-O', '2OO-661-7': letters printed for figures in what is otherwise a number."""
    for tail in _TAIL.finditer(copy):
        head = _HEAD.search(copy, max(0, tail.start() - 8), tail.start())
        if head is None:
            continue
        printed = head.group() + tail.group()
        if printed.replace("-", "").isdigit():
            continue
        letters = sum(sign.isalpha() for sign in printed)
        number = _as_figures(printed)
        if letters <= MOST_LETTERS < len(printed) - letters and (_fits_cas(number) or _fits_ec(number)):
            yield head.start(), number


def _labelled_and_torn(copy: str) -> Iterator[tuple[int, str]]:
    """'CAS 6 7-63-0', 'CAS 7732 18 5', 'CAS: 67-63O': behind its label, with blanks in it or a dash lost."""
    for label in _LABELLED.finditer(copy):
        printed = label.group(1)
        if _WHOLE.match(printed) or not ("-" in printed or _SPACED.match(printed)):
            continue
        for end in _ends(printed):
            figures = [sign for sign in _as_figures(printed[:end]) if sign.isdigit()]
            if len(figures) < FEWEST:
                continue
            number = f"{''.join(figures[:-3])}-{''.join(figures[-3:-1])}-{figures[-1]}"
            start = label.start(1) + end - len(number)
            if _fits_cas(number) and copy[start : label.start(1)].strip() == "":
                yield min(start, label.start(1)), " " * (start - label.start(1)) + number
                break


def _glued_to_an_amount(copy: str) -> Iterator[tuple[int, str]]:
    """'67-63-010 - 20 %': the blank between number and amount lost; it moves back from behind the first limit."""
    for glued in _GLUED.finditer(copy):
        first = _FIRST_FIGURES.search(copy, max(0, glued.start() - 8), glued.start())
        if first and _fits_cas(first.group() + glued.group(1)):
            yield first.start(), f"{first.group()}{glued.group(1)} {glued.group(2)}"


def _ends(printed: str) -> Iterator[int]:
    """Where the number may end: behind a figure that no figure follows, shortest first."""
    for at, sign in enumerate(printed, start=1):
        if sign not in " -" and (at == len(printed) or printed[at] in " -"):
            yield at


def _as_figures(printed: str) -> str:
    return "".join(_FIGURES.get(sign, sign) for sign in printed)


def _fits_cas(number: str) -> bool:
    """Whether a CAS number passes its check digit: the sum of its figures times their places from the right."""
    head, _, check = number.replace("-", "", 1).rpartition("-")
    if number.startswith("0") or not FEWEST <= len(head) + 1 <= LONGEST:
        return False
    return sum(place * int(sign) for place, sign in enumerate(reversed(head), start=1)) % 10 == int(check)


def _fits_ec(number: str) -> bool:
    """Whether an EC number passes its check digit: the sum of its figures times their places from the left, by 11."""
    figures = number.replace("-", "")
    if len(number) != len("200-661-7") or number[3] != "-" or number[0] in "018":
        return False
    remainder = sum(place * int(sign) for place, sign in enumerate(figures[:-1], start=1)) % 11
    return remainder == int(figures[-1])
