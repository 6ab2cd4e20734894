"""The walk: one step with its form, the limits beside it, the well drawn, the last entries."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.screen import Screen

from fieldbook.app.acts import Acts
from fieldbook.app.deeds import Deeds
from fieldbook.app.entry_words import title_of, words_of
from fieldbook.app.form import Form
from fieldbook.app.limits_panel import LimitsPanel
from fieldbook.app.literal import Literal
from fieldbook.app.phase_strip import PhaseStrip
from fieldbook.app.step_card import StepCard
from fieldbook.app.stop_panel import StopPanel
from fieldbook.app.well_drawing import WellDrawing, well_of
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.convert import show
from fieldbook.walk.counts import counts
from fieldbook.walk.form import entry_values, naming, starts_with
from fieldbook.watch.moment import intake_depth, moving_in

if TYPE_CHECKING:
    from collections.abc import Coroutine

    from textual.app import ComposeResult
    from textual.timer import Timer

    from fieldbook.app.app import FieldbookApp
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Value
    from fieldbook.walk.steps import Step

MOVES = frozenset({"joint", "footage", "pump_out"})
"""Kinds of entry that say the string was moved; a stop keeps their forms away."""

_HINTS = (
    ("Esc", "then a letter:", "leave_field"),
    ("l", "lift check", "lift"),
    ("t", "trace", "trace"),
    ("w", "all steps", "steps"),
    ("c", "job card", "card"),
    ("v", "log", "log"),
    ("n", "note", "note"),
    ("x", "strike last", "strike"),
    ("d", "step done", "step_done"),
    ("p", "pass over", "pass_over"),
    ("g", "read gauge", "read_gauge"),
    ("h", "hand over", "hand_over"),
    ("z", "suspend", "suspend"),
    ("i", "initials", "initials"),
    ("e", "emergency", "emergency"),
    ("m", "day or night", "app.day_or_night"),
    ("q", "shelf", "shelf"),
    ("F1", "help", "app.help"),
)


class WalkScreen(Screen[None]):
    """Walks the crew through one job."""

    DEFAULT_CSS = """
    WalkScreen {
        & #top { height: 1; text-style: bold; text-wrap: nowrap; text-overflow: ellipsis; }
        & #body { height: 1fr; }
        & #left { width: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
        & #right { width: 36; }
        & #form { height: auto; }
        & #said { height: auto; padding: 0 1; }
        & #recent { color: $muted; text-wrap: nowrap; text-overflow: ellipsis; }
        & #keys { padding: 0 1; color: $muted; height: auto; }
        & .gone { display: none; }
        &.-tall #recent { margin: 1 0 0 0; }
        &.-short StepCard.-known #step-do { display: none; }
        &.-wide #right { width: 40; }
    }
    """
    AUTO_FOCUS = ""
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012 - Textual's own type
    VERTICAL_BREAKPOINTS = [(0, "-short"), (30, "-tall")]  # noqa: RUF012 - Textual's own type
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave_field", "Leave the field", show=False),
        Binding("enter", "go_on", "Save or go on", show=False),
        Binding("pageup", "earlier", "Earlier step"),
        Binding("pagedown", "later", "Later step"),
        *(Binding(key, action, words) for key, words, action in _HINTS if len(key) == 1),
        Binding("k", "note_stop", "Write what happened at a stop", show=False),
    ]

    app: FieldbookApp

    def __init__(self, session: Session, *, guard: float) -> None:
        """Walk the job of `session`.

        Args:
            session: The open job.
            guard: Seconds of quiet after a save before the next one is taken, so that a key that
                bounces never saves twice.
        """
        super().__init__()
        self._session = session
        self._guard = guard
        self._armed = True
        self._arming: Timer | None = None
        self._step: Step | None = None
        self._chosen: str | None = None

    def compose(self) -> ComposeResult:
        """Top line, phases, step with form and limits, what was said, keys."""
        yield Literal("", id="top")
        yield PhaseStrip()
        with Horizontal(id="body"):
            with VerticalScroll(id="left", can_focus=False):
                yield StepCard()
                yield StopPanel()
                yield Vertical(id="form")
                yield Literal("", id="recent")
            with Vertical(id="right"):
                yield LimitsPanel()
                yield WellDrawing()
        yield Literal("", id="said", classes="gone")
        yield Literal("", id="keys")
        yield Acts(_HINTS, id="acts")

    async def on_mount(self) -> None:
        """Show where the job stands."""
        self._deeds = Deeds(self.app, self._session)
        await self.show_step()
        if reports := self._session.book.reports:
            self.say("; ".join(map(str, reports[:2])), "caution")

    def on_descendant_focus(self) -> None:
        """Say which keys act now."""
        self._show_lines()

    def on_descendant_blur(self) -> None:
        """Say which keys act now."""
        self._show_lines()

    async def on_screen_resume(self) -> None:
        """Show what was recorded elsewhere while another screen was up."""
        if self.is_mounted and self.query("#form"):
            self._refresh()

    # --- what is shown ---------------------------------------------------------------------------

    async def show_step(self, name: str | None = None) -> None:
        """Show a step, or the one the job is at, with a form that keeps what was half typed."""
        self._keep_draft()
        self._chosen = name
        stand = self._session.stand
        step = self._session.walk.step(name) if name is not None else stand.current
        self._step = step
        place = self.query_one("#form", Vertical)
        await place.remove_children()
        if step is not None:
            form = Form(step.asks, must=step.must, metric=self.app.metric, origin=step.origin)
            await place.mount(form)
            form.fill(self._session.drafts.get(step.id) or self._start_of(step))
        self._refresh()
        self.focus_form()

    def _start_of(self, step: Step) -> dict[str, str]:
        return {n: value.text for n, value in starts_with(step, self._session.job).items()}

    def focus_form(self) -> None:
        """Put the cursor where the work goes on, unless a stop stands there."""
        for form in self.query("#form Form").results(Form):
            if not self.query_one("#form").has_class("gone"):
                form.begin()

    def _refresh(self) -> None:
        session, step = self._session, self._step
        stand = session.stand
        look = session.look()
        shown = step.phase if step is not None else ""
        self.query_one(PhaseStrip).show_phases(
            ((p.label, p.done, p.total) for p in stand.progress),
            next((p.label for p in stand.progress if p.phase == shown), ""),
        )
        state = stand.states.get(step.id) if step is not None else None
        self.query_one(StepCard).show_step(step, state, self._where())
        self.query_one(LimitsPanel).show_look(look)
        self.query_one(WellDrawing).show_well(well_of(session.job, look))
        stops = look.stops if self._moves() else ()
        self.query_one(StopPanel).show_stops(stops)
        self.query_one("#form").set_class(bool(stops), "gone")
        if stops:
            self.set_focus(None)
        self._show_lines()

    def _moves(self) -> bool:
        step = self._step
        return step is not None and (step.records in MOVES or step.hold is not None)

    def _where(self) -> str:
        job = self._session.job
        direction = "in" if moving_in(job) else "out"
        words = [f"{direction.upper()} {counts(job).where(direction)}"]
        intake = intake_depth(job, self._session.look().now)
        if intake is not None:
            datum = job.text("well", "datum") or "datum"
            words.append(f"intake {show(intake, 'ft', 1)} {datum}")
        return "  ".join(words)

    def _show_lines(self) -> None:
        session, job = self._session, self._session.job
        line, work_ = job.text("job", "line"), job.text("job", "work")
        last = job.entries[-1].time.strftime("%H:%M:%S") if job.entries else "-"
        saved = f"saved {last}"
        if session.unsaved:
            saved = "NOT SAVED"
        elif session.book.holder is not None:
            saved = "READ ONLY"
        title = f"{job.text('job', 'job_number')} {job.text('job', 'job_title')}"
        room = max(self.size.width - len(saved) - len(line) - len(work_) - 8, 10)
        top = f"{title[:room]:<{room}}  {line} {work_}  {saved}"
        state = "stop" if session.unsaved else ""
        self.query_one("#top", Literal).say(top, state)
        room = 1 if self.has_class("-short") else 4
        recent = [e for e in reversed(job.entries) if job.is_live(e)][:room]
        self.query_one("#recent", Literal).say(
            "\n".join(f"{e.time:%H:%M} {title_of(e)}: {words_of(e)}"[:100] for e in recent)
        )
        self.query_one("#keys", Literal).say(self._keys())
        # In a field the letters are for typing, and the form needs the room.
        self.query_one("#acts").set_class(self.focused is not None, "gone")

    def _keys(self) -> str:
        if self._step is None:
            return ""
        if self.focused is None:
            return "Enter: go on    PgUp PgDn: other steps"
        words = ["Enter: next, empty line: save"]
        if self._step.repeat:
            words += ["= same again", "- strike last"]
        return "  ".join([*words, "Esc: more keys"])

    def say(self, words: str, state: str = "") -> None:
        """Say what happened, below the form."""
        line = self.query_one("#said", Literal)
        line.say(words, state)
        line.set_class(not words, "gone")

    # --- saving ----------------------------------------------------------------------------------

    async def on_form_completed(self, event: Form.Completed) -> None:
        """Save the form of the step."""
        event.stop()
        if self._step is not None and self._take_key():
            await self._save(self._step, event.values)

    async def on_form_pressed(self, event: Form.Pressed) -> None:
        """`=` repeats the last entry of the step, `-` offers to strike the last entry."""
        event.stop()
        step = self._step
        if step is None or not self._take_key():
            return
        if event.key == "-":
            self.action_strike()
            return
        last = self._session.newest_of(step)
        if last is None or not step.repeat:
            self.say("There is no entry here to repeat")
            return
        kept = ("joint_length", "on_joint", "inside")
        values = {name: value for name, value in last.values.items() if name in kept}
        if not values:
            self.say("This is read anew each time: type it")
            return
        await self._save(step, values)

    def _take_key(self) -> bool:
        """Whether a saving key counts; within the quiet after a save it does not."""
        if self._armed:
            return True
        self._disarm()
        return False

    def _disarm(self) -> None:
        if self._guard <= 0:
            return
        self._armed = False
        if self._arming is not None:
            self._arming.stop()
        self._arming = self.set_timer(self._guard, self.arm)

    def arm(self) -> None:
        """Take saving keys again."""
        self._armed = True

    async def _save(self, step: Step, values: dict[str, Value]) -> None:
        session = self._session
        if not self.app.initials:
            self.say("Whose initials? Esc, then i", "caution")
            return
        if step.records == "done" and step.hold is not None:
            self._do(self._deeds.release(step))
            return
        said = entry_values(step, session.job, values)
        self._keep_draft()
        try:
            entry = session.record(step.records, self.app.initials, said)
        except Refused as problem:
            self.say(str(problem), "stop")
            return
        except OSError as problem:
            self.say(f"NOT SAVED: {problem}. What you typed is kept; Enter tries again.", "stop")
            self._refresh()
            return
        session.drafts.pop(step.id, None)
        self._disarm()
        self._step = None  # the form is spent; what it holds is no draft any more
        await self.show_step(step.id if step.repeat or step.hold is not None else None)
        self.say(f"{title_of(entry)} saved {entry.time:%H:%M:%S}")
        if step.hold is not None and not step.each_entry_is_the_yes:
            self._do(self._deeds.release(step))

    def _keep_draft(self) -> None:
        if self._step is not None:
            for form in self.query("#form Form").results(Form):
                self._session.drafts[self._step.id] = form.texts

    # --- keys ------------------------------------------------------------------------------------

    @work
    async def _do(self, deed: Coroutine[None, None, str]) -> None:
        """Do what asks something first, then show what became of it."""
        words = await deed
        if words:
            await self.show_step(self._chosen)
            self.say(words)

    def action_leave_field(self) -> None:
        """Leave the field, so that letters act."""
        self.set_focus(None)
        self._show_lines()

    async def action_go_on(self) -> None:
        """Enter outside a field: back to the form, or save one that asks nothing."""
        form = next(iter(self.query("#form Form").results(Form)), None)
        if form is None or self.query_one("#form").has_class("gone"):
            return
        if form.lines:
            form.begin()
        else:
            form.complete()

    async def action_earlier(self) -> None:
        """Show the step before this one."""
        await self._go(-1)

    async def action_later(self) -> None:
        """Show the step after this one."""
        await self._go(1)

    async def _go(self, by: int) -> None:
        steps = [step.id for step in self._session.stand.steps]
        if not steps:
            return
        at = steps.index(self._step.id) if self._step and self._step.id in steps else len(steps)
        await self.show_step(steps[min(max(at + by, 0), len(steps) - 1)])

    @work
    async def action_steps(self) -> None:
        """Choose a step from all of them."""
        from fieldbook.app.steps_screen import StepsScreen  # noqa: PLC0415 - shown on demand

        if chosen := await self.app.push_screen_wait(StepsScreen(self._session)):
            await self.show_step(chosen)

    @work
    async def action_card(self) -> None:
        """The job card: the steps that describe well, rig, gauge and string."""
        from fieldbook.app.steps_screen import StepsScreen  # noqa: PLC0415 - shown on demand

        if chosen := await self.app.push_screen_wait(StepsScreen(self._session, phase="plan")):
            await self.show_step(chosen)

    def action_lift(self) -> None:
        """The lift check."""
        self.app.show_lift(self._session)

    def action_trace(self) -> None:
        """The trace of the gauge."""
        self.app.show_trace(self._session)

    def action_log(self) -> None:
        """Every entry."""
        self.app.show_log(self._session)

    def action_emergency(self) -> None:
        """Where we are and whom to call."""
        self.app.show_emergency(self._session)

    def action_note(self) -> None:
        """Write a note."""
        self._do(self._deeds.note())

    def action_strike(self) -> None:
        """Strike the last entry that stands."""
        job = self._session.job
        struck = (e for e in reversed(job.entries) if job.is_live(e) and e.kind != "strike")
        self._do(self._deeds.strike(next(struck, None)))

    async def action_step_done(self) -> None:
        """Mark a repeating step as done."""
        step = self._step
        if step is None or not step.repeat:
            self.say("This step is done by saving its form")
            return
        try:
            self._session.record("done", self.app.initials, {"step": naming(step)})
        except (Refused, OSError) as problem:
            self.say(f"NOT SAVED: {problem}", "stop")
            return
        await self.show_step()
        self.say(f"{step.title}: done")

    def action_pass_over(self) -> None:
        """Pass this step over, with the reason."""
        if self._step is not None:
            self._chosen = None
            self._do(self._deeds.pass_over(self._step))

    def action_read_gauge(self) -> None:
        """Read the gauge."""
        self._do(self._deeds.read_gauge())

    def action_note_stop(self) -> None:
        """Write what happened at a stop."""
        if stops := self._session.look().stops:
            self._do(self._deeds.note_stop(stops))

    def action_hand_over(self) -> None:
        """Hand the job over."""
        self._do(self._deeds.hand_over())

    def action_suspend(self) -> None:
        """Suspend the work."""
        self._do(self._deeds.suspend())

    def action_initials(self) -> None:
        """Say who records."""
        self._do(self._deeds.initials())

    def action_shelf(self) -> None:
        """Back to the shelf; all is saved."""
        self._keep_draft()
        self.app.close_job()
