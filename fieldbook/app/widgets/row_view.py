"""Rows of text in one widget, each drawn again only when it says something else."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, NamedTuple

from rich.cells import set_cell_size
from rich.segment import Segment
from textual.geometry import Region
from textual.strip import Strip

from fieldbook.app.theme.state_styles import STATES, rules_under
from fieldbook.app.widgets.cached_lines import CachedWidget
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.geometry import Size


class TextLine(NamedTuple):
    """One line; the word of its state is always in the text too.

    The states are those of `STATES`.
    """

    text: str
    state: str = ""


class RowView(CachedWidget):
    """Rows of literal text, each in the colour of its state.

    A widget of Textual's is drawn again as a whole. After a save most rows say what they said, so
    only the others are: a screen is up in half the time.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"drawn--{state}" for state in STATES}
    DEFAULT_CSS = f"""
    RowView {{
        {rules_under("& > .drawn--")}
    }}
    """
    ALLOW_SELECT: ClassVar[bool] = False  # rows know nothing of the text above and below them

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        """Draw nothing yet."""
        super().__init__(id=id, classes=classes)
        self.auto_links = False  # there are none, and to look for them takes its time
        self._rows: tuple[TextLine, ...] = ()
        self._room: Size | None = None

    def rows_in(self, width: int, height: int) -> Iterable[TextLine]:
        """The rows for the room there is, none of them wider.

        Args:
            width: Columns.
            height: Rows; 0 where the widget is as high as it wants to be.
        """
        raise NotImplementedError

    def draw_anew(self) -> None:
        """Draw the rows that say something else now."""
        room = self.size
        before, same_room = self._rows, self._room == room
        self._fill(room)
        if not room or not same_room or self._outgrown(before):
            self.refresh(layout=self.styles.is_auto_height)
            return
        changed = [
            Region(0, row, room.width, 1)
            for row in range(max(len(before), len(self._rows)))
            if before[row : row + 1] != self._rows[row : row + 1]
        ]
        if changed:
            self.refresh(*changed)

    def _outgrown(self, before: tuple[TextLine, ...]) -> bool:
        return len(before) != len(self._rows) and bool(self.styles.is_auto_height)

    def _fill(self, room: Size) -> None:
        self._rows = tuple(self.rows_in(room.width, room.height)) if room else ()
        self._room = room

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many rows as there are at that width."""
        del container, viewport
        return len(tuple(self.rows_in(width, 0))) if width else 0

    def render_line(self, y: int) -> Strip:
        """One row."""
        room = self.size
        if self._room != room:
            self._fill(room)
        text, state = self._rows[y] if y < len(self._rows) else ("", "")
        style = self.get_visual_style(f"drawn--{state}") if state else self.visual_style
        shown = set_cell_size(plain(text), room.width)
        return Strip([Segment(shown, style.rich_style)], room.width)
