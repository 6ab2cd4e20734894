"""The trace: what the gauge should show as the string moves, and what it did show."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import Screen

from fieldbook.app.screens.trace_plot import TracePlot, marks, title
from fieldbook.app.widgets.action_list import BACK, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.watch.lift.answer import first_words
from fieldbook.watch.lift.trace import trace, trace_words

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.session import Session


class TraceScreen(Screen[None]):
    """Two curves, the readings as crosses, the limit as a line; and the numbers in words."""

    DEFAULT_CSS = """
    TraceScreen { & TracePlot { height: 1fr; } & Literal { padding: 0 1; } }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,t", "back", "Back")]

    def __init__(self, session: Session) -> None:
        """Trace the job of `session`."""
        super().__init__()
        self._name = session.name
        self._look = session.look()
        self._trace = trace(session.job, self._look)

    def compose(self) -> ComposeResult:
        """Title, plot, words."""
        yield Literal(f"{self._name}: {title(self._trace)}   {marks(self._trace)}", classes="title")
        yield TracePlot()
        yield Literal(first_words(self._look), classes=self._look.lift.check.verdict.value)
        yield Literal(trace_words(self._trace, self._look.now))
        yield Literal("\n".join([*self._trace.ahead.lines(), *self._look.telling.lines()]))
        yield ActionList(BACK)

    def on_mount(self) -> None:
        """Plot what is known."""
        self.query_one(TracePlot).show_trace(self._trace)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
