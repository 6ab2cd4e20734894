"""Which of our folders a job from elsewhere belongs to."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.logfile import is_called_log, log_files
from fieldbook.store.log.problem import Problem
from fieldbook.store.log.reader import job_named
from fieldbook.store.shelf.names import UNFINISHED, folder_name, namesake_name

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from fieldbook.store.gather.folder_scan import FolderScan


class Places:
    """The folders of a shelf by the job they hold.

    A job is known by its id, which the first line of a log names, so that a shelf of thousands is
    known without reading it. Only where that line is lost is a job known by any of its entries.
    """

    def __init__(self, shelf: Path) -> None:
        """Look at the folders of `shelf`; which of them cannot be read is among `problems`."""
        self.problems: list[Problem] = []
        self._shelf = shelf
        self._by_job: dict[str, str] = {}
        self._by_entry: dict[str, str] = {}
        self._every_entry = False
        self._reserved: set[str] = set()
        for folder in job_folders(shelf, self._unread):
            try:
                ids = {job_named(path) for path in log_files(folder)[0]}
            except OSError as error:
                self._unread(error)
                continue
            job_id = ids.pop() if len(ids) == 1 else ""
            twice = self._by_job.pop(job_id, None)
            if job_id and twice is None:
                self._by_job[job_id] = str(folder)
                continue
            # Of two folders of one job, one may hold a log that strayed into it.
            for place in (Path(twice), folder) if twice is not None else (folder,):
                try:
                    self._read(place)
                except OSError as error:
                    self._unread(error)

    def place_of(self, job: FolderScan) -> Path:
        """Our folder of that job, which need not be there yet.

        Raises:
            OSError: One of our folders cannot be read.
        """
        place = self._by_job.get(job.job_id) or self._by_an_entry(job)
        if place is None:
            place = str(self._free(job))
        self._know(place, job.job_id, () if job.job_id else job.entry_ids)
        return Path(place)

    def is_namesake(self, job: FolderScan, place: Path) -> bool:
        """Whether the folder of that job's number is another job's, and this one has another."""
        named = self._shelf / folder_name(job.number or job.path.name)
        return place != named and str(named) in self._by_job.values()

    def _unread(self, error: OSError) -> None:
        self.problems.append(unread(error, self._shelf))

    def _know(self, place: str, job_id: str, entry_ids: Iterable[str]) -> None:
        if job_id:
            self._by_job.setdefault(job_id, place)
        for entry_id in entry_ids:
            self._by_entry.setdefault(entry_id, place)

    def _read(self, folder: Path) -> None:
        """Take note of the job in one of our folders, by its entries too."""
        job = read_folder(folder)
        self._know(str(folder), job.job_id, (entry.id for entry in job.entries()))

    def _by_an_entry(self, job: FolderScan) -> str | None:
        if not job.job_id and not self._every_entry:
            self._every_entry = True
            for folder in job_folders(self._shelf, self._unread):
                self._read(folder)
        if not self._by_entry:
            return None
        known = (self._by_entry.get(entry_id) for entry_id in job.entry_ids)
        return next((found for found in known if found is not None), None)

    def _free(self, job: FolderScan) -> Path:
        number = job.number or job.path.name
        place = self._shelf / folder_name(number)
        if _holds_no_job(place) and str(place) not in self._reserved:
            self._reserved.add(str(place))
            return place
        return self._shelf / namesake_name(number, job.job_id or job.first_id)


def _holds_no_job(place: Path) -> bool:
    """Whether nothing is there, or a folder in which a gathering was stopped before its log."""
    return not place.exists() or (place.is_dir() and not log_files(place)[0])


def job_folders(root: Path, unread: Callable[[OSError], None]) -> Iterator[Path]:
    """Every folder under `root`, itself too, that holds logs; links are not followed.

    Args:
        root: Where to look.
        unread: Is called with each folder that cannot be read, and of each link to one.
    """
    for folder, names, others in walk(root, unread):
        if any(is_called_log(name) for name in (*others, *names)):
            yield Path(folder)


def walk(
    root: Path, unread: Callable[[OSError], None]
) -> Iterator[tuple[str, list[str], list[str]]]:
    """Each folder under `root`, itself too, with the names in it; see `job_folders`."""
    for folder, names, others in os.walk(root, onerror=unread):
        names[:] = sorted(name for name in names if name != UNFINISHED)
        yield folder, names, others
        for name in names:
            if os.path.islink(place := os.path.join(folder, name)):  # noqa: PTH114, PTH118 - many
                words = "a link to a folder, which is not followed: name the folder itself"
                unread(OSError(errno.ELOOP, words, place))


def unread(error: OSError, below: Path) -> Problem:
    """That a place cannot be read, named as it is called below a folder."""
    place = Path(os.fsdecode(error.filename)) if error.filename is not None else below
    named = place.relative_to(below) if place != below and place.is_relative_to(below) else place
    return Problem(str(named), 0, f"cannot be read: {error.strerror or error}")
