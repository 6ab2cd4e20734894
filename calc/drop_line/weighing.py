"""How long a string is by what it weighs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.drop_line.fill import Fill
    from calc.units import Quantity


def load_per_length(
    string: HangingString,
    line: Sequence[Piece],
    *,
    level: Quantity | None,
    top: Quantity,
    fill: Fill,
    water_weight: Quantity,
) -> Quantity:
    """What the hook carries more for each foot of drop line more, force per length.

    The string is hung again with one foot more at its top: all below it hangs a foot deeper. Where
    its lower end hangs in water that is the weight of the line less what the water bears of it.

    Args:
        string: The string.
        line: Its pieces of drop line; the foot is the mean of them.
        level: As in `HangingString.hook_load`, and so are the rest.
        top: Depth of the string's top below the datum.
        fill: What is in the bore.
        water_weight: Weight of water per volume.

    Raises:
        OutOfRange: There is no piece of line; or as `HangingString.hook_load`.

    Source: derived, the difference of two hook loads.
    """
    longer = HangingString([_a_foot(line), *string.pieces])
    loads = [
        magnitude(
            each.hook_load(level=level, top=top, fill=fill, water_weight=water_weight),
            "lbf",
            "hook load",
        )
        for each in (string, longer)
    ]
    return quantity(loads[1] - loads[0], "lbf/ft")


def _a_foot(line: Sequence[Piece]) -> Piece:
    """One foot of drop line, the mean of `line`."""
    if not line:
        raise OutOfRange("the mean of no piece of line")
    numbers = [piece.numbers for piece in line]
    length = sum(each.length for each in numbers)
    return Piece(
        name="one foot of line",
        kind=line[0].kind,
        length=quantity(1.0, "ft"),
        weight=quantity(sum(each.weight for each in numbers) / length, "lbf"),
        displaced=quantity(sum(each.displaced for each in numbers) / length, "ft**3"),
        bore_area=quantity(sum(each.bore * each.length for each in numbers) / length, "ft**2"),
        outside_area=quantity(
            sum(each.outside * each.length for each in numbers) / length, "ft**2"
        ),
    )


def longer_by_weight(*, load: Quantity, expected: Quantity, per_length: Quantity) -> Quantity:
    """How much longer a string is than it was taken to be; minus where it is shorter.

    Args:
        load: Hook load of the string at rest.
        expected: Hook load of the string that it was taken to be.
        per_length: What a foot more of line adds, by `load_per_length`.

    Raises:
        OutOfRange: A foot more adds nothing: a line that floats tells no length by its weight.

    Valid for:
        A lower end that stays on the same side of the water level, and a line of one size.

    Source: derived.

    >>> pounds, each = (lambda n: quantity(n, "lbf")), quantity(4, "lbf/ft")
    >>> longer_by_weight(load=pounds(1040), expected=pounds(1120), per_length=each).m_as("ft")
    -20.0
    """
    each = magnitude(per_length, "lbf/ft", "load per length")
    if each <= 0.0:
        raise OutOfRange(f"a foot more of line adds {each:g} lbf: its weight tells no length")
    off = magnitude(load, "lbf", "hook load") - magnitude(expected, "lbf", "expected load")
    return quantity(off / each, "ft")
