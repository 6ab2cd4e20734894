"""One key after the other: what a key does is done before the next one is looked at.

Over a slow line, or while a save holds the screen, several keys arrive at once. Textual puts a
letter into a field at once, but a key that is bound to an act (Backspace, Enter, an arrow) acts
only after it went up through every container: the digit behind a Backspace would be what it takes
away, and the figure behind an Enter would go into the line that was left.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections import deque
from typing import TYPE_CHECKING, NamedTuple

from textual import events
from textual.app import App
from textual.widgets import Input

if TYPE_CHECKING:
    from textual.widget import Widget

_ROUNDS = 5
"""An Enter becomes four messages on its way up: the key, submitted, passed, completed."""
_EDITS = frozenset(
    ("backspace", "delete", "left", "right", "home", "end", "up", "down", "tab", "shift+tab")
)
"""Keys that do in one round all that they do in a field: take away, or go elsewhere."""
_PATIENCE = 1.0  # seconds for one container: a key is late rather than lost
_REST = 0.15
"""Seconds after which it is looked whether a key has acted, before the next one asks."""
_ACT_IN_A_FIELD = frozenset("=-?")


class _Acting(NamedTuple):
    """A key that is not text: where it went, and in how many rounds it does what it does."""

    came_to: Widget
    rounds: int


class InTurn(App[None]):
    """Gives a key its turn once the one before has done what it does."""

    def __init__(self) -> None:
        """No key has come yet."""
        super().__init__()
        self._held: deque[events.Key | events.Paste] = deque()
        self._acting: _Acting | None = None
        self._taking: asyncio.Task[None] | None = None
        self._looking: asyncio.Task[None] | None = None

    async def on_event(self, event: events.Event) -> None:
        """Hold a key back while the one before it may still be acting."""
        if not isinstance(event, (events.Key, events.Paste)) or event.is_forwarded:
            await super().on_event(event)
        elif self._acting is None and self._taking is None:
            await self._give(event)
        else:
            self._held.append(event)
            if self._taking is None:
                self._taking = asyncio.create_task(self._take())

    async def _give(self, event: events.Key | events.Paste) -> None:
        """Let the app have the key."""
        self._acting = None if self._is_text(event) else self._begun(event)
        if self._looking is not None:
            self._looking.cancel()
            self._looking = None
        await super().on_event(event)
        if self._acting is not None:
            self._looking = asyncio.create_task(self._look(self._acting))

    def _begun(self, event: events.Key | events.Paste) -> _Acting:
        edits = isinstance(event, events.Key) and event.key in _EDITS
        rounds = 1 if edits and isinstance(self.focused, Input) else _ROUNDS
        return _Acting(self.focused or self.screen, rounds)

    async def _look(self, acting: _Acting) -> None:
        """Let the next key through at once, where the one before has acted and none waits."""
        await asyncio.sleep(_REST)
        await _acted(acting)
        if self._taking is None:
            self._acting = None

    def _is_text(self, event: events.Key | events.Paste) -> bool:
        """Whether the field alone deals with it, in the order of what is typed."""
        if isinstance(event, events.Paste):
            return True
        text = event.is_printable and event.character not in _ACT_IN_A_FIELD
        return text and isinstance(self.focused, Input)

    async def _take(self) -> None:
        """Give each key that was held back its turn."""
        try:
            while self._held:
                if self._acting is not None:
                    await _acted(self._acting)
                await self._give(self._held.popleft())
        finally:
            self._taking = None


async def _acted(acting: _Acting) -> None:
    """Wait until what a key set off has gone up through every container."""
    for container in acting.came_to.ancestors_with_self * acting.rounds:
        reached = asyncio.Event()
        # As `call_later` does, which would have Python look up what `set` takes each time anew.
        if container.post_message(events.Callback(callback=reached.set)):
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(_PATIENCE):
                    await reached.wait()
