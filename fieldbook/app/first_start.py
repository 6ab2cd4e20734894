"""The first start: three questions and the safety words."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen

from fieldbook.app.choice import Choice
from fieldbook.app.fields import FieldLine
from fieldbook.app.form import Form
from fieldbook.app.literal import Literal
from fieldbook.quantities.safety import SAFETY

if TYPE_CHECKING:
    from pathlib import Path

    from textual.app import ComposeResult

    from fieldbook.store.home import Settings


class FirstStart(ModalScreen[tuple[str, str] | None]):
    """Answers with initials and units; the data folder is shown, and set with --home."""

    DEFAULT_CSS = """
    FirstStart {
        align: center middle;
        & > Vertical {
            width: 70; max-width: 95%; height: auto; max-height: 95%;
            border: heavy $border; padding: 0 1; background: $surface;
        }
        & Literal { margin: 0 0 1 0; }
        & Choice { width: 24; margin: 0 0 1 0; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "accept", "Go on")]

    def __init__(self, settings: Settings, folder: Path) -> None:
        """Ask for what `settings` do not say."""
        super().__init__()
        self._settings = settings
        self._folder = folder

    def compose(self) -> ComposeResult:
        """Safety words, initials, units, folder."""
        with Vertical():
            yield Literal("Before you start", classes="title")
            yield Literal("\n".join(SAFETY), classes="caution")
            yield Form(("initials",), must=("initials",))
            yield Literal("Numbers without a unit are (left, right):")
            yield Choice(("us", "metric"))
            yield Literal(f"The book is kept in {self._folder}", classes="muted")
            yield Literal("Enter: I have read this, go on")

    def on_mount(self) -> None:
        """Start with the initials."""
        line = self.query_one(FieldLine)
        line.text = self._settings.initials
        self.query_one(Choice).chosen = self._settings.units
        line.focus_field()

    def on_form_completed(self, event: Form.Completed) -> None:
        """Go on with the initials that were typed."""
        event.stop()
        units = self.query_one(Choice).chosen or "us"
        self.dismiss((event.values["initials"].text, units))

    def on_choice_passed(self, event: Choice.Passed) -> None:
        """Enter on the units."""
        event.stop()
        self.action_accept()

    def action_accept(self) -> None:
        """Enter anywhere."""
        self.query_one(Form).complete()
