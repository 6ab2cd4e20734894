"""What can be done here, each with its key beside it; the mouse does it too."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from textual.content import Content

from fieldbook.app.widgets.cached_lines import CachedWidget

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual import events
    from textual.geometry import Size

_GAP = 2


class Action(NamedTuple):
    """One thing to do.

    Attributes:
        key: The key, as it is printed on it.
        words: What it does.
        action: The screen's action, or one of the app's.
    """

    key: str
    words: str
    action: str

    @property
    def text(self) -> str:
        """Key and words side by side."""
        return f"{self.key} {self.words}"


BACK = (Action("Esc", "back", "back"),)
"""The acts of a screen that is only read."""


class ActionList(CachedWidget):
    """Actions in columns of equal width, as many in a row as fit."""

    DEFAULT_CSS = """
    ActionList { height: auto; background: $panel; padding: 0 1; }
    """

    def __init__(self, actions: Iterable[Action], *, id: str | None = None) -> None:  # noqa: A002
        """Offer `acts`."""
        super().__init__(id=id)
        self._actions = tuple(actions)
        # Of all that may ever be offered, so that what stays does not move.
        self._cell = max(len(act.text) for act in self._actions) + _GAP

    def offer(self, actions: Iterable[Action]) -> None:
        """Offer these of the acts from now on."""
        if (offered := tuple(actions)) != self._actions:
            self._actions = offered
            self.refresh(layout=True)

    def _columns(self, width: int) -> int:
        return max((width + _GAP) // self._cell, 1)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """One line for each row of acts."""
        del container, viewport
        return -(-len(self._actions) // self._columns(width))

    def render(self) -> Content:
        """The acts, the keys bold."""
        columns = self._columns(self.content_size.width)
        rows = []
        for start in range(0, len(self._actions), columns):
            cells = [self._content(act) for act in self._actions[start : start + columns]]
            rows.append(Content("").join(cells))
        return Content("\n").join(rows)

    def _content(self, act: Action) -> Content:
        return Content.assemble((act.key, "bold"), act.text.ljust(self._cell)[len(act.key) :])

    async def on_click(self, event: events.Click) -> None:
        """Do what was clicked on."""
        offset = event.get_content_offset(self)
        if offset is None:
            return
        columns = self._columns(self.content_size.width)
        column = offset.x // self._cell
        at = offset.y * columns + column
        if column < columns and at < len(self._actions):
            await self.screen.run_action(self._actions[at].action)
