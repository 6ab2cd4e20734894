"""A centrifugal pump at another speed: flow as the speed, head as its square, power as its cube."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

SLOWEST = 0.5
"""Least ratio of speeds the laws are used for. A limit of ours: they hold efficiency the same."""
FASTEST = 2.0
"""Greatest ratio of speeds the laws are used for; the published example doubles the speed."""


def speed_ratio(*, speed: Quantity, new_speed: Quantity) -> float:
    """New speed over the speed a figure is known for.

    Source: DOE-HDBK-1012/3 HT-03 p. 50.

    Args:
        speed: Known.
        new_speed: Wanted, in the same kind of unit: turns with turns, supply frequency with
            supply frequency.

    Raises:
        OutOfRange: A speed not more than zero, or a ratio outside 0.5 to 2.
    """
    known = magnitude(speed, "rpm", "speed", above=0.0)
    ratio = magnitude(new_speed, "rpm", "new speed", above=0.0) / known
    if not SLOWEST <= ratio <= FASTEST:
        raise OutOfRange(
            f"the new speed is {ratio:.3g} times the known one; the laws are used from 0.5 to 2"
        )
    return ratio


def flow_at_speed(*, flow: Quantity, speed: Quantity, new_speed: Quantity) -> Quantity:
    """Flow of a point of the curve at another speed.

    Raises:
        OutOfRange: A negative flow, or as `speed_ratio`.

    Source: DOE Fundamentals Handbook, Fluid Flow (DOE-HDBK-1012/3), HT-03 p. 50.
    """
    ratio = speed_ratio(speed=speed, new_speed=new_speed)
    return quantity(magnitude(flow, "gpm", "flow", at_least=0.0) * ratio, "gpm")


def head_at_speed(*, head: Quantity, speed: Quantity, new_speed: Quantity) -> Quantity:
    """Head of a point of the curve at another speed.

    Raises:
        OutOfRange: A negative head, or as `speed_ratio`.

    Source: as `flow_at_speed`.
    """
    ratio = speed_ratio(speed=speed, new_speed=new_speed)
    return quantity(magnitude(head, "ft", "head", at_least=0.0) * ratio**2, "ft")


def power_at_speed(*, power: Quantity, speed: Quantity, new_speed: Quantity) -> Quantity:
    """Shaft power of a point of the curve at another speed.

    Raises:
        OutOfRange: A negative power, or as `speed_ratio`.

    Source: as `flow_at_speed`.
    """
    ratio = speed_ratio(speed=speed, new_speed=new_speed)
    horse = magnitude(power, "horsepower", "power", at_least=0.0)
    return quantity(horse * ratio**3, "horsepower")
