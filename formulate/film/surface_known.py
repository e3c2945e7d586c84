"""What the dataset knows of microscopes, of the states of silica sols, and of water on film formers."""

from __future__ import annotations

from typing import Literal

from formulate.catalog.records import PropertyRecord
from formulate.catalog.store import Catalog
from formulate.film.colloid import Region
from formulate.film.instrument import Afm, Sem
from formulate.film.wetting import Angle

SCATTER = 4.0
"""Degrees by which careful laboratories differ on one film; common practice, no source."""


def afm(catalog: Catalog, roughness_nm: float, tip_nm: float | None = None) -> Afm:
    """The usual scanning tip over a surface of a roughness (root mean square), or one of a given radius. [nm]"""
    usual = _usual(catalog, "afm")
    return Afm(
        usual["tip"] if tip_nm is None else tip_nm, roughness_nm, usual["hill"], usual["noise"], int(usual["pixels"])
    )


def sem(catalog: Catalog) -> Sem:
    """The usual electron microscope."""
    usual = _usual(catalog, "sem")
    return Sem(usual["beam"], usual["metal"], usual["noise"], int(usual["pixels"]))


def sol_map(catalog: Catalog) -> tuple[Region, ...]:
    """The map of silica sols, in the order in which it is looked through."""
    return tuple(
        Region(
            row["surface"],
            (row["ph_low"], row["ph_high"]),
            (row["salt_low"], row["salt_high"]),
            (row["sure_ph_low"], row["sure_ph_high"]),
            (row["sure_salt_low"], row["sure_salt_high"]),
            row["state"],
            row["because"],
            row["source"],
            row["at"],
        )
        for row in catalog.records("sol_states", "surface", "plain", "aluminate")
    )


def water_angle(catalog: Catalog, ingredient: str) -> tuple[Angle, tuple[PropertyRecord, ...]] | None:
    """Published contact angle of water on a smooth film of an ingredient, widened by the scatter of laboratories.

    :returns: the range and the values it rests on; None where no angle of a smooth film is known.
    """
    values = tuple(
        record
        for record in catalog.properties(ingredient, "contact_angle_water")
        if "rough" not in record.conditions and record.value is not None
    )
    if not values:
        return None
    angles = sorted(float(record.value or 0) for record in values)
    middle = angles[len(angles) // 2]
    return Angle(max(0.0, angles[0] - SCATTER), middle, min(180.0, angles[-1] + SCATTER)), values


def _usual(catalog: Catalog, instrument: Literal["afm", "sem"]) -> dict[str, float]:
    return {row["quantity"]: row["typical"] for row in catalog.records("instruments", "instrument", instrument)}
