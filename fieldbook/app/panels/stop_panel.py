"""What is in the place of the form while a limit is passed; nothing here waves it through."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical

from calc.units import magnitude
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.watch.gauge.gauge_check import NAME as GAUGE

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from calc.check import Check

_ACTIONS = (
    Action("g", "read the gauge again", "read_gauge"),
    Action("c", "change rig or limit", "card"),
    Action("k", "write what happened", "note_stop"),
)


class StopPanel(Vertical):
    """Which check says stop, by how much, and the three things that can be done."""

    DEFAULT_CSS = """
    StopPanel {
        height: auto; border: heavy $error; padding: 0 1;
        & #stop-words { text-style: bold; }
    }
    """

    def __init__(self) -> None:
        """Show no stop yet."""
        super().__init__(classes="gone", id="stop-panel")

    def compose(self) -> ComposeResult:
        """Words and acts."""
        yield Literal("STOP", id="stop-words", classes="stop")
        yield Literal("Set it back on the slips or clamp. Nothing is lifted until cleared.")
        yield ActionList(_ACTIONS)

    def show_stops(self, checks: tuple[Check, ...]) -> None:
        """Show the checks that say stop, or hide where none does."""
        self.set_class(not checks, "gone")
        if checks:
            self.query_one("#stop-words", Literal).say("\n".join(map(_words, checks)), "stop")


def _words(check: Check) -> str:
    if check.demand is None or check.allowable is None:
        return f"STOP: {check.name}, {check.governs}"
    demand, allowed = (magnitude(q, "lbf", check.name) for q in (check.demand, check.allowable))
    over = f"OVER BY {demand - allowed:,.0f} lbf"
    if check.name == GAUGE:
        return f"STOP: gauge {demand:,.0f}, stop at {allowed:,.0f}\n{over}"
    return f"STOP: {check.name} {demand:,.0f} of {allowed:,.0f} lbf, {check.governs}\n{over}"
