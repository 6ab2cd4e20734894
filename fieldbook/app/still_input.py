"""A field to type into that stays as it stands while it is typed into."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.geometry import Size
from textual.reactive import reactive
from textual.widgets import Input

from fieldbook.app.kept import Kept

if TYPE_CHECKING:
    from fieldbook.app.app import FieldbookApp


class StillInput(Input, Kept):
    """An input without a blinking cursor, whose keys lay out no screen anew."""

    app: FieldbookApp

    virtual_size = reactive(Size(0, 0))
    """How long the text is; the field is as wide whatever it is."""

    cursor_blink = reactive(default=False, init=False)
