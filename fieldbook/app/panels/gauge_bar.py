"""The gauge as a bar: the readings to expect, the one that is read or typed, the one to stop at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude
from fieldbook.app.widgets.row_view import TextLine

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.watch.watcher import Look

_ROOM = 1.15
"""How far past the reading to stop at the bar goes, so that a reading over it still shows."""
_OUTSIDE, _EXPECTED, _READ, _READ_AS_EXPECTED, _STOP = "░", "▒", "█", "▓", "┃"


def gauge_bar(look: Look, cells: int, typed: Quantity | None = None) -> TextLine:
    """The bar; empty where there is nothing to hold a reading against.

    Args:
        look: What was seen.
        cells: How wide it is.
        typed: A reading that is being typed, in the place of the last one.
    """
    seen = look.readings
    read = typed if typed is not None else seen.read
    if not look.now.has_load or seen.never is None:
        return TextLine("")
    stop = magnitude(seen.never, "lbf", "reading to stop at")
    band = seen.expect_drained if look.draining.leaves_empty else seen.expect_full
    ends = [magnitude(end, "lbf", "band") for end in (band.low, band.high)] if band else []
    now = magnitude(read, "lbf", "reading") if read is not None else None
    most = max([stop, now or 0.0, *ends]) * _ROOM
    if most <= 0.0:
        return TextLine("")

    def place(load: float) -> int:
        return min(int(max(load, 0.0) / most * cells), cells - 1)

    row = [_OUTSIDE] * cells
    if ends:
        row[place(ends[0]) : place(ends[1]) + 1] = _EXPECTED * (place(ends[1]) - place(ends[0]) + 1)
    if now is not None:
        row[: place(now) + 1] = [
            _READ_AS_EXPECTED if cell == _EXPECTED else _READ for cell in row[: place(now) + 1]
        ]
    row[place(stop)] = _STOP
    over = now is not None and now > stop
    return TextLine("".join(row), "stop" if over else "")


def typed_words(look: Look, typed: Quantity) -> TextLine:
    """What a reading that is being typed would say, before it is saved."""
    seen = look.readings
    now = magnitude(typed, "lbf", "reading")
    if seen.never is not None:
        over = now - magnitude(seen.never, "lbf", "reading to stop at")
        if over > 0.0:
            return TextLine(f"TYPED {now:,.0f}: OVER BY {over:,.0f}", "stop")
    band = seen.expect_drained if look.draining.leaves_empty else seen.expect_full
    if band is None:
        return TextLine(f"Typed {now:,.0f}")
    low, high = (magnitude(end, "lbf", "band") for end in (band.low, band.high))
    if now > high:
        return TextLine(f"Typed {now:,.0f}: {now - high:,.0f} over", "caution")
    if now < low:
        return TextLine(f"Typed {now:,.0f}: {low - now:,.0f} under", "caution")
    return TextLine(f"Typed {now:,.0f}: as expected")
