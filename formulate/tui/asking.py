"""One question being answered: what is typed, what is offered, what would change."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from formulate.tui.asks import DROP, Ask, Change, Offer, error_sentence
from formulate.tui.paint import Painted, Piece, wrap
from formulate.tui.signs import DOT, STAND
from formulate.workflow.gate import cut, padded
from formulate.workflow.moves import Moved

if TYPE_CHECKING:
    from formulate.tui.app import Workbench

PREVIEWED = frozenset(
    {"identity", "role", "claim", "form", "reason", "amount", "rule", "line", "measured", "means", "suppose"}
)
"""Questions whose answer moves figures."""
OFFERED = frozenset({"role", "form", "find", "rule", "line", "means"})
"""Questions whose answer is one of those offered."""
CHECKED = frozenset({"amount", "measured", "suppose"})
"""Questions whose answer is read as a number before it is taken."""
Answered = Callable[["Workbench", "Asking"], None]


class Asking:
    """The state of the one line that asks."""

    def __init__(
        self,
        ask: Ask,
        then: Answered,
        leave: Callable[[Workbench], None] | None = None,
        moved: tuple[Moved, ...] | None = (),
    ) -> None:
        self.ask, self.then, self._leave = ask, then, leave
        self.text = ""
        self.offers: list[Offer] = []
        self.chosen = 0
        self.moved: tuple[Moved, ...] | None = moved
        self._refused = ""
        self._picked = False

    @property
    def listing(self) -> bool:
        """Whether the offers fill the station (find or do)."""
        return self.ask.id == "find"

    @property
    def previews(self) -> bool:
        """Whether an answer would change figures."""
        return self.ask.id in PREVIEWED

    @property
    def keys(self) -> str:
        """What the key line says meanwhile."""
        if self.ask.id == "reason":
            return "Enter keeps  Esc keeps without a reason"
        return (
            f"Enter {'goes there' if self.listing else 'keeps'}  {'up down choose  ' if self.offers else ''}Esc leaves"
        )

    @property
    def offer(self) -> Offer | None:
        """The answer that Enter takes."""
        return self.offers[self.chosen] if 0 <= self.chosen < len(self.offers) else None

    @property
    def change(self) -> Change | None:
        """The correction that the answer means."""
        return self.ask.change(self.text, self.offer)

    def typed(self, bench: Workbench, text: str) -> None:
        """The text changed."""
        self.text, self.chosen, self._refused, self._picked = text, 0, "", False
        self.offers = self.ask.offers(text)
        self._preview(bench)

    def choose(self, bench: Workbench, by: int) -> None:
        """Another offer."""
        self.chosen = min(max(self.chosen + by, 0), max(len(self.offers) - 1, 0))
        self._refused, self._picked = "", bool(self.offers)
        self._preview(bench)

    def _preview(self, bench: Workbench) -> None:
        if self.ask.id == "reason" or not self.previews:
            return
        change = self.change
        if change is None or bench.session is None or not self._answers_something():
            self.moved = ()
            bench.desk.amounts.would = None
            bench.desk.redraw_amounts()
            return
        self.moved = None
        bench.preview(self._name(), bench.session.would(change.target, change.field, change.value))

    def _answers_something(self) -> bool:
        """Whether anything was typed or picked; an empty claim takes the claim away."""
        return bool(self.text.strip()) or self._picked or self.ask.id == "claim"

    def _name(self) -> str:
        return f"{self.text}\n{self.chosen}"

    def previewed(self, name: str, moved: tuple[Moved, ...]) -> bool:
        """What the answer would move, worked out; whether it is still the answer that is typed."""
        if name == self._name():
            self.moved = moved
        return name == self._name()

    def accepts(self, bench: Workbench, text: str) -> bool:
        """Whether the text is an answer; if not, the ground says why."""
        self.text = text
        needs_offer = self.ask.id in OFFERED and text.strip() != "?"
        if needs_offer and (self.offer is None or not (text.strip() or self._picked or self.ask.id == "find")):
            self._refused = f'"{cut(text, 40)}" is none of the answers known here. {self.ask.hint}'
            return False
        change = self.change if self.ask.id in CHECKED else None
        if self.ask.id in CHECKED and change is None:
            self._refused = self.ask.refused(text) or f'"{cut(text, 40)}" cannot be read here. {self.ask.hint}'
        elif change is not None and bench.session is not None:
            error = bench.session.refusal(change.target, change.field, change.value)
            self._refused = error_sentence(error) if error is not None else ""
        return not self._refused

    def answered(self, bench: Workbench, text: str) -> None:
        """Do what the answer means."""
        self.text = text
        self.then(bench, self)

    def left(self, bench: Workbench) -> None:
        """Esc: nothing is changed, unless the question was only about the reason of a change."""
        if self._leave is not None:
            self._leave(bench)

    def rows(self, width: int, rows: int) -> list[Painted]:
        """What the ground says under the line."""
        if self._refused:
            return [(Piece(f" {text}", "warn"),) for text in wrap(self._refused, width - 2, rows)]
        if self.listing:
            return [(Piece(f" {len(self.offers)} found; {self.ask.hint}", "muted"),)]
        if not self.offers:
            said = (
                self.ask.hint
                if self.text.strip() != DROP or self.ask.id != "identity"
                else "this line is no ingredient; leave it out"
            )
            return [(Piece(f" {text}", "muted"),) for text in wrap(said, width - 2, rows)]
        labels = [
            f"[{cut(one.label, 44)}]" if i == self.chosen else cut(one.label, 44) for i, one in enumerate(self.offers)
        ]
        said = f"found {len(labels)}: " + f" {DOT} ".join(labels)
        return [(Piece(f" {text}"),) for text in wrap(said, width - 2, rows)]

    def drawing(self, width: int) -> OfferDrawing:
        """The offers as rows of the station."""
        return OfferDrawing(self.offers, self.chosen, width)


class OfferDrawing:
    """Offers one below the other."""

    def __init__(self, offers: list[Offer], chosen: int, width: int) -> None:
        self.offers, self.chosen, self.width = offers, chosen, width

    @property
    def count(self) -> int:
        """Rows in all."""
        return len(self.offers)

    def paint(self, index: int) -> Painted:
        """One row."""
        standing = index == self.chosen
        return (
            Piece(f" {STAND if standing else ' '} ", "stand" if standing else ""),
            Piece(padded(self.offers[index].label, self.width - 4), "stand" if standing else ""),
        )

    def span(self) -> tuple[int, int]:
        """The row of the chosen offer."""
        return self.chosen, self.chosen
