"""Head that flow loses in fittings and check valves, by velocity heads."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.hydraulics.friction import velocity
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_GRAVITY_FT_S2 = 32.174


@dataclass(frozen=True, slots=True)
class Fitting:
    """What one fitting or valve costs.

    Attributes:
        name: As in the table.
        coefficient: Velocity heads lost, K.
        lowest: The least K in print; None when no range is printed.
        highest: The greatest K in print; None when no range is printed.
        source: Where the figures come from.
    """

    name: str
    coefficient: float
    lowest: float | None
    highest: float | None
    source: str


@cache
def fitting(name: str) -> Fitting:
    """A fitting or valve by its name in `tables/fittings.csv`.

    Source: Engineering ToolBox; Kalsi and Tullis 1993; Miller 1990, as its table names them.

    Raises:
        OutOfRange: The table has no such fitting.

    >>> fitting("swing check valve").coefficient
    2.0
    """
    row = table.row("fittings", "fitting", name)
    lowest, highest = row["lowest[]"], row["highest[]"]
    return Fitting(
        name=name,
        coefficient=float(row["coefficient[]"]),
        lowest=float(lowest) if lowest else None,
        highest=float(highest) if highest else None,
        source=table.source("fittings"),
    )


def minor_loss(*, flow: Quantity, inside_diameter: Quantity, coefficient: float) -> Quantity:
    """Head lost in fittings and valves: K V^2/2g.

    Args:
        flow: Through them, 0 or more.
        inside_diameter: Of the pipe they stand in.
        coefficient: Sum of their K, 0 or more.

    Raises:
        OutOfRange: A negative value, or a diameter not more than zero.

    Source: the velocity-head method; K by `fitting` or from the maker's sheet.
    """
    if not 0.0 <= coefficient < float("inf"):
        raise OutOfRange(f"K is {coefficient:g}; it must be a number of 0 or more")
    speed = velocity(flow=flow, inside_diameter=inside_diameter).m_as("ft/s")
    return quantity(coefficient * speed**2 / (2.0 * _GRAVITY_FT_S2), "ft")


def coefficient_of_loss(*, loss: Quantity, flow: Quantity, inside_diameter: Quantity) -> float:
    """K of a valve whose sheet gives a loss at one flow.

    Args:
        loss: Head lost there.
        flow: At which it was measured, more than 0.
        inside_diameter: Of the pipe K is to be used with.

    Raises:
        OutOfRange: A negative loss, or a flow or diameter not more than zero.

    Source: `minor_loss` turned about.
    """
    head = magnitude(loss, "ft", "loss", at_least=0.0)
    magnitude(flow, "gpm", "flow", above=0.0)
    speed = velocity(flow=flow, inside_diameter=inside_diameter).m_as("ft/s")
    return head * 2.0 * _GRAVITY_FT_S2 / speed**2
