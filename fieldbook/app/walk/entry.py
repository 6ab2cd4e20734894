"""The form of the step on screen: what is typed into it, and how that is saved."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual import work

from fieldbook.app.forms.form import Form
from fieldbook.app.walk.actions import WalkActions
from fieldbook.app.walk.step_form import (
    as_typed,
    form_of,
    keep_draft,
    record_form,
    same_again,
    start_of,
)
from fieldbook.app.widgets.debounce import REPEATED
from fieldbook.app.widgets.plain_container import PlainVertical
from fieldbook.quantities.admit import CONFIRMED, Refused
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.walk.entry.doubts import Asked, doubt_about
from fieldbook.walk.entry.runs import each_of, not_a_run, rest_of
from fieldbook.walk.suspension import gauge_moved, left_open

if TYPE_CHECKING:
    from collections.abc import Collection

    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry, Value
    from fieldbook.walk.definition.steps import Step


class WalkEntry(WalkActions):
    """A screen with the form of a step, where no panel is in its place."""

    def __init__(self, session: Session) -> None:
        """Write into the job of `session`."""
        super().__init__(session)
        self._start: dict[str, str] = {}
        self._place = PlainVertical(id="form")
        self._page: tuple[Step, ...] = ()  # of ticks, in the place of a form

    def show_keys(self) -> None:
        """Say which keys act now, and whether all is saved."""
        raise NotImplementedError

    async def put_form(self, step: Step | None) -> None:
        """Put up the form of a step, with what was half typed into it.

        A step that repeats keeps its form: to build it again for each joint would take longer than
        all the checks.
        """
        self._step = step
        place = self._place
        if step is None or self._page:
            await place.remove_children()
            return
        self._start = start_of(step, self._session, metric=self.app.metric)
        texts = self._start | self._session.drafts.get(step.id, {})
        from_paper = self._session.paper is not None
        form = form_of(step, self._start, metric=self.app.metric, from_paper=from_paper)
        shown = _form_in(place)
        asks_the_same = shown is not None and shown.asks_as(form)
        form = shown if shown is not None and asks_the_same else form
        form.doubts = partial(doubt_about, self._session.job, Asked.at(step))
        going_on = step.repeat and self._session.written_for(step)
        form.one_more = self._start if going_on else None
        if asks_the_same:
            form.start_again(texts)
            return
        await place.remove_children()
        await place.mount(form)
        form.fill(texts)

    @property
    def form(self) -> Form | None:
        """The form, unless something is in its place."""
        return None if self._place.has_class("gone") else _form_in(self._place)

    def focus_form(self, at: Collection[str] = ()) -> None:
        """Put the cursor into the form, where it asks something; into one of `at` before all."""
        form = self.form
        if form is not None and form.lines:
            self._place.remove_class("-awake")
            form.begin(at)
        else:
            self.set_focus(None)

    def action_leave_field(self) -> None:
        """Leave the field, so that letters act; where there is little room, in its place."""
        form = self.form
        self._place.set_class(bool(form and form.lines), "-awake")
        self.set_focus(None)

    async def on_form_completed(self, event: Form.Completed) -> None:
        """Save the form of the step."""
        event.stop()
        if self._step is not None:
            sure = CONFIRMED if event.form.confirmed else {}
            await self._save(self._step, event.values | sure, event.form.run)

    @work
    async def on_form_lacking(self, event: Form.Lacking) -> None:
        """Save a form that leaves something out, with the reason."""
        step = self._step
        sure = CONFIRMED if event.form.confirmed else {}
        reason = await self._dialogs.why_not_written(event.labels)
        if step is not None and reason is not None:
            await self._save(step, event.values | sure | {"reason": reason})

    async def on_form_pressed(self, event: Form.Pressed) -> None:
        """`=` repeats the last joint, `-` offers to strike the last entry."""
        event.stop()
        if event.key == "-":
            self.action_strike()
        else:
            await self.action_same_again()

    async def action_same_again(self) -> None:
        """Write the last joint again, with what is typed beside its length."""
        step, form = self._step, self.form
        if step is None or form is None or not self.app.guard.takes(REPEATED):
            return
        typed = form.understood()
        if typed is None:
            return
        values = same_again(step, self._session, typed)
        if values is None:
            self.say("There is no joint to repeat: type the length")
            return
        if any(form.doubts(name, values) for name in values):
            # Typed into its line, it is asked about there as any other figure.
            form.fill({name: figure(value) for name, value in values.items()})
            form.complete()
            return
        await self._save(step, values, form.run)

    async def _save(self, step: Step, values: dict[str, Value], run: int | None = None) -> None:
        session = self._session
        if not self.app.initials:
            self.say("Whose initials? Esc, then i", "caution")
            return
        self.app.guard.start()
        if step.records == "done" and step.hold is not None:
            self.release(step, values)
            return
        before = session.stopping
        on_disk, entry = self._record(step, values, run)
        if not on_disk:
            return
        self.spend_form(step)
        stays = step.repeat or step.hold is not None
        await self.show_step(step.id if stays else None)
        if entry is None:
            self.say("Nothing was changed")
            return
        many = f"{run} like joints, the last: " if run is not None and run > 1 else ""
        title = session.title(entry)
        # Several steps write one kind: where its title says no more, the step does.
        made = step.title if title == kinds()[entry.kind].label else title
        self.say_done(f"{many}{made} saved {entry.time:%H:%M:%S}", before)
        if entry.kind in ("suspend", "resume"):
            apart = [
                words for words in (left_open(entry), gauge_moved(entry, session.job)) if words
            ]
            if apart:
                self.say(
                    f"{session.title(entry)}, but {' and '.join(apart)}: see to it first", "stop"
                )
        if step.hold is not None and not step.each_entry_is_the_yes:
            self.release(step, {})

    def _record(
        self, step: Step, values: dict[str, Value], run: int | None
    ) -> tuple[bool, Entry | None]:
        """Put on disk what the form says: whether all of it is there, and the last of it."""
        session = self._session
        if run is not None and (why := not_a_run(step, session.job, values, run)):
            self.say(why, "stop")
            return False, None
        entry, saved = None, 0
        try:
            for said in each_of(step, values, run) if run is not None else (values,):
                entry = record_form(step, session, self.app.initials, said)
                saved += 1
        except Refused as problem:
            self.say(str(problem), "stop")
            return False, None
        except OSError as problem:
            if run is not None and self.form is not None:
                self.form.fill(rest_of(values, run, saved))
            self.say(f"NOT SAVED: {problem}. What you typed is kept; Enter tries again.", "stop")
            self.show_keys()
            return False, None
        return True, entry

    async def bring_back(self, entry: Entry) -> str:
        """Show the form that made a struck entry with what was typed; what to say of it.

        What is half typed there already stays instead: it was typed for another entry.
        """
        session = self._session
        step = next((s for s in session.stand.steps if s.id == entry.text("step")), None)
        if step is None or step.records != entry.kind:
            await self.show_step(self._chosen)
            return ""
        self.keep_draft()
        if step.id in session.drafts:
            await self.show_step(step.id)
            return "; the form keeps what was half typed"
        start = start_of(step, session, metric=self.app.metric)
        texts = as_typed(step, entry, metric=self.app.metric)
        session.drafts[step.id] = texts
        self._step = None  # what it shows is kept, or is empty and would take the draft's place
        await self.show_step(step.id, [n for n in texts if texts[n] != start.get(n, "")])
        return "; its form has what was typed: mend it, Enter saves"

    def complete_form(self) -> None:
        """Save the form as it is."""
        form = self.form
        if form is not None and self.app.guard.takes():
            form.complete()

    def action_save(self) -> None:
        """Save the form as it is, for the mouse: no key saves from the middle of a form."""
        self.complete_form()

    def spend_form(self, step: Step) -> None:
        """Drop what is typed into the form of a step, on disk too, before it is shown as saved."""
        self._step = None
        self._session.drafts.pop(step.id, None)
        self.app.keep_half_typed()

    def keep_draft(self) -> None:
        """Keep what is half typed."""
        if self._step is not None:
            form = _form_in(self._place)
            if form is not None:
                keep_draft(self._step, form, self._start, self._session)


def _form_in(place: PlainVertical) -> Form | None:
    return next((child for child in place.children if isinstance(child, Form)), None)
