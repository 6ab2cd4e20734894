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
    from collections.abc import Iterator, Sequence

    from textual.message import Message
    from textual.message_pump import MessagePump
    from textual.widget import Widget

_QUIET_ROUNDS = 2
"""Rounds without a message after which what a key set off is over: in the first, one may still be
worked on where the round has been already."""
_MOST_ROUNDS = 20
"""An Enter becomes four messages on its way up; those that never end hold no key for ever."""
_EDITS = frozenset(
    ("backspace", "delete", "left", "right", "home", "end", "up", "down", "tab", "shift+tab")
)
"""Keys that do in one round all that they do in a field: take away, or go elsewhere."""
_PATIENCE = 1.0  # seconds for one container: a key is late rather than lost
_REST = 0.15
"""Seconds after which it is looked whether a key has acted, before the next one asks."""
_ACT_IN_A_FIELD = frozenset("=-?")


class _Acting(NamedTuple):
    """A key that is not text: where it went, and whether it does all it does in that field."""

    came_to: Widget
    edits: bool


class QueuedKeysApp(App[None]):
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
            self._look_later()
        else:
            self._held.append(event)
            if self._taking is None:
                self._taking = asyncio.create_task(self._take())

    async def _give(self, event: events.Key | events.Paste) -> None:
        """Let the app have the key."""
        self._acting = None if self._is_text(event) else self._begun(event)
        await super().on_event(event)

    def _begun(self, event: events.Key | events.Paste) -> _Acting:
        edits = isinstance(event, events.Key) and event.key in _EDITS
        return _Acting(self.focused or self.screen, edits and isinstance(self.focused, Input))

    def _look_later(self) -> None:
        """Let the next key through at once, where the one before has acted and none waits."""
        if self._acting is not None:
            self._looking = asyncio.create_task(self._look(self._acting))

    async def _look(self, acting: _Acting) -> None:
        await asyncio.sleep(_REST)
        await _acted(acting, self)
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
            if self._looking is not None:  # one at a time hears what is dealt with
                self._looking.cancel()
                await asyncio.wait((self._looking,))
            while self._held:
                if self._acting is not None:
                    await _acted(self._acting, self)
                await self._give(self._held.popleft())
        finally:
            self._taking = None
        self._look_later()


async def _acted(acting: _Acting, app: App[None]) -> None:
    """Wait until what a key set off has gone up through every container, however many messages."""
    containers = acting.came_to.ancestors_with_self
    if acting.edits:
        await _go_round(containers)
        return
    with _heard(app, containers) as dealt_with:
        quiet = 0
        for _ in range(_MOST_ROUNDS):
            dealt_with.clear()
            asked = await _go_round(containers)
            quiet = quiet + 1 if all(message in asked for message in dealt_with) else 0
            if quiet == _QUIET_ROUNDS:
                return


@contextlib.contextmanager
def _heard(app: App[None], containers: Sequence[MessagePump]) -> Iterator[list[Message]]:
    """The messages that the containers deal with meanwhile; none of an app that has ended."""
    dealt_with: list[Message] = []
    if app.is_running:
        for container in containers:
            container.message_signal.subscribe(app, dealt_with.append, immediate=True)
    try:
        yield dealt_with
    finally:
        for container in containers:
            container.message_signal.unsubscribe(app)


async def _go_round(containers: Sequence[MessagePump]) -> list[Message]:
    """Wait until each container in turn has dealt with what came to it; what they were asked."""
    asked: list[Message] = []
    for container in containers:
        reached = asyncio.Event()
        # As `call_later` does, which would have Python look up what `set` takes each time again.
        asked.append(events.Callback(callback=reached.set))
        if container.post_message(asked[-1]):
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(_PATIENCE):
                    await reached.wait()
    return asked
