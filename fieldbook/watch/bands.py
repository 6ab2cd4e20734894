"""A band of readings or loads in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band


def band_words(band: Band | None) -> str:
    """Readings or loads as people write them: `866 to 956 lbf`, or `unknown`."""
    if band is None:
        return "unknown"
    low, high = (magnitude(end, "lbf", "band") for end in (band.low, band.high))
    return f"{low:z,.0f} to {high:z,.0f} lbf" if round(low) != round(high) else f"{low:z,.0f} lbf"
