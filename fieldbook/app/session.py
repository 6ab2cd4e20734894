"""One open job: its book, its walk, its checks, and what is half typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.entry import Draft
from fieldbook.store.book import Book, Clock
from fieldbook.walk.loading import load
from fieldbook.watch.watcher import Look, Watcher

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.store.home import Home
    from fieldbook.walk.stand import Stand
    from fieldbook.walk.steps import Step
    from fieldbook.walk.walk import Walk


class Session:
    """What the screens share while a job is open.

    Attributes:
        home: The book's home.
        book: The job's book.
        walk: The steps of this job.
        drafts: Step id -> what is typed into its form and not saved.
        unsaved: Why the last entry is not on disk; empty when all is.
    """

    def __init__(self, home: Home, folder: Path, *, clock: Clock) -> None:
        """Open the job in `folder`.

        Raises:
            OSError: It cannot be read.
        """
        self.home = home
        self.book = Book.open(folder, home.device_id(), clock=clock)
        self.drafts: dict[str, dict[str, str]] = {}
        self.unsaved = ""
        self._watcher = Watcher(self.job)
        self._look: tuple[int, Look] | None = None
        self.walk: Walk = load(self.job.text("job", "line"), self.job.text("job", "work"))

    @property
    def job(self) -> Job:
        """The job as recorded."""
        return self.book.job

    @property
    def stand(self) -> Stand:
        """Where the job stands in its walk."""
        return self.walk.stand(self.job)

    def look(self) -> Look:
        """Every live check, reckoned anew only when something was recorded."""
        revision = self.job.revision
        if self._look is None or self._look[0] != revision:
            self._look = (revision, self._watcher.look())
        return self._look[1]

    def look_if(self, *, joints_out: int | None, drained: bool | None) -> Look:
        """Every live check for another case than the one the job is in."""
        return self._watcher.look(joints_out=joints_out, drained=drained)

    def record(
        self,
        kind: str,
        by: str,
        values: Mapping[str, Value],
        *,
        note: str = "",
        strikes: str | None = None,
    ) -> Entry:
        """Put an entry on disk.

        Raises:
            Refused: It is nonsense.
            NotSaved: It is not on disk; `unsaved` says why, and the same entry is tried again
                when the same is recorded again.
        """
        draft = Draft(kind=kind, by=by, values=dict(values), note=note, strikes=strikes)
        try:
            entry = self.book.record(draft)
        except OSError as problem:
            self.unsaved = str(problem)
            raise
        self.unsaved = ""
        return entry

    def newest_of(self, step: Step) -> Entry | None:
        """The newest live entry that the step's form made."""
        entries = [e for e in self.job.live(step.records) if e.text("step") == step.id]
        return entries[-1] if entries else None

    def close(self) -> None:
        """Let go of the book."""
        self.book.close()
