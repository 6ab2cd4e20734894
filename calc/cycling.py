"""How long a pump runs and rests on its tank, and whether it runs long enough."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, judge
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_SOURCE = "MIL-HDBK-1005/9A 2.5.3.6; the least run as its giver states"


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


def judge_run_time(
    *,
    drawdown: Quantity | None,
    pump_flow: Quantity | None,
    least_run: Quantity | None,
    caution_share: float,
) -> Check:
    """Whether a pump runs long enough each time, at the worst: when nothing else is drawn.

    Args:
        drawdown: Of the tank, or None.
        pump_flow: Mean of the pump's flow between cut-in and cut-out, or None.
        least_run: That the motor asks for, or None. One minute is common practice; larger motors
            ask for more.
        caution_share: Share of least over actual run from which the verdict is `caution`, 0 to 1.

    Raises:
        OutOfRange: As `run_time` and `judge`, or a negative least run.
    """
    given = {
        "drawdown of the tank": drawdown,
        "flow of the pump": pump_flow,
        "least run of the motor": least_run,
    }
    if least_run is not None:
        magnitude(least_run, "minute", "least run", at_least=0.0)
    runs = None
    if drawdown is not None and pump_flow is not None:
        runs = run_time(drawdown=drawdown, pump_flow=pump_flow, demand=quantity(0.0, "gpm"))
    return judge(
        "run of the pump on its tank",
        least_run,
        runs,
        unit="minute",
        caution_share=caution_share,
        missing=tuple(name for name, value in given.items() if value is None),
        formula="least run / (drawdown / flow of the pump)",
        source=_SOURCE,
        note="over its limit the motor starts too often: more tank, or a wider switch",
    )
