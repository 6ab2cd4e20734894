"""Pipe by size and schedule: dimensions, weight, and the pressure its wall withstands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import pi
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.interpolate import between
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_A53_WALL_UNDER = 0.125
"""ASTM A53: the wall may be 12.5 % under nominal anywhere."""
_PLAIN_END = 10.68
"""Pounds a foot of steel pipe for each square inch of (outside diameter - wall) x wall."""
_PVC_MEAN_WALL = 1.06
"""Mean wall over minimum wall that the printed average bores of D1785 pipe imply."""
_PVC_DENSITY_LB_IN3 = 1.40 * 62.4 / 1728.0
"""Specific gravity 1.40 (cell class 12454) of water at 62.4 lb/ft3."""


@dataclass(frozen=True, slots=True)
class PipeSize:
    """One size of pipe.

    Attributes:
        material: "steel" or "PVC".
        nps: Nominal pipe size, as printed ("1-1/4").
        schedule: "40", "80" or "120".
        outside_diameter: Of the plain pipe.
        wall: As the standard prints it: nominal for steel, minimum for PVC.
        minimum_wall: The least the standard allows.
        inside_diameter: Outside diameter less two printed walls, the widest bore.
        average_inside_diameter: The bore to expect; for PVC narrower than `inside_diameter`.
        weight_per_length: Plain end, as printed; see `weight_source`.
        threaded_coupled_weight: With threads and couplings; None when no figure is known.
        metal_area: Section of the printed wall, threads not cut.
        bore_area: From `inside_diameter`.
        outside_area: From `outside_diameter`.
        rating: Plain-end water pressure rating at 73 F; None for steel, which has none.
        source: Where the figures come from.
    """

    material: str
    nps: str
    schedule: str
    outside_diameter: Quantity
    wall: Quantity
    minimum_wall: Quantity
    inside_diameter: Quantity
    average_inside_diameter: Quantity
    weight_per_length: Quantity
    threaded_coupled_weight: Quantity | None
    metal_area: Quantity
    bore_area: Quantity
    outside_area: Quantity
    rating: Quantity | None
    weight_source: str
    source: str


def sizes(material: str) -> tuple[tuple[str, str], ...]:
    """Every (size, schedule) known of "steel" or "PVC", in the table's order.

    >>> sizes("steel")[2]
    ('1', '40')

    Source: ASME B36.10M; ASTM D1785.
    """
    return tuple((row["nps"], row["schedule"]) for row in table.rows(_table_of(material)))


@cache
def steel_pipe(nps: str, schedule: str) -> PipeSize:
    """Steel pipe by ASME B36.10M and ASTM A53; galvanizing adds a little that no source states.

    Source: ASME B36.10M; ASTM A53 Tables X2.2 and X2.3, coupled weights from memory.

    Raises:
        OutOfRange: The table has no such size and schedule.

    >>> steel_pipe("2", "40").weight_per_length.m_as("lb/ft")
    3.66
    """
    row = _row("steel", nps, schedule)
    outside, wall = float(row["outside_diameter[in]"]), float(row["wall[in]"])
    coupled = row["threaded_coupled[lb/ft]"]
    return _size(
        ("steel", nps, schedule),
        outside,
        wall,
        minimum_wall=wall * (1.0 - _A53_WALL_UNDER),
        average_bore=outside - 2.0 * wall,
        weight=float(row["plain_end[lb/ft]"]),
        coupled=float(coupled) if coupled else None,
        rating=None,
        weight_source="ASTM A53 Table X2.2, plain end",
    )


def plain_end_weight(*, outside_diameter: Quantity, wall: Quantity) -> Quantity:
    """Weight of plain-end steel pipe of any size and wall: 10.68 (D - t) t lb/ft, in inches.

    Args:
        outside_diameter: D, more than two walls.
        wall: t, more than 0.

    Raises:
        OutOfRange: A wall that is not more than zero, or that leaves no bore.

    Source: ASME B36.10M; ASTM A53 prints 10.69. Threads and couplings are not in it.

    >>> outside, wall = quantity(2.375, "in"), quantity(0.154, "in")
    >>> round(plain_end_weight(outside_diameter=outside, wall=wall).m_as("lb/ft"), 2)
    3.65
    """
    thick = magnitude(wall, "in", "wall of the pipe", above=0.0)
    outside = magnitude(outside_diameter, "in", "outside diameter")
    if outside <= 2.0 * thick:
        raise OutOfRange(f"a wall of {thick:g} in leaves no bore in a pipe of {outside:g} in")
    return quantity(_PLAIN_END * (outside - thick) * thick, "lb/ft")


@cache
def pvc_pipe(nps: str, schedule: str) -> PipeSize:
    """PVC1120 pipe by ASTM D1785.

    Source: ASTM D1785.

    Raises:
        OutOfRange: The table has no such size and schedule.

    >>> pvc_pipe("2", "80").rating.m_as("psi")
    400.0
    """
    row = _row("PVC", nps, schedule)
    outside, wall = float(row["outside_diameter[in]"]), float(row["wall[in]"])
    mean_wall = _PVC_MEAN_WALL * wall
    bore, weight = row["average_inside_diameter[in]"], row["weight[lb/ft]"]
    worked = 12.0 * pi * (outside - mean_wall) * mean_wall * _PVC_DENSITY_LB_IN3
    return _size(
        ("PVC", nps, schedule),
        outside,
        wall,
        minimum_wall=wall,
        average_bore=float(bore) if bore else outside - 2.0 * mean_wall,
        weight=float(weight) if weight else worked,
        coupled=None,
        rating=float(row["rating[psi]"]),
        weight_source="pipe data page" if weight else "computed, specific gravity 1.40",
    )


def _size(  # noqa: PLR0913 - the row of a table
    key: tuple[str, str, str],
    outside: float,
    wall: float,
    *,
    minimum_wall: float,
    average_bore: float,
    weight: float,
    coupled: float | None,
    rating: float | None,
    weight_source: str,
) -> PipeSize:
    inside = outside - 2.0 * wall
    return PipeSize(
        *key,
        outside_diameter=quantity(outside, "in"),
        wall=quantity(wall, "in"),
        minimum_wall=quantity(minimum_wall, "in"),
        inside_diameter=quantity(inside, "in"),
        average_inside_diameter=quantity(average_bore, "in"),
        weight_per_length=quantity(weight, "lb/ft"),
        threaded_coupled_weight=None if coupled is None else quantity(coupled, "lb/ft"),
        metal_area=quantity(pi * (outside - wall) * wall, "in**2"),
        bore_area=quantity(pi / 4.0 * inside**2, "in**2"),
        outside_area=quantity(pi / 4.0 * outside**2, "in**2"),
        rating=None if rating is None else quantity(rating, "psi"),
        weight_source=weight_source,
        source=table.source(_table_of(key[0])),
    )


def _table_of(material: str) -> str:
    if material not in {"steel", "PVC"}:
        raise OutOfRange(f"no pipe table for {material!r}; there is steel and PVC")
    return f"{material.lower()}_pipe"


def _row(material: str, nps: str, schedule: str) -> dict[str, str]:
    for row in table.rows(_table_of(material)):
        if (row["nps"], row["schedule"]) == (nps, schedule):
            return row
    raise OutOfRange(f"the table has no {material} pipe of size {nps}, schedule {schedule}")


def barlow_pressure(*, stress: Quantity, wall: Quantity, outside_diameter: Quantity) -> Quantity:
    """Pressure at which the hoop stress of a thin wall reaches `stress`: P = 2 S t / D.

    Raises:
        OutOfRange: A value is not more than zero, or the wall is half the diameter or more.

    Source: Barlow's formula, as in ASTM A53 for the mill test.
    """
    strength, thickness, diameter = _hoop(stress, wall, outside_diameter)
    return quantity(2.0 * strength * thickness / diameter, "psi")


def iso_pressure(*, stress: Quantity, wall: Quantity, outside_diameter: Quantity) -> Quantity:
    """Pressure rating of plastic pipe by the ISO equation: P = 2 S / (D/t - 1).

    Args:
        stress: Hydrostatic design stress, 2,000 psi for PVC1120.
        wall: Minimum wall.
        outside_diameter: Average outside diameter.

    Raises:
        OutOfRange: A value is not more than zero, or the wall is half the diameter or more.

    Source: ASTM D1785 Appendix X1, whose table rounds to 10 psi.
    """
    strength, thickness, diameter = _hoop(stress, wall, outside_diameter)
    return quantity(2.0 * strength / (diameter / thickness - 1.0), "psi")


def _hoop(stress: Quantity, wall: Quantity, diameter: Quantity) -> tuple[float, float, float]:
    outside = magnitude(diameter, "in", "outside diameter", above=0.0)
    thickness = magnitude(wall, "in", "wall", above=0.0)
    if thickness >= outside / 2.0:
        raise OutOfRange(f"a wall of {thickness:g} in leaves no bore in {outside:g} in of pipe")
    return magnitude(stress, "psi", "stress", above=0.0), thickness, outside


def threaded_rating(size: PipeSize) -> Quantity:
    """Pressure rating at 73 F of threaded PVC pipe: half the plain-end rating.

    Raises:
        OutOfRange: The pipe has no rating, or is lighter than schedule 80 and must not be threaded.

    Source: two pipe-trade technical pages (seen); ASTM D1785 Appendix X1 from memory.
    """
    if size.rating is None:
        raise OutOfRange(f"{size.material} pipe has no pressure rating to halve")
    if size.schedule not in {"80", "120"}:
        raise OutOfRange(f"PVC of schedule {size.schedule} has no rating when threaded")
    return quantity(0.5 * magnitude(size.rating, "psi", "rating"), "psi")


def pvc_derating(temperature: Quantity) -> float:
    """Share of the 73 F rating that PVC keeps at a water temperature.

    Interpolated between the table's points. Colder water takes nothing off and adds nothing.

    Raises:
        OutOfRange: Below 32 F or above 140 F, where there is no rating.

    Source: Machinery's Handbook 31st ed. Table 14.
    """
    degrees = magnitude(temperature, "degF", "water temperature", at_least=32.0, at_most=140.0)
    points = [
        (float(row["temperature[degF]"]), float(row["factor"]))
        for row in table.rows("pvc_derating")
    ]
    return between(points, max(degrees, points[0][0]), "water temperature")


def derated(*, rating: Quantity, temperature: Quantity) -> Quantity:
    """A PVC pressure rating at 73 F brought to a water temperature.

    Source: Machinery's Handbook 31st ed. Table 14.

    Raises:
        OutOfRange: As `pvc_derating`, or the rating is not more than zero.
    """
    return quantity(
        magnitude(rating, "psi", "rating", above=0.0) * pvc_derating(temperature), "psi"
    )
