"""The emergency card: where we are, whom to call, what to keep clear of."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from fieldbook.app.widgets.action_list import BACK, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.app import ComposeResult

    from fieldbook.gear.emergency import Number
    from fieldbook.record.job import Job

_FACTS = (
    ("job", "site"),
    ("job", "well_name"),
    ("job", "latitude"),
    ("job", "longitude"),
    ("job", "access"),
    ("job", "emergency"),
    ("arrival", "line_clearance"),
    ("arrival", "power_line_voltage"),
    ("arrival", "wind"),
    ("rig", "wind_limit"),
    ("arrival", "lock_number"),
    ("arrival", "crew"),
)
_DO = "Power off before anyone touches the line. No one under a hung load."


class EmergencyScreen(ModalScreen[None]):
    """Read aloud to whoever is called."""

    DEFAULT_CSS = """
    EmergencyScreen {
        align: center middle;
        & > VerticalScroll {
            width: 100%; max-width: 90; height: auto; max-height: 100%;
            border: heavy $error; background: $surface; padding: 0 2;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,e,enter", "back", "Back")]

    def __init__(self, job: Job, numbers: Iterable[Number] = (), *, trouble: str = "") -> None:
        """Show the card of `job`.

        Args:
            job: The job.
            numbers: Whom the company wants called on every job.
            trouble: Why those numbers cannot be read, if they cannot.
        """
        super().__init__()
        self._job = job
        self._numbers = tuple(numbers)
        self._trouble = trouble

    def compose(self) -> ComposeResult:
        """Each fact, or that it was not written."""
        with VerticalScroll():
            yield Literal("EMERGENCY: call, and read this aloud", classes="stop")
            for number in self._numbers:
                yield Literal(f"Call {number.who}: {number.call}", classes="title")
            if self._trouble:
                yield Literal(f"The company's numbers: {self._trouble}", classes="unknown")
            for kind, name in _FACTS:
                value = self._job.value(kind, name)
                said = figure(value) if value is not None else "blank on this job"
                state = "" if value is not None else "unknown"
                yield Literal(f"{definition(name).label}: {said}", classes=state)
            yield Literal(_DO)
            yield ActionList(BACK)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
