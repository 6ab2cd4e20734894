"""A word chosen from a few, on one line or two."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message

from fieldbook.app.widgets.cached_lines import CachedWidget

if TYPE_CHECKING:
    from textual import events
    from textual.geometry import Size

_MOST_ROWS = 2


class Choice(CachedWidget, can_focus=True):
    """A word chosen from a few, by arrow keys, space, or its first letters."""

    DEFAULT_CSS = """
    Choice {
        height: auto;
        background: $panel;
        &:focus { background: $primary; color: $background; }
        &:nocolor:focus { text-style: reverse; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "Choice before", show=False),
        Binding("right,space", "step(1)", "Next choice", show=False),
        Binding("backspace,delete", "clear", "No choice", show=False),
        Binding("enter", "pass", "Next field", show=False),
        Binding("up", "app.focus_previous", "Field above", show=False),
        Binding("down", "app.focus_next", "Field below", show=False),
    ]

    @dataclass
    class Passed(Message):
        """Enter was pressed."""

        choice: Choice

    def __init__(self, choices: tuple[str, ...]) -> None:
        """Offer `choices`, none of them chosen."""
        super().__init__()
        self._choices = choices
        self._chosen = ""
        self._spelt = ""  # what was typed of the chosen word, letter by letter

    @property
    def chosen(self) -> str:
        """The chosen word, or an empty text."""
        return self._chosen

    @chosen.setter
    def chosen(self, word: str) -> None:
        self._spelt = ""
        before, self._chosen = self._chosen, word if word in self._choices else ""
        if self._chosen != before:
            self.refresh()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """The rows that the words take."""
        del container, viewport
        return len(self._rows(width)) or 1

    def _rows(self, width: int) -> list[str]:
        """All words in rows, the chosen one in brackets; none where they take too many."""
        rows: list[str] = []
        for choice in self._choices:
            word = f"[{choice}]" if choice == self._chosen else f" {choice} "
            if rows and len(rows[-1]) + 1 + len(word.rstrip()) <= width:
                rows[-1] += f" {word}"
            elif len(word.rstrip()) <= width:
                rows.append(word)
            else:
                return []
        return rows if len(rows) <= _MOST_ROWS else []

    def render(self) -> Content:
        """All words with the chosen one in brackets, or only that one where they do not fit."""
        if rows := self._rows(self.size.width):
            return Content("\n".join(rows))
        if not self._chosen:
            return Content("left/right: pick one")
        place = f"{self._choices.index(self._chosen) + 1}/{len(self._choices)}"
        ways = f"< {self._chosen} > {place}", f"<{self._chosen}> {place}", f"< {self._chosen} >"
        return Content(next((w for w in ways if len(w) <= self.size.width), self._chosen))

    def action_step(self, by: int) -> None:
        """Choose the next word, or the one before."""
        at = self._choices.index(self._chosen) if self._chosen else (-1 if by > 0 else 0)
        self.chosen = self._choices[(at + by) % len(self._choices)]

    def action_clear(self) -> None:
        """Choose none."""
        self.chosen = ""

    def action_pass(self) -> None:
        """Go on."""
        self.post_message(self.Passed(self))

    def on_key(self, event: events.Key) -> None:
        """A first letter chooses the next word that begins with it.

        A word that is typed out is that word: its later letters are no first letters of others.
        """
        letter = (event.character or "").lower()
        if not event.is_printable or not letter:
            return
        spelt = self._spelt + letter
        if self._spelt and (word := self._spelt_out(spelt)):
            self.chosen, self._spelt = word, spelt
        elif letter.isspace():
            return  # the next word, by its binding
        elif word := self._begun(letter):
            self.chosen, self._spelt = word, letter
        # A letter that is no choice must not act as a key of the screen while a line has the focus.
        event.stop()
        event.prevent_default()

    def on_blur(self) -> None:
        """What is typed when the cursor is back is a new word."""
        self._spelt = ""

    def _spelt_out(self, spelt: str) -> str:
        """The chosen word if it begins so, or else the first that does."""
        words = (self._chosen, *self._choices)
        return next((word for word in words if word.lower().startswith(spelt)), "")

    def _begun(self, letter: str) -> str:
        """The next word that begins with it; a digit only chooses where the words are figures.

        A figure that was meant for another line changes nothing here.
        """
        begin = self._choices.index(self._chosen) + 1 if self._chosen else 0
        turned = self._choices[begin:] + self._choices[:begin]
        return next((word for word in turned if word.lower().startswith(letter)), "")

    def on_click(self) -> None:
        """The mouse chooses the next word."""
        self.action_step(1)
