"""The first start: three questions and the safety words."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from fieldbook.app.forms.choice import Choice
from fieldbook.app.forms.form import Form
from fieldbook.app.forms.form_line import FieldLine
from fieldbook.app.forms.path_field import PathField
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.office.export.address import is_address, not_here
from fieldbook.quantities.definition import Definition
from fieldbook.quantities.safety import SAFETY
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.pointer import HomeGone

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.widgets import Input

    from fieldbook.app.host import Host
    from fieldbook.store.shelf.home import Settings

_FOLDER = Definition("folder", "Folder of the book", "file")
_ACTIONS = (Action("Enter", "I have read this, go on", "accept"), Action("F10", "quit", "app.quit"))
_UNITS = {"us": "us: ft, lbf, psi", "metric": "metric: m, kgf, kPa"}


@dataclass(frozen=True, slots=True)
class FirstAnswers:
    """Who records, "us" or "metric", and the book's home."""

    initials: str
    units: str
    home: Home


class FirstStart(ModalScreen[FirstAnswers | None]):
    """Asks for initials, units and folder; a folder that was named on the way in is only shown."""

    DEFAULT_CSS = """
    FirstStart {
        align: center middle;
        & > VerticalScroll {
            width: 70; max-width: 95%; height: auto; max-height: 95%;
            border: heavy $border; padding: 0 1; background: $surface;
        }
        & .apart { margin: 0 0 1 0; }
        & Choice { width: 48; margin: 0 0 1 0; }
        & .gone { display: none; }
        & PathField { background: $panel; }
        & PathField:focus { background: $primary; color: $background; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "accept", "Go on"),
        # Nothing is typed yet that a field could copy: it closes the book, as at any prompt.
        Binding("ctrl+c", "app.quit", "Quit", show=False, priority=True),
    ]
    AUTO_FOCUS = ""

    app: Host

    def __init__(self, settings: Settings, home: Home, *, may_choose: bool) -> None:
        """Ask for what `settings` do not say.

        Args:
            settings: What is kept already.
            home: The book's home, unless another is chosen.
            may_choose: Whether another may be.
        """
        super().__init__()
        self._settings = settings
        self._home = home
        self._may_choose = may_choose

    def compose(self) -> ComposeResult:
        """Safety words, initials, units, folder."""
        with VerticalScroll(can_focus=False):
            yield Literal("Before you start", classes="title")
            yield Literal("\n".join(SAFETY), classes="caution apart")
            yield Form(("initials",), must=("initials",))
            yield Literal("A number typed without its unit is in (left and right choose):")
            yield Choice(tuple(_UNITS.values()))
            if self._may_choose:
                yield Literal("The book is kept in this folder (as it stands, or type another):")
                yield PathField(_FOLDER)
            else:
                yield Literal(f"The book is kept in {self._home.path}", classes="muted")
            yield Literal("", id="refused", classes="gone")
            yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """Start with the initials."""
        line = self.query_one(FieldLine)
        line.text = self._settings.initials
        self.query_one(Choice).chosen = _UNITS.get(self._settings.units, "")
        for folder in self.query(PathField):
            folder.value = str(self._home.path)
        line.focus_field()

    def on_form_completed(self, event: Form.Completed) -> None:
        """From the initials to the units; where all was known, as in the demo, on."""
        event.stop()
        if self._settings.initials and not self._may_choose:
            self._answer()
        else:
            self._go_to(self.query_one(Choice))

    def on_choice_passed(self, event: Choice.Passed) -> None:
        """From the units to the folder; where none is asked for, on."""
        event.stop()
        if not self.app.guard.takes():
            return
        if self._may_choose:
            self._go_to(self.query_one(PathField))
        else:
            self._answer()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Enter on the folder."""
        event.stop()
        self.action_accept()

    def action_accept(self) -> None:
        """Enter anywhere else."""
        if self.app.guard.takes():
            self._answer()

    def _go_to(self, field: Choice | PathField) -> None:
        field.focus()
        self.app.guard.start()  # the key that bounced answers no second question

    def _answer(self) -> None:
        form = self.query_one(Form)
        values = form.understood()
        if values is None:
            return
        if "initials" not in values:
            form.complete()  # says that they are needed
            return
        home = self._home
        if self._may_choose:
            typed = self.query_one(PathField).value.strip()
            if is_address(typed):
                self._say(f"This folder cannot be used: {not_here(typed)}")
                return
            try:
                home = Home(Path(typed).expanduser().absolute()) if typed else home
                home.choose()
            except (OSError, ValueError, RuntimeError, HomeGone) as problem:
                why = getattr(problem, "strerror", None) or str(problem)
                self._say(f"This folder cannot be used: {why}")
                return
        chosen = self.query_one(Choice).chosen
        units = next((units for units, words in _UNITS.items() if words == chosen), "us")
        self.dismiss(FirstAnswers(values["initials"].text, units, home))

    def _say(self, words: str) -> None:
        trouble = self.query_one("#refused", Literal)
        trouble.say(words, "stop")
        trouble.set_class(not words, "gone")
        self.query_one(PathField).focus()
