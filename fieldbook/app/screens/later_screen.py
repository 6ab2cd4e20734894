"""What a job that recorded at once still lacks, most wanted first; choosing one shows its form."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step

_ACTIONS = (Action("Enter", "fill it in", "show"), Action("Esc", "back to the string", "leave"))
_FEW = 4


class LaterScreen(ModalScreen[str | None]):
    """Answers with the id of the chosen step."""

    DEFAULT_CSS = """
    LaterScreen {
        & Literal { padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,y", "leave", "Back to the string"),
        Binding("enter", "show", "Fill in what the cursor is on"),
    ]

    def __init__(self, session: Session) -> None:
        """List what the job lacks."""
        super().__init__()
        self._session = session
        stand = session.stand
        self._steps = [*stand.office_asks, *(s for s in stand.later if s not in stand.office_asks)]

    def compose(self) -> ComposeResult:
        """How much there is, and each with what is blank."""
        asked = len(self._session.stand.office_asks)
        rest = len(self._steps) - asked
        words = f"{things(asked)} the office will ask, most wanted first"
        yield Literal(
            f"{words}; then {rest} more of the whole walk" if rest else words, classes="title"
        )
        yield Rows()
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """Start at what is most wanted."""
        rows = self.query_one(Rows)
        rows.show(map(self._words, self._steps))
        if self._steps:
            rows.highlighted = 0
        rows.focus()

    def _words(self, step: Step) -> str:
        said = {name for entry in self._session.written_for(step) for name in entry.values}
        job = self._session.job
        blank = [
            within(definition(name).label)
            for name in step.wanted
            if name not in said and job.value(step.records, name) is None
        ]
        more = f", {len(blank) - _FEW} more" if len(blank) > _FEW else ""
        return f"{step.title:<30} {', '.join(blank[:_FEW])}{more}"

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Show the chosen step."""
        event.stop()
        self.action_show()

    def action_show(self) -> None:
        """Answer with the step the cursor is on."""
        if (at := self.query_one(Rows).highlighted) is not None:
            self.dismiss(self._steps[at].id)

    def action_leave(self) -> None:
        """Back to where the crew was."""
        self.dismiss(None)


def things(count: int) -> str:
    """How many, in words."""
    return "1 thing" if count == 1 else f"{count} things"
