"""What is half typed into one job, kept in the home so that it outlives the program."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from fieldbook.store.job.drafts import Drafts, TypedAt, keep_drafts, read_drafts

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.app.session import Session
    from fieldbook.store.shelf.home import Home

_Noted = tuple[TypedAt, Drafts] | None
"""None: nothing is half typed."""


class HalfTyped:
    """The drafts of one job.

    They are noted where the keys act, between two of them, so that a draft is never noted beside
    the entry that was made of it. What was noted last is written, by whichever thread comes to it.

    Attributes:
        drafts: What is typed and not saved, step by step; the screens change it.
    """

    def __init__(self, home: Home, job: Path) -> None:
        """The drafts of `job`, whose home is `home`; call `fit` once the job is open."""
        self._home = home
        self._job = job
        self._writing = threading.Lock()
        self.drafts: Drafts = {}
        self._typed_at: TypedAt | None = None
        self._noted: _Noted = None
        self._kept: object = self  # what is on disk; what is there at first is not known

    def fit(self, now: TypedAt) -> None:
        """Restore what was typed at the state in which the job is opened, and drop all else."""
        if self._typed_at is None:
            self.drafts.update(read_drafts(self._home, self._job, now))
        elif self._typed_at != now:
            self.drafts.clear()
        self.note(now)

    def note(self, now: TypedAt) -> None:
        """Note what is half typed, with the state of the job that it was typed at."""
        copied = {step: dict(texts) for step, texts in self.drafts.items()}
        noted = (now, copied) if copied else None
        self._typed_at = now
        if self._noted != noted:
            self._noted = noted

    def keep(self) -> None:
        """Keep what was noted last, where it has changed.

        A disk that takes no draft is reported when an entry is saved, not before.
        """
        with self._writing:
            noted = self._noted
            if noted is self._kept:
                return
            typed_at, drafts = noted if noted is not None else (TypedAt(0, 0), {})
            try:
                keep_drafts(self._home, self._job, typed_at, drafts)
            except OSError:
                return
            self._kept = noted


class DraftKeeper:
    """The drafts of every job that was opened since the program began."""

    def __init__(self) -> None:
        """None yet."""
        self._of: dict[Path, HalfTyped] = {}

    def of(self, home: Home, job: Path) -> HalfTyped:
        """The drafts of one job."""
        return self._of.setdefault(job, HalfTyped(home, job))

    def fit(self, session: Session, *, metric: bool) -> None:
        """Restore what fits the job that was just opened, and drop what does not."""
        self._of[session.book.folder].fit(_now(session, metric=metric))

    def note(self, session: Session, *, metric: bool) -> None:
        """Note what is half typed into the open job, to be written."""
        self._of[session.book.folder].note(_now(session, metric=metric))

    def write(self) -> None:
        """Write what was noted last; in any thread."""
        for half_typed in list(self._of.values()):
            half_typed.keep()


def _now(session: Session, *, metric: bool) -> TypedAt:
    job, paper = session.job, session.paper is not None
    return TypedAt(job.last_seq, len(job.entries), metric=metric, paper=paper)
