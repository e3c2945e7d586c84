"""From the lines of a list and the law it is under to statements about amounts."""

from __future__ import annotations

from collections.abc import Sequence

from formulate.amounts.frame import Frame, envelope
from formulate.amounts.item import Item
from formulate.amounts.statements import Statement
from formulate.amounts.volume import by_mass
from formulate.catalog.amounts import DisclosureRule
from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog
from formulate.domain.reason import Ledger
from formulate.errors import UsageError

FREE_OF_ORDER = "colorant"
"""Class that the laws of cosmetic labels let stand last in any order."""
REST_WORDS = ("balance", "remainder", "to 100", "ad 100", "q.s", "qs ", "quantum satis", "add 100", "rest")


def gather(
    items: Sequence[Item],
    rule: DisclosureRule,
    rule_why: str,
    stated: Sequence[str | None],
    one_percent_after: str | int | None,
    catalog: Catalog,
    ledger: Ledger,
) -> list[Statement]:
    """Statements in the order in which a person would make them: amounts, then the law, then where the line falls.

    ``stated`` holds the reason of each printed amount; ``one_percent_after`` a name, or the index of an item. Raises
    UsageError (``unknown-ingredient``) if the line is told to fall after a name that is not in the list.
    """
    in_water = any(item.classes[-1] == "water" for item in items)
    printed = (
        _amount(index, item, why, in_water, catalog, ledger)
        for index, (item, why) in enumerate(zip(items, stated, strict=True))
    )
    statements = [one for one in printed if one is not None]
    if rule.rule == "eu-detergent":
        statements = [_of_its_class(one, items) for one in statements]
    order = tuple(index for index, item in enumerate(items) if FREE_OF_ORDER not in item.classes)
    if rule.ordered and order:
        says = f"{rule.title}: what stands earlier is not less than what stands later, above {rule.line * 100:g} %"
        statements.append(Statement("order", says, rule_why, order, rule.line))
    filler = next((item for item in items if takes_the_rest(item)), None)
    if rule.complete:
        statements.append(Statement("complete", f"{rule.title}: everything in the bottle is listed", rule_why))
    elif filler is not None:
        says = f"{filler.name} takes the rest up to 100 %"
        why = ledger.add(
            "calculated", "{name} is printed as what makes up the rest.", {"name": filler.name}, [filler.why]
        )
        statements.append(Statement("complete", says, why))
    if one_percent_after is not None:
        index = one_percent_after if isinstance(one_percent_after, int) else named(items, one_percent_after)
        why = ledger.add(
            "pasted", "You said that the one-percent line falls after {name}.", {"name": items[index].name}
        )
        place = order.index(index) + 1 if index in order else len(order)
        line = rule.line or 0.01
        if not rule.ordered:
            statements.append(Statement("order", "the order holds above the line you named", why, order, line))
        statements.append(Statement("line", f"the one-percent line falls after {items[index].name}", why, place=place))
    return statements


def softly_ordered(items: Sequence[Item], known: Frame) -> Frame | None:
    """The same limits with the order of the list believed; None where they contradict it."""
    order = tuple(index for index, item in enumerate(items) if FREE_OF_ORDER not in item.classes)
    believed = known._replace(ordered=order, line=0.01)
    return believed if envelope(believed).fits.any() else None


def takes_the_rest(item: Item) -> bool:
    """Whether the text prints an item as what makes up the rest ('balance', 'q.s. to 100 %')."""
    stated = item.line.stated
    words = stated.text.lower() if stated is not None and stated.low is None and stated.high is None else ""
    return any(word in words for word in REST_WORDS)


def _amount(
    index: int, item: Item, why: str | None, in_water: bool, catalog: Catalog, ledger: Ledger
) -> Statement | None:
    stated = item.line.stated
    if stated is None or why is None or (stated.low is None and stated.high is None):
        return None  # a share by volume bounds no mass before the densities are known
    printed = stated.in_per_cent(" to ")
    low = 0.0 if stated.low is None else stated.low
    high = 1.0 if stated.high is None else stated.high
    if stated.by_volume:
        return _from_volume(index, item, why, (min(low, 1.0), min(high, 1.0)), in_water, catalog, ledger)
    return Statement("amount", f"{item.name} {printed}", why, (index,), min(low, 1.0), min(high, 1.0))


def _of_its_class(one: Statement, items: Sequence[Item]) -> Statement:
    """The band before a class word bounds the sum of what the list names of that class (Regulation (EC) 648/2004)."""
    band = items[one.items[0]]
    if band.match.how != "class-only":
        return one
    named = [index for index, item in enumerate(items) if item.record is not None and band.match.class_ in item.classes]
    if not named:
        return one
    return one._replace(kind="sum", says=f"all {one.says}", items=(*one.items, *named))


def _from_volume(
    index: int,
    item: Item,
    why: str,
    volume: tuple[float, float],
    in_water: bool,
    catalog: Catalog,
    ledger: Ledger,
) -> Statement:
    """A printed share of the volume as limits of the mass."""
    density = (
        next((row.middle for row in catalog.properties(item.ingredient, "density") if row.middle), None)
        if item.ingredient
        else None
    )
    least, most = (by_mass(one, item.ingredient, density, in_water, catalog) for one in volume)
    says = "{printed} of {name} by volume is {low:.4g} to {high:.4g} % by mass of the mixture."
    if least.low == most.high:
        says = "{printed} of {name} by volume is {low:.4g} % by mass of the mixture."
    values: dict[str, str | float | None] = {
        "printed": item.line.stated.text if item.line.stated else "",
        "name": item.name,
        "low": least.low * 100,
        "high": most.high * 100,
    }
    cited = [one for one in (least.citation,) if one is not None]
    reason = ledger.add("calculated" if not cited else "looked-up", says, values, [why, item.why], cited)
    sentence = f"{item.name} {values['printed']}, which is {least.low * 100:.4g} to {most.high * 100:.4g} % by mass"
    return Statement("amount", sentence, reason, (index,), least.low, most.high)


def named(items: Sequence[Item], wanted: str) -> int:
    """The item of a name, as printed, as shown or by its id. Raises UsageError."""
    key = name_key(wanted)
    for index, item in enumerate(items):
        if key in {name_key(item.name), name_key(item.line.name), name_key(item.ingredient or "")}:
            return index
    raise UsageError(
        f'"{wanted}" is not in the list.',
        "the name you gave",
        "an amount can only be said of something that is listed.",
        "write it as it stands in the list: " + ", ".join(item.line.name for item in items[:6]) + ".",
        "unknown-ingredient",
    )
