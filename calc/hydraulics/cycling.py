"""How long a pump runs and rests on its tank."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


def run_time(*, drawdown: Quantity, pump_flow: Quantity, demand: Quantity) -> Quantity:
    """How long the pump runs to bring a tank from cut-in to cut-out.

    Args:
        drawdown: Of the tank, more than 0.
        pump_flow: Mean of the pump's flow between cut-in and cut-out.
        demand: Drawn meanwhile, 0 or more; at 0 the run is shortest.

    Raises:
        OutOfRange: A drawdown or flow not more than zero, a negative demand, or a demand that the
            pump does not exceed: it never reaches cut-out.

    Source: conservation of mass.
    """
    gallons = magnitude(drawdown, "gallon", "drawdown", above=0.0)
    pumped = magnitude(pump_flow, "gpm", "flow of the pump", above=0.0)
    drawn = magnitude(demand, "gpm", "demand", at_least=0.0)
    if drawn >= pumped:
        raise OutOfRange(
            f"{drawn:g} gpm is drawn and {pumped:g} gpm pumped: the pump never reaches cut-out"
        )
    return quantity(gallons / (pumped - drawn), "minute")


def rest_time(*, drawdown: Quantity, demand: Quantity) -> Quantity:
    """How long a tank gives a demand with the pump at rest.

    Args:
        drawdown: Of the tank, more than 0.
        demand: Drawn, more than 0.

    Raises:
        OutOfRange: A value not more than zero; with nothing drawn the pump does not start.

    Source: conservation of mass.
    """
    gallons = magnitude(drawdown, "gallon", "drawdown", above=0.0)
    return quantity(gallons / magnitude(demand, "gpm", "demand", above=0.0), "minute")


def cycle_time(*, drawdown: Quantity, pump_flow: Quantity, demand: Quantity) -> Quantity:
    """Time from one start of the pump to the next: run and rest.

    Raises:
        OutOfRange: As `run_time` and `rest_time`.

    Source: MIL-HDBK-1005/9A 2.5.3.6 Equation 1, t = V/D [1/(1 - Q/D) + 1/(Q/D)]; written there for
        a well that fills and is pumped out, which is the same balance.
    """
    runs = run_time(drawdown=drawdown, pump_flow=pump_flow, demand=demand)
    rests = rest_time(drawdown=drawdown, demand=demand)
    return quantity(magnitude(runs, "minute", "run") + magnitude(rests, "minute", "rest"), "minute")


def shortest_cycle(*, drawdown: Quantity, pump_flow: Quantity) -> Quantity:
    """Shortest time from start to start that any demand brings about; half the pump's flow does.

    Raises:
        OutOfRange: A value not more than zero.

    Source: MIL-HDBK-1005/9A 2.5.3.6, t = 4 V/D.

    >>> shortest = shortest_cycle(drawdown=quantity(25, "gallon"), pump_flow=quantity(10, "gpm"))
    >>> shortest.m_as("minute")
    10.0
    """
    half = quantity(0.5 * magnitude(pump_flow, "gpm", "flow of the pump", above=0.0), "gpm")
    return cycle_time(drawdown=drawdown, pump_flow=pump_flow, demand=half)
