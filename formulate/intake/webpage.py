"""The text of a web page: blocks as lines, table rows as lines with tabs, scripts and styles left out."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from formulate.intake.separated import line_of

_LEFT_OUT = frozenset({"script", "style", "template", "head", "svg"})
_BLOCK_WORDS = """
    address article aside blockquote body caption center dd details div dl dt fieldset figcaption figure footer form
    h1 h2 h3 h4 h5 h6 header hr html legend li main nav ol option p pre section select summary table tbody textarea
    tfoot thead tr ul
"""
_BLOCKS = frozenset(_BLOCK_WORDS.split())
_CELLS = frozenset({"td", "th"})
_DEEPEST = 40
_LONGEST_CELL = 400
_BLANKS = re.compile(r"[ \t\r\n\f\v]+")


def page_text(page: str) -> str:
    """The text of a web page as a browser would show it, one line for each block, list entry and table row.

    Left out are scripts, styles, comments, drawings and the head of the page; nothing else.
    """
    parser = _Page()
    parser.feed(page)
    parser.close()
    lines = ("\t".join(" ".join(cell.split()) for cell in line.split("\t")) for line in parser.text().split("\n"))
    return "\n".join(line.rstrip("\t") for line in lines if line.strip()) + "\n"


class _Cell:
    """A table cell being read (or the page itself), and whether it holds a table of its own: then it is layout."""

    def __init__(self) -> None:
        self.pieces: list[str] = []
        self.layout = False

    def text(self) -> str:
        """A short cell as one line and a tab; a cell that lays out a page keeps its lines."""
        text = "".join(self.pieces)
        if self.layout or (len(text) > _LONGEST_CELL and "\n" in text.strip()):
            return f"\n{text}\n"
        return line_of([text]) + "\t"


class _Page(HTMLParser):
    """Collects text. ``cells`` are open, the page first; ``tables`` tells how many were where each table began."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.cells: list[_Cell] = [_Cell()]
        self.tables: list[int] = []
        self.left_out: list[str] = []
        self.as_typed = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a block, cell or stretch that is left out."""
        if self.left_out == ["head"] and tag in _BLOCKS:
            self.left_out.clear()  # a head without an end would hide the whole page
        if self.left_out or tag in _LEFT_OUT:
            if tag in _LEFT_OUT:
                self.left_out.append(tag)
        elif tag in _CELLS:
            self._end_cell()
            if len(self.cells) <= _DEEPEST:
                self.cells.append(_Cell())
        elif tag == "br":
            self._put("\n")
        elif tag in _BLOCKS:
            self._begin_block(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag closed in itself ('<br />') opens nothing."""
        if tag in _BLOCKS or tag == "br":
            self.handle_starttag("br", attrs)

    def handle_endtag(self, tag: str) -> None:
        """End a block, cell or stretch that is left out."""
        if self.left_out:
            if tag in self.left_out:
                del self.left_out[self.left_out.index(tag) :]
            return
        if tag in _CELLS or tag in {"tr", "table"}:
            self._end_cell()
        if tag == "table" and self.tables:
            self.tables.pop()
        if tag in _BLOCKS:
            self.as_typed -= tag == "pre" and self.as_typed > 0
            self._put("\n")

    def handle_data(self, data: str) -> None:
        """Text, its white space as one blank unless it is preformatted."""
        if not self.left_out:
            self._put(data if self.as_typed else _BLANKS.sub(" ", data))

    def text(self) -> str:
        """Everything read, cells left open included."""
        self.tables.clear()
        self._end_cell()
        return "".join(self.cells[0].pieces)

    def _begin_block(self, tag: str) -> None:
        if tag == "tr":
            self._end_cell()
        elif tag == "table":
            self.cells[-1].layout = True
            self.tables.append(len(self.cells))
        self.as_typed += tag == "pre"
        self._put("\n")

    def _end_cell(self) -> None:
        """Close what is open of the cells of the innermost table."""
        while len(self.cells) > (self.tables[-1] if self.tables else 1):
            text = self.cells.pop().text()
            self._put(text)

    def _put(self, piece: str) -> None:
        self.cells[-1].pieces.append(piece)
