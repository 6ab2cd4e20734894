"""The trace beside the form, where a large screen has room for it while the string moves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.walk.style import PLOT_COLUMNS, has_room_to_plot
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.plain_container import PlainVertical
from fieldbook.watch.lift.trace import trace, trace_words

if TYPE_CHECKING:
    from fieldbook.app.host import Host
    from fieldbook.app.screens.trace_plot import TracePlot
    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step

_MOVES = ("pull", "set")
"""Phases in which the string moves."""


class TraceBeside(PlainVertical):
    """Readings over what is out or in, against what is expected, and the figures in words.

    The plot is loaded when it is first shown, and drawn once the rest of the screen is up: an
    entry is on the screen before it.
    """

    DEFAULT_CSS = f"""
    TraceBeside {{
        width: {PLOT_COLUMNS}; display: none; padding: 0 1;
        &.-shown {{ display: block; }}
        & TracePlot {{ height: 1fr; max-height: 30; }}
    }}
    """

    app: Host

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__(id="trace")
        self._session: Session | None = None
        self._plot: TracePlot | None = None
        self._title, self._words = Literal("", classes="title"), Literal("")
        self._drawn: tuple[Session, int] | None = None

    def show_beside(self, session: Session, step: Step | None) -> None:
        """Show the trace beside a step, or nothing where it has no room or no use."""
        shown = has_room_to_plot(self.screen.size) and step is not None and step.phase in _MOVES
        self.set_class(shown, "-shown")
        if shown:
            self._session = session
            self.call_after_refresh(self._draw if self._plot is not None else self._begin)

    def _begin(self) -> None:
        self.run_worker(self._load, group="trace", exclusive=True, thread=True)

    def _load(self) -> None:
        from fieldbook.app.screens import trace_plot  # noqa: PLC0415, F401 - the plot, loaded by itself

        self.app.call_from_thread(self.call_later, self._put_up)

    async def _put_up(self) -> None:
        from fieldbook.app.screens.trace_plot import TracePlot  # noqa: PLC0415 - loaded by now

        if self._plot is None and self.is_attached:
            self._plot = TracePlot()
            await self.mount(self._title, self._plot, self._words)
            self._draw()

    def _draw(self) -> None:
        from fieldbook.app.screens.trace_plot import marks, title  # noqa: PLC0415 - loaded by now

        session = self._session
        if session is None or self._plot is None:
            return
        now = (session, session.job.revision)
        if now == self._drawn:
            return
        self._drawn = now
        look = session.look()
        drawn = trace(session.job, look)
        self._title.say(f"{title(drawn)}\n{marks(drawn)}")
        self._plot.show_trace(drawn)
        self._words.say("\n".join([trace_words(drawn, look.now), *drawn.ahead.lines()]))
