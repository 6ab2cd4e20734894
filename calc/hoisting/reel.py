"""Reels and drums: length by layers and wraps, what a counter misses, pull by layer, time to go."""

from __future__ import annotations

from itertools import pairwise
from math import pi
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.interpolate import between
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity


def length_on_reel(
    *, core: Quantity, thickness: Quantity, wraps_per_layer: float, wraps: float
) -> Quantity:
    """Length that lies on a reel after a number of wraps, each layer one thickness further out.

    Args:
        core: Diameter of the bare barrel.
        thickness: Of one layer: the rope's diameter, or the hose lying flat.
        wraps_per_layer: Wraps side by side before the next layer starts; 1 for one hose wide.
        wraps: Turns on the reel.

    Raises:
        OutOfRange: A size is not more than zero, or the wraps are negative.

    Source: geometry of circles; layers lie on one another without bedding in.
    """
    barrel = magnitude(core, "ft", "core of the reel", above=0.0)
    layer = magnitude(thickness, "ft", "thickness of a layer", above=0.0)
    side_by_side = _count(wraps_per_layer, "wraps per layer", least=1.0)
    turns = _count(wraps, "wraps", least=0.0)
    full = int(turns // side_by_side)
    whole = full * side_by_side * (barrel + full * layer)
    rest = (turns - full * side_by_side) * (barrel + (2 * full + 1) * layer)
    return quantity(pi * (whole + rest), "ft")


def wraps_for_length(
    *, core: Quantity, thickness: Quantity, wraps_per_layer: float, length: Quantity
) -> float:
    """Turns a length makes on a reel; the inverse of `length_on_reel`.

    Source: geometry.

    Raises:
        OutOfRange: A size is not more than zero, or the length is negative.
    """
    barrel = magnitude(core, "ft", "core of the reel", above=0.0)
    layer = magnitude(thickness, "ft", "thickness of a layer", above=0.0)
    side_by_side = _count(wraps_per_layer, "wraps per layer", least=1.0)
    left = magnitude(length, "ft", "length", at_least=0.0) / pi
    turns, diameter = 0.0, barrel + layer
    while left > side_by_side * diameter:
        left -= side_by_side * diameter
        turns += side_by_side
        diameter += 2.0 * layer
    return turns + left / diameter


def constant_core_error(
    *, core: Quantity, thickness: Quantity, wraps_per_layer: float, length: Quantity
) -> float:
    """Share by which turns x bare core under-read a length wound on a reel.

    Raises:
        OutOfRange: A size or the length is not more than zero.

    Source: geometry, as `length_on_reel`.
    """
    wound = magnitude(length, "ft", "length", above=0.0)
    turns = wraps_for_length(
        core=core, thickness=thickness, wraps_per_layer=wraps_per_layer, length=length
    )
    return 1.0 - turns * pi * magnitude(core, "ft", "core of the reel") / wound


def capacity(
    *, barrel: Quantity, flange_depth: Quantity, width: Quantity, factor: float
) -> Quantity:
    """Length of line a reel holds: (A + D) A B K in feet, the sizes in inches.

    Args:
        barrel: Diameter of the barrel, D.
        flange_depth: Depth of line over the barrel, A.
        width: Between the flanges, B.
        factor: K, from `rope_factor` or `packed_factor`.

    Raises:
        OutOfRange: A size or the factor is not more than zero.

    Source: a reel-capacity page with its table of K.
    """
    drum = magnitude(barrel, "in", "barrel", above=0.0)
    depth = magnitude(flange_depth, "in", "depth of flange", above=0.0)
    span = magnitude(width, "in", "width of the reel", above=0.0)
    if not factor > 0.0:
        raise OutOfRange(f"the factor is {factor:g}; it must be more than zero")
    return quantity((depth + drum) * depth * span * factor, "ft")


def rope_factor(diameter: Quantity) -> float:
    """K for wire rope with the usual oversize, by nominal diameter; sizes are not interpolated.

    Source: a reel-capacity page with its table of K.

    Raises:
        OutOfRange: The table has no such diameter.
    """
    inches = magnitude(diameter, "in", "rope diameter", above=0.0)
    for row in table.rows("reel_factor"):
        if abs(float(row["diameter[in]"]) - inches) < 0.002:
            return float(row["K"])
    raise OutOfRange(f"no reel factor for a rope of {inches:g} in in the table")


def packed_factor(diameter: Quantity) -> float:
    """K for line that packs square at its true diameter: pi / (12 d^2), d in inches.

    Raises:
        OutOfRange: The diameter is not more than zero.

    Source: geometry; holds 9 to 27 % more than the rope table's K.
    """
    return pi / 12.0 / magnitude(diameter, "in", "diameter of the line", above=0.0) ** 2


def corrected_by_marks(
    counter: Quantity, *, marks: Sequence[tuple[Quantity, Quantity]]
) -> Quantity:
    """True length for a counter reading, on straight lines between marks that were passed.

    Source: geometry; nothing published.

    Args:
        counter: The reading.
        marks: (counter reading, length at the mark) of each mark, at least two, rising.

    Raises:
        OutOfRange: Fewer than two marks, marks that do not rise, or a reading not between them.
    """
    points = [
        (magnitude(read, "ft", "counter at a mark"), magnitude(true, "ft", "length at a mark"))
        for read, true in marks
    ]
    rising = all(a[0] < b[0] and a[1] < b[1] for a, b in pairwise(points))
    if len(points) < 2 or not rising:
        raise OutOfRange("a counter is corrected by two marks or more, each after the last")
    return quantity(between(points, magnitude(counter, "ft", "counter"), "counter, in ft"), "ft")


def slip(*, counted: Quantity, true_length: Quantity) -> float:
    """Share of the true length that the counter missed; negative when it counted too much.

    Source: geometry; nothing published.

    Raises:
        OutOfRange: The true length is not more than zero, or the count is negative.
    """
    true_ft = magnitude(true_length, "ft", "length between marks", above=0.0)
    return 1.0 - magnitude(counted, "ft", "counted length", at_least=0.0) / true_ft


def time_to_go(*, length: Quantity, speed: Quantity) -> Quantity:
    """Time to wind a length at a speed.

    Source: length over speed; nothing published.

    Raises:
        OutOfRange: A negative length, or a speed that is not more than zero.
    """
    distance = magnitude(length, "ft", "length to go", at_least=0.0)
    return quantity(distance / magnitude(speed, "ft/min", "speed", above=0.0), "min")


def drum_pull_on_layer(
    *, rated: Quantity, rated_layer: int, core: Quantity, rope_diameter: Quantity, layer: int
) -> Quantity:
    """Line pull a drum gives on a layer, when it is rated on another: torque stays, radius grows.

    Args:
        rated: Line pull by the maker.
        rated_layer: The layer it is rated on, 1 being on the bare drum.
        core: Diameter of the bare drum.
        rope_diameter: Of the line.
        layer: The layer in use.

    Raises:
        OutOfRange: A layer below 1, a size not more than zero, or a negative pull.

    Source: constant torque at the mean diameter of each layer, D + (2n - 1) d; geometry.
    """
    if rated_layer < 1 or layer < 1:
        raise OutOfRange("layers are counted from 1, on the bare drum")
    drum = magnitude(core, "in", "diameter of the drum", above=0.0)
    rope = magnitude(rope_diameter, "in", "rope diameter", above=0.0)
    pull = magnitude(rated, "lbf", "rated line pull", at_least=0.0)
    at_rated, in_use = (drum + (2 * n - 1) * rope for n in (rated_layer, layer))
    return quantity(pull * at_rated / in_use, "lbf")


def _count(value: float, name: str, *, least: float) -> float:
    if not least <= value < float("inf"):
        raise OutOfRange(f"{name} is {value:g}; it is {least:g} or more")
    return value
