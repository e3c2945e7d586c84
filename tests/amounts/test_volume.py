"""Per cent by volume against published figures."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.amounts.volume import by_mass
from formulate.catalog.store import open_catalog


@pytest.mark.parametrize(
    ("volume", "mass"),
    [
        pytest.param(0.70, 0.6239, id="shared casebook 02, ethanol 70 vol %"),
        pytest.param(0.96, 0.9384, id="from memory, OIML R 22 table: 96 vol % is 93.84 % by mass"),
        pytest.param(0.40, 0.3330, id="from memory, OIML R 22 table: 40 vol % is 33.30 % by mass"),
    ],
)
def test_ethanol_in_water(volume: float, mass: float):
    found = by_mass(volume, "ethanol", 0.789, True, open_catalog())
    assert found.low == found.high == pytest.approx(mass, abs=2e-4)
    assert found.citation is not None


def test_isopropanol_in_water_is_a_range_that_holds_the_printed_weights():
    """Shared casebook 02b: a laboratory sheet of 70 vol % isopropanol prints 63.58 % by weight."""
    found = by_mass(0.70, "isopropanol", 0.785, True, open_catalog())
    assert found.low <= 0.6358 <= found.high
    assert found.high - found.low < 0.03


@given(st.floats(0.0, 1.0), st.booleans(), st.floats(0.6, 1.5))
def test_a_share_stays_a_share(volume: float, in_water: bool, density: float):
    found = by_mass(volume, None, density, in_water, open_catalog())
    assert 0 <= found.low <= found.high <= 1
