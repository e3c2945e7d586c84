"""The forward figures of ``coverage``: every one a range of the draws, with the reasons it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from formulate.domain.interval import Range
from formulate.domain.reason import Ledger
from formulate.film.apply import Array
from formulate.film.deposit import volume_solids
from formulate.film.forward import Film, solid_silica_nm
from formulate.film.layers import CONVENTIONS, HEXAGONAL, full_layer_mass, overlapped, side_by_side
from formulate.workflow.film import Laid
from formulate.workflow.film_answers import DepositSaid, FullLayerSaid, PartDeposit, SizeSaid

LEVEL = 0.9
GOES_ON = ("silica", "wet", "kept", "dilution", "application")
"""Reasons that every deposit rests on, as far as they are there."""


class Figures:
    """Makes ranges with reasons and remembers which pointer each stands under."""

    def __init__(self, ledger: Ledger, whys: Mapping[str, str]) -> None:
        self.ledger = ledger
        self.whys = whys
        self.why: dict[str, str] = {}

    def of(self, pointer: str, values: Array, unit: str, says: str, *because: str) -> Range:
        """The range of draws that holds nine in ten, with its median and the reasons named."""
        low, best, high = sorted(float(one) for one in np.quantile(values, [(1 - LEVEL) / 2, 0.5, (1 + LEVEL) / 2]))
        return self.said(pointer, (low, best, high), LEVEL, unit, says, *because)

    def said(
        self, pointer: str, values: tuple[float, float, float], level: float, unit: str, says: str, *because: str
    ) -> Range:
        """A range that was worked out elsewhere."""
        rests = [self.whys[name] for name in because if name in self.whys]
        kind = "calculated" if rests else "assumed"
        why = self.ledger.add(kind, "{says}", {"says": says}, rests)  # type: ignore[arg-type]
        self.why[pointer] = why
        low, best, high = values
        return Range.model_construct(low=low, best=best, high=high, level=level, unit=unit, why=why)


def forward_figures(laid: Laid, film: Film, figures: Figures) -> dict[str, object]:
    """The forward figures by the name of their field."""
    area = laid.asked.area_um2
    microscope = ("size", "smallest", "surface", "film", "microscope")
    return {
        "size": _size(laid, film, figures),
        "deposit": _deposit(laid, film, figures),
        "particles_per_um2": figures.of(
            "/particles_per_um2",
            film.particles,
            "1/um2",
            "The silica left over the mass of the mean particle: N = m / (density pi/6 <d^3>).",
            *GOES_ON,
            "size",
        ),
        "seen_per_um2": figures.of(
            "/seen_per_um2",
            film.seen,
            "1/um2",
            "Particles that stand out of the film by the smallest height seen; images that touch count as one.",
            *GOES_ON,
            *microscope,
        ),
        "per_field": figures.of(
            "/per_field",
            film.particles * area,
            "1",
            f"Particles per um2 times a field of {area:g} um2: what is there on average, before chance.",
            *GOES_ON,
            "size",
            "microscope",
        ),
        "seen_per_field": figures.of(
            "/seen_per_field",
            film.counted_per_field,
            "1",
            "What a count of one field would give on average: seen, recognised, and the background of a blank.",
            *GOES_ON,
            *microscope,
        ),
        "covered_fraction": figures.of(
            "/covered_fraction",
            side_by_side(film.shadow),
            "1",
            "Area of the particles seen from above, 3 m / (2 density d32), side by side; at most the closest layer.",
            *GOES_ON,
            "size",
        ),
        "covered_if_overlapping": figures.of(
            "/covered_if_overlapping",
            overlapped(film.shadow),
            "1",
            "The same if particles fall one on another at random: 1 - exp(-area).",
            *GOES_ON,
            "size",
        ),
        "visible_height_nm": figures.of(
            "/visible_height_nm",
            film.height_nm,
            "nm",
            "Diameter less the level of the film between the particles: d - film / (1 - covered), at least nought.",
            *GOES_ON,
            "size",
            "film",
        ),
        "smallest_visible_nm": figures.of(
            "/smallest_visible_nm", film.smallest_nm, "nm", "The smallest height that is seen.", "smallest", "surface"
        ),
        "unseen_mass_share": figures.of(
            "/unseen_mass_share",
            film.unseen_mass,
            "1",
            "Share of the silica in particles that do not show.",
            *GOES_ON,
            *microscope,
        ),
        "full_layer": _full_layer(laid, film, figures),
    }


def _deposit(laid: Laid, film: Film, figures: Figures) -> DepositSaid:
    mixture = laid.mixture
    assert mixture is not None
    parts, at = film.parts, "/deposit"
    soft = (*GOES_ON, "film")

    def one(field: str, values: Array, unit: str, says: str, *because: str) -> Range:
        return figures.of(f"{at}/{field}", values, unit, says, *because)

    known, stays = laid.film_known, laid.stay_known
    silica_nm = solid_silica_nm(film)
    dry = silica_nm + film.soft_nm
    wet_um = film.wet * laid.asked.passes / mixture.density * 1e3
    volume = volume_solids(mixture)
    return DepositSaid.model_construct(
        silica_mg_per_m2=one(
            "silica_mg_per_m2", film.silica_g * 1e3, "mg/m2", "Wet mass times silica times the fraction kept.", *GOES_ON
        ),
        film_mg_per_m2=one(
            "film_mg_per_m2",
            parts.film.sum(axis=1) * 1e3,
            "mg/m2",
            "Wet mass times film formers times the fraction kept of each.",
            *soft,
        )
        if known
        else None,
        film_nm=one("film_nm", parts.film_nm.sum(axis=1), "nm", "Mass of the film formers over their density.", *soft)
        if known
        else None,
        rest_mg_per_m2=one(
            "rest_mg_per_m2",
            parts.rest.sum(axis=1) * 1e3,
            "mg/m2",
            "What else stays for a day: neither silica nor film former.",
            *soft,
        )
        if stays
        else None,
        rest_nm=one("rest_nm", parts.rest_nm.sum(axis=1), "nm", "Its mass over its density.", *soft) if stays else None,
        solid_silica_nm=one("solid_silica_nm", silica_nm, "nm", "The silica as one solid layer.", *GOES_ON),
        dry_nm=one("dry_nm", dry, "nm", "All that stays, by volume.", *soft) if known else None,
        volume_solids=one(
            "volume_solids", volume, "1", "Volume of what stays over volume of the liquid, before wiping.", *soft
        )
        if known
        else None,
        wet_g_per_m2=one("wet_g_per_m2", film.wet * laid.asked.passes, "g/m2", "All coats together.", "wet"),
        kept={
            kind: one(f"kept/{kind}", values, "1", f"Fraction of the {kind} left after wiping.", "kept")
            for kind, values in film.kept.items()
        },
        spreading_rate_m2_per_l=one(
            "spreading_rate_m2_per_l", 1000 / wet_um, "m2/L", "1000 over the wet film in um.", "wet"
        ),
        parts=tuple(_part(laid, film, index, figures) for index in range(len(mixture.names))),
    )


def _part(laid: Laid, film: Film, index: int, figures: Figures) -> PartDeposit:
    mixture, parts, at = laid.mixture, film.parts, f"/deposit/parts/{index}"
    assert mixture is not None
    mass = (parts.silica[:, index] + parts.film[:, index] + parts.rest[:, index]) * 1e3
    thick = parts.silica_nm[:, index] + parts.film_nm[:, index] + parts.rest_nm[:, index]
    says = f"What {mixture.names[index]} leaves."
    return PartDeposit.model_construct(
        name=mixture.names[index],
        kind=mixture.kinds[index],
        mg_per_m2=figures.of(f"{at}/mg_per_m2", mass, "mg/m2", says, *GOES_ON, "film"),
        nm=figures.of(f"{at}/nm", thick, "nm", says, *GOES_ON, "film"),
    )


def _full_layer(laid: Laid, film: Film, figures: Figures) -> FullLayerSaid:
    dose = film.wet * laid.asked.passes * film.kept["particles"]  # g/m2 of product whose particles stay
    told: dict[str, Any] = {}
    for layer in CONVENTIONS:
        mass = full_layer_mass(layer, film.sizes) * 1e6
        says = f"A convention of a full layer, {layer.says}: covers {layer.covers:.4g}."
        at = f"/full_layer/{layer.name}"
        told[f"{layer.name}_mg_per_m2"] = figures.of(f"{at}_mg_per_m2", mass, "mg/m2", says, "size")
        needs = f"Silica in the liquid that a layer would need: {layer.says}."
        told[f"{layer.name}_silica"] = figures.of(
            f"{at}_silica", mass / 1e3 / dose, "mass fraction", needs, "size", "wet", "kept"
        )
        told[f"{layer.name}_covers"] = float(layer.covers)
        figures.why[f"{at}_covers"] = figures.why[f"{at}_mg_per_m2"]
    says = "The area of all particles over that of the closest layer."
    told["layers"] = figures.of("/full_layer/layers", film.shadow / HEXAGONAL, "1", says, *GOES_ON, "size")
    return FullLayerSaid.model_construct(None, **told)


def _size(laid: Laid, film: Film, figures: Figures) -> SizeSaid:
    says = figures.ledger[laid.whys["size"]].says
    figures.why["/size"] = laid.whys["size"]
    return SizeSaid.model_construct(
        assumed=laid.size_assumed,
        says=says,
        median_nm=figures.of("/size/median_nm", film.sizes.median * 1e9, "nm", "Median by number.", "size"),
        d32_nm=figures.of("/size/d32_nm", film.sizes.surface_mean * 1e9, "nm", "Volume over surface.", "size"),
    )
