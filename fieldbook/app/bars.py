"""Numbers as plain shapes: a share as a bar, a band of readings as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude

if TYPE_CHECKING:
    from calc.gauge import Band

_BAR = 20


def bar(share: float, cells: int = _BAR) -> str:
    """A share as a bar that is full at the limit, with a mark past it.

    >>> bar(0.5, 4)
    '[##..]'
    """
    filled = min(round(share * cells), cells)
    return f"[{'#' * filled}{'.' * (cells - filled)}]{' OVER' if share > 1.0 else ''}"


def band(readings: Band | None) -> str:
    """A band of readings in words."""
    if readings is None:
        return "unknown"
    low, high = (magnitude(end, "lbf", "band") for end in (readings.low, readings.high))
    return f"{low:,.0f} to {high:,.0f} lbf" if round(low) != round(high) else f"{low:,.0f} lbf"
