"""A crew at the keys: one key after the other, with time to breathe between them, or without."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import AsyncIterator, Callable
from pathlib import Path

from textual.pilot import Pilot

from fieldbook.app.app import FieldbookApp
from fieldbook.app.walk.prefill import LOOKS_BACK
from fieldbook.app.widgets.debounce import Debounce
from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.store.shelf.home import Home
from tests.app.scenes import job_in, ticking

SMALL = (80, 24)
LARGE = (120, 36)
_A_BREATH = 2.5  # longer than the guard asks for, also of the key that repeats a joint
_GUARD = 0.7


class Watch:
    """Seconds that pass only when the crew lets them."""

    def __init__(self) -> None:
        self.seconds = 0.0

    def read(self) -> float:
        return self.seconds


class Crew:
    """Presses keys, and reads the screen as text."""

    def __init__(self, pilot: Pilot[None], app: FieldbookApp, watch: Watch) -> None:
        self.pilot = pilot
        self.app = app
        self.watch = watch

    async def press(self, *keys: str) -> None:
        """Press keys one after the other with time between them."""
        for key in keys:
            self.watch.seconds += _A_BREATH
            await self.pilot.press(key)
        await self.settle()

    async def bounce(self, *keys: str) -> None:
        """Press keys with no time between them, as a key that bounces or is held down does."""
        self.watch.seconds += _A_BREATH
        await self.pilot.press(*keys)
        await self.settle()

    async def types(self, text: str, *keys: str) -> None:
        """Type text, then press keys."""
        self.watch.seconds += _A_BREATH
        await self.pilot.press(*text)
        await self.press(*keys)

    async def pause(self) -> None:
        """Let time go by, as a hand does that leaves the keys."""
        self.watch.seconds += _A_BREATH
        await self.settle()

    async def resize(self, size: tuple[int, int]) -> None:
        """Give the terminal another size, and wait until the screen is laid out for it."""
        await self.pilot.resize_terminal(*size)
        while self.app.screen._compositor.size != size:
            await self.pilot.pause()
        await self.settle()

    async def settle(self) -> None:
        """Wait until all that the keys set off has been done."""
        await self.pilot.pause()
        # A dialog waits in a worker for the crew, so only the reading of the shelf is waited for.
        names = ("reload", "find", "read", LOOKS_BACK)
        if reading := [w for w in self.app.workers if not w.is_finished and w.name in names]:
            await self.app.workers.wait_for_complete(reading)
        await self.pilot.pause()

    async def planned(self) -> None:
        """Wait until the plan stands on the planner's screen."""
        if reckoning := [w for w in self.app.workers if w.group == "plan" and not w.is_finished]:
            await self.app.workers.wait_for_complete(reckoning)
        await self.settle()

    @property
    def screen(self) -> str:
        """What is on the screen, line by line."""
        strips = self.app.screen._compositor.render_strips(self.app.size)
        return "\n".join(strip.text.rstrip() for strip in strips)

    def sees(self, *words: str) -> None:
        """Fail with the screen where one of `words` is not on it."""
        screen = self.screen
        for word in words:
            assert word in screen, f"{word!r} is not on the screen:\n{screen}"

    def sees_not(self, *words: str) -> None:
        """Fail with the screen where one of `words` is on it."""
        screen = self.screen
        for word in words:
            assert word not in screen, f"{word!r} is on the screen:\n{screen}"

    def job(self, folder: Path) -> Job:
        """The job as it is on disk now."""
        return job_in(folder)

    def joints(self, folder: Path) -> list[Entry]:
        """The joints that stand."""
        return list(self.job(folder).live("joint"))


@contextlib.asynccontextmanager
async def at_the_keys(
    home: Home,
    size: tuple[int, int] = SMALL,
    *,
    may_choose: bool = False,
    clock: Callable[[], dt.datetime] | None = None,
) -> AsyncIterator[Crew]:
    """The app on `home`, with a crew at its keys."""
    ticks = ticking()
    watch = Watch()
    app = FieldbookApp(
        home,
        may_choose=may_choose,
        clock=clock or (lambda: next(ticks)),
        guard=Debounce(_GUARD, now=watch.read),
    )
    async with app.run_test(size=size, notifications=True) as pilot:
        crew = Crew(pilot, app, watch)
        await crew.settle()
        yield crew
