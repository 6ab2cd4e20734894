"""Keeps a key that bounces, or is held down in a glove, from saving twice."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

GUARD_SECONDS = 0.7
"""Quiet that a saving key needs after a save: longer than a glove bounces, shorter than a joint."""


REPEATED = 3.0
"""Times that quiet for the key that writes a whole joint by itself: about two seconds, in which no
joint comes out and a glove may well press twice."""


class Debounce:
    """Takes a saving key only when saving keys have been quiet for a while since the last save."""

    def __init__(
        self, seconds: float = GUARD_SECONDS, now: Callable[[], float] = time.monotonic
    ) -> None:
        """Guard for `seconds` by the clock `now`."""
        self._seconds = seconds
        self._now = now
        self._last: float | None = None
        self._opened_by = ""

    def start(self, opened_by: str = "") -> None:
        """Something was saved, or a question was put up: from now on quiet is needed.

        Args:
            opened_by: Keys that put the question up; while it is not quiet they are no text.
        """
        self._last = self._now()
        self._opened_by = opened_by

    @property
    def armed(self) -> bool:
        """Whether the next saving key counts."""
        return self._is_quiet(1.0)

    def _is_quiet(self, times: float) -> bool:
        return self._last is None or self._now() - self._last >= self._seconds * times

    def takes(self, times: float = 1.0) -> bool:
        """Whether this saving key counts; one that does not makes the wait begin again.

        Args:
            times: How many times the usual quiet it needs.
        """
        if self._is_quiet(times):
            self._last = None
            return True
        self._last = self._now()
        return False

    def bounces(self, character: str) -> bool:
        """Whether a typed character is the bounce of the key that put a question up."""
        if not character or character not in self._opened_by or self.armed:
            self._opened_by = ""  # what comes after other text, or later, was meant
            return False
        self._last = self._now()
        return True
