"""Which statement sets a bound, in words: the reason behind each hard limit."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from formulate.amounts.frame import Frame, envelope
from formulate.amounts.hard import Hard
from formulate.amounts.item import Item
from formulate.amounts.statements import Statement
from formulate.domain.reason import Ledger

CLOSE = 1e-9


class Explainer:
    """Reasons of the hard bounds of one list."""

    def __init__(
        self, items: Sequence[Item], statements: Sequence[Statement], known: Frame, hard: Hard, ledger: Ledger
    ) -> None:
        self._items = items
        self._known = known
        self._hard = hard
        self._ledger = ledger
        self._reach = envelope(known)
        self._rank = {item: rank for rank, item in enumerate(known.ordered)}
        self._amounts = {one.items[0]: one for one in statements if one.kind == "amount"}
        self._kinds = {one.kind: one for one in statements}
        self._bands = [one for one in statements if one.kind == "sum"]

    def upper(self, item: int) -> str:
        """Reason of the largest possible amount of an item."""
        value = float(self._hard.high[item])
        band = next((one for one in self._bands if item in one.items and abs(one.high - value) < CLOSE), None)
        if band is not None:
            says = "{name} is one of several that are at most {value:.4g} % together."
            return self._say(says, item, value, because=[band.why])
        at = int(np.argmax(self._hard.high_at[:, item]))
        place = self._hard.places[at]
        cap = float(self._reach.high[self._reach.places.index(place), item])
        if value < cap - CLOSE:
            return self._shared(item, place, value)
        own = self._amounts.get(item)
        if own is not None and abs(own.high - value) < CLOSE:
            return self._printed(own, "at most", value)
        if value > 1 - CLOSE:
            return self._say("{name} can be all of it: nothing that is known sets an upper limit.", item, value)
        rank = self._rank.get(item, -1)
        if 0 <= place <= rank:
            return self._below_the_line(item, value)
        earlier = next(one for one in self._known.ordered[:rank] if abs(self._known.upper[one] - value) < CLOSE)
        says = "{name} stands behind {other}, which is at most {value:.4g} %."
        return self._say(says, item, value, earlier, [self._kinds["order"].why, self._amounts[earlier].why])

    def lower(self, item: int) -> str:
        """Reason of the smallest possible amount of an item."""
        value = float(self._hard.low[item])
        own = self._amounts.get(item)
        if own is not None and own.low > 0 and abs(own.low - value) < CLOSE:
            return self._printed(own, "at least", value)
        if value < CLOSE:
            return self._say("{name} can be as good as none: nothing that is known sets a lower limit.", item, value)
        at = int(np.argmin(self._hard.low_at[:, item]))
        place = self._hard.places[at]
        floor = float(self._reach.low[self._reach.places.index(place), item])
        if value > floor + CLOSE:
            says = "All others together cannot make up more than {others:.4g} %, so {name} is at least {value:.4g} %."
            because = [one.why for one in self._kinds.values()] + [one.why for one in self._amounts.values()]
            return self._say(says, item, value, because=because)
        later = [
            one for one in self._known.ordered if abs(self._known.lower[one] - value) < CLOSE and one in self._amounts
        ]
        if later:
            says = "{name} stands before {other}, which is at least {value:.4g} %."
            return self._say(says, item, value, later[0], [self._kinds["order"].why, self._amounts[later[0]].why])
        says = "{name} stands above the one-percent line wherever that falls."
        return self._say(says, item, value, because=[one.why for one in self._kinds.values()])

    def _printed(self, own: Statement, side: str, value: float) -> str:
        says = "{side} {value:.4g} % is what is said of it."
        return self._ledger.add("calculated", says, {"side": side.capitalize(), "value": value * 100}, [own.why])

    def _below_the_line(self, item: int, value: float) -> str:
        """It is behind the line:

        because that was told, or because something before it has a ceiling below one per cent.
        """
        rank = self._rank[item]
        because = [self._kinds["order"].why]
        if "line" in self._kinds:
            says = "{name} stands behind the one-percent line."
            return self._say(says, item, value, because=[*because, self._kinds["line"].why])
        before = [one for one in self._known.ordered[: rank + 1] if self._known.upper[one] < self._known.line]
        if before:
            says = "{other} is below one per cent, so the line falls before it and {name} is at most {value:.4g} %."
            return self._say(says, item, value, before[0], [*because, self._amounts[before[0]].why])
        return self._say("{name} can only stand below the one-percent line.", item, value, because=because)

    def _shared(self, item: int, place: int, value: float) -> str:
        """The rest up to 100 %, alone or shared with those before it, which cannot be less."""
        rank = self._rank.get(item, -1)
        low = self._reach.low[self._reach.places.index(place)]
        level = [one for one in self._known.ordered[: max(rank, 0)] if rank < place and low[one] <= value + CLOSE]
        others = float(low.sum() - low[item] - sum(low[one] for one in level))
        because = [one.why for one in self._amounts.values() if one.low > 0]
        values = {"count": len(level), "others": others * 100}
        if not level:
            says = "The others hold at least {others:.4g} %, which leaves at most {value:.4g} % to {name}."
            return self._say(says, item, value, because=because, more=values)
        stands = "one stands" if len(level) == 1 else f"{len(level)} stand"
        says = f"{stands} before {{name}}, each at least as much: 100 %"
        says += " less {others:.4g} % that the rest holds" if others > CLOSE else ""
        says += f", divided by {len(level) + 1}."
        return self._say(
            says[0].upper() + says[1:], item, value, because=[self._kinds["order"].why, *because], more=values
        )

    def _say(
        self,
        says: str,
        item: int,
        value: float,
        other: int | None = None,
        because: Sequence[str] = (),
        more: dict[str, float] | None = None,
    ) -> str:
        values: dict[str, str | float | None] = {
            "name": self._items[item].name,
            "value": value * 100,
            "others": 100 - value * 100,
        }
        if other is not None:
            values["other"] = self._items[other].name
        values.update(more or {})
        rests_on = dict.fromkeys([self._items[item].why, *because])
        return self._ledger.add("calculated", says, values, rests_on)
