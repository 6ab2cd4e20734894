"""Straight lines between the points of a table, never past its ends."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from calc.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence


def between(points: Sequence[tuple[float, float]], at: float, name: str) -> float:
    """The value at `at` on straight lines through `points`, which ascend.

    Args:
        points: (x, y) pairs, at least one, x rising.
        at: Where to read.
        name: What x is, for the message of an error.

    Raises:
        OutOfRange: `at` is before the first point or past the last, or not a number.

    >>> between([(0.0, 1.0), (10.0, 3.0)], 5.0, "x")
    2.0
    """
    first, last = points[0][0], points[-1][0]
    if not first <= at <= last:
        raise OutOfRange(f"{name} is {at:g}; the table runs from {first:g} to {last:g}")
    index = bisect_left(points, at, key=lambda point: point[0])
    right = points[index]
    if right[0] == at:
        return right[1]
    left = points[index - 1]
    part = (at - left[0]) / (right[0] - left[0])
    return left[1] + part * (right[1] - left[1])
