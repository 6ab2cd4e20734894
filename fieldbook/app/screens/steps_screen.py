"""Every step of the job with how far it is; choosing one shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows
from fieldbook.walk.definition.steps import PHASES
from fieldbook.walk.states import StepState

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.app import ComposeResult

    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step

_ACTIONS = (Action("Enter", "show it", "show"), Action("Esc", "leave", "leave"))
_MARKS = {
    StepState.DONE: "=",
    StepState.PASSED_OVER: "-",
    StepState.PASSED_BY_NAME: "!",
    StepState.NOT_WITNESSED: "~",
    StepState.HELD: "H",
    StepState.UNDER_WAY: ">",
    StepState.TO_DO: " ",
}


class StepPicker(ModalScreen[str | None]):
    """A list of steps; answers with the id of the one that is chosen."""

    DEFAULT_CSS = """
    StepPicker {
        & Literal { padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q", "leave", "Leave it"),
        Binding("enter", "show", "Show the step that the cursor is on"),
    ]

    def __init__(self, session: Session, steps: Iterable[Step]) -> None:
        """List `steps` of the job of `session`."""
        super().__init__()
        self._session = session
        self._steps = list(steps)

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Show the chosen step."""
        event.stop()
        self.action_show()

    def action_show(self) -> None:
        """Answer with the step the cursor is on."""
        if (at := self.query_one(Rows).highlighted) is not None:
            self.dismiss(self._steps[at].id)

    def action_leave(self) -> None:
        """Stay where we were."""
        self.dismiss(None)


class StepsScreen(StepPicker):
    """Every step of the walk, then those that are opened when something happens."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("w", "leave", "Leave it")]

    def __init__(self, session: Session) -> None:
        """List the steps of the walk of `session`."""
        super().__init__(session, [*session.stand.steps, *session.walk.any_time])

    def compose(self) -> ComposeResult:
        """The steps and what the marks mean."""
        words = "All steps: Enter shows the one that the cursor is on"
        yield Literal(f"{self._session.name}: {words}", classes="title")
        if left_out := self._session.left_out:
            yield Literal(left_out, classes="caution")
        yield Rows()
        yield Literal("= done  > under way  H held  - skipped  ! by name  * any time")
        yield Literal("~ hold not witnessed")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """Start at the step the job is at."""
        current = self._session.stand.current
        rows = self.query_one(Rows)
        rows.show(self._words(step) for step in self._steps)
        if current in self._steps:
            rows.highlighted = at = self._steps.index(current)
            # What comes next is looked for here as much as what was.
            self.call_after_refresh(
                lambda: rows.scroll_to(y=at - rows.size.height // 2, animate=False)
            )
        rows.focus()

    def _words(self, step: Step) -> str:
        state = self._session.stand.states.get(step.id)
        mark = _MARKS[state] if state is not None else "*"
        phase = PHASES.get(step.phase, "Any time")
        return f"{mark} {phase:<9} {step.title}"
