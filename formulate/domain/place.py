"""Where something stands: in the pasted text, or in a source."""

from __future__ import annotations

from itertools import accumulate
from typing import NamedTuple

from formulate.domain.model import Model


class Place(Model):
    """A stretch of a text: ``start`` and ``end`` are offsets (end exclusive); line and column count from 1."""

    text_id: str
    start: int
    end: int
    line: int
    column: int
    page: int | None = None

    def label(self) -> str:
        """The place in words, as a person is shown it."""
        page = f"page {self.page}, " if self.page is not None else ""
        return f"{page}line {self.line} column {self.column}"


class Citation(Model):
    """A place in a source: key of ``sources.toml``, the place in it, and the copy actually read (``via``)."""

    source: str
    at: str
    via: str | None = None


class Unknown(Model):
    """Nothing known, and what was tried."""

    tried: tuple[str, ...] = ()


class LineIndex(NamedTuple):
    """Start offsets of the lines of one text, so that a place can be made from two offsets.

    ``breaks`` are the offsets behind its form feeds; each begins a new page (or sheet of a workbook).
    """

    text_id: str
    starts: tuple[int, ...]
    breaks: tuple[int, ...] = ()

    @classmethod
    def of(cls, text_id: str, text: str) -> LineIndex:
        """Index a text once; lines end at a newline, pages at a form feed."""
        return cls(text_id, (0, *_after_each(text, "\n")), _after_each(text, "\f"))

    def place(self, start: int, end: int) -> Place:
        """The place of ``text[start:end]``."""
        from bisect import bisect_right

        line = bisect_right(self.starts, start)
        page = bisect_right(self.breaks, start) + 1 if self.breaks else None
        return Place.model_construct(
            text_id=self.text_id, start=start, end=end, line=line, column=start - self.starts[line - 1] + 1, page=page
        )


def _after_each(text: str, sign: str) -> tuple[int, ...]:
    """The offset behind every ``sign`` of a text."""
    lengths = (len(piece) + 1 for piece in text.split(sign))
    return tuple(accumulate(lengths))[:-1]
