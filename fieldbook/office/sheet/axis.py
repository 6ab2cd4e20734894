"""Round numbers along an axis, and where they fall in a drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Axis:
    """A straight scale from a value to a place in a drawing.

    Attributes:
        low: The value at `start`.
        high: The value at `end`, more than `low`.
        start: Where `low` is drawn.
        end: Where `high` is drawn.
    """

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where `value` is drawn."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self, most: int) -> list[float]:
        """Round numbers between the ends, at most `most` of them and one more."""
        step = round_step(self.high - self.low, most)
        first = math.ceil(self.low / step - 1e-9)
        return [n * step for n in range(first, math.floor(self.high / step + 1e-9) + 1)]


def round_step(span: float, most: int) -> float:
    """The smallest of 1, 2 and 5 times a power of ten of which at most `most` fit into `span`.

    >>> [round_step(span, 5) for span in (9, 440, 1800)]
    [2.0, 100.0, 500.0]
    """
    least = span / most
    power = 10.0 ** math.floor(math.log10(least))
    return next(
        step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= least * (1 - 1e-9)
    )


def apart(places: list[float], gap: float, low: float, high: float) -> list[float]:
    """`places`, in rising order, pushed apart until none is nearer than `gap` to the next.

    They stay between `low` and `high` as long as there is room for them all.

    >>> apart([10, 11, 12], 5, 0, 100)
    [10, 15, 20]
    >>> apart([95, 99], 5, 0, 100)
    [95, 100]
    """
    placed: list[float] = []
    for place in places:
        placed.append(max(place, low, placed[-1] + gap if placed else low))
    limit = high
    for at in range(len(placed) - 1, -1, -1):
        placed[at] = min(placed[at], limit)
        limit = placed[at] - gap
    return placed
