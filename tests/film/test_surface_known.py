"""What the dataset knows of microscopes, sols and water on films."""

from __future__ import annotations

import pytest

from formulate.catalog.store import open_catalog
from formulate.film.surface_known import afm, sem, sol_map, water_angle


def test_usual_instruments():
    tip = afm(open_catalog(), 1.0)
    assert tip.tip_nm == 10  # the default of the command
    assert tip.roughness_nm == 1
    assert afm(open_catalog(), 1.0, 25).tip_nm == 25
    assert sem(open_catalog()).metal_nm > 0


def test_every_region_names_its_source():
    regions = sol_map(open_catalog())
    assert len(regions) >= 12
    assert all(open_catalog().source(region.source) for region in regions)


def test_published_angle_of_silicone():
    """107.2 degrees on a smooth film (polymer-wetting-table, entry 19)."""
    angle, values = water_angle(open_catalog(), "pdms")
    assert angle.low < 107.2 < angle.high
    assert angle.best == 107.2
    assert values


@pytest.mark.parametrize("ingredient", ["silica-hydrophobic", "water"])
def test_rough_films_and_unknown_ones_give_no_smooth_angle(ingredient):
    assert water_angle(open_catalog(), ingredient) is None
