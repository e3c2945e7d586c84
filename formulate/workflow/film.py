"""The nodes of the film: what is left on the surface, and what a count of it implies."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

import formulate.workflow.graph as graph
from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.product import Product
from formulate.domain.reason import Ledger, Reason
from formulate.errors import UsageError
from formulate.film.apply import Array, Spread
from formulate.film.asked import OPTIONS, Asked, asked
from formulate.film.burial import TIMES_ROUGHNESS
from formulate.film.counts import Counted, areal_density
from formulate.film.deposit import Mixture, plain_mixture
from formulate.film.forward import DRAWS, Film, Microscope, Setting, lay_down
from formulate.film.implied import Posterior, posterior
from formulate.film.known import Surface, application, application_for, application_names, families, surface
from formulate.film.particles import SILICA_DENSITY
from formulate.workflow.amounts import Hard, Plausible
from formulate.workflow.film_mixture import mixture_of, silica_lines, size_in_names

COUNTING_DRAWS = 40_000
"""Draws that a count is weighed on: few of them agree with it."""
FILM_FORMER_DENSITY = 0.97
"""g/mL of a film former of which nothing but its amount is said: a silicone fluid."""
Values = dict[str, str | float | None]
_DILUTION = re.compile(r"\s*(\d{1,5}(?:[.,]\d{1,3})?)\s*[:/]\s*(\d{1,6}(?:[.,]\d{1,3})?)\s*")


class Laid(NamedTuple):
    """What was laid down, how, and why; ``film`` is None where nothing is known of the composition."""

    asked: Asked
    setting: Setting | None
    surface: Surface
    mixture: Mixture | None
    bottle: Array | None
    film: Film | None
    whys: Mapping[str, str]
    seed: int
    silica_listed: bool
    size_assumed: bool
    film_known: bool
    stay_known: bool

    def __repr__(self) -> str:
        """Content in short, for the digest of the node."""
        content = self.film.particles.tobytes() + self.film.soft_nm.tobytes() if self.film is not None else b""
        setting = (self.asked, self.surface, self.setting._replace(application=None) if self.setting else None)  # type: ignore[arg-type]
        return f"Laid({hashlib.sha256(content).hexdigest()}, {setting!r}, {sorted(self.whys.items())!r})"


class Implied(NamedTuple):
    """The count, the draws that it is weighed on, and their weights."""

    counted: Counted | None
    laid: Laid
    found: Posterior | None

    def __repr__(self) -> str:
        """Content in short, for the digest of the node."""
        effective = self.found.effective if self.found is not None else 0.0
        return f"Implied({self.counted!r}, {self.laid!r}, {effective!r})"


def deposit_node(inputs: graph.Inputs, done: Mapping[str, graph.Output]) -> tuple[Laid, Mapping[str, Reason]]:
    """What is left on the surface."""
    ledger = Ledger({**done["draws"].reasons, **done["product"].reasons})
    return laid(inputs, done, ledger, DRAWS), ledger


def implied_node(inputs: graph.Inputs, done: Mapping[str, graph.Output]) -> tuple[Implied, Mapping[str, Reason]]:
    """What the count implies, weighed on more draws of the same."""
    forward: Laid = done["deposit"].value
    ledger = Ledger(done["deposit"].reasons)
    what = forward.asked
    if not what.counted:
        return Implied(None, forward, None), ledger
    counted = areal_density(what.counted, what.area_um2, what.recognised, what.background)
    if forward.film is None:
        return Implied(counted, forward, None), ledger
    more = laid(inputs, done, ledger, COUNTING_DRAWS)
    assert more.film is not None
    return Implied(counted, more, posterior(more.film, counted)), ledger


def laid(inputs: graph.Inputs, done: Mapping[str, graph.Output], ledger: Ledger, draws: int) -> Laid:
    """Lay the product down in this many draws."""
    catalog = open_catalog()
    what = asked({name: inputs.options.get(name) for name in OPTIONS})
    product: Product = done["product"].value
    hard: Hard = done["hard"].value
    plausible: Plausible = done["draws"].value
    base = plausible.draws.seed if plausible.draws is not None else 0
    seed = inputs.seed if inputs.seed is not None else _seed(inputs.text, base)
    whys: dict[str, str] = {}
    on = surface(catalog, product.substrate.value if product.substrate is not None else None, ledger)
    whys["surface"] = on.why
    dilution = _dilution(product, ledger, whys)
    known = hard.certain
    mixture: Mixture | None = None
    bottle: Array | None = None
    listed = False
    if plausible.draws is not None and known.items:
        listed = any(silica_lines(known))
        mixture, bottle = mixture_of(known, plausible.draws, draws, seed, dilution, what.silica)
        whys["silica"] = known.why_totals["silica"]
        whys["film"] = ledger.add(
            "calculated",
            "What stays of each line as a film, and what stays besides, is drawn with the composition.",
            {},
            [known.why_totals["film_formers"], known.why_totals["nonvolatile_one_day"], plausible.why],
        )
    elif what.silica is not None:
        bottle = np.full(draws, what.silica)
        former = None if what.film_former is None else [what.film_former * dilution]
        mixture = plain_mixture(bottle * dilution, former, FILM_FORMER_DENSITY, SILICA_DENSITY / 1e3)
    if what.silica is not None:
        says = "You say that silica is {value:.4g} % of the product."
        whys["silica"] = ledger.add("measured", says, {"value": what.silica * 100})
    if what.film_former is not None and not known.items:
        says = "You say that {value:.4g} % of the product is film former; a density of {density:g} g/mL is assumed."
        values: Values = {"value": what.film_former * 100, "density": FILM_FORMER_DENSITY}
        whys["film"] = ledger.add("measured", says, values)
    setting = _setting(inputs, what, hard, product, on, catalog, ledger, whys)
    film = lay_down(mixture, setting, seed) if mixture is not None else None
    return Laid(
        what,
        setting,
        on,
        mixture,
        bottle,
        film,
        whys,
        seed,
        listed or what.silica is not None,
        "size" in whys and setting.size is None,
        bool(known.items) or what.film_former is not None,
        bool(known.items),
    )


def _setting(
    inputs: graph.Inputs,
    what: Asked,
    hard: Hard,
    product: Product,
    on: Surface,
    catalog: Catalog,
    ledger: Ledger,
    whys: dict[str, str],
) -> Setting:
    """How it goes on and how it is looked at, every figure with its reason."""
    name = inputs.options.get("application") or application_for(catalog, product.form.value)
    if name not in application_names(catalog):
        raise UsageError(
            f'"{name[:40]}" is no way of putting a product on that the program knows.',
            "the option application",
            "wet mass and what is kept depend on it",
            f"one of {', '.join(application_names(catalog))}",
        )
    way = application(catalog, name, ledger)
    whys.update({"wet": way.whys["wet"], "kept": way.whys["kept"]})
    whys["application"] = ledger.add(
        "calculated", "It is taken to be {title}.", {"title": way.title}, [product.form.why]
    )
    if what.wet is not None:
        whys["wet"] = ledger.add("measured", "You say that {value:g} g/m2 go on wet.", {"value": what.wet})
    if what.kept is not None:
        whys["kept"] = ledger.add("measured", "You say that a fraction of {value:g} is kept.", {"value": what.kept})
    items = hard.certain.items
    silica = silica_lines(hard.certain) if items else []
    classes = [name for item, yes in zip(items, silica, strict=True) if yes for name in item.classes]
    found, whys["size"] = families(catalog, classes, ledger)
    size = what.size
    if size is not None:
        whys["size"] = ledger.add("measured", "You say that the particles have {size}.", {"size": size.words})
    elif (named := size_in_names(items, silica)) is not None:
        size, item = named
        says = "The name {name} tells a size; it is nominal, so {low:.3g} to {high:.3g} nm are taken."
        values: Values = {"name": item.name, "low": size.low, "high": size.high}
        whys["size"] = ledger.add("calculated", says, values, [item.why])
    smallest = Spread(*(value * TIMES_ROUGHNESS for value in on.roughness))
    says = "A bump is seen from {times:g} times the roughness of the surface on."
    whys["smallest"] = ledger.add("calculated", says, {"times": TIMES_ROUGHNESS}, [on.why])
    if what.smallest_nm is not None:
        says = "You say that {value:g} nm is the smallest height that is seen."
        smallest = Spread.exactly(max(what.smallest_nm, 1e-9))
        whys["smallest"] = ledger.add("measured", says, {"value": what.smallest_nm})
    says = (
        "One field has {area:.4g} um2; of the particles that show a share of {recognised:g} is counted, and "
        "{background:g} a field on a blank."
    )
    seen: Values = {"area": what.area_um2, "recognised": what.recognised, "background": what.background}
    whys["microscope"] = ledger.add("measured" if what.field_um else "assumed", says, seen)
    microscope = Microscope(what.area_um2, smallest, what.tip_nm, what.recognised, what.background)
    wet = Spread.exactly(what.wet) if what.wet is not None else None
    kept = Spread.exactly(what.kept) if what.kept is not None else way.figures["kept"]
    return Setting(way, wet, kept, what.passes, size, found, microscope)


def _dilution(product: Product, ledger: Ledger, whys: dict[str, str]) -> float:
    """Mass of the product over that of the liquid used: 1:20 is one part with twenty of water."""
    if not product.dilution:
        return 1.0
    match = _DILUTION.fullmatch(product.dilution)
    parts = [float(part.replace(",", ".")) for part in match.groups()] if match else []
    if not parts or parts[0] <= 0:
        raise UsageError(
            f'"{product.dilution[:40]}" is no dilution.', "the option dilution", "parts are needed", "write it as 1:20"
        )
    share = parts[0] / sum(parts)
    says = "It is diluted {text} at use: {share:.3g} % of the liquid is the product."
    whys["dilution"] = ledger.add("measured", says, {"text": product.dilution, "share": share * 100})
    return share


def _seed(text: str, base: int) -> int:
    """First 8 bytes of sha256 of the text and the node's name, and the seed of the draws behind it."""
    name = f"{text}deposit{base}"
    return int.from_bytes(hashlib.sha256(name.encode("utf-8", "surrogatepass")).digest()[:8], "big")
