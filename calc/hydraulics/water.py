"""Fresh water: its weight, density and viscosity, and the pressure of a column of it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from calc import table
from calc.interpolate import between
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


def weight_density(temperature: Quantity) -> Quantity:
    """Weight of a volume of fresh water under standard gravity.

    Args:
        temperature: Of the water, 32 to 140 F.

    Raises:
        OutOfRange: The table does not reach that temperature.

    Source: IAPWS-95 at one atmosphere (`tables/water.csv`), interpolated between its points.

    >>> round(weight_density(quantity(60, "degF")).m_as("lbf/ft**3"), 2)
    62.37
    """
    return quantity(_at(temperature, "weight[lbf/ft3]"), "lbf/ft**3")


def density(temperature: Quantity) -> Quantity:
    """Density of fresh water.

    Args:
        temperature: Of the water, 32 to 140 F.

    Raises:
        OutOfRange: The table does not reach that temperature.

    Source: as `weight_density`; under standard gravity a pound weighs a pound-force.
    """
    return quantity(_at(temperature, "weight[lbf/ft3]"), "lb/ft**3")


def kinematic_viscosity(temperature: Quantity) -> Quantity:
    """Kinematic viscosity of fresh water.

    Args:
        temperature: Of the water, 32 to 140 F.

    Raises:
        OutOfRange: The table does not reach that temperature.

    Source: IAPWS-97 at one atmosphere (`tables/water.csv`), interpolated between its points.
    """
    return quantity(_at(temperature, "viscosity[ft2/s]"), "ft**2/s")


def pressure_of_head(*, head: Quantity, water_weight: Quantity) -> Quantity:
    """Pressure at the foot of a column of water.

    Raises:
        OutOfRange: The weight of water is not more than zero.

    Source: hydrostatics.

    >>> head = quantity(100, "ft")
    >>> pressure = pressure_of_head(head=head, water_weight=quantity(62.4, "lbf/ft**3"))
    >>> round(pressure.m_as("psi"), 1)
    43.3
    """
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return quantity(magnitude(head, "ft", "head") * weight / 144.0, "psi")


def head_of_pressure(*, pressure: Quantity, water_weight: Quantity) -> Quantity:
    """Height of the column of water that gives a pressure.

    Raises:
        OutOfRange: The weight of water is not more than zero.

    Source: hydrostatics.
    """
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return quantity(magnitude(pressure, "psi", "pressure") * 144.0 / weight, "ft")


def _at(temperature: Quantity, column: str) -> float:
    # Rounded, since 0 C is a hair under 32 F once converted.
    degrees = round(magnitude(temperature, "degF", "water temperature"), 9)
    return between(_points(column), degrees, "water temperature, in F")


@cache
def _points(column: str) -> tuple[tuple[float, float], ...]:
    rows = table.rows("water")
    return tuple((float(row["temperature[degF]"]), float(row[column])) for row in rows)
