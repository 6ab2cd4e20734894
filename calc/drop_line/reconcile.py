"""Several ways of knowing one depth: weighed, and compared with each other.

Each way has a standard uncertainty. The ways are weighed by the inverse of its square, and
chi-square says whether their differences are no more than those uncertainties explain. Where they
are more, the odd one out is named only if leaving it out, and no other, makes the rest agree.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from calc.units import Quantity

_CHI_SQUARE_95 = (3.841, 5.991, 7.815, 9.488, 11.070, 12.592, 14.067, 15.507, 16.919, 18.307)
"""What chi-square stays under in 95 of 100 cases, for 1 to 10 degrees of freedom.
Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, from memory."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way of knowing a depth.

    Attributes:
        name: What it is called, "tally".
        depth: Below the one datum of all ways.
        uncertainty: Standard uncertainty, more than 0.
    """

    name: str
    depth: Quantity
    uncertainty: Quantity


@dataclass(frozen=True, slots=True)
class Weighed:
    """A way held against the others.

    Attributes:
        way: The way.
        weight: Its share of the mean, 0 to 1; 0 of the odd one.
        difference: Its depth less the mean of all the others; of a single way, nothing.
        difference_uncertainty: Standard uncertainty of that difference.
    """

    way: Way
    weight: float
    difference: Quantity
    difference_uncertainty: Quantity


@dataclass(frozen=True, slots=True)
class Reconciled:
    """What the ways come to.

    Attributes:
        depth: The weighted mean, without the odd one where there is one.
        uncertainty: Of that mean; widened where the ways differ more than they should.
        chi_square: Of all ways about their mean.
        allowed: What chi-square may be; 0 for a single way, which nothing contradicts.
        ways: Each way held against the others, as they were given.
        odd: The one that does not fit, when leaving it out and no other makes the rest agree.
    """

    depth: Quantity
    uncertainty: Quantity
    chi_square: float
    allowed: float
    ways: tuple[Weighed, ...]
    odd: Weighed | None

    @property
    def agree(self) -> bool:
        """Whether the differences are no more than the uncertainties explain."""
        return self.chi_square <= self.allowed


@dataclass(frozen=True, slots=True)
class Cause:
    """A mistake of a known size.

    Attributes:
        words: What it would be, "one joint missed".
        size: What it does to the depth: minus makes it short.
    """

    words: str
    size: Quantity


def reconcile(ways: Sequence[Way]) -> Reconciled:
    """Weighted mean of `ways`, whether they agree, and which is the odd one out.

    Args:
        ways: One to eleven, all below one datum, none derived from another.

    Raises:
        OutOfRange: No way or more than eleven, or an uncertainty that is not more than zero.

    Valid for:
        Ways that err by themselves. What all of them share, such as one bad tape, does not show.

    Source: inverse-variance weighting and the chi-square test, standard statistics.

    >>> foot = quantity(1, "ft")
    >>> two = reconcile([Way("tally", 9 * foot, foot), Way("tape", 11 * foot, foot)])
    >>> two.depth.m_as("ft")
    10.0
    """
    if not 1 <= len(ways) <= len(_CHI_SQUARE_95) + 1:
        raise OutOfRange(f"{len(ways)} ways of knowing a depth; there is a rule for 1 to 11")
    points = [_point(way) for way in ways]
    chi_square, allowed = _chi_square(points), _allowed(len(points))
    at = None if chi_square <= allowed else _odd(points)
    kept = [point for index, point in enumerate(points) if index != at]
    mean, uncertainty = _mean(kept)
    freedom = len(kept) - 1
    # Where the ways differ more than they should, they are less sure than they say.
    spread = sqrt(_chi_square(kept) / freedom) if freedom else 1.0
    weighed = tuple(_weigh(ways, points, index, at) for index in range(len(ways)))
    return Reconciled(
        depth=quantity(mean, "ft"),
        uncertainty=quantity(uncertainty * max(1.0, spread), "ft"),
        chi_square=chi_square,
        allowed=allowed,
        ways=weighed,
        odd=weighed[at] if at is not None else None,
    )


def fitting_causes(weighed: Weighed, causes: Iterable[Cause]) -> tuple[Cause, ...]:
    """The mistakes of the size by which a way is off, within twice its uncertainty, best first.

    Source: comparison with the uncertainty; nothing published.

    Args:
        weighed: The way that is off.
        causes: Mistakes to try.
    """
    off = magnitude(weighed.difference, "ft", "difference")
    room = 2.0 * magnitude(weighed.difference_uncertainty, "ft", "uncertainty")
    tried = [(abs(off - magnitude(cause.size, "ft", cause.words)), cause) for cause in causes]
    return tuple(cause for miss, cause in sorted(tried, key=lambda t: t[0]) if miss <= room)


def _point(way: Way) -> tuple[float, float]:
    return (
        magnitude(way.depth, "ft", f"depth by {way.name}"),
        magnitude(way.uncertainty, "ft", f"uncertainty of {way.name}", above=0.0),
    )


def _mean(points: Sequence[tuple[float, float]]) -> tuple[float, float]:
    total = sum(1.0 / sure**2 for _, sure in points)
    return sum(depth / sure**2 for depth, sure in points) / total, 1.0 / sqrt(total)


def _chi_square(points: Sequence[tuple[float, float]]) -> float:
    mean, _ = _mean(points)
    return sum(((depth - mean) / sure) ** 2 for depth, sure in points)


def _allowed(count: int) -> float:
    return _CHI_SQUARE_95[count - 2] if count > 1 else 0.0


def _odd(points: Sequence[tuple[float, float]]) -> int | None:
    """The only one without which the rest agree; None for two, and where there are several."""
    if len(points) < 3:
        return None
    fits = [
        index
        for index in range(len(points))
        if _chi_square(_others(points, index)) <= _allowed(len(points) - 1)
    ]
    return fits[0] if len(fits) == 1 else None


def _others(points: Sequence[tuple[float, float]], index: int) -> list[tuple[float, float]]:
    return [point for other, point in enumerate(points) if other != index]


def _weigh(
    ways: Sequence[Way], points: Sequence[tuple[float, float]], index: int, odd: int | None
) -> Weighed:
    depth, sure = points[index]
    total = sum(1.0 / each**2 for at, (_, each) in enumerate(points) if at != odd)
    others = _others(points, index)
    mean, of_mean = _mean(others) if others else (depth, 0.0)
    return Weighed(
        way=ways[index],
        weight=1.0 / sure**2 / total if index != odd else 0.0,
        difference=quantity(depth - mean, "ft"),
        difference_uncertainty=quantity(hypot(sure, of_mean), "ft"),
    )
