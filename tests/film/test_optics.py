"""Haze: Mie against its published bench values and the Rayleigh limit; the casebook's sols and layers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.catalog.store import open_catalog
from formulate.film.optics import layer_scatters, liquid, per_mass, silica_index, sphere
from formulate.film.refusals import SurfaceError

SILICA = silica_index(550)
SILICONE = open_catalog().properties("pdms", "refractive_index")[0].value


@pytest.mark.parametrize(
    ("wavelength", "index", "within"),
    [
        pytest.param(587.6, 1.458462, 1e-5, id="Malitson-1965-JOSA-55-1205-coefficients-casebook-mie-malitson"),
        pytest.param(587.56, 1.4585, 5e-5, id="Malitson-1965-JOSA-55-1205-d-line-as-published-from-memory"),
    ],
)
def test_index_of_fused_silica(wavelength, index, within):
    assert silica_index(wavelength) == pytest.approx(index, abs=within)


@pytest.mark.parametrize(
    ("diameter", "around", "scattered", "rayleigh", "asymmetry"),
    [
        pytest.param(100, 1.0, 0.0212926, 0.0212874, 0.06252, id="casebook-mie-air-100-miepython-3.3.0"),
        pytest.param(300, 1.0, 0.940947, 1.72428, 0.606, id="casebook-mie-air-300-miepython-3.3.0"),
        pytest.param(22, 1.333, 8.09274e-6, 8.16135e-6, 0.004658, id="casebook-mie-water-22-miepython-3.3.0"),
        pytest.param(1000, 1.333, 0.98255, 34.8394, 0.9486, id="casebook-mie-water-1000-miepython-3.3.0"),
    ],
)
def test_silica_spheres(diameter, around, scattered, rayleigh, asymmetry):
    one = sphere(diameter, SILICA, around)
    assert one.efficiency == pytest.approx(scattered, rel=1e-4)
    assert one.rayleigh == pytest.approx(rayleigh, rel=1e-4)
    assert one.asymmetry == pytest.approx(asymmetry, rel=5e-4)
    assert one.cross_section_m2 == pytest.approx(scattered * math.pi / 4 * (diameter * 1e-9) ** 2, rel=1e-3)


@pytest.mark.parametrize(
    ("ratio", "size", "scattered", "asymmetry"),
    [
        pytest.param(1.5, 10, 2.8820, 0.742913, id="Wiscombe-1979-NCAR-TN-140-MIEV0-m1.5-x10-from-memory"),
        pytest.param(0.75, 10, 2.232265, 0.896473, id="Wiscombe-1979-NCAR-TN-140-MIEV0-m0.75-x10-from-memory"),
    ],
)
def test_bench_values_of_mie(ratio, size, scattered, asymmetry):
    around = 1.0 if ratio > 1 else 1 / ratio
    one = sphere(size * 550 / (math.pi * around), ratio * around, around, 550)
    assert one.efficiency == pytest.approx(scattered, abs=2e-4)
    assert one.asymmetry == pytest.approx(asymmetry, abs=2e-4)


@given(st.floats(2, 25), st.floats(1.2, 2.0), st.floats(400, 800))
def test_small_spheres_obey_rayleigh(diameter, index, wavelength):
    """Bohren and Huffman 1983, eq. 5.8: the limit of small size parameters."""
    one = sphere(diameter, index, 1.0, wavelength)
    assert one.efficiency == pytest.approx(one.rayleigh, rel=0.05)


def test_a_sol_of_large_particles():
    """Casebook mie-sol-100 (miepython, independent spheres): 1 % of 100 nm over 1 cm."""
    seen = liquid(0.01, 100, SILICA, 2.2, density_around=0.998)
    assert seen.turbidity_per_m == pytest.approx(199.0, rel=0.005)
    assert seen.transmission == pytest.approx(0.13665, rel=0.005)


@pytest.mark.parametrize(
    ("diameter", "covered", "percent"),
    [
        pytest.param(22, 0.547, 0.002729, id="casebook-mie-film-22-547"),
        pytest.param(100, 0.1, 0.2129, id="casebook-mie-film-100-100"),
        pytest.param(100, 0.547, 1.165, id="casebook-mie-film-100-547"),
    ],
)
def test_layers(diameter, covered, percent):
    assert 100 * layer_scatters(covered, diameter, SILICA) == pytest.approx(percent, rel=0.005)


def test_turbidity_is_blind_to_small_silica():
    """A silicone droplet of 150 nm scatters about 190 times more for its mass than silica of 20 nm (issue's figure)."""
    assert per_mass(150, SILICONE, 0.97) / per_mass(20, SILICA, 2.2) == pytest.approx(190, rel=0.05)


def test_index_of_the_dataset_is_that_of_the_equation():
    stored = open_catalog().properties("silica", "refractive_index")[0].value
    assert stored == pytest.approx(silica_index(587.6), abs=5e-5)


def test_matching_indices_scatter_nothing():
    assert sphere(500, 1.333, 1.333).efficiency == 0
    assert liquid(0.1, 500, 1.333, 1.2).transmission == 1


@given(st.floats(0, 0.3), st.floats(5, 2000))
def test_transmission_is_a_part(mass, diameter):
    assert 0 <= liquid(mass, diameter, SILICA, 2.2).transmission <= 1


@pytest.mark.parametrize(
    "call",
    [
        lambda: sphere(0, 1.46, 1.0),
        lambda: sphere(100, 0.5, 1.0),
        lambda: sphere(1e6, 1.46, 1.0),
        lambda: sphere(float("nan"), 1.46, 1.0),
        lambda: liquid(1.5, 100, 1.46, 2.2),
        lambda: liquid(0.1, 100, 1.46, 0),
        lambda: layer_scatters(1.2, 70, 1.46),
        lambda: per_mass(100, 1.46, -1),
        lambda: silica_index(100),
    ],
)
def test_refusals(call):
    with pytest.raises(SurfaceError):
        call()
