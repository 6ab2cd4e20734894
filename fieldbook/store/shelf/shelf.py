"""The shelf: the jobs of one home, and where a new one goes.

What reads and writes a job is loaded when it is needed: the newest jobs are shown before.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook import __version__
from fieldbook.store.log.logfile import log_files
from fieldbook.store.log.problem import Problem
from fieldbook.store.shelf.index import JOBS, Index
from fieldbook.store.shelf.names import folder_name

if TYPE_CHECKING:
    from collections.abc import Callable

    from fieldbook.record.entry import Draft
    from fieldbook.record.job import Job
    from fieldbook.store.job.clock import Clock
    from fieldbook.store.shelf.home import Home
    from fieldbook.store.shelf.query import Wanted
    from fieldbook.store.shelf.summary import Summary

INDEX = "index"
"""Folder in the home with the index of the jobs; it may be thrown away at any time."""


class NoSuchJob(LookupError):
    """There is no such job."""


@dataclass(frozen=True, slots=True)
class Listing:
    """A job as the shelf shows it."""

    folder: Path
    job_number: str
    title: str
    owner: str
    well: str
    line: str
    work: str
    saved: dt.datetime | None
    sealed: bool
    entries: int
    problems: tuple[Problem, ...]
    status: str = ""


class Shelf:
    """The jobs of a home."""

    def __init__(self, home: Home) -> None:
        """Look at `home`."""
        self._home = home
        self._index = Index(home.path / INDEX, home.jobs_folder)

    @property
    def index(self) -> Index:
        """The index of the jobs, as last refreshed."""
        return self._index

    def newest(self) -> tuple[list[Listing], int]:
        """The newest jobs as last indexed, and how many there are: known without reading them."""
        summaries, count = self._index.newest()
        return [self.listing(summary) for summary in summaries], count

    def refresh(
        self,
        *,
        status_of: Callable[[Job], str] | None = None,
        basis: str = "",
        on_progress: Callable[[int, int], None] = lambda _done, _of: None,
    ) -> None:
        """Bring the index up to the jobs on disk; only those that changed are read.

        Args:
            status_of: Says where a job is, in words; what that means is the walk's.
            basis: What those words rest on besides the job; where it differs they are said again.
            on_progress: Is called with how many of the jobs to read are read.

        Raises:
            OSError: The folder of the jobs cannot be read.
        """
        from fieldbook.store.shelf.shelving import summary_of  # noqa: PLC0415 - loads the journal

        basis = f"{basis or 'plain'} {__version__}" if status_of is not None else ""
        self._index.refresh(
            lambda folder: summary_of(folder, status_of), basis=basis, on_progress=on_progress
        )

    def jobs(
        self, *, status_of: Callable[[Job], str] | None = None, basis: str = ""
    ) -> list[Listing]:
        """Every job that is there, the newest saved first; one that cannot be read says so.

        Args:
            status_of: See `refresh`.
            basis: See `refresh`.

        Raises:
            OSError: See `refresh`.
        """
        self.refresh(status_of=status_of, basis=basis)
        return [self.listing(summary) for summary in self._index.documents()]

    def find_jobs(self, wanted: Wanted) -> list[Summary]:
        """The jobs that are as wanted, the newest saved first, as of the last refresh."""
        return [*self._index.table(JOBS).search(wanted.query())]

    def folder_of(self, summary: Summary) -> Path:
        """Where the job of a summary lies."""
        return self._home.jobs_folder / str(summary["folder"])

    def listing(self, summary: Summary) -> Listing:
        """A job as the shelf shows it."""
        saved = summary["saved"]
        return Listing(
            folder=self.folder_of(summary),
            job_number=summary["number"],
            title=summary["title"],
            owner=summary["owner"],
            well=summary["well"],
            line=summary["line"],
            work=summary["work"],
            saved=dt.datetime.fromisoformat(saved) if saved else None,
            sealed=summary["sealed"],
            entries=summary["entries"],
            problems=tuple(Problem(**problem) for problem in summary["problems"]),
            status=summary["stands"],
        )

    def create(self, draft: Draft, *, clock: Clock | None = None) -> Path:
        """Open a new job with the `job` entry that `draft` asks for, and return its folder.

        Args:
            draft: The opening of the job.
            clock: What tells the time of the entry; the device's clock when None.

        Raises:
            Refused: The draft is no opening of a job, or a job of that number is on the shelf.
            NotSaved: The entry is not on disk.
            OSError: The folder could not be made.
        """
        from fieldbook.store.shelf.shelving import create  # noqa: PLC0415 - loads the journal

        return create(self._home, draft, clock)

    def find(self, job: str | Path) -> Path:
        """The folder of a job, by its number or by a path.

        Raises:
            NoSuchJob: There is none.
        """
        named = self._home.jobs_folder / folder_name(str(job))
        for folder in (named, Path(job)):
            try:
                if folder.is_dir() and any(log_files(folder)):
                    return folder
            except OSError:
                continue
        raise NoSuchJob(f"there is no job '{str(job)[:60]}' on the shelf and none at that path")
