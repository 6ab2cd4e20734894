"""A job onto the shelf, and what the shelf keeps of one: what needs the journal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.admit import Refused, new_problems
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.job.clock import Clock, local_time
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.disk import make_folders
from fieldbook.store.log.logfile import log_files
from fieldbook.store.log.problem import Problem
from fieldbook.store.shelf.names import folder_name
from fieldbook.store.shelf.summary import summarize

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from fieldbook.record.entry import Draft, Entry
    from fieldbook.store.shelf.home import Home
    from fieldbook.store.shelf.summary import Summary


def create(home: Home, draft: Draft, clock: Clock | None = None) -> Path:
    """See `Shelf.create`."""
    if draft.kind != "job":
        raise Refused("a job is opened by an entry of the kind 'job'")
    if found := new_problems(draft):
        raise Refused("; ".join(found))
    number = draft.values["job_number"].text
    folder = home.jobs_folder / folder_name(number)
    if folder.is_dir() and not _is_unborn(folder):
        raise Refused(f"job {number} is on the shelf already")
    make_folders(folder)
    with Book.open(folder, home.device_id(), clock=clock or local_time) as book:
        book.record(draft)
    return folder


def _is_unborn(folder: Path) -> bool:
    """Whether nothing was ever recorded there; a start that was cut off may have left a log."""
    job = read_folder(folder)
    return _is_nothing(job.entries(), job.findings())


def _is_nothing(entries: Iterable[Entry], findings: Iterable[Problem]) -> bool:
    return not any(entries) and not any(problem.damage for problem in findings)


def summary_of(folder: Path, status_of: Callable[[Job], str] | None) -> Summary | None:
    """What the index keeps of the job in a folder; None where there is no job.

    Args:
        folder: The job's folder.
        status_of: Says where the job is, in words.
    """
    try:
        if not any(log_files(folder)):
            return None
        with Book.open(folder, "", write=False) as book:
            if _is_nothing(book.job.entries, book.reports):
                return None
            summary = summarize(folder.name, book.job_id, book.job, book.reports, status_of)
            # Where no entry is read, nobody knows what is there, and every answer says so.
            return summary if book.job.entries else summary | {"passing": True}
    except OSError as error:
        unread = Problem(folder.name, 0, f"cannot be read ({error.strerror or error})")
        return summarize(folder.name, "", Job(), [unread]) | {"passing": True}
