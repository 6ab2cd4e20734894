"""The trace: what the gauge should show as the string comes out, and what it did show."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual_plotext import PlotextPlot

from fieldbook.app.acts import BACK, Acts
from fieldbook.app.literal import Literal
from fieldbook.watch.moment import idle_words
from fieldbook.watch.trace import trace

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.session import Session


_TICKS = 7  # numbers along an axis, at the most one more
_READ, _FULL, _DRAINED = "X", "•", "·"
# What the marks mean stands above the plot: a legend inside it would lie on the curves.
_MARKS = f"{_READ} read  {_FULL} line full  {_DRAINED} drained  ─ never pass"


class TraceScreen(Screen[None]):
    """Two curves, the readings as crosses, the limit as a line; and the numbers in words."""

    DEFAULT_CSS = """
    TraceScreen { & PlotextPlot { height: 1fr; } & Literal { padding: 0 1; } }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,t", "back", "Back")]

    def __init__(self, session: Session) -> None:
        """Trace the job of `session`."""
        super().__init__()
        look = session.look()
        self._trace = trace(session.job, look)
        self._idle = idle_words(look.now).capitalize() if look.now.visit else ""

    def compose(self) -> ComposeResult:
        """Title, plot, words."""
        yield Literal(f"Gauge over what is out, lbf   {_MARKS}", classes="title")
        yield PlotextPlot()
        yield Literal(self._words())
        yield Literal("\n".join(self._telling()))
        yield Acts(BACK)

    def on_mount(self) -> None:
        """Plot what is known."""
        drawn = self._trace
        plot = self.query_one(PlotextPlot).plt
        if drawn.out:
            for curve, marker in ((drawn.full, _FULL), (drawn.drained, _DRAINED)):
                plot.plot(list(drawn.out), list(curve), marker=marker, color="default")
        if drawn.read:
            out, read = zip(*drawn.read, strict=True)
            plot.scatter(list(out), list(read), marker=_READ, color="default")
        if drawn.never is not None:
            plot.hline(drawn.never, color="default")
        plot.xlabel(drawn.axis)
        shown = [*drawn.full, *drawn.drained, *(lbf for _, lbf in drawn.read)]
        shown += [drawn.never] if drawn.never is not None else []
        plot.yticks(ticks(min(shown, default=0.0), max(shown, default=0.0)))
        plot.xticks(ticks(0.0, max([*drawn.out, *(at for at, _ in drawn.read)], default=0.0)))

    def _words(self) -> str:
        drawn = self._trace
        if self._idle:
            return self._idle
        if drawn.missing:
            return f"The curves need: {', '.join(drawn.missing)}"
        never = f"never pass {drawn.never:,.0f} lbf" if drawn.never is not None else "limit unknown"
        last = f"last read {drawn.read[-1][1]:,.0f} lbf" if drawn.read else "nothing read yet"
        return f"{last}; {never} (the line across)"

    def _telling(self) -> list[str]:
        """What comes next, and what the gauge is telling."""
        told = self._trace.telling
        return [*self._trace.ahead.lines(), *(told.lines() if told is not None else ())]

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)


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
