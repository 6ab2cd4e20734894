"""What is asked of a pump and what it takes: total head, power in the water, power at the shaft."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hydraulics.water import head_of_pressure
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


def total_dynamic_head(
    *, lift: Quantity, surface_pressure: Quantity, losses: Quantity, water_weight: Quantity
) -> Quantity:
    """Head a pump must give: lift + pressure at the surface + losses.

    Args:
        lift: From the pumping level to the surface gauge; negative where a well flows above it.
        surface_pressure: Gauge pressure there, the tank's at cut-out for the hardest case.
        losses: Head lost in pipe, fittings and check valves, and the head of the velocity where it
            is not recovered.
        water_weight: Weight of water per volume.

    Raises:
        OutOfRange: A negative pressure or loss, or a weight of water not more than zero.

    Source: energy of steady flow.

    >>> water = quantity(62.4, "lbf/ft**3")
    >>> zero, lift = quantity(0, "psi"), quantity(200, "ft")
    >>> head = total_dynamic_head(
    ...     lift=lift, surface_pressure=zero, losses=quantity(12, "ft"), water_weight=water
    ... )
    >>> head.m_as("ft")
    212.0
    """
    magnitude(surface_pressure, "psi", "surface pressure", at_least=0.0)
    pressure = head_of_pressure(pressure=surface_pressure, water_weight=water_weight)
    feet = magnitude(lift, "ft", "lift") + magnitude(losses, "ft", "losses", at_least=0.0)
    return quantity(feet + magnitude(pressure, "ft", "head of the pressure"), "ft")


def hydraulic_power(*, flow: Quantity, head: Quantity, water_weight: Quantity) -> Quantity:
    """Power that the water takes up: flow x weight x head; gpm x ft / 3,960.

    Raises:
        OutOfRange: A negative flow or head, or a weight of water not more than zero.

    Source: mechanics; irrigation texts print 3,960, and 3,956 for 62.4 lb/ft3.
    """
    volume = magnitude(flow, "ft**3/s", "flow", at_least=0.0)
    feet = magnitude(head, "ft", "head", at_least=0.0)
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return quantity(volume * feet * weight / 550.0, "horsepower")


def brake_power(*, hydraulic_power: Quantity, efficiency: float) -> Quantity:
    """Power at the pump's shaft: hydraulic power / efficiency.

    Args:
        hydraulic_power: Taken up by the water.
        efficiency: Of the pump alone, a fraction above 0.

    Raises:
        OutOfRange: A negative power, or an efficiency that is not above 0 and to 1.

    Source: definition of efficiency.
    """
    if not 0.0 < efficiency <= 1.0:
        raise OutOfRange(f"the efficiency is {efficiency:g}; it must be above 0 and at most 1")
    power = magnitude(hydraulic_power, "horsepower", "hydraulic power", at_least=0.0)
    return quantity(power / efficiency, "horsepower")


def pump_efficiency(*, hydraulic_power: Quantity, brake_power: Quantity) -> float:
    """Efficiency of a pump, a fraction: hydraulic power / brake power.

    With the power the motor draws in place of brake power it is wire-to-water efficiency.

    Raises:
        OutOfRange: A negative hydraulic power, a brake power not more than zero, or more power in
            the water than at the shaft: one of the readings is wrong.

    Source: definition of efficiency.
    """
    out = magnitude(hydraulic_power, "horsepower", "hydraulic power", at_least=0.0)
    share = out / magnitude(brake_power, "horsepower", "brake power", above=0.0)
    if share > 1.0:
        raise OutOfRange(f"the water would take up {share:.2f} times what the shaft gives")
    return share
