"""The line of the keys that act now, each with what it does; the mouse does it too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual import events

    from fieldbook.app.widgets.action_list import Action

_BETWEEN = "  "


class KeyLine(Literal):
    """Actions one after the other, each only as wide as its words."""

    DEFAULT_CSS = "KeyLine { padding: 0 1; color: $muted; }"

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's word
        """No key acts yet."""
        super().__init__("", id=id)
        self._actions: tuple[Action, ...] = ()

    def offer(self, actions: Iterable[Action]) -> None:
        """Show `acts`."""
        self._actions = tuple(actions)
        self.say(_BETWEEN.join(act.text for act in self._actions))

    async def on_click(self, event: events.Click) -> None:
        """Do what was clicked on; between two acts, what lies left of the mouse."""
        event.stop()
        offset = event.get_content_offset(self)
        at = 0
        for act in self._actions:
            at += len(act.text) + len(_BETWEEN)
            if offset is not None and offset.x < at:
                await self.screen.run_action(act.action)
                return
