"""A small dialog that asks for a few quantities, or for words, before something is done."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from fieldbook.app.forms.form import Form
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.record.entry import Value

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.host import Host

_ACTIONS = (Action("Enter", "save", "accept"), Action("Esc", "cancel", "leave"))


@dataclass(frozen=True, slots=True)
class Question:
    """What a dialog asks.

    Attributes:
        title: What it is about.
        words: What the person must know, a paragraph a line.
        asks: Quantities to fill in.
        must: Those that are needed.
        state: Class of the words: "stop", "unknown" or nothing.
        texts: What the form starts with.
        offers: Reasons that a digit writes.
        dated: Whether a paper that is being put in has a time for it.
        signs: Whether, with every line filled in, one Enter saves it.
        at_the_gauge: Whether the limits have to stay in sight beside it.
        opened_by: Keys that put the question up; one that bounces is not typed into it.
    """

    title: str
    words: str = ""
    asks: tuple[str, ...] = ()
    must: tuple[str, ...] = ()
    state: str = ""
    texts: tuple[tuple[str, str], ...] = ()
    offers: tuple[str, ...] = ()
    dated: bool = True
    signs: bool = False
    at_the_gauge: bool = False
    opened_by: str = ""


class AskScreen(ModalScreen[dict[str, Value] | None]):
    """Answers with the values, or None when it is left with Esc."""

    DEFAULT_CSS = """
    AskScreen {
        align: center middle;
        &.-at-the-gauge { align: left middle; }
        &.-at-the-gauge > VerticalScroll { width: 45; }
        & > VerticalScroll {
            width: 68; max-width: 95%; height: auto; max-height: 95%;
            border: heavy $border; padding: 0 1; background: $surface;
        }
        & .words { margin: 0 0 1 0; }
        & ActionList { margin: 1 0 0 0; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Leave it"),
        Binding("enter", "accept", "Save it"),
    ]
    AUTO_FOCUS = ""

    app: Host

    def __init__(self, question: Question, *, metric: bool) -> None:
        """Ask `question`."""
        super().__init__()
        self._question = question
        self._metric = metric
        self._confirmed = False
        self.set_class(question.at_the_gauge, "-at-the-gauge")

    def compose(self) -> ComposeResult:
        """Title, words, form, offers, and the two keys."""
        asked = self._question
        with VerticalScroll(can_focus=False):
            yield Literal(asked.title, classes="title")
            if asked.words:
                yield Literal(asked.words, classes=f"words {asked.state}")
            yield Form(asked.asks, must=asked.must, metric=self._metric, offers=asked.offers)
            for number, words in enumerate(asked.offers, 1):
                yield Literal(f"  {number} {words}", classes="muted")
            if asked.offers:
                yield Literal("  or your own words", classes="muted")
            yield ActionList(_ACTIONS)

    @property
    def confirmed(self) -> bool:
        """Whether anything in the answer was asked about, and kept."""
        return self._confirmed

    def on_mount(self) -> None:
        """Start in the first empty line; at the end of what is only to be signed."""
        self.app.guard.start(self._question.opened_by)
        form = self.query_one(Form)
        form.fill(dict(self._question.texts))
        signs = self._question.signs and all(form.texts.values())
        form.begin(form.asks[-1:] if signs else ())

    def on_form_completed(self, event: Form.Completed) -> None:
        """Answer."""
        event.stop()
        self._confirmed = event.form.confirmed
        self.dismiss(event.values)

    def action_accept(self) -> None:
        """Enter outside a field."""
        if self.app.guard.takes():
            self.query_one(Form).complete()

    def action_leave(self) -> None:
        """Esc: nothing is done."""
        self.dismiss(None)
