"""The shelf: the jobs of one home, and where a new one goes."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.quantities.admit import Refused, problems
from fieldbook.record.job import Job
from fieldbook.store.book import Book, Clock, local_time
from fieldbook.store.disk import make_folders
from fieldbook.store.folder import read_folder
from fieldbook.store.logfile import log_files
from fieldbook.store.names import folder_name
from fieldbook.store.problem import Problem

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterable

    from fieldbook.record.entry import Draft, Entry
    from fieldbook.store.home import Home


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
    stands: str = ""


class Shelf:
    """The jobs of a home."""

    def __init__(self, home: Home) -> None:
        """Look at `home`."""
        self._home = home

    def jobs(self, *, stands: Callable[[Job], str] | None = None) -> list[Listing]:
        """Every job that is there, the newest saved first; one that cannot be read says so.

        Args:
            stands: Says where a job stands, in words; what that means is the walk's.
        """
        listings = [listing for folder in self._folders() if (listing := _listing(folder, stands))]
        return sorted(listings, key=_newest_first)

    def create(self, draft: Draft, *, clock: Clock = local_time) -> Path:
        """Open a new job with the `job` entry that `draft` asks for, and return its folder.

        Raises:
            Refused: The draft is no opening of a job, or a job of that number is on the shelf.
            NotSaved: The entry is not on disk.
            OSError: The folder could not be made.
        """
        if draft.kind != "job":
            raise Refused("a job is opened by an entry of the kind 'job'")
        if found := problems(draft):
            raise Refused("; ".join(found))
        number = draft.values["job_number"].text
        folder = self._home.jobs_folder / folder_name(number)
        if folder.is_dir() and not _is_unborn(folder):
            raise Refused(f"job {number} is on the shelf already")
        make_folders(folder)
        with Book.open(folder, self._home.device_id(), clock=clock) as book:
            book.record(draft)
        return folder

    def find(self, job: str | Path) -> Path:
        """The folder of a job, by its number or by a path.

        Raises:
            NoSuchJob: There is none.
        """
        named = self._home.jobs_folder / folder_name(str(job))
        for folder in (named, Path(job)):
            try:
                if folder.is_dir() and log_files(folder)[0]:
                    return folder
            except OSError:
                continue
        raise NoSuchJob(f"there is no job '{str(job)[:60]}' on the shelf and none at that path")

    def _folders(self) -> list[Path]:
        try:
            return sorted(path for path in self._home.jobs_folder.iterdir() if path.is_dir())
        except OSError:
            return []


def _is_unborn(folder: Path) -> bool:
    """Whether nothing was ever recorded there; a start that was cut off may have left a log."""
    job = read_folder(folder)
    return _is_nothing(job.entries(), job.findings())


def _is_nothing(entries: Iterable[Entry], findings: Iterable[Problem]) -> bool:
    return not any(entries) and not any(problem.damage for problem in findings)


def _listing(folder: Path, stands: Callable[[Job], str] | None) -> Listing | None:
    try:
        if not log_files(folder)[0]:
            return None
        with Book.open(folder, "", write=False) as book:
            if _is_nothing(book.job.entries, book.reports):
                return None
            return _listed(folder, book.job, book.reports, stands)
    except OSError as error:
        unread = Problem(folder.name, 0, f"cannot be read ({error.strerror or error})")
        return _listed(folder, Job(), [unread], None)


def _listed(
    folder: Path, job: Job, reports: list[Problem], stands: Callable[[Job], str] | None
) -> Listing:
    return Listing(
        folder=folder,
        job_number=job.text("job", "job_number") or folder.name,
        title=job.text("job", "job_title"),
        owner=job.text("job", "owner"),
        well=job.text("job", "well_name"),
        line=job.text("job", "line"),
        work=job.text("job", "work"),
        saved=job.entries[-1].time if job.entries else None,
        sealed=job.last("seal") is not None,
        entries=len(job.entries),
        problems=tuple(reports),
        stands=stands(job) if stands is not None else "",
    )


def _newest_first(listing: Listing) -> tuple[float, str]:
    return (-listing.saved.timestamp() if listing.saved is not None else 0.0, listing.job_number)
