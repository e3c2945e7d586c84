"""Published and computed values of the casebook, topics 6, 7, 7b and 8, the source in the name of each test."""

from __future__ import annotations

import numpy as np
import pytest

from formulate.catalog.store import open_catalog
from formulate.domain.reason import Ledger
from formulate.film.apply import Spread, wet_mass
from formulate.film.counts import areal_density, for_limit, poisson_limits
from formulate.film.deposit import areal_mass, spreading_rate, wet_thickness_um
from formulate.film.known import application
from formulate.film.layers import CONVENTIONS, HEXAGONAL, full_layer_mass, overlapped, shadow_of_cover
from formulate.film.particles import SILICA_DENSITY, Sizes, StatedSize, number_density, shadow

ONE = np.random.default_rng(1)


def one_size(diameter_nm: float) -> Sizes:
    return StatedSize(diameter_nm, diameter_nm, 1.0, "number").sizes(1, ONE)


# Topic 6, colloidal silica.


@pytest.mark.parametrize(
    ("diameter_nm", "surface_m2_g", "within"),
    [
        pytest.param(20, 136.36, 0.5, id="6/(rho d), Iler 1979: 20 nm"),
        pytest.param(22, 123.97, 0.5, id="6/(rho d), Iler 1979: 22 nm"),
        pytest.param(5, 545.5, 0.15 * 545.5, id="US patent 2750345, 600 m2/g for 5 nm"),
        pytest.param(8, 340.9, 0.15 * 340.9, id="US patent 2750345, 350 m2/g for 8 nm"),
    ],
)
def test_specific_surface(diameter_nm, surface_m2_g, within):
    """Area over mass of one kilogram of particles, by the moments of the sizes."""
    sizes = one_size(diameter_nm)
    number = number_density(np.array([1.0]), sizes)
    area = number * np.pi * sizes.moment(2)
    assert area[0] / 1e3 == pytest.approx(surface_m2_g, abs=within)


def test_density_lies_in_the_published_range():
    """Encyclopaedia article on colloidal silica: 2.1 to 2.3 g/cm3."""
    assert 2100 <= SILICA_DENSITY <= 2300


def test_default_families_span_the_published_sizes_of_sols():
    """Supplier sheets 5 to 100 nm for sols (casebook sil-size-range); encyclopaedia 30 to 100 nm for large ones."""
    rows = {row["family"]: row for row in open_catalog().records("particle_families", "unit", "nm")}
    assert 5 <= rows["small-sol"]["low"] < 10
    assert (rows["large-sol"]["low"], rows["large-sol"]["high"]) == (40, 100)


# Topic 7, coverage.


def test_hexagonal_layer_covers_thue_fejes_toth():
    assert pytest.approx(0.906900, abs=1e-6) == HEXAGONAL


def test_mass_of_a_hexagonal_layer_of_20_nm_geometry():
    assert full_layer_mass(CONVENTIONS[0], one_size(20))[0] * 1e6 == pytest.approx(26.6, abs=0.05)


def test_mass_of_a_hexagonal_layer_of_25_nm_geometry():
    assert full_layer_mass(CONVENTIONS[0], one_size(25))[0] * 1e6 == pytest.approx(33.25, abs=0.05)


@pytest.mark.parametrize(
    ("diameter_nm", "cover", "per_um2", "within"),
    [
        pytest.param(20, 0.547, 1741.2, 0.5, id="geometry: jammed 20 nm"),
        pytest.param(25, 0.9069, 1848.0, 2, id="J. Nanoparticle Res. 6 (2004) 479: close-packed 25 nm"),
        pytest.param(100, 0.789, 100.5, 0.2, id="Nanoscale Res. Lett. 9 (2014) 361: 100 nm, volume fraction 0.5261"),
    ],
)
def test_number_from_coverage(diameter_nm, cover, per_um2, within):
    """The mass that shadows this much area, counted."""
    sizes = one_size(diameter_nm)
    mass = cover / shadow(np.array([1.0]), sizes)
    assert number_density(mass, sizes)[0] * 1e-12 == pytest.approx(per_um2, abs=within)


def test_mass_of_the_100_nm_layer_nanoscale_res_lett_2014():
    sizes = one_size(100)
    assert 0.789 / shadow(np.array([1.0]), sizes)[0] * 1e6 == pytest.approx(116, abs=1)


@pytest.mark.parametrize(
    ("theta", "covers"),
    [
        pytest.param(1.0, 0.632121, id="Boolean model, Avrami 1939: 1"),
        pytest.param(3.0, 0.950213, id="Boolean model, Avrami 1939: 3"),
    ],
)
def test_overlapping_discs(theta, covers):
    assert overlapped(np.array([theta]))[0] == pytest.approx(covers, abs=1e-6)
    assert shadow_of_cover(covers) == pytest.approx(theta, abs=2e-5)


@pytest.mark.parametrize(
    ("count", "low", "high"),
    [
        pytest.param(2, 0.2422, 7.2247, id="Garwood 1936: 2"),
        pytest.param(5, 1.6235, 11.6683, id="Garwood 1936: 5"),
        pytest.param(10, 4.7954, 18.3904, id="Garwood 1936: 10"),
        pytest.param(20, 12.2165, 30.8884, id="Garwood 1936: 20"),
        pytest.param(100, 81.364, 121.6268, id="Garwood 1936: 100"),
    ],
)
def test_poisson_limits(count, low, high):
    assert poisson_limits(count) == pytest.approx((low, high), abs=5e-4)
    alone = areal_density([[count]], 1.0)
    assert (alone.low, alone.best, alone.high) == pytest.approx((low, count, high), abs=5e-4)


def test_rule_of_three_hanley_lippman_hand_1983():
    """JAMA 249:1743: nothing in 30 fields, upper limit 0.09986 a field."""
    found = areal_density([[0] * 30], 1.0)
    assert (found.low, found.best) == (0, 0)
    assert found.high == pytest.approx(0.09986, abs=1e-5)
    assert for_limit(1.0, 0.09987).coupons * for_limit(1.0, 0.09987).fields == 30


def test_coat_of_22_nm_sol_lrsm_highlight():
    """Fourteen coats of 22 nm sol of 2 wt % at 2000 rpm made 494 nm: 35.3 nm a coat.

    At a packing of 0.64 that is 50 mg/m2, 2.5 g/m2 of liquid; the formula has to reach it within its own range.
    """
    per_coat_mg = 494 / 14 * 0.64 * SILICA_DENSITY / 1e3
    assert per_coat_mg == pytest.approx(49.7, abs=0.1)
    spun = application(open_catalog(), "spin", Ledger())
    spun = spun._replace(figures={**spun.figures, "speed": Spread.exactly(2000)})
    low, high = np.quantile(wet_mass(spun, 4000, 1010.0, np.random.default_rng(1)), [0.05, 0.95])
    assert low < per_coat_mg / 20 < high
    assert high / low < 4


@pytest.mark.parametrize(
    ("diameter_nm", "silica", "wet", "mg", "layers", "per_um2"),
    [
        pytest.param(12, 0.010, 10, 100.0, 6.27, 50238.3, id="mass balance: 12 nm, 1 %, 10 g/m2"),
        pytest.param(20, 0.010, 10, 100.0, 3.76, 10851.5, id="mass balance: 20 nm, 1 %, 10 g/m2"),
        pytest.param(20, 0.001, 10, 10.0, 0.38, 1085.1, id="mass balance: 20 nm, 0.1 %, 10 g/m2"),
        pytest.param(100, 0.010, 10, 100.0, 0.75, 86.8, id="mass balance: 100 nm, 1 %, 10 g/m2"),
        pytest.param(100, 0.001, 20, 20.0, 0.15, 17.4, id="mass balance: 100 nm, 0.1 %, 20 g/m2"),
    ],
)
def test_dose_to_number(diameter_nm, silica, wet, mg, layers, per_um2):
    from formulate import coverage

    found = coverage(silica=silica, diameter_nm=diameter_nm, wet_g_per_m2=wet, kept=1)
    assert found.deposit.silica_mg_per_m2.best == pytest.approx(mg, rel=0.01)
    assert found.full_layer.layers.best == pytest.approx(layers, rel=0.01, abs=0.01)
    assert found.particles_per_um2.best == pytest.approx(per_um2, rel=0.01)


def test_a_dense_silica_layer_of_94_nm_openaire_10261_380529():
    """94.2 nm of solid silica are 207 mg/m2."""
    assert pytest.approx(207, abs=0.5) == 94.2e-9 * SILICA_DENSITY * 1e6
    from formulate import coverage

    thick = coverage(silica=0.207, wet_g_per_m2=1, kept=1, diameter_nm=20).deposit.solid_silica_nm.best
    assert thick == pytest.approx(94.1, abs=0.1)


# Topic 8, film thickness.


@pytest.mark.parametrize(
    ("solids", "dry_um", "rate", "within"),
    [
        pytest.param(100, 1, 1000.0, 0, id="definition: 1 L at 1 um covers 1000 m2"),
        pytest.param(71, 125, 5.68, 0.01, id="technical note on volume solids: 71 %, 125 um"),
        pytest.param(50, 125, 4.0, 0.06, id="table of spreading rates: 50 %, 125 um"),
        pytest.param(70, 150, 4.7, 0.06, id="table of spreading rates: 70 %, 150 um"),
        pytest.param(40, 100, 4.0, 0.06, id="table of spreading rates: 40 %, 100 um"),
    ],
)
def test_spreading_rate(solids, dry_um, rate, within):
    assert spreading_rate(solids, dry_um) == pytest.approx(rate, abs=max(within, 1e-9))


def test_wet_film_of_a_rate_blog_on_paint_and_technical_note():
    assert wet_thickness_um(8) == 125
    assert wet_thickness_um(spreading_rate(71, 125)) == pytest.approx(176.06, abs=0.5)


def test_a_published_error_of_ten_is_not_ours():
    """A page divides by millimetres after multiplying by ten: 56.8 for 5.68 m2/L."""
    assert spreading_rate(71, 125) < 10


def test_a_trigger_dose_mass_balance():
    """Ten strokes of 1 g, 0.7 arrive, 2 % solids: 0.14 g/m2, 0.14 um at a density of 1."""
    from formulate import coverage

    found = coverage(silica=0, film_former=0.02, wet_g_per_m2=7, kept=1)
    assert found.deposit.film_mg_per_m2.best == pytest.approx(140)
    assert found.deposit.film_nm.best == pytest.approx(140 / 0.97)


def test_units_of_mass_per_area_identity():
    assert areal_mass(1, "ug/cm2") == 10
    assert areal_mass(1, "g/m2") == 1000
    assert areal_mass(1, "µg/cm²") == 10
