"""What is in the bore of a hanging string above the outside water."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, ClassVar

from calc.errors import OutOfRange
from calc.units import magnitude

if TYPE_CHECKING:
    from calc.units import Quantity


class _Kind(Enum):
    FULL = "full"
    DRAINED = "drained"
    CHAMBERS = "chambers"


@dataclass(frozen=True, slots=True)
class Fill:
    """The water in the bore: full, drained, or chamber by chamber.

    Below the outside level the bore always fills from outside, so only what is higher is said
    here.

    `Fill.FULL` is one continuous column from the string's top down to the lowest check valve; a
    check valve higher up passes its pressure on, which is the most the walls can see. When no
    check valve is marked, the column rests on the lowest piece that has a bore: the worst case.

    `Fill.DRAINED` has no water above the outside level.

    `Fill.chambers(...)` states each length above a check valve by itself, and each valve carries
    the column on it: the least the walls below it can see.
    """

    kind: _Kind
    heights_ft: tuple[float, ...] = ()

    FULL: ClassVar[Fill]
    DRAINED: ClassVar[Fill]

    @classmethod
    def chambers(cls, *columns: bool | Quantity) -> Fill:
        """Chamber by chamber, the uppermost first, one entry per check valve of the whole string.

        Args:
            columns: True for a chamber full to its top, False for one that is drained, or the
                height of the water above its check valve. A height over the chamber's own is a
                full chamber.

        Raises:
            WrongDimension: A height is not a length.
            OutOfRange: A height is negative.
        """
        return cls(_Kind.CHAMBERS, tuple(_height(column) for column in columns))

    def tops(self, valves: list[float], floor: float, hanging: float) -> list[tuple[float, float]]:
        """Where the bore is closed below and how high water is on it, from the bottom up.

        Args:
            valves: Heights of the check valves of the whole string above its lower end, in ft,
                ascending.
            floor: Height of the lowest bore's end, in ft.
            hanging: Length of string that hangs, in ft.

        Returns:
            (height of the closure, height of the water's top) of each chamber, in ft.

        Raises:
            OutOfRange: The number of chambers is not the number of check valves.
        """
        if self.kind is _Kind.DRAINED:
            return []
        if self.kind is _Kind.FULL:
            low = valves[0] if valves else floor
            return [(low, hanging)] if low < hanging else []
        if len(self.heights_ft) != len(valves):
            raise OutOfRange(
                f"{len(self.heights_ft)} chambers are described; the string has"
                f" {len(valves)} check valves"
            )
        chambers = zip(valves, reversed(self.heights_ft), [*valves[1:], hanging], strict=False)
        return [
            (low, min(low + height, ceiling, hanging))
            for low, height, ceiling in chambers
            if low < hanging
        ]


def _height(column: bool | Quantity) -> float:
    if isinstance(column, bool):
        return float("inf") if column else 0.0
    return magnitude(column, "ft", "height of water above a check valve", at_least=0.0)


Fill.FULL = Fill(_Kind.FULL)
Fill.DRAINED = Fill(_Kind.DRAINED)
