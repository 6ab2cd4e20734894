"""What can be done here, each with its key beside it; the mouse does it too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import ItemGrid

from fieldbook.app.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.app import ComposeResult


class Act(Literal):
    """One thing to do: "l lift check"."""

    DEFAULT_CSS = """
    Act { height: 1; width: auto; text-wrap: nowrap; &:hover { text-style: reverse; } }
    """

    def __init__(self, key: str, words: str, action: str) -> None:
        """Offer `action` under `key`.

        Args:
            key: The key, as it is printed on it.
            words: What it does.
            action: The screen's action.
        """
        super().__init__(f"{key} {words}")
        self._action = action

    async def on_click(self) -> None:
        """Do it."""
        await self.screen.run_action(self._action)


class Acts(ItemGrid):
    """Acts side by side, as many in a row as fit."""

    DEFAULT_CSS = """
    Acts { height: auto; background: $panel; padding: 0 1; grid-gutter: 0 1; }
    """

    def __init__(self, acts: Iterable[tuple[str, str, str]], *, id: str | None = None) -> None:  # noqa: A002
        """Offer (key, words, action) of each."""
        super().__init__(id=id, min_column_width=15)
        self._acts = tuple(acts)

    def compose(self) -> ComposeResult:
        """Each of them."""
        for key, words, action in self._acts:
            yield Act(key, words, action)
