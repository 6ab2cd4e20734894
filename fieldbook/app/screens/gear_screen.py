"""The company's gear: pick an item, and its figures stand in a form to be looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows
from fieldbook.quantities.dates import DateStatus, standing
from fieldbook.quantities.kinds import kinds

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from fieldbook.gear.item import Item

_ACTIONS = (
    Action("Enter", "look at it", "take"),
    Action("a", "all gear", "all"),
    Action("Esc", "leave", "leave"),
)
_MARKS = {
    DateStatus.PAST: "!",
    DateStatus.NOT_WRITTEN: "?",
    DateStatus.SOON: "~",
    DateStatus.GOOD: " ",
}
_TITLE = 28


class GearScreen(ModalScreen["Item | None"]):
    """Answers with the chosen item, or None."""

    DEFAULT_CSS = """
    GearScreen {
        & Literal { padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,u", "leave", "Leave it"),
        Binding("a", "all", "All gear, or only what fits the step"),
        Binding("enter", "take", "Look at what the cursor is on"),
    ]

    def __init__(
        self, items: Sequence[Item], fitting: Sequence[Item], *, today: dt.date, here: str
    ) -> None:
        """List the library.

        Args:
            items: Every item.
            fitting: Those that fit the step we are at; all are listed where none does.
            today: The day that dates are held against.
            here: What to call the step.
        """
        super().__init__()
        self._items = tuple(items)
        self._fitting = tuple(fitting)
        self._today = today
        self._here = here
        self._shown = self._fitting or self._items

    def compose(self) -> ComposeResult:
        """What is listed, the items, the marks, the keys."""
        yield Literal("", id="gear-title", classes="title")
        yield Rows()
        yield Literal("! past its date   ? no due date   ~ due within 30 days")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """List what fits."""
        self._list()

    def _list(self) -> None:
        whole = self._shown == self._items
        head = "All the company's gear" if whole else f"The company's gear for: {self._here}"
        self.query_one("#gear-title", Literal).say(head)
        rows = self.query_one(Rows)
        rows.show(self._words(item) for item in self._shown)
        rows.focus()

    def _words(self, item: Item) -> str:
        seen = standing(item.dates, self._today)
        mark = "x" if item.retired else _MARKS[seen.status]
        words = "retired, used no more" if item.retired else seen.words
        return f"{mark} {item.title:<{_TITLE}} {kinds()[item.kind].label}\n    {words}"

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click."""
        event.stop()
        self.action_take()

    def action_take(self) -> None:
        """Answer with the item."""
        at = self.query_one(Rows).highlighted
        if at is not None:
            self.dismiss(self._shown[at])

    def action_all(self) -> None:
        """Every item, or only those that fit."""
        self._shown = self._items if self._shown != self._items else self._fitting or self._items
        self._list()

    def action_leave(self) -> None:
        """Take nothing."""
        self.dismiss(None)
