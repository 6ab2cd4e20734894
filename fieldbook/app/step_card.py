"""The step on screen: what it is, what to do, and what can hurt."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

from textual.containers import Vertical

from fieldbook.app.literal import Literal
from fieldbook.walk.states import State

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.walk.steps import Step

_END = (
    "v reads the log, q goes back to the shelf.\n"
    "The office makes sheet, bill and tables:\n"
    "  fieldbook jobfile {number} --out files"
)
_STATES = {"DANGER": "danger", "WARNING": "caution", "CAUTION": "caution", "NOTICE": ""}


class StepCard(Vertical):
    """The words of one step."""

    DEFAULT_CSS = """
    StepCard {
        height: auto;
        & #step-title { text-style: bold; text-wrap: nowrap; text-overflow: ellipsis; }
    }
    """

    def compose(self) -> ComposeResult:
        """Title, words, caution, hold."""
        for name in ("title", "do", "aside", "caution", "hold"):
            yield Literal("", id=f"step-{name}")

    def show_end(self, number: str) -> None:
        """Show that the walk is at its end, and what comes next for the job of that number."""
        self._line("title", "Every step is done")
        self._line("do", _END.format(number=shlex.quote(number) if number else "JOB"))
        for name in ("aside", "caution", "hold"):
            self._line(name, "")

    def show_step(self, step: Step, state: State | None, aside: str, *, written: bool) -> None:
        """Show a step.

        Args:
            step: The step.
            state: How far it is.
            aside: What is to be compared.
            written: Whether its form says already what it must.
        """
        self._line("aside", aside)
        # What is done or repeats was read once; where there is little room the form needs it.
        done = state is not None and not state.is_open
        self.set_class(done or (bool(step.repeat) and state is State.UNDER_WAY), "-known")
        mark = f"  ({state})" if state is not None and state is not State.TO_DO else ""
        self._line("title", f"{step.title}{mark}")
        self._line("do", step.do)
        caution = step.caution
        words = f"{caution.word}: {caution.text}" if caution is not None else ""
        self._line("caution", words, _STATES[caution.word] if caution is not None else "")
        self._line("hold", _hold(step, state, written=written))

    def _line(self, name: str, text: str, state: str = "") -> None:
        line = self.query_one(f"#step-{name}", Literal)
        line.say(text, state)
        line.set_class(not text, "gone")


def _hold(step: Step, state: State | None, *, written: bool) -> str:
    """What a hold point waits for, and what Enter does about it now."""
    if step.hold is None:
        return ""
    if step.each_entry_is_the_yes:
        seen = "; not witnessed for all of it" if state is State.NOT_WITNESSED else ""
        return f"HOLD {step.hold}: saving says the lower hold carries{seen}"
    if state is not None and not state.is_open:
        return f"HOLD {step.hold}: {'released' if state is State.DONE else state}"
    yes = f"{' or '.join(step.release)} says yes"
    if not step.asks:
        return f"HOLD {step.hold}: Enter, then {yes}"
    if written and step.records != "done":
        return f"HOLD {step.hold}: written; Esc, r, then {yes}"
    return f"HOLD {step.hold}: fill in, then {yes}"
