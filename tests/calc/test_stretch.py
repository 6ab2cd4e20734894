"""How hard a held string pulls, by its length."""

from __future__ import annotations

import pytest

from calc.drop_line.stretch import (
    Section,
    axial_stiffness,
    stuck_rate,
)
from calc.units import Quantity, quantity

STEEL = quantity(30e6, "psi")


def section(feet: float, area: float, modulus: Quantity = STEEL) -> Section:
    return Section(
        quantity(feet, "ft"), axial_stiffness(area=quantity(area, "in**2"), modulus=modulus)
    )


def test_the_shorter_the_string_the_harder_it_pulls() -> None:
    """Hand calculation: half the length, twice the rate."""
    long, short = (stuck_rate([section(feet, 1.07)]) for feet in (400, 200))

    assert short.m_as("lbf/in") == pytest.approx(2 * long.m_as("lbf/in"))
