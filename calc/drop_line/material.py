"""What drop pipe is made of: stiffness, expansion, density and strength."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.interpolate import between
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Material:
    """Properties of a pipe material at about 73 F; `source` says which figures they are."""

    name: str
    modulus: Quantity
    expansion: Quantity
    density: Quantity
    source: str


@cache
def material(name: str) -> Material:
    """The properties of "steel" or "PVC".

    Source: the table it reads, which names the source of each figure: ASTM A53, D1784;
    Engineering ToolBox.

    Raises:
        OutOfRange: Another material.

    >>> material("steel").modulus.m_as("psi")
    30000000.0
    """
    for row in table.rows("materials"):
        if row["material"] == name:
            return Material(
                name,
                quantity(float(row["modulus[psi]"]), "psi"),
                quantity(float(row["expansion[1/delta_degF]"]), "1/delta_degF"),
                quantity(float(row["density[lb/ft**3]"]), "lb/ft**3"),
                table.source("materials"),
            )
    raise OutOfRange(f"no material {name!r} in the table; there is steel and PVC")


def pvc_modulus(temperature: Quantity) -> Quantity:
    """Short-term tensile modulus of PVC by temperature, interpolated; creep is not included.

    Raises:
        OutOfRange: Below 73 F or above 140 F, where the table ends.

    Source: Engineering ToolBox, PVC expansion loops.
    """
    points = [
        (float(row["temperature[degF]"]), float(row["modulus[psi]"]))
        for row in table.rows("pvc_modulus")
    ]
    degrees = magnitude(temperature, "degF", "temperature of the pipe")
    return quantity(between(points, degrees, "temperature of the pipe, in F"), "psi")


@dataclass(frozen=True, slots=True)
class Grade:
    """Strength of a grade of ASTM A53 steel, minimum."""

    name: str
    tensile_strength: Quantity
    yield_strength: Quantity


def a53_grade(name: str) -> Grade:
    """ASTM A53 Grade "A" (Type F too) or "B".

    Source: ASTM A53.

    Raises:
        OutOfRange: Another grade.

    >>> a53_grade("A").yield_strength.m_as("psi")
    30000.0
    """
    for row in table.rows("a53"):
        if row["grade"] == name:
            return Grade(
                name,
                quantity(float(row["tensile[psi]"]), "psi"),
                quantity(float(row["yield[psi]"]), "psi"),
            )
    raise OutOfRange(f"no ASTM A53 grade {name!r} in the table; there is A and B")


def a53_mill_test(*, nps: str, schedule: str, grade: str, coupled: bool) -> Quantity:
    """Hydrostatic pressure at which the mill tested the pipe; not a working pressure.

    Args:
        nps: Nominal pipe size.
        schedule: "40" or "80".
        grade: "A" or "B".
        coupled: Threaded and coupled, or plain end.

    Raises:
        OutOfRange: The table has no such pipe.

    Source: ASTM A53 Tables X2.2 and X2.3.
    """
    wanted = (nps, schedule, "coupled" if coupled else "plain")
    for row in table.rows("a53_mill_test"):
        if (row["nps"], row["schedule"], row["ends"]) == wanted and grade in {"A", "B"}:
            return quantity(float(row[f"{grade}[psi]"]), "psi")
    raise OutOfRange(f"no mill test of NPS {nps}, schedule {schedule}, grade {grade} in the table")
