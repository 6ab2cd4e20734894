"""What the letters of the walk do."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.screen import Screen

from calc.check import Verdict
from fieldbook.app.dialogs.job_dialogs import TYPED_WRONG, JobDialogs
from fieldbook.app.dialogs.release_dialog import ReleaseDialog
from fieldbook.app.walk.raised_stops import raised_words, reopened_words
from fieldbook.quantities.admit import Refused
from fieldbook.walk.barring import stopped
from fieldbook.walk.entry.form import naming
from fieldbook.walk.states import StepState, lacking

if TYPE_CHECKING:
    from collections.abc import Collection, Coroutine, Iterable, Mapping

    from textual.binding import BindingType

    from calc.check import Check
    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

_OLDER = "\nAnother one: Esc, then v for the log."


class WalkActions(Screen[None]):
    """A screen that is at a step of a job, and what can be done there besides its form."""

    BINDINGS: ClassVar[list[BindingType]] = []

    app: Host

    def __init__(self, session: Session) -> None:
        """Act on the job of `session`."""
        super().__init__()
        self._session = session
        self._step: Step | None = None
        self._chosen: str | None = None

    @property
    def _dialogs(self) -> JobDialogs:
        return JobDialogs(self.app, self._session)

    async def show_step(self, name: str | None = None, at: Collection[str] = ()) -> None:
        """Show a step, or the one the job is at; the cursor in the first line of `at`."""
        raise NotImplementedError

    def say(self, words: str, state: str = "") -> None:
        """Say what happened."""
        raise NotImplementedError

    def say_done(self, words: str, before: Collection[str]) -> None:
        """Say what was done, and which stops it raised that nothing else on the screen tells of.

        Args:
            words: What was done.
            before: The checks that said stop before it.
        """
        session, step = self._session, self._step
        look = session.look()
        barring = look.stops if step is not None and stopped(step, _names(look.stops)) else ()
        raised = [
            check
            for check in look.checks
            if check.verdict is Verdict.STOP and check.name not in before and check not in barring
        ]
        lines = [words, raised_words(raised, session.stand), *reopened_words(session)]
        is_stop = raised or lines[2:] or words.startswith("STOP")
        self.say("\n".join(filter(None, lines)), "stop" if is_stop else "")

    @work
    async def _do(self, dialog: Coroutine[None, None, str]) -> None:
        """Do what asks something first, then show what became of it."""
        before = self._session.stopping
        words = await dialog
        if words:
            await self.show_step(self._chosen)
            self.say_done(words, before)

    @work
    async def action_steps(self) -> None:
        """Choose a step from all of them."""
        from fieldbook.app.screens.steps_screen import StepsScreen  # noqa: PLC0415 - shown on demand

        if chosen := await self.app.push_screen_wait(StepsScreen(self._session)):
            await self.show_step(chosen)

    @work
    async def action_fill_in(self) -> None:
        """What a job that recorded at once still lacks, most wanted first."""
        from fieldbook.app.screens.later_screen import LaterScreen  # noqa: PLC0415 - shown on demand

        if not self._session.stand.later:
            self.say("Nothing waits to be filled in; w has all steps")
        elif chosen := await self.app.push_screen_wait(LaterScreen(self._session)):
            await self.show_step(chosen)

    @work
    async def action_card(self) -> None:
        """The job card: what describes well, rig, gauge and string, each fact to be changed."""
        from fieldbook.app.screens.card_screen import CardScreen  # noqa: PLC0415 - shown on demand

        if chosen := await self.app.push_screen_wait(CardScreen(self._session)):
            await self.show_step(chosen)

    def action_last_time(self) -> None:
        """What earlier jobs left in this well, and what is found otherwise."""
        from fieldbook.app.screens.last_time_screen import LastTimeScreen  # noqa: PLC0415 - on demand

        session = self._session
        self.app.push_screen(LastTimeScreen(session.memory, session.differences()))

    def action_gear(self) -> None:
        """The company's gear: take an item's figures into this job."""
        from fieldbook.app.dialogs.gear_dialogs import GearDialogs  # noqa: PLC0415 - shown on demand

        self._do(GearDialogs(self.app, self._session).take(self._step))

    def action_lift(self) -> None:
        """The lift check."""
        self.app.show_lift(self._session)

    def action_trace(self) -> None:
        """The trace of the gauge."""
        self.app.show_trace(self._session)

    def action_planner(self) -> None:
        """How deep each drop line can go."""
        self.app.show_planner(self._session)

    @work
    async def action_log(self) -> None:
        """Every entry; what is struck there is no more what the form goes on from."""
        before, stopping = self._session.job.revision, self._session.stopping
        await self.app.show_log(self._session)
        if self._session.job.revision != before:
            await self.show_step(self._chosen)
            self.say_done("", stopping)

    def action_emergency(self) -> None:
        """Where we are and whom to call."""
        self.app.show_emergency(self._session)

    def action_note(self) -> None:
        """Write a note."""
        self._do(self._dialogs.note())

    @work
    async def action_strike(self) -> None:
        """Strike the last live entry; one that was typed wrong comes back to be mended."""
        job = self._session.job
        standing = (e for e in reversed(job.entries) if job.is_live(e) and e.kind != "strike")
        entry = next(standing, None)
        before = self._session.stopping
        words = await self._dialogs.strike(entry, _OLDER)
        if not words:
            return
        if entry is not None and _was_typed_wrong(job, entry):
            words += await self.bring_back(entry)
        else:
            await self.show_step(self._chosen)
        self.say_done(words, before)

    async def action_step_done(self) -> None:
        """Mark a repeating step as done."""
        step = self._step
        if step is None or not self.app.guard.takes():
            return
        if not step.repeat:
            self.say("This step is done with Enter")
            return
        if stopped(step, _names(self._session.look().stops)):
            self.say("STOP: not while a limit is passed", "stop")
            return
        self.keep_draft()
        if step.id in self._session.drafts:
            self.say("What is typed is not saved: Enter, and save it; or clear it, then Esc, d")
            return
        try:
            self._session.record("done", self.app.initials, {"step": naming(step)})
        except (Refused, OSError) as problem:
            self.say(f"NOT SAVED: {problem}", "stop")
            return
        self.app.guard.start()
        await self.show_step()
        self.say(f"{step.title}: done")

    def action_release(self) -> None:
        """Release the hold point on screen, once its form is filled in."""
        step = self._step
        if step is not None and self._session.fails(step):
            self.release(step, {})
        elif step is None or step.hold is None or step.each_entry_is_the_yes:
            self.say("This step is no hold that is signed by itself")
        elif not self._session.stand.states.get(step.id, StepState.TO_DO).is_open:
            self.say("This hold is signed already")
        elif step.records == "done":
            self.complete_form()
        elif (rows := self._session.written_for(step)) and not lacking(step, rows):
            self.release(step, {})
        else:
            self.say("Fill in the form first: Enter saves it, then needs a signature")

    def keep_draft(self) -> None:
        """Keep what is half typed."""
        raise NotImplementedError

    async def bring_back(self, entry: Entry) -> str:
        """Show the form that made an entry, with what was typed; what to say of it."""
        raise NotImplementedError

    def complete_form(self) -> None:
        """Save the form as it is."""
        raise NotImplementedError

    def release(self, step: Step, said: Mapping[str, Value]) -> None:
        """Ask for the yes of a hold point; then the walk goes on."""
        self._chosen = None
        self._do(self._release(step, said))

    async def _release(self, step: Step, said: Mapping[str, Value]) -> str:
        words = await ReleaseDialog(self.app, self._session).release(step, said)
        if said and not self._session.stand.states.get(step.id, StepState.TO_DO).is_open:
            self.spend_form(step)
        return words

    def spend_form(self, step: Step) -> None:
        """Drop what is typed into the form of a step: it was recorded."""
        raise NotImplementedError

    async def action_beside(self) -> None:
        """Show the step that goes along with this one, one after the other."""
        beside = [b.step for b in self._session.stand.beside]
        if not beside:
            self.say("Nothing goes along with this step; material, extra work: w, then End")
            return
        at = beside.index(self._step) + 1 if self._step in beside else 0
        await self.show_step(beside[at % len(beside)].id)

    def action_pass_over(self) -> None:
        """Pass this step over, with the reason."""
        if self._step is not None:
            self._chosen = None
            self._do(self._dialogs.pass_over(self._step))

    def action_read_gauge(self) -> None:
        """Read the gauge."""
        self._do(self._dialogs.read_gauge())

    def action_note_stop(self) -> None:
        """Write what happened at a stop."""
        if stops := self._session.look().stopped_by:
            self._do(self._dialogs.note_stop(stops))

    def action_hand_over(self) -> None:
        """Hand the job over."""
        self._do(self._dialogs.hand_over())

    def action_suspend(self) -> None:
        """Suspend the work."""
        self._chosen = None  # what comes next is to take the work up again, whatever was on screen
        self._do(self._dialogs.suspend())

    def action_afterwards(self) -> None:
        """Put a paper into the book, or go back to entries made as it happens."""
        self._do(self._dialogs.afterwards())

    async def action_attach(self) -> None:
        """Attach a photo or a paper."""
        await self.show_step("any_time.photo")

    def action_initials(self) -> None:
        """Say who records."""
        self._do(self._dialogs.initials())


def _names(checks: Iterable[Check]) -> list[str]:
    return [check.name for check in checks]


def _was_typed_wrong(job: Job, entry: Entry) -> bool:
    return any(strike.text("reason") == TYPED_WRONG for strike in job.struck_by(entry))
