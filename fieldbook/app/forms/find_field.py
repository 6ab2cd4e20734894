"""The field to find jobs or wells in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message

from fieldbook.app.forms.still_input import StillInput

if TYPE_CHECKING:
    from textual import events
    from textual.timer import Timer

KEY = "/"
QUIET_SECONDS = 0.1
"""How long no key comes before it is looked for: each answer lays out a page of rows again, which
would hold up the echo of a key that follows at once."""


class FindField(StillInput):
    """Hidden until it is asked for; tells what is looked for when the keys rest."""

    DEFAULT_CSS = """
    FindField {
        border: none; height: 1; margin: 0 1; background: $panel;
        &:focus { border: none; background-tint: $foreground 0%; }
        &.gone { display: none; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down,enter", "done", "To what was found", show=False),
        Binding("escape", "leave", "Look for nothing", show=False),
    ]

    @dataclass
    class Asked(Message):
        """Other words are looked for; none when every job is wanted."""

        words: str

    class Done(Message):
        """The words are typed; what was found is wanted."""

    def __init__(self, hint: str) -> None:
        """Nothing is looked for; `hint` tells what can be."""
        super().__init__(placeholder=hint, select_on_focus=False, classes="gone")
        self._asking: Timer | None = None

    @property
    def words(self) -> str:
        """What is looked for."""
        return self.value.strip()

    @property
    def is_about_to_ask(self) -> bool:
        """Whether words are typed that are not looked for yet."""
        return self._asking is not None

    def begin(self) -> None:
        """Show up, and take the keys."""
        self.app.guard.start(KEY)
        self.remove_class("gone")
        self.focus()

    def watch_value(self, value: str) -> None:
        """Tell what is looked for once the keys rest."""
        self._stop_asking()
        if value.strip():
            self._asking = self.set_timer(QUIET_SECONDS, self._ask)
        else:
            self._ask()

    def _stop_asking(self) -> None:
        if self._asking is not None:
            self._asking.stop()
            self._asking = None

    def _ask(self) -> None:
        self._asking = None
        self.post_message(self.Asked(self.words))

    def action_done(self) -> None:
        """Go to what was found."""
        if self.is_about_to_ask:
            self._stop_asking()
            self._ask()
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
