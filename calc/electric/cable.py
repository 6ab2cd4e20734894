"""Cable down the well: the voltage it takes, the size a run needs, what it weighs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import pi, sqrt
from typing import TYPE_CHECKING

from calc import table
from calc.electric.wire import Stranding, resistance_of, wire, wire_sizes
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_COPPER_LB_IN3 = 8.89 * 62.4 / 1728.0
"""Specific gravity 8.89 of water at 62.4 lb/ft3."""


@dataclass(frozen=True, slots=True)
class CableWeight:
    """What a flat cable of three conductors and ground may weigh per length, in air.

    Attributes:
        lowest: The lightest to expect.
        highest: The heaviest to expect.
        source: Says that this is an estimate.
    """

    lowest: Quantity
    highest: Quantity
    source: str


def voltage_drop(
    *, current: Quantity, length: Quantity, resistance_per_length: Quantity, phases: int
) -> Quantity:
    """Voltage a run of cable takes: 2 I L R single-phase, sqrt(3) I L R three-phase.

    Args:
        current: In each conductor.
        length: One way, from the source to the motor.
        resistance_per_length: Of one conductor.
        phases: 1 or 3.

    Raises:
        OutOfRange: A negative value, or phases other than 1 and 3.

    Valid for:
        Any power factor, on the high side: reactance is left out and the current is taken as in
        phase. In cable to 1/0 AWG reactance adds little.

    Source: general practice; NEC Chapter 9 Table 8 for the resistance.
    """
    amperes = magnitude(current, "ampere", "current", at_least=0.0)
    feet = magnitude(length, "ft", "length", at_least=0.0)
    ohms = magnitude(resistance_per_length, "ohm/ft", "resistance per length", at_least=0.0)
    return quantity(_conductors(phases) * amperes * feet * ohms, "volt")


def longest_run(
    *, current: Quantity, resistance_per_length: Quantity, allowed_drop: Quantity, phases: int
) -> Quantity:
    """Longest cable, one way, whose voltage drop stays at what is allowed.

    Args:
        current: In each conductor, more than 0.
        resistance_per_length: Of one conductor, more than 0.
        allowed_drop: In volts: the supply times the share allowed. The informational notes to NEC
            210.19(A) and 215.2(A) recommend 3 % in a branch or feeder and 5 % in all; a trade
            journal uses 5 % for pump cable.
        phases: 1 or 3.

    Raises:
        OutOfRange: A current or resistance not more than zero, a negative drop, or phases other
            than 1 and 3.

    Source: `voltage_drop` turned about.
    """
    amperes = magnitude(current, "ampere", "current", above=0.0)
    ohms = magnitude(resistance_per_length, "ohm/ft", "resistance per length", above=0.0)
    volts = magnitude(allowed_drop, "volt", "allowed drop", at_least=0.0)
    return quantity(volts / (_conductors(phases) * amperes * ohms), "ft")


def smallest_size(
    *,
    current: Quantity,
    length: Quantity,
    allowed_drop: Quantity,
    phases: int,
    stranding: Stranding,
    temperature: Quantity,
) -> str:
    """Smallest size whose voltage drop over a run stays at what is allowed.

    By drop alone: whether the size may carry the current is for the electrical code.

    Source: voltage drop turned about; by drop alone, not by ampacity.

    Args:
        current: In each conductor.
        length: One way.
        allowed_drop: In volts.
        phases: 1 or 3.
        stranding: Solid or stranded.
        temperature: Of the copper.

    Raises:
        OutOfRange: As `voltage_drop`, or no size in the table is large enough.
    """
    allowed = magnitude(allowed_drop, "volt", "allowed drop", at_least=0.0)
    for size in wire_sizes():
        if stranding is Stranding.SOLID and wire(size).solid is None:
            continue
        drop = voltage_drop(
            current=current,
            length=length,
            resistance_per_length=resistance_of(size, stranding=stranding, temperature=temperature),
            phases=phases,
        )
        if magnitude(drop, "volt", "drop") <= allowed:
            return size
    raise OutOfRange(f"no {stranding.value} conductor in the table keeps within {allowed:g} V")


def _conductors(phases: int) -> float:
    if phases not in {1, 3}:
        raise OutOfRange(f"there is no rule for {phases} phases; there is 1 and 3")
    return 2.0 if phases == 1 else sqrt(3.0)


@cache
def cable_weight(size: str) -> CableWeight:
    """What flat submersible cable, three conductors and ground, may weigh per length. An estimate.

    Raises:
        OutOfRange: The table has no such size.

    Source: common practice, no published source (`tables/cable_weight.csv`).
    """
    row = table.row("cable_weight", "size[AWG]", size)
    return CableWeight(
        lowest=quantity(float(row["lowest[lb/ft]"]), "lb/ft"),
        highest=quantity(float(row["highest[lb/ft]"]), "lb/ft"),
        source=table.source("cable_weight"),
    )


def copper_weight(size: str, *, conductors: int) -> Quantity:
    """Weight per length of the copper alone, the least a cable can weigh.

    Raises:
        OutOfRange: The table has no such size, or fewer than one conductor.

    Source: section from NEC Chapter 9 Table 8, density 8.89.
    """
    if conductors < 1:
        raise OutOfRange(f"a cable of {conductors} conductors is none")
    section = wire(size).circular_mils * 1e-6 * pi / 4.0
    return quantity(12.0 * section * _COPPER_LB_IN3 * conductors, "lb/ft")
