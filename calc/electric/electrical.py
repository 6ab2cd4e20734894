"""What is measured at the motor: windings less the cable, unbalance of volts and amps, derating."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.interpolate import between
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Unbalance:
    """How far three legs are apart.

    Attributes:
        average: Of the three.
        deviation: The greatest distance of one of them from the average.
        share: deviation / average, a fraction; times 100 it is NEMA's per cent.
        leg: Which of them is farthest off, counted from 0; the first of two equals.
    """

    average: Quantity
    deviation: Quantity
    share: float
    leg: int


def winding_resistance(
    *,
    measured: Quantity,
    meter_leads: Quantity,
    cable_length: Quantity,
    resistance_per_length: Quantity,
) -> Quantity:
    """Resistance of a winding measured at the top of the well, less the cable there and back.

    Args:
        measured: Between two legs at the surface.
        meter_leads: Of the meter with its tips together; 0 when the meter takes it off itself.
        cable_length: One way.
        resistance_per_length: Of one conductor, at the temperature of the cable in the well.

    Raises:
        OutOfRange: A negative value, or a reading less than the leads and cable alone: a short, or
            the wrong cable.

    Source: the loop of two conductors in series with the winding.
    """
    reading = magnitude(measured, "ohm", "measured resistance", at_least=0.0)
    leads = magnitude(meter_leads, "ohm", "resistance of the meter's leads", at_least=0.0)
    feet = magnitude(cable_length, "ft", "length of cable", at_least=0.0)
    each = magnitude(resistance_per_length, "ohm/ft", "resistance per length", at_least=0.0)
    loop = 2.0 * feet * each
    if reading < leads + loop:
        raise OutOfRange(
            f"{reading:g} ohm is less than the cable alone, {loop:.3g} ohm, and the meter's leads"
        )
    return quantity(reading - leads - loop, "ohm")


def voltage_unbalance(volts: Sequence[Quantity]) -> Unbalance:
    """Unbalance of three line-to-line voltages: greatest deviation from the average / average.

    The difference between highest and lowest over the average is another figure, up to twice this.

    Raises:
        OutOfRange: Not three, a negative one, or all of them zero.

    Source: NEMA MG 1 14.36, which recommends 1 % at the motor and forbids running above 5 %.

    >>> legs = [quantity(each, "volt") for each in (460, 467, 450)]
    >>> round(100 * voltage_unbalance(legs).share, 2)
    1.96
    """
    return _unbalance(volts, "volt", "voltage")


def current_unbalance(amperes: Sequence[Quantity]) -> Unbalance:
    """Unbalance of the currents of three legs, by the same form as the voltages.

    It is typically 6 to 10 times the unbalance of the voltages.

    Raises:
        OutOfRange: Not three, a negative one, or all of them zero.

    Source: NEMA MG 1 14.36 (from memory).
    """
    return _unbalance(amperes, "ampere", "current")


def _unbalance(legs: Sequence[Quantity], unit: str, name: str) -> Unbalance:
    if len(legs) != 3:
        raise OutOfRange(f"unbalance needs the {name} of three legs, got {len(legs)}")
    values = [magnitude(leg, unit, name, at_least=0.0) for leg in legs]
    average = sum(values) / 3.0
    if average == 0.0:
        raise OutOfRange(f"every {name} is zero; there is nothing to compare")
    off = [abs(value - average) for value in values]
    greatest = max(off)
    return Unbalance(
        average=quantity(average, unit),
        deviation=quantity(greatest, unit),
        share=greatest / average,
        leg=off.index(greatest),
    )


def unbalance_derating(share: float) -> float:
    """Share of its rated power a three-phase motor may give under a voltage unbalance.

    Args:
        share: Of `voltage_unbalance`, a fraction, 0 to 0.05.

    Raises:
        OutOfRange: Negative, not a number, or above 5 %, where a motor must not run.

    Source: `tables/unbalance_derating.csv`, interpolated; a graph in NEMA MG 1, so good to 0.02.

    >>> unbalance_derating(0.03)
    0.89
    """
    points = [
        (float(row["unbalance[%]"]), float(row["factor[]"]))
        for row in table.rows("unbalance_derating")
    ]
    # Rounded, since 100 x 0.05 may come out a hair above 5.
    return between(points, round(100.0 * share, 9), "voltage unbalance, in per cent")
