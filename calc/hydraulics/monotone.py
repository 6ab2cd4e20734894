"""A smooth curve through points that never swings past them and never leaves their range."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from math import copysign
from typing import TYPE_CHECKING

from calc.errors import NotFinite, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence


class MonotoneCurve:
    """Cubic pieces through points, rising only where the points rise, falling only where they fall.

    Source: Fritsch and Butland 1984, "A method for constructing local monotone piecewise cubic
        interpolants": the slope at a point is the weighted harmonic mean of its neighbours'.

    >>> MonotoneCurve([(0.0, 9.0), (1.0, 8.0), (3.0, 0.0)]).at(1.0)
    8.0
    """

    def __init__(self, points: Sequence[tuple[float, float]], name: str = "x") -> None:
        """Curve through `points`, at least two, x rising; `name` is what x is, for errors.

        Raises:
            OutOfRange: Fewer than two points, or x does not rise.
            NotFinite: A point holds NaN or infinity.
        """
        if len(points) < 2:
            raise OutOfRange(f"a curve needs two points or more, got {len(points)}")
        if not all(abs(number) < float("inf") for point in points for number in point):
            raise NotFinite("a point of the curve is not finite")
        self._name = name
        self._x = [point[0] for point in points]
        self._y = [point[1] for point in points]
        steps = [right - left for left, right in pairwise(self._x)]
        if min(steps) <= 0.0:
            raise OutOfRange(f"{name} does not rise from point to point")
        rises = [(right - left) / step for (left, right), step in zip(
            pairwise(self._y), steps, strict=True)]  # fmt: skip
        self._slopes = _slopes(steps, rises)

    def at(self, x: float) -> float:
        """The curve at `x`.

        Raises:
            OutOfRange: `x` is before the first point or past the last, or not a number.
        """
        first, last = self._x[0], self._x[-1]
        if not first <= x <= last:
            raise OutOfRange(f"{self._name} is {x:g}; the curve runs from {first:g} to {last:g}")
        left = min(bisect_right(self._x, x) - 1, len(self._x) - 2)
        step = self._x[left + 1] - self._x[left]
        part = (x - self._x[left]) / step
        rest = 1.0 - part
        return (
            self._y[left] * rest**2 * (1.0 + 2.0 * part)
            + self._slopes[left] * step * part * rest**2
            + self._y[left + 1] * part**2 * (3.0 - 2.0 * part)
            - self._slopes[left + 1] * step * part**2 * rest
        )


def _slopes(steps: list[float], rises: list[float]) -> list[float]:
    if len(rises) == 1:
        return [rises[0], rises[0]]
    inner = [_inner_slope(*sides) for sides in zip(pairwise(steps), pairwise(rises), strict=True)]
    first = _end_slope((steps[0], steps[1]), (rises[0], rises[1]))
    last = _end_slope((steps[-1], steps[-2]), (rises[-1], rises[-2]))
    return [first, *inner, last]


def _inner_slope(steps: tuple[float, float], rises: tuple[float, float]) -> float:
    if rises[0] * rises[1] <= 0.0:
        return 0.0
    before, after = 2.0 * steps[1] + steps[0], steps[1] + 2.0 * steps[0]
    return (before + after) / (before / rises[0] + after / rises[1])


def _end_slope(steps: tuple[float, float], rises: tuple[float, float]) -> float:
    # Three-point slope, held to the sign of its own side and to three times it.
    slope = ((2.0 * steps[0] + steps[1]) * rises[0] - steps[0] * rises[1]) / sum(steps)
    if slope * rises[0] <= 0.0:
        return 0.0
    if rises[0] * rises[1] < 0.0 and abs(slope) > abs(3.0 * rises[0]):
        return copysign(3.0 * abs(rises[0]), rises[0])
    return slope
