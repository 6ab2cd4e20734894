"""Pressure the drop line sees: standing, dead-head, surge, and the thrust it puts on the wall."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_GRAVITY_FT_S2 = 32.174


def standing_pressure(
    *, column: Quantity, water_weight: Quantity, surface_pressure: Quantity
) -> Quantity:
    """Gross pressure inside the line at the foot of its whole column, with the pump stopped.

    Args:
        column: Height of water from there to the surface gauge.
        water_weight: Weight of water per volume.
        surface_pressure: Gauge pressure at the surface, the tank's at cut-out.

    Raises:
        OutOfRange: A negative value, or a weight of water not more than zero.

    Source: hydrostatics.
    """
    head = _head_pressure(column, water_weight, "column of water")
    surface = magnitude(surface_pressure, "psi", "surface pressure", at_least=0.0)
    return quantity(head + surface, "psi")


def dead_head(
    *, shut_off_head: Quantity, submergence: Quantity, water_weight: Quantity
) -> Quantity:
    """Gross pressure at the pump's discharge against a closed valve: shut-off head + submergence.

    Args:
        shut_off_head: Head of the pump at no flow, at the speed it runs.
        submergence: Depth of the pump below the water outside.
        water_weight: Weight of water per volume.

    Raises:
        OutOfRange: A negative value, or a weight of water not more than zero.

    Source: hydrostatics.
    """
    lift = _head_pressure(shut_off_head, water_weight, "shut-off head")
    return quantity(lift + _head_pressure(submergence, water_weight, "submergence"), "psi")


def net_of_annulus(*, gross: Quantity, submergence: Quantity, water_weight: Quantity) -> Quantity:
    """Pressure across the wall: what is inside less what the water outside presses back.

    The rating is held against the gross pressure, since a well may be pumped dry; this is for
    showing beside it. Negative means the wall is pressed inward.

    Raises:
        OutOfRange: A negative submergence, or a weight of water not more than zero.

    Source: hydrostatics.
    """
    outside = _head_pressure(submergence, water_weight, "submergence")
    return quantity(magnitude(gross, "psi", "gross pressure") - outside, "psi")


def open_water_speed(*, bulk_modulus: Quantity, water_weight: Quantity) -> Quantity:
    """Speed of a pressure wave in water without walls: sqrt(K / rho).

    Raises:
        OutOfRange: A value is not more than zero.

    Source: Newton and Laplace; 300,000 psi and 62.4 lb/ft3 give the 4,720 ft/s in print.
    """
    bulk = magnitude(bulk_modulus, "lbf/ft**2", "bulk modulus of water", above=0.0)
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return quantity(sqrt(bulk * _GRAVITY_FT_S2 / weight), "ft/s")


def wave_speed(
    *,
    open_water: Quantity,
    bulk_modulus: Quantity,
    diameter: Quantity,
    wall: Quantity,
    elastic_modulus: Quantity,
) -> Quantity:
    """Speed of a pressure wave in water inside an elastic wall: a0 / sqrt(1 + K D / (E t)).

    Args:
        open_water: Speed without walls, a0; 4,720 ft/s is printed, AWWA takes 4,660.
        bulk_modulus: Of water, K; 300,000 psi goes with both.
        diameter: Of the pipe, D. Inside, as here and by AWWA; one text takes the outside one and
            gets 8 % less surge in 1-1/4 in pipe.
        wall: Its thickness, t.
        elastic_modulus: Of the wall, E.

    Raises:
        OutOfRange: A value is not more than zero.

    Valid for:
        A thin wall free to lengthen, as a hanging string is, full of water without gas.

    Source: Korteweg; Buried Pipe Design p. 189.
    """
    bulk = magnitude(bulk_modulus, "psi", "bulk modulus of water", above=0.0)
    across = magnitude(diameter, "in", "diameter", above=0.0)
    ratio = across / magnitude(wall, "in", "wall", above=0.0)
    stiffness = magnitude(elastic_modulus, "psi", "modulus of the wall", above=0.0)
    speed = magnitude(open_water, "ft/s", "speed in open water", above=0.0)
    return quantity(speed / sqrt(1.0 + bulk * ratio / stiffness), "ft/s")


def surge(*, wave_speed: Quantity, velocity_change: Quantity, water_weight: Quantity) -> Quantity:
    """Rise of pressure when flow is stopped at once: rho a dv.

    Raises:
        OutOfRange: A negative speed or change, or a weight of water not more than zero.

    Source: Joukowsky.
    """
    speed = magnitude(wave_speed, "ft/s", "wave speed", at_least=0.0)
    change = magnitude(velocity_change, "ft/s", "change of velocity", at_least=0.0)
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return quantity(weight / _GRAVITY_FT_S2 * speed * change / 144.0, "psi")


def end_thrust(*, pressure: Quantity, bore_area: Quantity) -> Quantity:
    """Pull that pressure at the surface puts on wall, threads and end fittings: p x bore.

    Raises:
        OutOfRange: A negative value.

    Source: statics of the closed end.
    """
    press = magnitude(pressure, "psi", "pressure", at_least=0.0)
    return quantity(press * magnitude(bore_area, "in**2", "bore", at_least=0.0), "lbf")


def _head_pressure(height: Quantity, water_weight: Quantity, name: str) -> float:
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    return weight * magnitude(height, "ft", name, at_least=0.0) / 144.0
