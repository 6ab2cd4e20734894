"""Every step of the job with how far it is; choosing one shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fieldbook.app.entry_words import words_of
from fieldbook.app.literal import Literal
from fieldbook.walk.states import State
from fieldbook.walk.steps import PHASES

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.session import Session
    from fieldbook.walk.steps import Step

_MARKS = {
    State.DONE: "=",
    State.PASSED_OVER: "-",
    State.PASSED_BY_NAME: "!",
    State.HELD: "H",
    State.UNDER_WAY: ">",
    State.TO_DO: " ",
}


class StepsScreen(ModalScreen[str | None]):
    """Answers with the id of the chosen step."""

    DEFAULT_CSS = """
    StepsScreen {
        align: center middle;
        & OptionList {
            width: 92%; height: 1fr; max-height: 92%; border: heavy $border; background: $surface;
        }
        & Literal { width: 92%; background: $panel; padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Leave it")]

    def __init__(self, session: Session, *, phase: str = "") -> None:
        """List the steps of the walk, or of one phase with what was written for each."""
        super().__init__()
        self._session = session
        self._phase = phase
        walk = session.walk
        stand = session.stand
        steps = [s for s in stand.steps if phase in ("", s.phase)]
        self._steps: list[Step] = steps if phase else [*steps, *walk.any_time]

    def compose(self) -> ComposeResult:
        """The steps and what the marks mean."""
        yield OptionList(*(Option(self._words(step)) for step in self._steps))
        yield Literal(
            "= done  > under way  H held  - passed over  ! passed by name    Enter: show it"
            "    Esc: leave"
        )

    def on_mount(self) -> None:
        """Start at the step the job is at."""
        current = self._session.stand.current
        options = self.query_one(OptionList)
        if current in self._steps:
            options.highlighted = self._steps.index(current)
        options.focus()

    def _words(self, step: Step) -> Content:
        state = self._session.stand.states.get(step.id)
        mark = _MARKS[state] if state is not None else "*"
        phase = PHASES.get(step.phase, "Any time")
        line = f"{mark} {phase:<9} {step.title}"
        if not self._phase:
            return Content(line)
        said = [e for e in self._session.job.live(step.records) if e.text("step") == step.id]
        return Content("\n".join([line, *(f"      {words_of(e)}" for e in said)]))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Show the chosen step."""
        event.stop()
        self.dismiss(self._steps[event.option_index].id)

    def action_leave(self) -> None:
        """Stay where we were."""
        self.dismiss(None)
