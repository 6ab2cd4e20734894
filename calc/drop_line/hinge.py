"""Where a line of readings bends: two straight lines that meet, fitted by least squares."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import isfinite
from typing import TYPE_CHECKING

from calc.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence

_LEAST_POINTS = 6
_A_SIDE = 2
_KNOTS_A_POINT = 8


@dataclass(frozen=True, slots=True)
class Hinge:
    """A bend.

    Attributes:
        at: Where the two lines meet.
        uncertainty: Standard uncertainty of it, from how the readings scatter.
        before: Slope of the line before the bend.
        after: Slope after it.
        gain: How much better two lines fit than one: F of the two added unknowns.
    """

    at: float
    uncertainty: float
    before: float
    after: float
    gain: float


def hinge(points: Sequence[tuple[float, float]]) -> Hinge:
    """The bend that fits readings best.

    The uncertainty is half the range in which the squares are no more than one variance above their
    least; it is never less than a tenth of the mean distance of the points.

    Args:
        points: (x, y), six or more, x rising; two at least lie on each side of any bend tried.

    Raises:
        OutOfRange: Fewer than six points, x that does not rise, or a number that is not finite.

    Source: least squares with a knot (broken-stick regression), standard statistics.

    >>> bent = hinge([(x, min(x, 5) + 3 * max(0, x - 5)) for x in range(11)])
    >>> round(bent.at, 3), round(bent.before, 3), round(bent.after, 3)
    (5.0, 1.0, 3.0)
    """
    if len(points) < _LEAST_POINTS:
        raise OutOfRange(f"{len(points)} readings; a bend needs {_LEAST_POINTS}")
    if not all(isfinite(x) and isfinite(y) for x, y in points):
        raise OutOfRange("a reading is not a number")
    xs = [x for x, _ in points]
    if any(right <= left for left, right in pairwise(xs)):
        raise OutOfRange("the readings must stand in the order of what was out")
    tried = [(_fit(points, knot), knot) for knot in _knots(xs)]
    (least, before, bend), at = min(tried, key=lambda each: each[0][0])
    free = len(points) - 4
    straight = _fit(points, xs[-1])[0]
    variance = max(least / free, _noise_floor(points))
    near = [knot for (squares, *_), knot in tried if squares <= least + variance]
    coarse = (xs[-1] - xs[0]) / (len(xs) - 1) / 10.0
    return Hinge(
        at=at,
        uncertainty=max((max(near) - min(near)) / 2.0, coarse),
        before=before,
        after=before + bend,
        gain=max(straight - least, 0.0) / 2.0 / variance,
    )


def _knots(xs: Sequence[float]) -> list[float]:
    inner = xs[_A_SIDE - 1 : len(xs) - _A_SIDE + 1]
    return [
        left + (right - left) * step / _KNOTS_A_POINT
        for left, right in pairwise(inner)
        for step in range(_KNOTS_A_POINT)
    ]


def _noise_floor(points: Sequence[tuple[float, float]]) -> float:
    """So that readings without any scatter do not divide by nothing."""
    largest = max(abs(y) for _, y in points)
    return max((1e-9 * largest) ** 2, 1e-18)


def _fit(points: Sequence[tuple[float, float]], knot: float) -> tuple[float, float, float]:
    """Squares left over, slope before the knot, and what it changes by there."""
    rows = [(x - points[0][0], max(0.0, x - knot), y) for x, y in points]
    count = len(rows)
    mean_x, mean_h, mean_y = (sum(row[i] for row in rows) / count for i in range(3))
    xx = xh = hh = xy = hy = yy = 0.0
    for x, h, y in rows:
        dx, dh, dy = x - mean_x, h - mean_h, y - mean_y
        xx, xh, hh = xx + dx * dx, xh + dx * dh, hh + dh * dh
        xy, hy, yy = xy + dx * dy, hy + dh * dy, yy + dy * dy
    det = xx * hh - xh * xh
    if det <= 1e-12 * xx * (hh or 1.0):
        slope = xy / xx
        return max(yy - slope * xy, 0.0), slope, 0.0
    slope, bend = (xy * hh - hy * xh) / det, (hy * xx - xy * xh) / det
    return max(yy - slope * xy - bend * hy, 0.0), slope, bend
