"""The planner: PVC, steel and hose side by side, and all about the one that the cursor is on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.message import Message
from textual.screen import Screen
from textual.worker import get_current_worker

from fieldbook.app.dialogs.planner_dialogs import PlannerDialogs
from fieldbook.app.theme.sizes import wear_size
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows
from fieldbook.quantities.safety import SAFETY
from fieldbook.record.job import Job
from fieldbook.watch.planner.plan import Plan, plan
from fieldbook.watch.planner.words import (
    BECAUSE,
    LABEL,
    LEGEND,
    cells,
    details,
    folded,
    heading,
    table_head,
    table_row,
)
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from collections.abc import Coroutine

    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.watch.planner.plan import PlanRow

_ACTIONS = (
    Action("Enter", "details", "whole"),
    Action("y", "maker's rating", "sheet"),
    Action("s", "setting", "setting"),
    Action("d", "duty", "duty"),
    Action("k", "curve point", "curve"),
    Action("c", "cable, motor", "cable"),
    Action("Esc", "back", "back"),
)
_SIDES = 3  # of the details: padding and scrollbar


class PlannerScreen(Screen[None]):
    """Every line that may be set as a row, the details of one below or beside it."""

    DEFAULT_CSS = """
    PlannerScreen {
        & #heading { padding: 0 1; height: auto; min-height: 3; }
        & #columns { padding: 0 1; text-style: bold; text-wrap: nowrap; }
        & Rows, & Rows:focus {
            height: 1fr; border: none; padding: 0 1; scrollbar-size-vertical: 1;
        }
        & #details { height: 1fr; padding: 0 1; border-top: solid $border; }
        & #details { scrollbar-size-vertical: 1; }
        & #said { padding: 0 1; text-style: bold; height: auto; }
        & .gone { display: none; }
        &.-whole Rows, &.-whole #columns, &.-whole #heading { display: none; }
        &.-tall Rows { height: 23; }
        &.-whole #details { border-top: none; }
    }
    """
    AUTO_FOCUS = ""
    VERTICAL_BREAKPOINTS = [(0, "-short"), (46, "-tall")]  # noqa: RUF012 - Textual's own type
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,o", "back", "Back"),
        Binding("enter", "whole", "All about the line the cursor is on, or the table again"),
        Binding("y", "sheet", "Write what the sheet of this line says"),
        Binding("s", "setting", "Write the setting to plan for"),
        Binding("d", "duty", "Write flow wanted, level and pressure"),
        Binding("k", "curve", "Write a point of the pump's curve"),
        Binding("c", "cable", "Write what cable and motor are"),
    ]

    app: Host

    @dataclass
    class Planned(Message):
        """A plan was made."""

        plan: Plan

    def __init__(self, session: Session) -> None:
        """Plan for the job of `session`."""
        super().__init__()
        self._session = session
        self._plan: Plan | None = None

    def compose(self) -> ComposeResult:
        """What is planned for, the table, the details, the keys."""
        wear_size(self)
        yield Literal("Planner: reckoning how deep each line can go ...", id="heading")
        yield Literal(table_head(), id="columns")
        yield Rows()
        with VerticalScroll(id="details"):
            yield Literal("", id="chosen")
            yield Literal("", id="words")
            yield Literal("\n".join((*LEGEND, *SAFETY)), classes="muted")
        yield Literal("", id="said", classes="gone")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """Make the plan, away from the keys."""
        self._compute()

    def _compute(self) -> None:
        # A copy, since the book may take in another device's entries meanwhile.
        self._make(Job(self._session.job.entries))

    @work(thread=True, exclusive=True, group="plan")
    def _make(self, job: Job) -> None:
        made = plan(job)
        if not get_current_worker().is_cancelled:
            self.post_message(self.Planned(made))

    def on_planner_screen_planned(self, event: Planned) -> None:
        """Show the plan, the cursor where it was or on the job's own line."""
        first = self._plan is None
        self._plan = event.plan
        pairs = (pair for pair in heading(event.plan) if pair[0] != BECAUSE)
        lines = (f"{label:<{LABEL}}{words}" for label, words in pairs)
        self.query_one("#heading", Literal).say("\n".join(lines))
        rows = self.query_one(Rows)
        rows.show(table_row(cells(row)) for row in event.plan.rows)
        if first:
            own = [at for at, row in enumerate(event.plan.rows) if row.candidate.hangs]
            rows.highlighted = own[0] if own else 0
        rows.focus()
        self.call_after_refresh(rows.scroll_to_highlight)
        self._show_details()

    @property
    def _chosen(self) -> PlanRow | None:
        at = self.query_one(Rows).highlighted
        return self._plan.rows[at] if self._plan is not None and at is not None else None

    def on_option_list_option_highlighted(self, event: Rows.OptionHighlighted) -> None:
        """Another line: its details."""
        event.stop()
        self._show_details()
        self.query_one("#details", VerticalScroll).scroll_home(animate=False)

    def on_resize(self) -> None:
        """The details are folded to the width there is."""
        self._show_details()

    async def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click: the details alone."""
        event.stop()
        self.action_whole()

    def _show_details(self) -> None:
        row = self._chosen
        if row is None or self._plan is None:
            return
        verdict = row.verdict.value
        words = f"{row.candidate.name}: {word_of(row.verdict)}"
        self.query_one("#chosen", Literal).say(words, verdict)
        width = max(self.size.width - _SIDES, LABEL * 2)
        lines = (folded(*pair, width=width) for pair in details(self._plan, row))
        self.query_one("#words", Literal).say("\n".join(lines))

    def action_whole(self) -> None:
        """The details alone, or the table again."""
        whole = not self.has_class("-whole")
        self.set_class(whole, "-whole")
        self.query_one("#details" if whole else Rows).focus()

    def action_sheet(self) -> None:
        """Write what the sheet of this line says."""
        if (row := self._chosen) is not None:
            self._do(self._dialogs.sheet(row.candidate))

    def action_setting(self) -> None:
        """Write the setting."""
        self._do(self._dialogs.setting())

    def action_duty(self) -> None:
        """Write the duty."""
        self._do(self._dialogs.duty())

    def action_curve(self) -> None:
        """Write a point of the pump's curve."""
        self._do(self._dialogs.curve_point())

    def action_cable(self) -> None:
        """Write what cable and motor are."""
        self._do(self._dialogs.supply())

    @property
    def _dialogs(self) -> PlannerDialogs:
        return PlannerDialogs(self.app, self._session)

    @work
    async def _do(self, dialog: Coroutine[None, None, str]) -> None:
        """Ask, record, plan again."""
        if words := await dialog:
            said = self.query_one("#said", Literal)
            said.say(words)
            said.remove_class("gone")
            self._compute()

    def action_back(self) -> None:
        """From the details to the table, or back to where we were."""
        if self.has_class("-whole"):
            self.action_whole()
        else:
            self.dismiss(None)
