"""The liquid: the empirical map of silica, Debye length, salt limit, settling."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.catalog.store import open_catalog
from formulate.film.colloid import barrier_kt, debye_length_nm, salt_limit_mol_per_l, settling, sol_state
from formulate.film.refusals import SurfaceError
from formulate.film.surface_known import sol_map

MAP = sol_map(open_catalog())


@pytest.mark.parametrize(
    ("ph", "salt", "state"),
    [
        pytest.param(2.0, 0.01, "metastable", id="Iler-1979-metastable-near-pH-2-from-memory"),
        pytest.param(5.5, 0.01, "gels fast", id="Iler-1979-fastest-at-5-to-6-from-memory"),
        pytest.param(5.8, 0.1, "gels fast", id="Knoblich-Gerber-2001-shortest-gel-time-at-5.8-abstract-seen"),
        pytest.param(9.0, 0.01, "stable", id="Iler-1979-stable-above-7-at-low-salt-from-memory"),
        pytest.param(9.0, 0.5, "aggregates", id="Iler-1979-above-0.3-mol/L-from-memory"),
        pytest.param(8.0, 1.0, "aggregates", id="Depasse-Watillon-1970-alkali-coagulates-pH-7-to-11-abstract-seen"),
        pytest.param(11.5, 0.01, "dissolves", id="Iler-1979-dissolves-above-10.7-from-memory"),
    ],
)
def test_map_of_silica(ph, salt, state):
    found = sol_state(ph, salt, MAP)
    assert found.state == state
    assert found.sure
    assert found.because


def test_borders_are_not_sure():
    assert not sol_state(7.1, 0.01, MAP).sure
    assert not sol_state(9, 0.25, MAP).sure
    assert not sol_state(0.5, 0.01, MAP).sure


def test_modified_sols():
    assert sol_state(5.5, 0.01, MAP, "aluminate").state == "stable"
    assert sol_state(5.5, 0.01, MAP, "cationic").state == "cannot be said"


@given(st.floats(-1, 15), st.floats(0, 5))
def test_the_map_has_no_holes(ph, salt):
    for surface in ("plain", "aluminate"):
        assert sol_state(ph, salt, MAP, surface).state != "cannot be said"


@pytest.mark.parametrize(
    ("strength", "length"),
    [
        pytest.param(0.01, 3.038, id="casebook-debye-0.01"),
        pytest.param(0.1, 0.304 / math.sqrt(0.1), id="0.304/sqrt(I)-nm-Israelachvili-2011-from-memory"),
        pytest.param(1e-3, 9.61, id="0.304/sqrt(0.001)-nm"),
    ],
)
def test_debye_length(strength, length):
    assert debye_length_nm(strength) == pytest.approx(length, rel=0.002)


def test_scale_height_of_a_small_sol():
    """kT/(dm g) of 20 nm silica: 84 mm (issue's figure), so it stands in a bottle of 15 cm without settling."""
    sol = settling(20, 2.2)
    assert sol.scale_height_mm == pytest.approx(84, abs=1)
    assert not sol.settles


def test_aggregates_and_droplets_do_settle():
    """Stokes 1851: silica of 1 um falls 63 mm a day in water; droplets lighter than water rise."""
    heavy = settling(1000, 2.2)
    assert heavy.settles
    assert heavy.fall_mm_per_day == pytest.approx(1200 * 9.80665 * 1e-12 / (18 * 0.89e-3) * 86400e3, rel=1e-6)
    droplet = settling(300, 0.97)
    assert droplet.fall_mm_per_day < 0
    assert droplet.settles


@given(st.floats(1, 5000), st.floats(0.7, 4))
def test_scale_height_goes_with_the_third_power(diameter, density):
    if abs(density - 1) < 0.01:
        return
    one, two = settling(diameter, density), settling(2 * diameter, density)
    assert one.scale_height_mm == pytest.approx(8 * two.scale_height_mm, rel=1e-9)
    assert abs(two.fall_mm_per_day) == pytest.approx(4 * abs(one.fall_mm_per_day), rel=1e-9)


def test_equal_densities_never_settle():
    still = settling(1000, 1.0)
    assert math.isinf(still.scale_height_mm)
    assert not still.settles


@given(st.floats(50, 200), st.floats(25, 90), st.floats(0.01, 0.5))
def test_salt_lowers_and_charge_raises_the_barrier(diameter, potential, salt):
    here = barrier_kt(diameter, potential, salt)
    assert barrier_kt(diameter, potential, 2 * salt) <= here + 1e-9
    assert barrier_kt(diameter, potential + 5, salt) >= here
    assert barrier_kt(diameter, 0, salt) == 0


def test_salt_limit_is_where_the_barrier_is_fifteen():
    limit = salt_limit_mol_per_l(70, 30)
    assert barrier_kt(70, 30, limit) == pytest.approx(15, rel=0.02)
    assert 0.01 < limit < 0.3
    assert salt_limit_mol_per_l(10, 10) is None


@pytest.mark.parametrize(
    "call",
    [
        lambda: sol_state(20, 0.1, MAP),
        lambda: sol_state(7, -0.1, MAP),
        lambda: sol_state(float("nan"), 0.1, MAP),
        lambda: debye_length_nm(0),
        lambda: barrier_kt(-1, 30, 0.1),
        lambda: barrier_kt(20, 500, 0.1),
        lambda: settling(0, 2.2),
        lambda: settling(20, 2.2, viscosity_mpa_s=0),
    ],
)
def test_refusals(call):
    with pytest.raises(SurfaceError):
        call()
