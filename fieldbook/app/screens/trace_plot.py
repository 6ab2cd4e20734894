"""The trace drawn: two curves, the readings as crosses, the limit as a line."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import TYPE_CHECKING

from textual_plotext import PlotextPlot

if TYPE_CHECKING:
    from fieldbook.watch.lift.trace import Trace

_TICKS = 7  # numbers along an axis, at the most one more
_READ, _FULL, _DRAINED = "X", "•", "·"
# What the marks mean is said above the plot: a legend inside it would lie on the curves.


def title(drawn: Trace) -> str:
    """What is drawn over what."""
    return f"Gauge over what is {'in' if drawn.counted_in else 'out'}, lbf"


def marks(drawn: Trace) -> str:
    """What each mark of the plot means; the line across only where there is one."""
    limit = "  ─ stop at" if drawn.never is not None else ""
    return f"{_READ} read  {_FULL} line full  {_DRAINED} drained{limit}"


class TracePlot(PlotextPlot):
    """What the gauge should show over what moved, and what it did show, lbf."""

    def show_trace(self, drawn: Trace) -> None:
        """Plot what is known."""
        plot = self.plt
        plot.clear_data()
        if drawn.at:
            for curve, marker in ((drawn.full, _FULL), (drawn.drained, _DRAINED)):
                plot.plot(list(drawn.at), list(curve), marker=marker, color="default")
        if drawn.read:
            at, read = zip(*drawn.read, strict=True)
            plot.scatter(list(at), list(read), marker=_READ, color="default")
        if drawn.never is not None:
            plot.hline(drawn.never, color="default")
        plot.xlabel(drawn.axis)
        shown = [*drawn.full, *drawn.drained, *(lbf for _, lbf in drawn.read)]
        shown += [drawn.never] if drawn.never is not None else []
        plot.yticks(ticks(min(shown, default=0.0), max(shown, default=0.0)))
        plot.xticks(ticks(0.0, max([*drawn.at, *(at for at, _ in drawn.read)], default=0.0)))
        self.refresh()


def ticks(low: float, high: float) -> list[float]:
    """Whole numbers to write along an axis, round ones: half a joint is none.

    >>> ticks(0, 18)
    [0, 5, 10, 15]
    >>> ticks(230.2, 1290)
    [400, 600, 800, 1000, 1200]
    """
    span = max(high - low, 1.0)
    decade = 10 ** floor(log10(span / _TICKS)) if span > _TICKS else 1
    step = next(n * decade for n in (1, 2, 5, 10) if span / (n * decade) <= _TICKS)
    return [int(n * step) for n in range(ceil(low / step), floor(high / step) + 1)]
