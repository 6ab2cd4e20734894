"""The walk: one step with its form, the limits beside it, the well drawn, the last entries."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from fieldbook.app.panels.big_figures import BigFigures
from fieldbook.app.panels.chain_panel import ChainPanel
from fieldbook.app.panels.check_panel import CheckPanel
from fieldbook.app.panels.hold_panel import HoldPanel
from fieldbook.app.panels.phase_strip import PhaseStrip
from fieldbook.app.panels.recent import RecentEntries
from fieldbook.app.panels.step_card import StepCard
from fieldbook.app.panels.stop_panel import StopPanel
from fieldbook.app.panels.top_line import TopLine
from fieldbook.app.panels.trace_beside import TraceBeside
from fieldbook.app.panels.well_drawing import WellDrawing, well_of
from fieldbook.app.theme.sizes import wear_size
from fieldbook.app.walk.action_table import LETTERS, WALK_ACTIONS, actions_at
from fieldbook.app.walk.key_hints import actions_now
from fieldbook.app.walk.position_text import whereabouts
from fieldbook.app.walk.prefill import PrefilledWalk
from fieldbook.app.walk.step_notes import aside_of
from fieldbook.app.walk.style import STYLE, TALL_ROWS, is_short
from fieldbook.app.widgets.action_list import ActionList
from fieldbook.app.widgets.key_line import KeyLine
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.plain_container import (
    PlainContainer,
    PlainHorizontal,
    PlainScroll,
    PlainVertical,
)
from fieldbook.walk.barring import stopped
from fieldbook.walk.states import lacking

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from textual import events
    from textual.app import ComposeResult

    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step

_REREAD_SECONDS = 3.0
_FIGURES = frozenset("0123456789.")


class WalkScreen(PrefilledWalk, PlainContainer):
    """Walks the crew through one job."""

    DEFAULT_CSS = STYLE
    AUTO_FOCUS = ""
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012 - Textual's own type
    VERTICAL_BREAKPOINTS = [(0, "-short"), (TALL_ROWS, "-tall")]  # noqa: RUF012 - Textual's own type
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave_field", "Leave the field; then the letters act"),
        Binding("enter", "go_on", "Next field, or save"),
        Binding("pageup", "earlier", "The step before"),
        Binding("pagedown", "later", "The step after"),
        *LETTERS,
        Binding("k", "note_stop", "At a stop: write what happened"),
    ]

    def __init__(self, session: Session) -> None:
        """Walk the job of `session`."""
        super().__init__(session)
        self._is_up = False  # whether a step, or the end, was put up
        # Kept by name: after a save each is filled again, and to look them up takes its time.
        self._top, self._phases, self._where = TopLine(), PhaseStrip(), Literal("", id="where")
        self._figures_panel, self._card, self._recent = BigFigures(), StepCard(), RecentEntries()
        self._stop_panel, self._hold_panel = StopPanel(), HoldPanel()
        self._woken, self._chain = CheckPanel(), ChainPanel()
        self._well_drawing = WellDrawing()
        self._trace = TraceBeside()
        self._said, self._said_state = Literal("", id="said", classes="gone"), ""
        self._keys_line = KeyLine(id="keys")
        self._actions = (
            ActionList(WALK_ACTIONS, id="acts"),
            ActionList(WALK_ACTIONS, id="acts-beside"),
        )

    def compose(self) -> ComposeResult:
        """Top line, phases, step with form and limits, what was said, keys."""
        wear_size(self)
        below, beside = self._actions
        for actions in self._actions:
            actions.set_class(True, "-asleep")  # no letter acts before the form has the cursor
        yield from (self._top, self._phases, self._where, self._figures_panel)
        with PlainHorizontal(id="body"):
            with PlainScroll(id="left", can_focus=False):
                yield from (self._card, self._stop_panel, self._hold_panel, self._woken)
                yield from (self._tick_panel, self._place, beside, self._chain, self._recent)
            yield self._trace
            with PlainVertical(id="right"):
                yield from (self._limits, self._well_drawing)
        yield from (self._said, self._keys_line, below)

    async def on_mount(self) -> None:
        """Show where the job is."""
        await self.show_step()
        self.show_keys()
        self.app.guard.start()  # an Enter pressed again while the job was opened says nothing
        if lines := list(self._to_know()):
            self.say("\n".join(lines), "caution")
        self.set_interval(_REREAD_SECONDS, self._reread)

    def _to_know(self) -> Iterator[str]:
        """What is not as it should be with the job's logs and its steps."""
        book = self._session.book
        if book.doubtful is not None:
            words = self._session.entry_words(book.doubtful)
            yield (
                f"{words}: written, and nobody saw that it is saved. It counts."
                " Did it happen? Then go on. If not: Esc, x crosses it out"
            )
        if self._session.left_out:
            yield self._session.left_out
        if book.reports:
            yield "; ".join(map(str, book.reports[:2]))
        elif book.holder is not None:
            yield f"READ ONLY: {book.holder}"

    async def on_screen_resume(self) -> None:
        """Show what was recorded elsewhere while another screen was up."""
        if self._is_up:
            self.show_all()

    def on_resize(self) -> None:
        """Fill the room that there is now, once it is laid out."""
        if self._is_up:
            self.call_after_refresh(self.show_all)

    def on_descendant_focus(self) -> None:
        """Say which keys act now."""
        self.show_keys()

    def on_descendant_blur(self) -> None:
        """Say which keys act now."""
        self.show_keys()

    def _reread(self) -> None:
        self.keep_draft()
        self.app.half_typed.note(self._session, metric=self.app.metric)
        self.run_worker(self.app.half_typed.write, group="drafts", exclusive=True, thread=True)
        try:
            new = self._session.reread()
        except OSError as problem:
            self.say(f"The job's folder cannot be read: {problem}", "stop")
            return
        if new:
            self.show_all()
            self.say(f"{self._session.title(new[-1])}: by {new[-1].by}, from another device")

    # --- what is shown ---------------------------------------------------------------------------

    async def show_step(self, name: str | None = None, at: Collection[str] = ()) -> None:
        """Show a step, or the one the job is at, with a form that keeps what was half typed.

        The cursor goes into the first line of `at`, where it names any.
        """
        self.keep_draft()
        before = self._step
        self._is_up = True
        self._chosen = name
        self._look_back()
        step = self.step_to_show() if name is None else self._session.walk.step(name)
        moved = before is not None and step is not None and step.id != before.id
        if name is not None and moved and not self._said_state:
            self.say("")  # it was said of the step before; what is wrong stays
        self.keep_place(step)
        self._page = self._session.stand.page_of(step) if name is None else ()
        await self.put_form(step)
        self.show_all()
        self.focus_form(at or self.first_to_type(step))

    def show_all(self) -> None:
        """Show the job as it is beside the form, which keeps what is typed."""
        session, step = self._session, self._step
        stand, look = session.stand, session.look()
        stops = [check.name for check in look.stops]
        stopping = step is not None and stopped(step, stops)
        holds = session.held_up(step) if step is not None and not stopping else ()
        barred = stopping or bool(holds)
        self._phases.show_job(stand, step)
        self._card.set_class(bool(self._page), "gone")
        self.set_class(bool(self._page), "-ticks")
        self._show_card(step, barred=barred)
        self.show_page()
        if is_short(self.size):
            self._where.say(whereabouts(session.job, look, step), "stop" if look.stopped_by else "")
        else:
            self._figures_panel.show_look(session.job, look, step)
        self._limits.show_look(look, session.job, step)
        self._woken.show_look(look, session.job, step, barred=barred)
        self._chain.show_look(look, step)
        self._well_drawing.show_well(well_of(session.job, look, step))
        self._stop_panel.show_stops(look.stopped_by if stopping else ())
        self._hold_panel.show_holds(holds, stand)
        # What a paper says has happened is written down, whatever is in the way of more of it.
        kept_back = barred and session.paper is None
        self._place.set_class(kept_back, "gone")
        if kept_back:
            self.set_focus(None)
        self._recent.show_entries(session)
        self._trace.show_beside(session, step)
        self.show_keys()

    def _show_card(self, step: Step | None, *, barred: bool) -> None:
        session = self._session
        if step is None:
            job = session.job
            later = len(session.stand.later)
            self._card.show_end(job.text("job", "job_number"), job.last("seal"), later)
            return
        rows = session.written_for(step)
        written = step.hold is not None and bool(rows) and not lacking(step, rows)
        aside, state = aside_of(step, session), session.stand.states.get(step.id)
        self._card.show_step(
            step,
            state,
            aside,
            written=written,
            barred=barred,
            from_paper=session.paper is not None,
            failing=session.fails(step),
            against="" if barred else session.against_words(step),
        )

    def show_keys(self) -> None:
        """Say which keys act now, and whether all is saved."""
        asleep = self.focused is not None
        sealed = self._session.job.last("seal") is not None
        offered = actions_at(
            ended=self._step is None, sealed=sealed, waits=bool(self._session.stand.later)
        )
        for actions in self._actions:
            actions.offer(offered)
            actions.set_class(asleep, "-asleep")
        page = bool(self._page)
        self._keys_line.offer(actions_now(self._step, self.form, self.focused, page=page))
        self._top.show_state(self._session, self.app.initials, self.app.today())

    def say(self, words: str, state: str = "") -> None:
        """Say what happened, below the form."""
        self._said_state = state
        self._said.say(words, state)
        self._said.set_class(not words, "gone")

    # --- keys that are no letters ----------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        """A figure goes into the form, also where the cursor has left it."""
        form, character = self.form, event.character or " "
        if self.focused is None and self.has_tick(character):
            event.stop()
            self.run_worker(self.tick(character))
        elif self.focused is None and form is not None and form.lines and character in _FIGURES:
            event.stop()
            self.focus_form()
            form.type_ahead(character)

    async def action_go_on(self) -> None:
        """Enter outside a field: back to the form, or save one that asks nothing."""
        form = self.form
        if self._page and not self._stop_panel.display:
            await self.tick()
        elif form is None:
            step = self._step
            holds = self._session.held_up(step) if step is not None else ()
            if holds and self.app.guard.takes():
                await self.show_step(holds[0].id)
        elif form.lines:
            self.focus_form()
        else:
            self.complete_form()

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

    def action_shelf(self) -> None:
        """Back to the shelf; all is saved."""
        self.keep_draft()
        self.app.close_job()
