"""Riser hose. No source is published: independent hand calculations and common practice."""

from __future__ import annotations

import pytest

from calc.drop_line.hose import (
    Hose,
    material_volume,
    stretched,
    swollen_bore,
    swollen_bore_area,
    water_per_length,
)
from calc.drop_line.stretch import hose_stiffness
from calc.units import quantity

WATER = quantity(62.4, "lbf/ft**3")
TWO_INCH = Hose(
    bore=quantity(2.0, "in"),
    weight_per_length=quantity(0.80, "lb/ft"),
    working_tension=quantity(3500, "lbf"),
    swell=0.15,
    stretch=0.02,
    specific_gravity=1.25,
)
SILENT = Hose(bore=quantity(2.0, "in"), weight_per_length=quantity(0.80, "lb/ft"))


def test_common_practice_two_inch_hose() -> None:
    """Common practice: swollen 15 % to 2.3 in, 1.80 lbf/ft of water. Exactly 62.4 x 4.1548/144."""
    bore, water = swollen_bore(TWO_INCH), water_per_length(TWO_INCH, water_weight=WATER)

    assert bore is not None
    assert water is not None
    assert bore.m_as("in") == pytest.approx(2.3)
    assert water.m_as("lbf/ft") == pytest.approx(1.80, abs=0.005)


@pytest.mark.parametrize(
    ("inches", "pounds"),
    # Common practice, hose swollen 10 %: weight of water per foot, printed to two or three digits.
    [(1.5, 0.93), (2, 1.65), (2.5, 2.57), (3, 3.71), (4, 6.59), (6, 14.8)],
)
def test_water_in_a_hose_swollen_a_tenth(inches: float, pounds: float) -> None:
    hose = Hose(bore=quantity(inches, "in"), weight_per_length=quantity(1, "lb/ft"), swell=0.10)
    water = water_per_length(hose, water_weight=WATER)

    assert water is not None
    assert water.m_as("lbf/ft") == pytest.approx(pounds, rel=0.005)


def test_area_of_the_swollen_bore() -> None:
    """Hand calculation: pi/4 x 2.3^2 = 4.1548 sq in."""
    area = swollen_bore_area(TWO_INCH)

    assert area is not None
    assert area.m_as("in**2") == pytest.approx(4.1548, abs=5e-5)


def test_stretch_grows_evenly_with_the_load() -> None:
    """Hand calculation: 400 ft at half the working tension: 400 x (1 + 0.02/2) = 404 ft."""
    length = stretched(TWO_INCH, length=quantity(400, "ft"), load=quantity(1750, "lbf"))

    assert length is not None
    assert length.m_as("ft") == pytest.approx(404)


def test_stiffness() -> None:
    """Hand calculation: 3,500 lbf over 0.02 is 175,000 lbf."""
    stiffness = hose_stiffness(TWO_INCH)

    assert stiffness is not None
    assert stiffness.m_as("lbf") == pytest.approx(175_000)


def test_volume_of_the_material() -> None:
    """Hand calculation: 100 ft of 0.80 lbf/ft at 1.25: 80/(1.25 x 62.4) = 1.0256 ft3."""
    volume = material_volume(TWO_INCH, length=quantity(100, "ft"), water_weight=WATER)

    assert volume is not None
    assert volume.m_as("ft**3") == pytest.approx(1.0256, abs=1e-4)
