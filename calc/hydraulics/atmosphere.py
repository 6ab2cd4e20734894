"""Pressure of the air, which every gauge leaves out and every gas law needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_SEA_LEVEL_PSI = 101325.0 / 6894.757
_LOWEST_FT = -1500.0
_HIGHEST_FT = 15000.0


def atmosphere_at(elevation: Quantity) -> Quantity:
    """Pressure of the standard atmosphere at an elevation.

    Args:
        elevation: Above the sea, -1,500 to 15,000 ft.

    Raises:
        OutOfRange: Outside those limits, which are ours: wells lie between them.

    Valid for:
        A standard day; weather moves it some 0.5 psi.

    Source: U.S. Standard Atmosphere 1976, lowest layer: 6.5 C colder for each km, to the power
        5.2559.

    >>> round(atmosphere_at(quantity(6000, "ft")).m_as("psi"), 1)
    11.8
    """
    feet = magnitude(elevation, "ft", "elevation", at_least=_LOWEST_FT, at_most=_HIGHEST_FT)
    warmth = 1.0 - 0.0065 * feet * 0.3048 / 288.15
    return quantity(_SEA_LEVEL_PSI * warmth**5.25588, "psi")
