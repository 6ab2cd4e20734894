"""A field for typing one quantity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message

from fieldbook.app.forms.still_input import StillInput

if TYPE_CHECKING:
    from textual import events

    from fieldbook.quantities.definition import Definition


class Field(StillInput):
    """A field for typing; in a number field `=`, and `-` while it is empty, are the form's."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", "Field above", show=False),
        Binding("down", "app.focus_next", "Field below", show=False),
    ]

    @dataclass
    class Key(Message):
        """`=` was pressed in a number field, or `-` in an empty one."""

        field: Field
        key: str

    def __init__(self, definition: Definition, *, offers: tuple[str, ...] = ()) -> None:
        """A field for one quantity.

        Args:
            definition: The quantity.
            offers: Words that a digit writes into the field while it is empty and no more is typed.
        """
        self._figure = not definition.is_words or definition.dimension == "time of day"
        # Initials and figures that are there already are replaced by what is typed: digits put
        # before or behind a figure make a third one that nobody meant.
        self._replaced = self._figure or definition.name == "initials"
        super().__init__(compact=True, select_on_focus=self._replaced, max_length=400)
        # A minus may begin a figure only where less than zero is no nonsense.
        negative = definition.at_least is None and definition.above is None
        self._keys = ("=",) if negative else ("=", "-")
        self._offers = offers
        self._picked = ""  # the digit whose words were written by the key before this one

    async def _on_key(self, event: events.Key) -> None:
        """Let the form have `=` and `-`, and let a digit choose where nothing is typed yet.

        `=` is part of no figure: after a gauge reading it takes that along.
        A digit that more is typed behind was no choice: "2 joints" can be typed straight.
        """
        character = event.character or ""
        picked, self._picked = self._picked, ""
        if self.app.guard.bounces(character):
            pass
        elif self._figure and (character == "=" or (not self.value and character in self._keys)):
            self.post_message(self.Key(self, character))
        elif not self.value and character.isdecimal() and 0 < int(character) <= len(self._offers):
            self._write(self._offers[int(character) - 1])
            self._picked = character
        else:
            if picked and event.is_printable:
                self._write(picked)
            await super()._on_key(event)
            return
        event.stop()
        event.prevent_default()

    def type_ahead(self, character: str) -> None:
        """Take a character that was typed before the cursor came; what follows is typed behind."""
        self.select_on_focus = False
        self.insert_text_at_cursor(character)

    def on_blur(self) -> None:
        """What is there by now is replaced by typing when the cursor is back."""
        self.select_on_focus = self._replaced

    def _write(self, text: str) -> None:
        self.value = text
        self.cursor_position = len(text)
