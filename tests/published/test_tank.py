"""Pressure tanks against a water-well trade magazine, a military handbook and another library."""

from __future__ import annotations

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from calc.hydraulics.atmosphere import atmosphere_at
from calc.hydraulics.cycling import cycle_time, rest_time, run_time, shortest_cycle
from calc.hydraulics.tank import (
    drawdown,
    drawdown_share,
    plain_tank_drawdown,
    usual_precharge,
    volume_for_drawdown,
    water_share,
)
from calc.units import Quantity, quantity

SEA_LEVEL = 14.7


def psi(value: float) -> Quantity:
    return quantity(value, "psi")


def gallons(value: float) -> Quantity:
    return quantity(value, "gallon")


def share(precharge: float, cut_in: float, cut_out: float, air: float = SEA_LEVEL) -> float:
    return drawdown_share(
        precharge=psi(precharge), cut_in=psi(cut_in), cut_out=psi(cut_out), atmosphere=psi(air)
    )


def gives(volume: float, precharge: float, on: float, off: float, air: float = SEA_LEVEL) -> float:
    water = drawdown(
        volume=gallons(volume),
        precharge=psi(precharge),
        cut_in=psi(on),
        cut_out=psi(off),
        atmosphere=psi(air),
    )
    return water.m_as("gallon")


def test_w9_1_thirty_fifty() -> None:
    """Pelikan, National Driller, February 2006 and March 2008, example 1.

    Precharge 28, 30/50 switch, 85 gal, 14.7 psi: factor 0.295, 25.1 gal.
    """
    assert share(28, 30, 50) == pytest.approx(0.295, abs=5e-4)
    assert gives(85, 28, 30, 50) == pytest.approx(25.1, abs=0.05)


def test_six_thousand_feet() -> None:
    """The same, example 2: 11.8 psi at 6,000 ft.

    Printed as 80.9 - 54.7 and, cut instead of rounded, 26.1 gal; 26.19 unrounded.
    """
    assert gives(85, 28, 30, 50, air=11.8) == pytest.approx(26.1, abs=0.1)
    assert gives(85, 28, 30, 50, air=11.8) == pytest.approx(80.9 - 54.7, abs=0.1)


def test_a_tank_of_119_gallons() -> None:
    """Pelikan, The Driller, on several tanks: 119 gal on a 30/50 switch give 36.8 gal.

    That is the table without an offset: precharge equal to cut-in.
    """
    assert gives(119, 30, 30, 50) == pytest.approx(36.8, abs=0.05)


@pytest.mark.parametrize(
    ("on", "off", "below", "equal"),
    [
        (20, 40, 0.345, 0.366),
        (30, 50, 0.295, 0.309),
        (40, 60, 0.258, 0.268),
        (50, 70, 0.229, 0.236),
    ],
)
def test_both_tables_of_drawdown(on: float, off: float, below: float, equal: float) -> None:
    """0.30 or 0.31, 0.26 or 0.27: printed tables differ by the 2 psi they set below cut-in.

    0.295 is seen in print, the others are hand calculations. Neither is taken for granted: the
    precharge is the caller's.
    """
    assert share(on - 2, on, off) == pytest.approx(below, abs=5e-4)
    assert share(on, on, off) == pytest.approx(equal, abs=5e-4)


@pytest.mark.parametrize(("on", "off", "printed"), [(20, 40, 0.37), (30, 50, 0.31), (40, 60, 0.27)])
def test_the_trade_table(on: float, off: float, printed: float) -> None:
    """A common trade table (from memory), precharge equal to cut-in."""
    assert share(on, on, off) == pytest.approx(printed, abs=0.005)


def test_a_plain_tank() -> None:
    """Hand calculation, 30/50: 14.7/44.7 - 14.7/64.7 = 0.102; a third of the precharged tank."""
    water = plain_tank_drawdown(
        volume=gallons(100), cut_in=psi(30), cut_out=psi(50), atmosphere=psi(SEA_LEVEL)
    )

    assert water.m_as("gallon") == pytest.approx(10.2, abs=0.05)


def test_what_the_bladder_takes() -> None:
    """Hand calculation: 28 psi of precharge at 50 psi: 1 - 42.7/64.7 = 0.340 of the tank."""
    taken = water_share(precharge=psi(28), pressure=psi(50), atmosphere=psi(SEA_LEVEL))

    assert taken == pytest.approx(0.340, abs=5e-4)


def test_tank_for_a_drawdown() -> None:
    """Hand calculation: 10 gal at 0.2953 takes 33.9 gal of tank."""
    tank = volume_for_drawdown(
        drawdown=gallons(10),
        precharge=psi(28),
        cut_in=psi(30),
        cut_out=psi(50),
        atmosphere=psi(SEA_LEVEL),
    )

    assert tank.m_as("gallon") == pytest.approx(33.9, abs=0.05)


def test_precharge_to_set() -> None:
    """Common practice, no published source: 2 psi below cut-in; 28 for 30/50 and 38 for 40/60."""
    assert usual_precharge(cut_in=psi(30)).m_as("psi") == pytest.approx(28)
    assert usual_precharge(cut_in=psi(40)).m_as("psi") == pytest.approx(38)


@pytest.mark.parametrize(
    ("feet", "printed"),
    # ASHRAE's table of the standard atmosphere, as a reference page prints it.
    [(-1000, 15.236), (-500, 14.966), (0, 14.696), (500, 14.430), (1000, 14.175), (2000, 13.664),
     (3000, 13.173), (5000, 12.230), (6000, 11.778), (7000, 11.341), (8000, 10.914),
     (9000, 10.506), (10000, 10.108), (15000, 8.296)],
)  # fmt: skip
def test_standard_atmosphere_in_print(feet: float, printed: float) -> None:
    """The page's figures stray by up to 0.003 from the formula printed above them."""
    by_its_formula = 14.696 * (1 - 6.8754e-6 * feet) ** 5.2559

    assert printed == pytest.approx(by_its_formula, abs=3e-3)
    assert atmosphere_at(quantity(feet, "ft")).m_as("psi") == pytest.approx(printed, abs=3e-3)


def test_a_misprinted_atmosphere() -> None:
    """At 4,000 ft ASHRAE's table prints 12.682; its own formula gives 12.692, and so do we."""
    ours = atmosphere_at(quantity(4000, "ft")).m_as("psi")

    assert ours == pytest.approx(14.696 * (1 - 6.8754e-6 * 4000) ** 5.2559, abs=5e-4)
    assert ours != pytest.approx(12.682, abs=5e-3)


def test_atmosphere_used_for_tanks() -> None:
    """Pelikan: 14.7 psi at sea level, 11.8 at 6,000 ft."""
    assert atmosphere_at(quantity(0, "ft")).m_as("psi") == pytest.approx(14.7, abs=0.05)
    assert atmosphere_at(quantity(6000, "ft")).m_as("psi") == pytest.approx(11.8, abs=0.05)


@pytest.mark.parametrize("metres", range(-450, 4600, 50))
def test_atmosphere_against_another_library(metres: int) -> None:
    """The 1976 atmosphere of fluids, at the same geopotential height, every 50 m."""
    theirs = ATMOSPHERE_1976(float(metres))
    ours = atmosphere_at(quantity(theirs.H, "m"))

    assert ours.m_as("Pa") == pytest.approx(theirs.P, rel=2e-5)


def test_cycle_of_a_pump() -> None:
    """MIL-HDBK-1005/9A 2.5.3.6 Equation 1, worked by hand: V 25 gal, D 10 gpm, Q 4 gpm.

    25/10 x [1/(1 - 0.4) + 1/0.4] = 2.5 x 4.1667 = 10.417 min: it runs 4.167 and rests 6.25.
    """
    times = {"drawdown": gallons(25), "demand": quantity(4, "gpm")}
    runs = run_time(pump_flow=quantity(10, "gpm"), **times)
    cycle = cycle_time(pump_flow=quantity(10, "gpm"), **times)

    assert cycle.m_as("minute") == pytest.approx(10.417, abs=5e-4)
    assert runs.m_as("minute") == pytest.approx(4.167, abs=5e-4)
    assert rest_time(**times).m_as("minute") == pytest.approx(6.25, abs=5e-3)


def test_shortest_cycle() -> None:
    """MIL-HDBK-1005/9A 2.5.3.6: t = 4 V/D; its 6 minutes at 10 gpm take V = tD/4 = 15 gal."""
    shortest = shortest_cycle(drawdown=gallons(15), pump_flow=quantity(10, "gpm"))

    assert shortest.m_as("minute") == pytest.approx(6)


def test_a_gallon_of_drawdown_for_each_gpm_is_a_minute() -> None:
    """Pelikan, The Driller: 1 minute asks a 10 gpm pump for 10 gal of drawdown."""
    runs = run_time(drawdown=gallons(10), pump_flow=quantity(10, "gpm"), demand=quantity(0, "gpm"))

    assert runs.m_as("minute") == pytest.approx(1)
