"""A crew whose keys are counted."""

from __future__ import annotations

import contextlib
from collections.abc import AsyncIterator

from fieldbook.store.shelf.home import Home
from tests.app.crew import Crew, at_the_keys


class Counted(Crew):
    """A crew that counts each key it presses."""

    keys = 0

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await super().press(*keys)

    async def types(self, text: str, *keys: str) -> None:
        self.keys += len(text)
        await super().types(text, *keys)


@contextlib.asynccontextmanager
async def counted(home: Home) -> AsyncIterator[Counted]:
    """The app on `home`, with a crew whose keys are counted."""
    async with at_the_keys(home) as crew:
        yield Counted(crew.pilot, crew.app, crew.watch)
