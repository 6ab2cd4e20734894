"""What a job that recorded at once still lacks, most wanted first; choosing one shows its form."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from fieldbook.app.screens.steps_screen import StepPicker
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


class LaterScreen(StepPicker):
    """What the office will ask, then the rest of the whole walk."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("y", "leave", "Leave it")]

    def __init__(self, session: Session) -> None:
        """List what the job of `session` lacks."""
        stand = session.stand
        asked = stand.office_asks
        super().__init__(session, [*asked, *(s for s in stand.later if s not in asked)])

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


def things(count: int) -> str:
    """How many, in words."""
    return "1 thing" if count == 1 else f"{count} things"
