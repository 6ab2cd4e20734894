"""Head that flow loses to the wall of a pipe.

Any inside diameter is taken: for hose under pressure give the swollen bore (`hose.swollen_bore`),
for PVC the average one (`PipeSize.average_inside_diameter`), for scaled steel the measured one.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import log10, pi
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_GRAVITY_FT_S2 = 32.174
LAMINAR_TO = 2000.0
"""Reynolds number up to which flow in a pipe is laminar; the classical lower limit."""
TURBULENT_FROM = 4000.0
"""Reynolds number from which Colebrook's equation holds. Between the two nothing is certain."""
_HIGHEST_REYNOLDS = 1e8
_ROUGHEST = 0.05
_LEAST_COEFFICIENT = 40.0
_GREATEST_COEFFICIENT = 160.0


@dataclass(frozen=True, slots=True)
class Surface:
    """The inside of a pipe.

    Attributes:
        name: What it is made of and how it has aged, as in the table.
        coefficient: Hazen-Williams C.
        roughness: Height of its grains; None when none is published.
        source: Where the figures come from.
    """

    name: str
    coefficient: float
    roughness: Quantity | None
    source: str


@cache
def surface(name: str) -> Surface:
    """The inside of a pipe by its name in `tables/friction.csv`.

    Source: Turf Irrigation Manual for C; roughness by Moody, as its table names them.

    Raises:
        OutOfRange: The table has no such surface.

    >>> surface("PVC").coefficient
    150.0
    """
    row = table.row("friction", "surface", name)
    grain = row["roughness[ft]"]
    return Surface(
        name=name,
        coefficient=float(row["coefficient[]"]),
        roughness=quantity(float(grain), "ft") if grain else None,
        source=table.source("friction"),
    )


def velocity(*, flow: Quantity, inside_diameter: Quantity) -> Quantity:
    """Mean velocity in a pipe that runs full.

    Raises:
        OutOfRange: A negative flow, or a diameter not more than zero.

    Source: conservation of mass; 0.4085 q/d^2 in gpm and inches.

    >>> fast = velocity(flow=quantity(100, "gpm"), inside_diameter=quantity(2.067, "in"))
    >>> round(fast.m_as("ft/s"), 2)
    9.56
    """
    volume = magnitude(flow, "ft**3/s", "flow", at_least=0.0)
    bore = magnitude(inside_diameter, "ft", "inside diameter", above=0.0)
    return quantity(volume / (pi / 4.0 * bore**2), "ft/s")


def reynolds_number(
    *, flow: Quantity, inside_diameter: Quantity, kinematic_viscosity: Quantity
) -> float:
    """Reynolds number of a pipe that runs full: V D / nu.

    Source: definition of the Reynolds number.

    Raises:
        OutOfRange: A negative flow, or a diameter or viscosity not more than zero.
    """
    speed = velocity(flow=flow, inside_diameter=inside_diameter).m_as("ft/s")
    bore = magnitude(inside_diameter, "ft", "inside diameter", above=0.0)
    return speed * bore / magnitude(kinematic_viscosity, "ft**2/s", "viscosity", above=0.0)


def hazen_williams(
    *, flow: Quantity, length: Quantity, inside_diameter: Quantity, coefficient: float
) -> Quantity:
    """Head lost over a length of pipe: 0.2083 (100/C)^1.852 q^1.852 / d^4.8655 feet per 100 ft.

    q in gpm, d in inches. Other printed forms, 10.67 in SI and 4.52 in psi, give up to 2 % less
    in drop pipe; this one is used everywhere here.

    Args:
        flow: Through the pipe, 0 or more.
        length: Of the pipe.
        inside_diameter: As it is under pressure.
        coefficient: C, 40 to 160.

    Raises:
        OutOfRange: A negative flow or length, a diameter not more than zero, or C outside 40..160.

    Valid for:
        Water near 60 F in turbulent flow. Against Darcy-Weisbach it is within some 11 % in drop
        pipe; where water is cold, flow slow or the pipe rough, take `darcy_weisbach`.

    Source: Engineering ToolBox, Hazen-Williams.
    """
    if not _LEAST_COEFFICIENT <= coefficient <= _GREATEST_COEFFICIENT:
        raise OutOfRange(f"C is {coefficient:g}; Hazen-Williams is used from 40 to 160")
    gpm = magnitude(flow, "gpm", "flow", at_least=0.0)
    inches = magnitude(inside_diameter, "in", "inside diameter", above=0.0)
    feet = magnitude(length, "ft", "length", at_least=0.0)
    per_hundred = 0.2083 * (100.0 / coefficient) ** 1.852 * gpm**1.852 / inches**4.8655
    return quantity(per_hundred * feet / 100.0, "ft")


def friction_factor(*, reynolds: float, relative_roughness: float) -> float:
    """Darcy's friction factor: 64/Re in laminar flow, Colebrook's equation in turbulent flow.

    Args:
        reynolds: More than 0, to 1e8, but not between 2,000 and 4,000.
        relative_roughness: Roughness / inside diameter, 0 to 0.05.

    Raises:
        OutOfRange: Outside those limits. Between 2,000 and 4,000 flow may be either, and one
            cannot say which.

    Source: Hagen-Poiseuille; Colebrook 1939, 1/sqrt(f) = -2 log10(e/3.7 + 2.51/(Re sqrt(f))),
        solved to the last digits; limits of Moody's chart.
    """
    if not 0.0 <= relative_roughness <= _ROUGHEST:
        raise OutOfRange(
            f"the relative roughness is {relative_roughness:g}; the chart runs from 0 to 0.05"
        )
    if not 0.0 < reynolds <= _HIGHEST_REYNOLDS:
        raise OutOfRange(f"the Reynolds number is {reynolds:g}; it must be above 0 and to 1e8")
    if reynolds <= LAMINAR_TO:
        return 64.0 / reynolds
    if reynolds < TURBULENT_FROM:
        raise OutOfRange(
            f"the Reynolds number is {reynolds:.0f}: between 2,000 and 4,000 flow may be laminar "
            "or turbulent and its friction is not known"
        )
    return _colebrook(reynolds, relative_roughness)


def _colebrook(reynolds: float, relative: float) -> float:
    inverse_root = 8.0
    # Each round leaves less than a fifth of the error, so forty are far more than enough.
    for _ in range(40):
        inverse_root = -2.0 * log10(relative / 3.7 + 2.51 * inverse_root / reynolds)
    return 1.0 / inverse_root**2


def darcy_weisbach(
    *,
    flow: Quantity,
    length: Quantity,
    inside_diameter: Quantity,
    roughness: Quantity,
    kinematic_viscosity: Quantity,
) -> Quantity:
    """Head lost over a length of pipe: f L/D V^2/2g. Nothing is lost where nothing flows.

    Args:
        flow: Through the pipe, 0 or more.
        length: Of the pipe.
        inside_diameter: As it is under pressure.
        roughness: Of its inside.
        kinematic_viscosity: Of the water, `water.kinematic_viscosity`.

    Raises:
        OutOfRange: A negative flow, length or roughness, a diameter or viscosity not more than
            zero, or as `friction_factor`.

    Source: Darcy-Weisbach, with `friction_factor`.
    """
    feet = magnitude(length, "ft", "length", at_least=0.0)
    grain = magnitude(roughness, "ft", "roughness", at_least=0.0)
    reynolds = reynolds_number(
        flow=flow, inside_diameter=inside_diameter, kinematic_viscosity=kinematic_viscosity
    )
    if reynolds == 0.0:
        return quantity(0.0, "ft")
    bore = magnitude(inside_diameter, "ft", "inside diameter", above=0.0)
    factor = friction_factor(reynolds=reynolds, relative_roughness=grain / bore)
    speed = velocity(flow=flow, inside_diameter=inside_diameter).m_as("ft/s")
    return quantity(factor * feet / bore * speed**2 / (2.0 * _GRAVITY_FT_S2), "ft")
