"""The walk's pages of ticks, and where the crew is in it when something else is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.panels.limits_panel import LimitsPanel
from fieldbook.app.panels.tick_panel import KEYS, TickPanel
from fieldbook.app.walk.entry import WalkEntry
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.convert import as_quantity
from fieldbook.quantities.typed import plain_value
from fieldbook.walk.barring import stopped
from fieldbook.walk.definition.steps import ANY_TIME
from fieldbook.walk.entry.form import entry_values, naming

if TYPE_CHECKING:
    from fieldbook.app.forms.form_line import FieldLine
    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step


class TickingWalk(WalkEntry):
    """A walk that shows the steps which only confirm as one page, and keeps its place."""

    def __init__(self, session: Session) -> None:
        """Walk the job of `session`."""
        super().__init__(session)
        self._limits = LimitsPanel()
        self._tick_panel = TickPanel(id="ticks", classes="gone")
        self._place_in_walk: Step | None = None

    def step_to_show(self) -> Step | None:
        """Where the crew is: the step it was at while that is open, else the next one behind it.

        What it did besides, a side task, the log, a hold released or passed, changes that no more
        than it changes where the string is. What cannot wait comes first.
        """
        stand = self._session.stand
        here, first = self._place_in_walk, stand.current
        if here is None or first is None or first.phase == ANY_TIME:
            return first
        here = next((step for step in stand.steps if step.id == here.id), None)
        if here is None:
            return first
        return here if here in stand.ahead else stand.after(here)

    def keep_place(self, step: Step | None) -> None:
        """Remember `step` as where the crew is, unless it is shown in between."""
        stand = self._session.stand
        if step in stand.ahead and step.phase != ANY_TIME and not step.beside:
            self._place_in_walk = step

    def show_page(self) -> None:
        """Show the page of ticks that the walk is at, or none."""
        entries = [self._session.ticked(step) for step in self._page]
        self._tick_panel.show_page(self._page, entries)

    def first_to_type(self, step: Step | None) -> tuple[str, ...]:
        """Where the cursor begins, where that is not the first empty line.

        In the line that was half typed; at a hold of a job that records at once, in its figure.
        """
        if step is None:
            return ()
        typed = self._session.drafts.get(step.id, {})
        if half := [name for name in step.asks if typed.get(name)]:
            return tuple(half[-1:])
        if not step.turn or step.hold is None or step.repeat:
            return ()
        return step.must[:1]

    def on_field_line_typed(self, event: FieldLine.Typed) -> None:
        """A gauge reading moves on its bar while it is typed, before it is saved."""
        event.stop()
        self._limits.show_typed(as_quantity(event.value) if event.value is not None else None)

    def has_tick(self, character: str) -> bool:
        """Whether that key ticks a row of the page on screen."""
        return bool(self._page) and character in KEYS[: len(self._page)]

    async def tick(self, key: str = "") -> None:
        """Tick the row of that key; without one, every row that is not ticked."""
        rows = self._page if not key else self._page[KEYS.index(key) :][:1]
        todo = [step for step in rows if self._session.ticked(step) is None]
        stops = [check.name for check in self._session.look().stops]
        if not todo or not self.app.guard.takes():
            return
        if not self.app.initials:
            self.say("Whose initials? i", "caution")
            return
        if any(stopped(step, stops) for step in todo):
            self.say("STOP: not while a limit is passed", "stop")
            return
        before = self._session.stopping
        try:
            for step in todo:
                self._record_tick(step)
        except (Refused, OSError) as problem:
            self.show_page()  # what was saved before it is ticked
            self.say(f"NOT SAVED: {problem}", "stop")
            return
        self.app.guard.start()
        page = self._page[0].page
        await self.show_step()
        done = todo[0].title if len(todo) == 1 else f"{page}: {len(todo)} things"
        self.say_done(f"{done}: done", before)

    def _record_tick(self, step: Step) -> None:
        session = self._session
        if step.tick:
            said = {name: plain_value(word) for name, word in step.tick.items()}
            session.record(step.records, self.app.initials, entry_values(step, session.job, said))
        else:
            session.record("done", self.app.initials, {"step": naming(step)})
