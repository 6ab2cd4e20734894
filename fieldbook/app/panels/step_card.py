"""The step on screen: what it is, what to do, and what can hurt."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

from fieldbook.app.walk.style import is_short
from fieldbook.app.widgets.lines import Lines
from fieldbook.app.widgets.row_view import TextLine
from fieldbook.walk.states import StepState
from fieldbook.watch.depth import reconcile as depth

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.walk.definition.steps import Step

_END = (
    "Next, the office makes sheet, bill and tables, to be printed:\n"
    "  fieldbook jobfile {number} --out files\n"
    "{late}v reads the log, q goes back to the shelf."
)
_LATE = "What comes later: Esc, a. It stands as later.\n"
_FAILING = "a stop cannot be signed. Read again, or Esc, r: go ahead by name"
_FEW = 4  # lines of a form that leave room for what to do on the shortest screen
_ROWS_FOR_BOTH = 36
"""Of a screen that has room for what to do and for each way of knowing the depth."""
_STATES = {"DANGER": "danger", "WARNING": "caution", "CAUTION": "caution", "NOTICE": ""}


class StepCard(Lines):
    """The words of one step: its title, what to do, what can hurt, what it waits for."""

    def show_end(self, number: str, seal: Entry | None, later: int) -> None:
        """Show that the walk is at its end, and what comes next.

        Args:
            number: Of the job.
            later: How many things wait to be filled in.
            seal: Its newest seal; None where it was passed over.
        """
        late = _LATE if seal is not None else ""
        end = _END.format(number=shlex.quote(number) if number else "JOB", late=late)
        done = f"Done, but for {later} things to fill in: y" if later else "Every step is done"
        lines = [TextLine(done, "title"), TextLine(end)]
        if seal is not None:
            lines.insert(1, TextLine(f"SEALED {seal.time:%Y-%m-%d %H:%M} by {seal.by}", "title"))
        self.say_lines(lines)

    def show_step(
        self,
        step: Step,
        state: StepState | None,
        aside: str,
        *,
        written: bool,
        barred: bool,
        from_paper: bool,
        failing: bool,
        against: str = "",
    ) -> None:
        """Show a step.

        Args:
            step: The step.
            state: How far it is.
            aside: What is to be compared.
            written: Whether its form says already what it must.
            barred: Whether something else is in the place of the form.
            from_paper: Whether what is entered was written down before.
            failing: Whether its last entry was no yes, for a check says stop.
            against: What a figure says against its yes, and what to do.
        """
        short = is_short(self.screen.size)
        # What is done, repeats or has happened needs no telling where a long form needs the room.
        long = len(step.asks) > _FEW
        done = state is not None and not state.is_open
        known = done or from_paper or (bool(step.repeat) and state is StepState.UNDER_WAY)
        # The ways of knowing the depth stand below, each with what it says, and want its room.
        ways = depth.NAME in step.checks and self.screen.size.height < _ROWS_FOR_BOTH
        mark = f"  ({state.words})" if state is not None and state is not StepState.TO_DO else ""
        lines = [TextLine(f"{step.title}{mark}", "title")]
        if not barred and not ways and not (short and known and long):
            lines.append(TextLine(step.do))
        lines.append(TextLine(aside))
        if (caution := step.caution) is not None and not (short and barred):
            lines.append(TextLine(f"{caution.word}: {caution.text}", _STATES[caution.word]))
        if failing:
            lines.append(TextLine(f"HOLD: {_FAILING}", "stop"))
        elif against:
            lines.append(TextLine(f"HOLD waits. {against}", "stop"))
        elif not barred:
            words = _hold(step, state, written=written, from_paper=from_paper)
            lines.append(TextLine(words, "hold"))
        self.say_lines(lines)


def _hold(step: Step, state: StepState | None, *, written: bool, from_paper: bool) -> str:
    """What a hold point waits for, and what Enter does about it now."""
    if step.hold is None:
        return ""
    if step.each_entry_is_the_yes:
        seen = "; not witnessed for all of it" if state is StepState.NOT_WITNESSED else ""
        yes = f"saving confirms {step.each_entry_says}{seen}"
        return f"HOLD: {'saved from paper, not witnessed' if from_paper else yes}"
    if state is not None and not state.is_open:
        return f"HOLD: {'signed' if state is StepState.DONE else state.words}"
    yes = f"{' or '.join(step.release)} signs"
    if not step.asks:
        return f"HOLD: Enter, then {yes}"
    if written and step.records != "done":
        return f"HOLD: saved; Esc, r: {yes}"
    return f"HOLD: fill in, then {yes}"
