"""A field to type into that stays as it is while it is typed into."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.geometry import Region, Size
from textual.reactive import reactive
from textual.widgets import Input

from fieldbook.app.widgets.cached_lines import CachedWidget

if TYPE_CHECKING:
    from textual.validation import ValidationResult

    from fieldbook.app.host import Host


class StillInput(Input, CachedWidget):
    """An input without a blinking cursor, whose keys lay out no screen again."""

    app: Host

    virtual_size = reactive(Size(0, 0))
    """How long the text is; the field is as wide whatever it is."""

    cursor_blink = reactive(default=False, init=False)

    def validate(self, value: str) -> ValidationResult | None:  # noqa: ARG002 - as Textual calls it
        """Judge nothing: the form says what is wrong, and a class for it would be styled again."""
        return None

    def on_blur(self) -> None:
        """Show the text from its beginning once it is left, so that none of it seems lost."""
        self.scroll_to(x=0, animate=False, force=True, immediate=True)

    def on_focus(self) -> None:
        """Show where the cursor is."""
        at = Region(self._cursor_offset, 0, width=1, height=1)
        self.scroll_to_region(at, force=True, animate=False)
