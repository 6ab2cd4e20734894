"""When the app under test has nothing left to do, told by its event loop and not by a clock.

Textual's pilot waits after each key until the process looks idle for 20 ms, twice, and on a busy
machine up to a second; a job walked by keys is thousands of keys. The loop knows: what is ready to
run, which workers run in threads, and whether the screen is yet to be painted.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Iterator
from contextvars import ContextVar
from typing import Any

import pytest
from textual._context import active_app
from textual.screen import Screen

from fieldbook.app.forms.find_field import FindField

_TURNS = 3
"""Turns of the loop without work: a message that wakes a pump is in the loop's queue at once, so
one would do; the others are for callbacks that are set off between two turns."""
_LOOK = 0.001
_unpainted = ContextVar("_unpainted", default=False)


@contextlib.contextmanager
def unpainted() -> Iterator[None]:
    """Keys in here come faster than the screen is painted, as those of a quick typist do.

    It is laid out as always; what stands on it is drawn when somebody reads it.
    """
    token = _unpainted.set(True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Screen, "_compositor_refresh", lambda _screen: None)
        try:
            yield
        finally:
            _unpainted.reset(token)


async def nothing_left_to_do(*_: object) -> None:
    """Return once no callback waits, no worker runs in a thread, and the screen is painted.

    Nor does a field to find in wait for the keys to rest.

    Takes whatever the functions take that it stands in for, and needs none of it: what is looked
    at is the work, not the time it takes.
    """
    loop: Any = asyncio.get_running_loop()
    quiet = 0
    while quiet < _TURNS:
        await asyncio.sleep(0)
        if loop._ready:
            quiet = 0
        elif _threads_at_work() or _about_to_ask():
            quiet = 0
            await asyncio.sleep(_LOOK)
        elif not _unpainted.get() and _painted():
            quiet = 0
        else:
            quiet += 1


def _threads_at_work() -> bool:
    return any(w._thread_worker and not w.is_finished for w in active_app.get().workers)


def _about_to_ask() -> bool:
    """Whether a field to find in waits for the keys to rest."""
    field = active_app.get().focused
    return isinstance(field, FindField) and field.is_about_to_ask


def _painted() -> bool:
    """Paint the screen now where it waits for its turn at 60 Hz; whether it waited."""
    app: Any = active_app.get()
    screens = app._screen_stacks.get(app.current_mode) or []
    if not screens or not screens[-1]._update_timer._active.is_set():
        return False
    screens[-1]._on_timer_update()
    return True
