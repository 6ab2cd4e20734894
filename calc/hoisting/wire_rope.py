"""Wire rope: what it breaks at, what it may carry, and what clips and bends take off."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.interpolate import between
from calc.units import as_force, magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

CLIP_EFFICIENCY = 0.80
"""Share of the rope's strength that a clipped eye keeps, about; TM 5-3810-305-10."""


def breaking_strength(diameter: Quantity, *, construction: str) -> Quantity:
    """Minimum breaking strength of bright 6x19 rope by nominal diameter.

    Source: tables named in tables/wire_rope.csv.

    Args:
        diameter: Nominal, 3/8 to 3/4 in; sizes between are not interpolated.
        construction: "FC IPS", "IWRC IPS" or "IWRC EIPS".

    Raises:
        OutOfRange: The table has no such diameter or construction.

    >>> breaking_strength(quantity(0.5, "in"), construction="FC IPS").m_as("lbf")
    21400.0
    """
    inches = magnitude(diameter, "in", "rope diameter", above=0.0)
    for row in table.rows("wire_rope"):
        if abs(float(row["diameter[in]"]) - inches) < 0.002:
            if f"{construction}[lbf]" not in row:
                raise OutOfRange(f"no wire rope {construction!r} in the table")
            return quantity(float(row[f"{construction}[lbf]"]), "lbf")
    raise OutOfRange(f"no wire rope of {inches:g} in in the table")


def rope_allowable(*, breaking: Quantity, design_factor: float) -> Quantity:
    """Line pull a rope may see: breaking strength / design factor, both given by the caller.

    Published factors differ by use: running ropes 3.5 and standing 3.0 (ASME B30.5, from memory),
    rotation-resistant 5 (29 CFR 1926.1414(e)(2)), slings 5.

    Source: breaking strength over the design factor; nothing published.

    Raises:
        OutOfRange: The strength is not more than zero, or the factor is less than 1.
    """
    if not design_factor >= 1.0:
        raise OutOfRange(f"the design factor is {design_factor:g}; it must be 1 or more")
    strength = as_force(breaking, "breaking strength")
    if strength <= 0.0:
        raise OutOfRange("the breaking strength must be more than 0 lbf")
    return quantity(strength / design_factor, "lbf")


def bending_efficiency(*, sheave_diameter: Quantity, rope_diameter: Quantity) -> float:
    """Share of its strength a rope keeps over a sheave, interpolated by the ratio of diameters.

    Source: tables named in tables/rope_bending.csv.

    Raises:
        OutOfRange: A ratio below 1 or above 40, where the table ends.
    """
    rope = magnitude(rope_diameter, "in", "rope diameter", above=0.0)
    ratio = magnitude(sheave_diameter, "in", "sheave diameter", above=0.0) / rope
    points = [
        (float(row["ratio[]"]), float(row["efficiency"])) for row in table.rows("rope_bending")
    ]
    return between(points, ratio, "ratio of sheave to rope diameter")


def rule_of_thumb_load(diameter: Quantity) -> Quantity:
    """Safe working load by the Navy's rule for rope of unknown make: 8 D^2 short tons, D in inches.

    Raises:
        OutOfRange: The diameter is not more than zero.

    Source: NAVEDTRA 14026. It gives 41 % more than `metric_rule_of_thumb_load`; neither is a
        rating.
    """
    return quantity(8.0 * magnitude(diameter, "in", "rope diameter", above=0.0) ** 2 * 2000, "lbf")


def metric_rule_of_thumb_load(diameter: Quantity) -> Quantity:
    """Safe working load by the metric rule of thumb: 8 d^2 kgf, d in millimetres.

    Raises:
        OutOfRange: The diameter is not more than zero.

    Source: common practice, from memory, no published source; the lower of the two.

    >>> round(metric_rule_of_thumb_load(quantity(10, "mm")).m_as("kgf"))
    800
    """
    return quantity(8.0 * magnitude(diameter, "mm", "rope diameter", above=0.0) ** 2, "kgf")


def clips_needed(diameter: Quantity) -> int:
    """Clips on an eye: 3 D + 1, D in inches, rounded up, and never fewer than 3 for lifting.

    Raises:
        OutOfRange: The diameter is not more than zero.

    Source: NAVEDTRA 14026; some tables allow 2 for 3/8 in, which is not for lifting.
    """
    inches = magnitude(diameter, "in", "rope diameter", above=0.0)
    return max(3, ceil(3.0 * inches + 1.0))


def clip_spacing(diameter: Quantity) -> Quantity:
    """Distance between clips: six rope diameters.

    Raises:
        OutOfRange: The diameter is not more than zero.

    Source: Mich. Admin. Code R 408.15226(6); NAVEDTRA 14026.
    """
    return quantity(6.0 * magnitude(diameter, "in", "rope diameter", above=0.0), "in")
