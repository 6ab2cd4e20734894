"""The emergency card: where we are, whom to call, what to keep clear of."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen

from fieldbook.app.literal import Literal
from fieldbook.quantities.definition import definition
from fieldbook.walk.entry_words import figure

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.record.job import Job

_FACTS = (
    ("job", "site"),
    ("job", "latitude"),
    ("job", "longitude"),
    ("job", "emergency"),
    ("arrival", "line_clearance"),
    ("arrival", "wind"),
    ("arrival", "lock_number"),
)


class EmergencyScreen(ModalScreen[None]):
    """Read aloud to whoever is called."""

    DEFAULT_CSS = """
    EmergencyScreen {
        align: center middle;
        & > Vertical {
            width: 90%; height: auto; border: heavy $error; background: $surface; padding: 1 2;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,e,enter", "back", "Back")]

    def __init__(self, job: Job) -> None:
        """Show the card of `job`."""
        super().__init__()
        self._job = job

    def compose(self) -> ComposeResult:
        """Each fact, or that it was not written."""
        with Vertical():
            yield Literal("EMERGENCY: call, and read this aloud", classes="stop")
            for kind, name in _FACTS:
                value = self._job.value(kind, name)
                said = figure(value) if value is not None else "not written on this job"
                state = "" if value is not None else "unknown"
                yield Literal(f"{definition(name).label}: {said}", classes=state)
            yield Literal("Power off before anyone touches the line. No one under a hung load.")
            yield Literal("Esc: back", classes="muted")

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
