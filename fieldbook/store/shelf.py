"""The shelf: the jobs of one home, and where a new one goes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.quantities.admit import Refused, problems
from fieldbook.store.book import Book, Clock, local_time
from fieldbook.store.line import hash_of
from fieldbook.store.reading import log_files

if TYPE_CHECKING:
    import datetime as dt

    from fieldbook.record.entry import Draft
    from fieldbook.store.home import Home
    from fieldbook.store.problem import Problem

_LONGEST_NAME = 60


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


class Shelf:
    """The jobs of a home."""

    def __init__(self, home: Home) -> None:
        """Look at `home`."""
        self._home = home

    def jobs(self) -> list[Listing]:
        """Every job that can be read, the newest saved first."""
        listings = [listing for folder in self._folders() if (listing := _listing(folder))]
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
        if folder.exists() and log_files(folder)[0]:
            raise Refused(f"job {number} is on the shelf already")
        folder.mkdir(parents=True, exist_ok=True)
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


def folder_name(job_number: str) -> str:
    """The name of a job's folder: letters, digits, dashes and underscores, nothing else.

    Every other character is written as its code, so that two numbers never share a folder and no
    number can name a place outside the shelf.

    >>> folder_name("26-114")
    '26-114'
    >>> folder_name("../x")
    '_2e_2e_2fx'
    """
    name = re.sub(r"[^A-Za-z0-9-]", lambda match: f"_{ord(match[0]):02x}", job_number)
    if len(name) > _LONGEST_NAME:
        kept = _LONGEST_NAME - 13
        name = f"{name[:kept]}-{hash_of(job_number.encode())[:12]}"
    return name or "_"


def _listing(folder: Path) -> Listing | None:
    try:
        if not log_files(folder)[0]:
            return None
        book = Book.open(folder, "", write=False)
    except OSError:
        return None
    with book:
        job = book.job
        last = job.entries[-1].time if job.entries else None
        return Listing(
            folder=folder,
            job_number=job.text("job", "job_number") or folder.name,
            title=job.text("job", "job_title"),
            owner=job.text("job", "owner"),
            well=job.text("job", "well_name"),
            line=job.text("job", "line"),
            work=job.text("job", "work"),
            saved=last,
            sealed=job.last("seal") is not None,
            entries=len(job.entries),
            problems=tuple(book.reports),
        )


def _newest_first(listing: Listing) -> tuple[float, str]:
    return (-listing.saved.timestamp() if listing.saved is not None else 0.0, listing.job_number)
