"""A pump by a handful of points of its curve: head, efficiency, speed, and where it will run."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hydraulics.affinity import flow_at_speed, head_at_speed
from calc.hydraulics.monotone import MonotoneCurve
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from calc.units import Quantity

_HALVINGS = 60
"""Halving a flow so often leaves less than its last digit."""


@dataclass(frozen=True, slots=True)
class PumpPoint:
    """One point of a pump's curve.

    Attributes:
        flow: Delivered.
        head: Of the whole pump, all stages, at that flow.
        efficiency: Of the pump without its motor, a fraction; None when the sheet has none there.
    """

    flow: Quantity
    head: Quantity
    efficiency: float | None = None


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where a pump's curve and the system's meet.

    Attributes:
        flow: That the pump delivers.
        head: That it gives and the system takes.
    """

    flow: Quantity
    head: Quantity


class PumpCurve:
    """Head and efficiency over flow, through the points of a sheet or a test, never past them.

    >>> sheet = [(0, 300), (10, 270), (20, 180)]
    >>> points = [PumpPoint(quantity(q, "gpm"), quantity(h, "ft")) for q, h in sheet]
    >>> PumpCurve(points, speed=quantity(3450, "rpm")).head_at(quantity(10, "gpm")).m_as("ft")
    270.0
    """

    def __init__(self, points: Sequence[PumpPoint], *, speed: Quantity) -> None:
        """Curve through `points` in rising flow, at the speed they are given for.

        Raises:
            OutOfRange: Fewer than two points, flow that does not rise, head that does not fall
                (then two flows share a head and the pump may run at either), a negative flow or
                head, an efficiency outside 0 to 1, or a speed not more than zero.
            NotFinite: A value is NaN or infinite.
        """
        self._rpm = magnitude(speed, "rpm", "speed", above=0.0)
        self._points = tuple(points)
        heads = [
            (
                magnitude(point.flow, "gpm", "flow", at_least=0.0),
                magnitude(point.head, "ft", "head", at_least=0.0),
            )
            for point in self._points
        ]
        self._head = MonotoneCurve(heads, "flow, in gpm,")
        for (_, before), (flow, after) in pairwise(heads):
            if after >= before:
                raise OutOfRange(f"head does not fall towards {flow:g} gpm")
        self._first, self._last = heads[0], heads[-1]
        self._efficiency = _efficiency_curve(self._points)

    @property
    def points(self) -> tuple[PumpPoint, ...]:
        """The points it goes through."""
        return self._points

    @property
    def speed(self) -> Quantity:
        """The speed it holds for."""
        return quantity(self._rpm, "rpm")

    @property
    def flow_range(self) -> tuple[Quantity, Quantity]:
        """Least and greatest flow of the curve."""
        return quantity(self._first[0], "gpm"), quantity(self._last[0], "gpm")

    def shut_off_head(self) -> Quantity:
        """Head against a closed valve.

        Raises:
            OutOfRange: The curve has no point at zero flow; the head there is not guessed.
        """
        if self._first[0] > 0.0:
            raise OutOfRange(f"the curve begins at {self._first[0]:g} gpm, not at a closed valve")
        return quantity(self._first[1], "ft")

    def head_at(self, flow: Quantity) -> Quantity:
        """Head at a flow.

        Raises:
            OutOfRange: The curve does not reach that flow.
        """
        return quantity(self._head.at(magnitude(flow, "gpm", "flow")), "ft")

    def flow_at(self, head: Quantity) -> Quantity:
        """Flow at a head.

        Raises:
            OutOfRange: The curve does not reach that head.
        """
        feet = magnitude(head, "ft", "head")
        highest, lowest = self._first[1], self._last[1]
        if not lowest <= feet <= highest:
            raise OutOfRange(
                f"head is {feet:g} ft; the curve runs from {highest:g} ft down to {lowest:g} ft"
            )
        return self._meeting(lambda _: feet)

    def efficiency_at(self, flow: Quantity) -> float:
        """Efficiency of the pump at a flow, a fraction.

        Raises:
            OutOfRange: Fewer than two points have an efficiency, or the flow lies outside those.
        """
        if self._efficiency is None:
            raise OutOfRange("the curve has no efficiency, which needs two points with one")
        return self._efficiency.at(magnitude(flow, "gpm", "flow"))

    def at_speed(self, speed: Quantity) -> PumpCurve:
        """The curve at another speed: flow as the speed, head as its square.

        Args:
            speed: In the same kind of unit as the curve's.

        Raises:
            OutOfRange: As `affinity.speed_ratio`.

        Source: `affinity.flow_at_speed` and `affinity.head_at_speed`; efficiency is held the same.
        """
        pair = {"speed": self.speed, "new_speed": speed}
        return PumpCurve(
            [
                PumpPoint(
                    flow_at_speed(flow=point.flow, **pair),
                    head_at_speed(head=point.head, **pair),
                    point.efficiency,
                )
                for point in self._points
            ],
            speed=speed,
        )

    def operating_point(self, system: Callable[[Quantity], Quantity]) -> OperatingPoint:
        """Where the pump runs against a system.

        Args:
            system: Head the system takes at a flow: lift with its drawdown, pressure, friction. It
                must not fall as flow grows. What it refuses at a flow that is tried is passed on:
                Darcy-Weisbach has such a gap at very low flow, Hazen-Williams has none.

        Raises:
            OutOfRange: The system takes more than the pump gives at the least flow of the curve,
                or less at the greatest: they meet nowhere on it.
        """

        def taken(gpm: float) -> float:
            return magnitude(system(quantity(gpm, "gpm")), "ft", "head of the system")

        if taken(self._first[0]) > self._first[1]:
            raise OutOfRange(
                f"the system takes more than the {self._first[1]:g} ft the pump gives at "
                f"{self._first[0]:g} gpm: it cannot deliver there"
            )
        if taken(self._last[0]) < self._last[1]:
            raise OutOfRange(
                f"the system takes less than the {self._last[1]:g} ft the pump gives at "
                f"{self._last[0]:g} gpm: it would run past the end of its curve"
            )
        flow = self._meeting(taken)
        return OperatingPoint(flow, self.head_at(flow))

    def _meeting(self, taken: Callable[[float], float]) -> Quantity:
        low, high = self._first[0], self._last[0]
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            if self._head.at(middle) > taken(middle):
                low = middle
            else:
                high = middle
        return quantity(high, "gpm")


def _efficiency_curve(points: Sequence[PumpPoint]) -> MonotoneCurve | None:
    known = [
        (magnitude(point.flow, "gpm", "flow"), point.efficiency)
        for point in points
        if point.efficiency is not None
    ]
    for flow, efficiency in known:
        if not 0.0 <= efficiency <= 1.0:
            raise OutOfRange(f"an efficiency of {efficiency:g} at {flow:g} gpm is not in 0 to 1")
    return MonotoneCurve(known, "flow, in gpm,") if len(known) > 1 else None
