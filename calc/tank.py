"""A pressure tank: what it gives between its settings, how long the pump runs and rests."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_SEA_LEVEL_PSI = 14.695949
_EARTH_RADIUS_M = 6_356_766.0
_BELOW_CUT_IN_PSI = 2.0


def atmosphere_at(altitude: Quantity) -> Quantity:
    """Pressure of the air at an altitude on a standard day.

    Args:
        altitude: Above sea level, -1,500 to 20,000 ft.

    Raises:
        OutOfRange: Outside those limits.

    Source: US Standard Atmosphere 1976, troposphere (the constants from memory).

    >>> round(atmosphere_at(quantity(6000, "ft")).m_as("psi"), 1)
    11.8
    """
    feet = magnitude(altitude, "ft", "altitude", at_least=-1500.0, at_most=20_000.0)
    metres = 0.3048 * feet
    # The standard counts heights as if gravity did not weaken with them.
    even = _EARTH_RADIUS_M * metres / (_EARTH_RADIUS_M + metres)
    # Air cools by 6.5 K in each kilometre from 288.15 K at sea level.
    return quantity(_SEA_LEVEL_PSI * (1.0 - 0.0065 * even / 288.15) ** 5.25588, "psi")


def tank_drawdown(
    *,
    volume: Quantity,
    precharge: Quantity,
    cut_in: Quantity,
    cut_out: Quantity,
    atmosphere: Quantity,
) -> Quantity:
    """Water a tank gives from cut-out down to cut-in, pump off, by Boyle's law.

    V (Pc + Pa)/(Pon + Pa) - V (Pc + Pa)/(Poff + Pa).

    Args:
        volume: Of the whole tank.
        precharge: Gauge pressure of its air when it is empty of water; 0 for a plain tank that was
            filled with air at atmospheric pressure only.
        cut_in: Gauge pressure at which the pump starts.
        cut_out: Gauge pressure at which it stops.
        atmosphere: `atmosphere_at`; 14.7 psi at sea level.

    Raises:
        OutOfRange: A negative pressure, a volume or atmosphere not more than zero, cut-out not
            above cut-in, or a precharge above cut-in: the tank would be empty before the start.

    Valid for:
        Slow change at one temperature, a bladder or diaphragm that does not touch the shell.

    Source: Boyle; a water-well trade magazine, two articles.
    """
    air = magnitude(atmosphere, "psi", "atmosphere", above=0.0)
    start = magnitude(cut_in, "psi", "cut-in", at_least=0.0)
    stop = magnitude(cut_out, "psi", "cut-out", above=start)
    charge = magnitude(precharge, "psi", "precharge", at_least=0.0, at_most=start) + air
    gallons = magnitude(volume, "gallon", "volume of the tank", above=0.0)
    return quantity(gallons * (charge / (start + air) - charge / (stop + air)), "gallon")


def advised_precharge(*, cut_in: Quantity) -> Quantity:
    """Precharge to set, measured with the tank empty: 2 psi below cut-in.

    Common practice, no published source; some texts set it equal to cut-in, on which the factors of
    0.37, 0.31 and 0.27 rest.

    Raises:
        OutOfRange: A cut-in below 2 psi.
    """
    start = magnitude(cut_in, "psi", "cut-in", at_least=_BELOW_CUT_IN_PSI)
    return quantity(start - _BELOW_CUT_IN_PSI, "psi")


def run_time(*, drawdown: Quantity, pump_flow: Quantity, demand: Quantity) -> Quantity:
    """Time the pump runs to refill a tank's drawdown while water is drawn.

    Args:
        drawdown: Between the two settings.
        pump_flow: Delivered, on the average between them.
        demand: Drawn meanwhile, 0 or more.

    Raises:
        OutOfRange: A drawdown not more than zero, a negative demand, or a pump that gives no more
            than is drawn: it does not stop.

    Source: volume over flow.
    """
    gallons = magnitude(drawdown, "gallon", "drawdown of the tank", above=0.0)
    drawn = magnitude(demand, "gpm", "demand", at_least=0.0)
    return quantity(gallons / (magnitude(pump_flow, "gpm", "flow", above=drawn) - drawn), "minute")


def rest_time(*, drawdown: Quantity, demand: Quantity) -> Quantity:
    """Time the pump rests while the tank's drawdown is drawn.

    Raises:
        OutOfRange: A drawdown or demand not more than zero: with nothing drawn it rests for ever.

    Source: volume over flow.
    """
    gallons = magnitude(drawdown, "gallon", "drawdown of the tank", above=0.0)
    return quantity(gallons / magnitude(demand, "gpm", "demand", above=0.0), "minute")


def cycle_time(*, drawdown: Quantity, pump_flow: Quantity, demand: Quantity) -> Quantity:
    """Time from one start of the pump to the next: run and rest.

    Raises:
        OutOfRange: As `run_time` and `rest_time`.
    """
    run = run_time(drawdown=drawdown, pump_flow=pump_flow, demand=demand)
    rest = rest_time(drawdown=drawdown, demand=demand)
    return quantity(
        magnitude(run, "minute", "run time") + magnitude(rest, "minute", "rest time"), "minute"
    )


def shortest_cycle(*, drawdown: Quantity, pump_flow: Quantity) -> Quantity:
    """Least time between starts, whatever is drawn: 4 x drawdown / flow, at a demand of half of it.

    Raises:
        OutOfRange: A value not more than zero.

    Source: least of `cycle_time` over the demand, by the calculus.
    """
    gallons = magnitude(drawdown, "gallon", "drawdown of the tank", above=0.0)
    return quantity(4.0 * gallons / magnitude(pump_flow, "gpm", "flow", above=0.0), "minute")


def drawdown_for_run(*, pump_flow: Quantity, run: Quantity) -> Quantity:
    """Drawdown a tank needs so that the pump runs a time with nothing drawn.

    Args:
        pump_flow: Delivered.
        run: Least run the motor may make: a minute or more is common practice, no published source;
            its maker says.

    Raises:
        OutOfRange: A negative value.

    Source: volume = flow x time.
    """
    minutes = magnitude(run, "minute", "run time", at_least=0.0)
    return quantity(magnitude(pump_flow, "gpm", "flow", at_least=0.0) * minutes, "gallon")


def tank_for_drawdown(
    *,
    drawdown: Quantity,
    precharge: Quantity,
    cut_in: Quantity,
    cut_out: Quantity,
    atmosphere: Quantity,
) -> Quantity:
    """Volume of the tank that gives a drawdown.

    Raises:
        OutOfRange: A drawdown not more than zero, or as `tank_drawdown`.

    Source: `tank_drawdown` turned about.
    """
    share = tank_drawdown(
        volume=quantity(1.0, "gallon"),
        precharge=precharge,
        cut_in=cut_in,
        cut_out=cut_out,
        atmosphere=atmosphere,
    )
    part = magnitude(share, "gallon", "drawdown of one gallon of tank", above=0.0)
    wanted = magnitude(drawdown, "gallon", "drawdown of the tank", above=0.0)
    return quantity(wanted / part, "gallon")
