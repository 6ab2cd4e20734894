"""What is half typed into one job, kept in the home so that it outlives the program."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from fieldbook.store.drafts import Drafts, keep_drafts, read_drafts

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.home import Home


class HalfTyped:
    """The drafts of one job.

    Attributes:
        drafts: What is typed and not saved, step by step; the screens change it.
    """

    def __init__(self, home: Home, job: Path) -> None:
        """What was kept of `job` in `home`."""
        self._home = home
        self._job = job
        self._writing = threading.Lock()
        self.drafts: Drafts = read_drafts(home, job)
        self._kept = self._now()

    def _now(self) -> Drafts:
        return {step: dict(texts) for step, texts in list(self.drafts.items())}

    def keep(self) -> None:
        """Keep what is half typed where it has changed.

        A disk that takes no draft is told of when an entry is saved, not before.
        """
        with self._writing:
            now = self._now()
            if now == self._kept:
                return
            try:
                keep_drafts(self._home, self._job, now)
            except OSError:
                return
            self._kept = now
