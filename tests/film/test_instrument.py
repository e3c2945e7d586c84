"""What an instrument shows: closed forms against a library's morphology, and counts that fall to nothing."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.ndimage import grey_dilation

from formulate.film.field import Field, sequence
from formulate.film.instrument import Afm, Sem, Shown, afm, count, dilated, expected, seen, sem
from formulate.film.refusals import SurfaceError

AFM = Afm(tip_nm=10, roughness_nm=0.5, hill_nm=50, noise_nm=0.2, pixels=512)
SEM = Sem(beam_nm=3, metal_nm=5, noise=0.1, pixels=512)


def one_particle(diameter: float, side: float = 200) -> Field:
    return Field(np.array([side / 2]), np.array([side / 2]), np.array([diameter]), side, side)


@pytest.mark.parametrize(
    ("tip", "diameter", "width"),
    [
        pytest.param(10, 20, 40, id="casebook-ins-afm-tip-4-sqrt(R-r)-from-memory"),
        pytest.param(20, 10, 40, id="casebook-ins-afm-tip2-4-sqrt(R-r)-from-memory"),
    ],
)
def test_width_of_an_imaged_sphere(tip, diameter, width):
    """The height stays true, the width is 4 sqrt(R r)."""
    image = dilated(one_particle(diameter), tip, 0, 1000)
    line = image[500]
    assert (line > 0).sum() * 0.2 == pytest.approx(width, abs=0.4)
    assert image.max() == pytest.approx(diameter, abs=0.02)


@pytest.mark.parametrize("tip", [4.0, 12.0, 20.0])
def test_closed_form_against_grey_dilation_of_scipy(tip):
    """The surface in pixels dilated by the tip in pixels (scipy.ndimage.grey_dilation) within the pixels' steps."""
    side, pixels = 120.0, 240
    field = Field(
        np.array([40.0, 70.0, 95.0]), np.array([50.0, 55.0, 20.0]), np.array([20.0, 30.0, 8.0]), side, side
    )
    axis = (np.arange(pixels) + 0.5) * side / pixels
    across, up = np.meshgrid(axis, axis)
    surface = np.zeros((pixels, pixels))
    for x, y, diameter in zip(field.x, field.y, field.diameter, strict=True):
        left = np.maximum((diameter / 2) ** 2 - (across - x) ** 2 - (up - y) ** 2, 0)
        surface = np.maximum(surface, np.where(left > 0, diameter / 2 + np.sqrt(left), 0))
    steps = np.arange(-int(tip * 2), int(tip * 2) + 1) * side / pixels
    away = np.hypot(*np.meshgrid(steps, steps))
    within = away <= tip
    end = np.where(within, np.sqrt(np.maximum(tip * tip - away * away, 0)) - tip, 0)
    theirs = np.maximum(grey_dilation(surface, footprint=within, structure=end, mode="wrap"), 0)
    ours = dilated(field, tip, 0, pixels)
    assert np.abs(ours - theirs).mean() < 0.12
    assert np.quantile(np.abs(ours - theirs), 0.99) < 1.6
    assert np.abs(dilated(field, tip + 2, 0, pixels) - theirs).mean() > 0.2  # another tip would be noticed


def test_film_buries_from_below():
    """7.7 nm of film leave a 12 nm particle 4.3 nm proud, and a 7 nm particle unseen."""
    assert dilated(one_particle(12), 10, 7.7, 800).max() == pytest.approx(4.3, abs=0.01)
    assert dilated(one_particle(7), 10, 7.7, 800).max() == 0


def test_roughness_is_as_asked():
    """Root mean square height of a bare ground."""
    bare = sequence("poisson", 3000, 3000, [20], 1, most_per_um2=1).first(0)
    shown = afm(bare, AFM._replace(roughness_nm=1.5, noise_nm=0), 0, 3)
    assert shown.image.std() == pytest.approx(1.5, rel=0.01)
    assert seen(bare, AFM._replace(roughness_nm=1.5), 0, 3).areas == 0
    assert seen(bare, SEM, 0, 3).areas == 0


@pytest.mark.parametrize("instrument", [AFM, SEM, SEM._replace(metal_nm=0)], ids=["afm", "sem", "sem-bare"])
def test_counts_fall_to_nothing_below_the_limit(instrument):
    """Nearly all of well-parted particles of 30 nm are counted, fewer and fewer as they shrink, none at 1 nm."""
    counts = []
    for size in (30, 12, 8, 6, 5, 4, 3, 2, 1):
        fields = [sequence("jammed", 1500, 1500, [30], seed).at(20) for seed in range(3)]
        small = [field._replace(diameter=np.full(len(field.x), float(size))) for field in fields]
        found = expected(small, instrument, 0, 1)
        counts.append(found.counted / found.present)
    assert counts[0] > 0.9
    assert counts[-1] == 0
    drops = np.diff(counts)
    assert (drops < 0.08).all()


def test_a_blunter_tip_sees_fewer_of_a_crowd():
    field = sequence("jammed", 1000, 1000, [20], 1).at(300)
    assert seen(field, AFM._replace(tip_nm=30), 0, 1).areas < seen(field, AFM._replace(tip_nm=5), 0, 1).areas


def test_metal_merges_neighbours():
    field = Field(np.array([90.0, 118.0]), np.array([100.0, 100.0]), np.array([20.0, 20.0]), 200, 200)
    assert count(sem(field, SEM._replace(metal_nm=0, noise=0), 0, 1)).areas == 2
    assert count(sem(field, SEM._replace(metal_nm=6, noise=0), 0, 1)).areas == 1


def test_two_edges_count():
    """Of four areas at the four edges the left and lower ones count (Gundersen 1977, J. Microsc. 111, 219)."""
    image = np.zeros((40, 40))
    image[18:22, :3] = image[:3, 18:22] = image[18:22, -3:] = image[-3:, 18:22] = 1
    image[30:33, 30:33] = 1
    assert count(Shown(image, (1, 1), 0.5)).areas == 3


def test_each_particle_of_a_repeating_field_counts_once():
    """Shifting a field that repeats changes no count, wherever its edges fall."""
    field = sequence("jammed", 2000, 2000, [40], 3).first(40)
    counts = set()
    for shift in range(0, 2000, 250):
        moved = field._replace(x=(field.x + shift) % 2000, y=(field.y + 2 * shift) % 2000)
        counts.add(seen(moved, AFM._replace(roughness_nm=0, noise_nm=0.2), 0, 1).areas)
    assert max(counts) - min(counts) <= 2  # a particle at a corner shows in pieces


def test_small_areas_are_noise():
    image = np.zeros((20, 20))
    image[5, 5:8] = 1
    image[10:12, 10:12] = 1
    assert count(Shown(image, (1, 1), 0.5), least_pixels=4).areas == 1


@pytest.mark.parametrize("wrong", [{"tip_nm": -1}, {"noise_nm": float("nan")}, {"pixels": 2}], ids=str)
def test_no_such_tip(wrong):
    with pytest.raises(SurfaceError):
        afm(one_particle(20), AFM._replace(**wrong), 0, 1)


def test_no_such_beam_or_film():
    with pytest.raises(SurfaceError):
        sem(one_particle(20), SEM._replace(beam_nm=-1), 0, 1)
    with pytest.raises(SurfaceError):
        afm(one_particle(20), AFM, -3, 1)
    with pytest.raises(SurfaceError):
        expected([], AFM, 0, 1)
