"""What share of each ingredient counts towards solids, silica, film, water, volatile organics and density.

Every share is a range: nought and one where nothing is known. What the table ``counts_as`` says of an ingredient or of
its nearest class goes first; then its structure; then whether it leaves, and its boiling point.
"""

from __future__ import annotations

from typing import NamedTuple

from formulate.amounts.item import Item
from formulate.catalog.amounts import CountsAs, counts_as, remains_at, supply_forms
from formulate.catalog.store import Catalog
from formulate.domain.place import Citation
from formulate.domain.reason import Ledger

DRYINGS = ("nonvolatile_110c", "nonvolatile_one_day")
TOTALS: tuple[str, ...] = (
    *DRYINGS,
    "silica",
    "silica_forming",
    "silicon_as_sio2",
    "film_formers",
    "water",
    "voc_eu",
    "voc_us",
    "density_g_per_ml",
)
SILICA_MOLAR_MASS = 60.0843
"""SiO2, g/mol (IUPAC conventional atomic weights, computed)."""
ALKOXY_MASS = {"methoxy": 31.034, "ethoxy": 45.061}
"""Mass of an alkoxy group, g/mol (computed). Each that leaves makes half a bridge of oxygen."""
HALF_OXYGEN = 7.9995
DILUTE = 0.98
"""Solids below which a supply form counts as diluted."""
EU_VOC_C = 250.0
"""Boiling point up to which an organic compound is a VOC: Directive 2004/42/EC, Article 2(5), at 101.3 kPa."""
US_LOW_VAPOUR_C = 216.0
"""Boiling point above which a compound of a consumer product is left out: 40 CFR 59.203(f)."""


class Share(NamedTuple):
    """Part of the mass that counts, between ``low`` and ``high``, with its reason."""

    low: float
    high: float
    why: str

    def times(self, other: Share) -> Share:
        """The product of two shares; the reason of the first stands."""
        return Share(self.low * other.low, self.high * other.high, self.why)


def active_share(item: Item, as_active: bool, catalog: Catalog, ledger: Ledger) -> Share:
    """How much of a printed amount is the ingredient itself: one, or the solids of a supply form, or either.

    ``as_active`` says that the law of the list counts the ingredient itself, not the raw material.
    """
    stated = item.line.stated
    means = stated.means if stated is not None else "either"
    strength = stated.strength if stated is not None else None
    if strength is not None:
        says = "The list prints the strength of {name} as supplied: {low:.4g} to {high:.4g} %."
        values: dict[str, str | float] = {"name": item.name, "low": strength[0] * 100, "high": strength[1] * 100}
        return Share(strength[0], strength[1], ledger.add("calculated", says, values, [item.why]))
    forms = supply_forms(catalog, item.ingredient) if item.ingredient else []
    diluted = next((form for form in forms if form.high < DILUTE), None)
    if means == "active" or (as_active and means != "as-supplied") or diluted is None:
        says = "{name} is counted as itself, not as a solution or dispersion of it."
        return Share(1.0, 1.0, ledger.add("assumed", says, {"name": item.name}, because=[item.why]))
    values = {
        "name": item.name,
        "form": diluted.form,
        "low": diluted.low * 100,
        "high": diluted.high * 100,
    }
    sold = "{name} is usually sold as {form} with {low:.3g} to {high:.3g} % of it"
    if means == "as-supplied":
        why = ledger.add(
            "looked-up", sold + "; the list gives the raw material.", values, [item.why], [diluted.citation]
        )
        return Share(diluted.low, diluted.high, why)
    says = sold + "; the text does not say whether the amount means that or the ingredient itself, so both are kept."
    return Share(diluted.low, 1.0, ledger.add("looked-up", says, values, [item.why], [diluted.citation]))


class Shares:
    """Shares of one list of items, each worked out once."""

    def __init__(self, catalog: Catalog, ledger: Ledger) -> None:
        self._catalog = catalog
        self._ledger = ledger

    def of(self, item: Item, total: str) -> Share:
        """The share of the ingredient itself that counts towards a total;

        for a density, its specific volume in mL/g.
        """
        row = counts_as(self._catalog, total, item.ingredient, item.classes)
        if total == "density_g_per_ml":
            return self._volume(item, row)
        if total == "film_formers":
            left = self.of(item, "nonvolatile_one_day")
            return left.times(self._told(item, row, total)) if row else self._none(item, total)
        if row is not None:
            return self._bounded(item, total, row)
        if total in DRYINGS:
            return self._left(item, total)
        if total in {"voc_eu", "voc_us"}:
            return self._volatile(item, total)
        if total == "silicon_as_sio2" and item.structure("silicon"):
            return self._silicon(item)
        return self._none(item, total)

    def _told(self, item: Item, row: CountsAs, total: str) -> Share:
        values: dict[str, str | float] = {
            "name": item.name,
            "of": row.of,
            "low": row.low * 100,
            "high": row.high * 100,
            "total": total.replace("_", " "),
            "note": f" ({row.note})" if row.note else "",
        }
        says = "Of {name}, {low:.3g} to {high:.3g} % counts as {total}, as for {of}{note}."
        if row.low == row.high:
            says = "Of {name}, {low:.3g} % counts as {total}, as for {of}{note}."
        return Share(row.low, row.high, self._looked_up(says, values, item, row.citation))

    def _bounded(self, item: Item, total: str, row: CountsAs) -> Share:
        """What the table says, cut to what the structure of an alkoxysilane can leave."""
        told = self._told(item, row, total)
        silicon, mass = item.structure("silicon"), item.structure("molar_mass")
        if not silicon or not mass or "silane" not in item.classes:
            return told
        oxide = SILICA_MOLAR_MASS * silicon / mass
        most = oxide if total.startswith("silic") else self._cured(item, mass)
        if most is None or most >= told.high:
            return told
        values: dict[str, str | float] = {"name": item.name, "most": most * 100, "total": total.replace("_", " ")}
        says = "By its formula {name} leaves at most {most:.3g} % of its mass as {total}."
        return Share(min(told.low, most), most, self._ledger.add("calculated", says, values, [told.why]))

    @staticmethod
    def _cured(item: Item, mass: float) -> float | None:
        """Share left when every alkoxy group has become half a bridge of oxygen; None where there is none."""
        groups, methoxy = item.structure("alkoxy_on_si") or 0.0, item.structure("methoxy_on_si") or 0.0
        if not groups:
            return None
        leaving = methoxy * ALKOXY_MASS["methoxy"] + (groups - methoxy) * ALKOXY_MASS["ethoxy"]
        return float((mass - leaving + groups * HALF_OXYGEN) / mass)

    def _silicon(self, item: Item) -> Share:
        silicon, mass = item.structure("silicon") or 0.0, item.structure("molar_mass")
        if mass is None:
            return self._open(item, "silicon as SiO2")
        values: dict[str, str | float] = {"name": item.name, "share": 100 * SILICA_MOLAR_MASS * silicon / mass}
        says = "By its formula the silicon of {name} weighs {share:.3g} % of it when it is counted as SiO2."
        why = self._ledger.add("calculated", says, values, [item.why])
        return Share(0.0, float(values["share"]) / 100, why)

    def _left(self, item: Item, total: str) -> Share:
        """What is left after drying: by fate, and by boiling point where it leaves or depends."""
        boiling = self._property(item, "boiling_point")
        fate = item.roles.fate
        if fate in {"leaves", "depends"} and boiling is not None:
            row = remains_at(self._catalog, total, boiling[0])
            return self._told(item, row, total)
        low, high = {"leaves": (0.0, 0.0), "stays": (1.0, 1.0), "reacts": (0.2, 1.0)}.get(fate or "", (0.0, 1.0))
        words = {"leaves": "leaves", "stays": "stays", "reacts": "reacts to something that stays"}.get(
            fate or "", "leaves or stays: not known"
        )
        values: dict[str, str | float] = {"name": item.name, "fate": words, "total": total.replace("_", " ")}
        return Share(low, high, self._ledger.add("calculated", "{name} {fate}.", values, [item.why]))

    def _volatile(self, item: Item, total: str) -> Share:
        """Whether it is a volatile organic compound by the definition of a law."""
        if item.is_without_carbon:
            says = "{name} holds no carbon, so it is no organic compound."
            return Share(0.0, 0.0, self._ledger.add("calculated", says, {"name": item.name}, [item.why]))
        boiling = self._property(item, "boiling_point")
        fate = item.roles.fate
        limit = EU_VOC_C if total == "voc_eu" else US_LOW_VAPOUR_C
        if boiling is not None:
            above = boiling[0] > limit
            low, high = (0.0, 0.0) if above and total == "voc_eu" else (0.0, 1.0) if above else (1.0, 1.0)
            values: dict[str, str | float] = {
                "name": item.name,
                "boiling": boiling[0],
                "limit": limit,
                "side": "above" if above else "not above",
            }
            says = "{name} boils at {boiling:g} C, {side} the {limit:g} C of the definition."
            return Share(low, high, self._looked_up(says, values, item, boiling[1]))
        low, high = {"leaves": (1.0, 1.0), "stays": (0.0, 0.0)}.get(fate or "", (0.0, 1.0))
        says = "Without a boiling point {name} is counted by whether it leaves."
        return Share(low, high, self._ledger.add("assumed", says, {"name": item.name}, [item.why]))

    def _volume(self, item: Item, row: CountsAs | None) -> Share:
        """Specific volume, mL/g: from its own density, else from that of its class."""
        own = self._property(item, "density")
        if own is not None:
            says = "{name} has a density of {density:g} g/mL."
            why = self._looked_up(says, {"name": item.name, "density": own[0]}, item, own[1])
            return Share(1 / own[0], 1 / own[0], why)
        low, high = (row.low, row.high) if row is not None else (0.6, 4.0)
        values: dict[str, str | float] = {
            "name": item.name,
            "of": row.of if row else "anything here",
            "low": low,
            "high": high,
        }
        says = "No density of {name} is known; {of} lies between {low:g} and {high:g} g/mL."
        cited = [row.citation] if row is not None else []
        why = self._ledger.add("looked-up" if cited else "assumed", says, values, [item.why], cited)
        return Share(1 / high, 1 / low, why)

    def _none(self, item: Item, total: str) -> Share:
        if not item.is_known:
            return self._open(item, total.replace("_", " "))
        values: dict[str, str | float] = {"name": item.name, "total": total.replace("_", " ")}
        return Share(0.0, 0.0, self._ledger.add("calculated", "{name} does not count as {total}.", values, [item.why]))

    def _open(self, item: Item, total: str) -> Share:
        says = "Whether {name} counts as {total} is not known: both none and all of it are kept."
        return Share(0.0, 1.0, self._ledger.add("assumed", says, {"name": item.name, "total": total}, [item.why]))

    def _property(self, item: Item, name: str) -> tuple[float, Citation] | None:
        if item.ingredient is None:
            return None
        for row in self._catalog.properties(item.ingredient, name):
            if row.middle is not None:
                return row.middle, row.citation
        return None

    def _looked_up(self, says: str, values: dict[str, str | float], item: Item, citation: Citation) -> str:
        return self._ledger.add("looked-up", says, values, [item.why], [citation])
