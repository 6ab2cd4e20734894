"""The field to find jobs or wells in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

if TYPE_CHECKING:
    from textual import events

    from fieldbook.app.app import FieldbookApp

KEY = "/"


class FindField(Input):
    """Hidden until it is asked for; tells what is looked for at each key."""

    DEFAULT_CSS = """
    FindField {
        border: none; height: 1; margin: 0 1; background: $panel;
        &:focus { border: none; }
        &.gone { display: none; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down,enter", "done", "To what was found", show=False),
        Binding("escape", "leave", "Look for nothing", show=False),
    ]

    app: FieldbookApp

    @dataclass
    class Asked(Message):
        """Other words are looked for; none when every job is wanted."""

        words: str

    class Done(Message):
        """The words are typed; what was found is wanted."""

    def __init__(self, hint: str) -> None:
        """Nothing is looked for; `hint` tells what can be."""
        super().__init__(placeholder=hint, select_on_focus=False, classes="gone")
        self.cursor_blink = False

    @property
    def words(self) -> str:
        """What is looked for."""
        return self.value.strip()

    def begin(self) -> None:
        """Show up, and take the keys."""
        self.app.guard.start(KEY)
        self.remove_class("gone")
        self.focus()

    def watch_value(self, value: str) -> None:
        """Tell what is looked for now."""
        self.post_message(self.Asked(value.strip()))

    def action_done(self) -> None:
        """Go to what was found."""
        self.post_message(self.Done())

    def action_leave(self) -> None:
        """Look for nothing."""
        self.value = ""
        self.add_class("gone")
        self.action_done()

    async def _on_key(self, event: events.Key) -> None:
        """Leave out the bounce of the key that opened the field."""
        if self.app.guard.bounces(event.character or ""):
            event.stop()
            event.prevent_default()
        else:
            await super()._on_key(event)
