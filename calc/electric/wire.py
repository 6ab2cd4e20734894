"""Copper conductors by size: section, diameter and resistance at a temperature."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_COPPER_ZERO_C = -234.5
"""Where the resistance of copper would be nothing if its line went on; 1/(234.5 + 75) is NEC's
0.00323 at 75 C."""
_TABLE_C = 75.0
_COLDEST_C = -40.0
_HOTTEST_C = 150.0


class Stranding(StrEnum):
    """How a conductor is made up."""

    SOLID = "solid"
    STRANDED = "stranded"


@dataclass(frozen=True, slots=True)
class Wire:
    """One size of copper conductor.

    Attributes:
        size: As printed, "10" or "1/0".
        circular_mils: Its section, as the table prints it.
        solid: Resistance per length at 75 C; None where the table has no solid conductor.
        stranded: The same of a stranded one.
        source: Where the figures come from.
    """

    size: str
    circular_mils: int
    solid: Quantity | None
    stranded: Quantity
    source: str


def wire_sizes() -> tuple[str, ...]:
    """Every size in the table, smallest first.

    >>> wire_sizes()[0]
    '14'

    Source: NEC Chapter 9 Table 8.
    """
    return tuple(row["size[AWG]"] for row in table.rows("copper_wire"))


@cache
def wire(size: str) -> Wire:
    """A copper conductor by its AWG size.

    Source: NEC Chapter 9 Table 8.

    Raises:
        OutOfRange: The table has no such size.

    >>> wire("10").stranded.m_as("ohm/kft")
    1.24
    """
    row = table.row("copper_wire", "size[AWG]", size)
    solid = row["solid[ohm/kft]"]
    return Wire(
        size=size,
        circular_mils=int(row["circular_mils[cmil]"]),
        solid=quantity(float(solid), "ohm/kft") if solid else None,
        stranded=quantity(float(row["stranded[ohm/kft]"]), "ohm/kft"),
        source=table.source("copper_wire"),
    )


def wire_diameter(size: str) -> Quantity:
    """Bare diameter of a solid conductor: 0.005 x 92^((36 - n)/39) in; 1/0 is n = 0, 2/0 is -1.

    Raises:
        OutOfRange: The table has no such size.

    Source: ASTM B258, the formula from memory; it gives the table's circular mils.
    """
    wire(size)
    gauge = 1 - int(size.removesuffix("/0")) if size.endswith("/0") else int(size)
    return quantity(0.005 * 92.0 ** ((36.0 - gauge) / 39.0), "in")


def resistance_of(size: str, *, stranding: Stranding, temperature: Quantity) -> Quantity:
    """Resistance of one conductor per length, at its own temperature.

    Args:
        size: AWG size.
        stranding: Solid or stranded; 2 to 3 % apart.
        temperature: Of the copper; the table's 75 C where a drop must hold at its worst.

    Raises:
        OutOfRange: The table has no such conductor, or a temperature outside -40 to 150 C.

    Source: NEC Chapter 9 Table 8; its note for other temperatures.

    >>> at = quantity(75, "degC")
    >>> resistance_of("12", stranding=Stranding.SOLID, temperature=at).m_as("ohm/kft")
    1.93
    """
    conductor = wire(size)
    known = conductor.solid if stranding is Stranding.SOLID else conductor.stranded
    if known is None:
        raise OutOfRange(f"the table has no solid conductor of size {size}")
    factor = copper_factor(measured_at=quantity(_TABLE_C, "degC"), temperature=temperature)
    return quantity(magnitude(known, "ohm/kft", "resistance") * factor, "ohm/kft")


def copper_factor(*, measured_at: Quantity, temperature: Quantity) -> float:
    """What a copper resistance is to be multiplied by, to bring it to another temperature.

    Args:
        measured_at: Temperature of the copper at which the resistance is known.
        temperature: Wanted.

    Raises:
        OutOfRange: A temperature outside -40 to 150 C.

    Source: the straight line through -234.5 C (from memory), the same as the note to NEC Chapter 9
        Table 8: R2 = R1 (1 + 0.00323 (T2 - 75)).
    """
    before = _celsius(measured_at, "temperature of the measurement")
    return (_celsius(temperature, "temperature") - _COPPER_ZERO_C) / (before - _COPPER_ZERO_C)


def _celsius(temperature: Quantity, name: str) -> float:
    return magnitude(temperature, "degC", name, at_least=_COLDEST_C, at_most=_HOTTEST_C)
