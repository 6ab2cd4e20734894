"""Ends the app where the system asks it to: by a signal, or because its terminal was closed."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import threading
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Coroutine

_ASKS = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
_PATIENCE = 5.0  # seconds; a terminal that is gone may let nothing more be drawn, or put right


class Ending:
    """Waits for the system to ask, and then ends the app as a person would."""

    def __init__(self, end: Callable[[], Coroutine[None, None, None]]) -> None:
        """Wait from now on, where the running loop can; `end` keeps all there is to keep first."""
        self._end = end
        self._ending: asyncio.Task[None] | None = None
        loop = asyncio.get_running_loop()
        for number in _ASKS:
            # Not in a thread other than the main one, and not on Windows.
            with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
                loop.add_signal_handler(number, self._asked, number)

    def _asked(self, number: int) -> None:
        if self._ending is not None:
            return
        late = threading.Timer(_PATIENCE, os._exit, [128 + number])
        late.daemon = True
        late.start()
        self._ending = asyncio.get_running_loop().create_task(self._end())
