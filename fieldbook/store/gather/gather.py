"""Brings trucks' folders into the office's shelf."""

from __future__ import annotations

import contextlib
import errno
import os
from concurrent.futures import ThreadPoolExecutor, wait
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

from fieldbook.quantities.plain import plain
from fieldbook.store.gather.merge import MergeReport, merge_looked
from fieldbook.store.gather.parallel_scan import looks
from fieldbook.store.gather.placement import Places, job_folders, unread
from fieldbook.store.gather.whole_job import put_whole
from fieldbook.store.job.lock import Hold
from fieldbook.store.log.disk import DISK, make_folders
from fieldbook.store.log.problem import Problem
from fieldbook.store.shelf.names import UNFINISHED

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from concurrent.futures import Future

    from fieldbook.store.gather.folder_scan import FolderScan

_AT_ONCE = 16
_TOGETHER = 8
_MOST_BYTES = 32 * 1024 * 1024
"""Bytes of logs that are merged at once; a job that has more by itself is merged alone."""


@dataclass(slots=True)
class Gathering:
    """What a gathering did, job by job."""

    jobs: list[MergeReport] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    @property
    def clean(self) -> bool:
        """Whether nothing needs a person."""
        damaged = any(problem.damage for problem in self.problems)
        return not damaged and all(job.clean for job in self.jobs)

    def __str__(self) -> str:
        lines = []
        for job in self.jobs:
            files = "1 new file" if len(job.new) == 1 else f"{len(job.new)} new files"
            what = f"{files}, {len(job.grown)} grown" if job.new or job.grown else "same"
            lines.append(f"{job.folder.name}: {what}")
            lines += [f"  CLASH {clash}" for clash in job.clashes]
            lines += [f"  {problem}" for problem in job.problems]
        lines += [str(problem) for problem in self.problems]
        return "\n".join(map(plain, lines)) if lines else "no job was found there"

    def document(self) -> dict[str, Any]:
        """The gathering as a JSON document."""
        return {
            "clean": self.clean,
            "jobs": [
                {
                    "job": job.folder.name,
                    "new": job.new,
                    "grown": job.grown,
                    "clashes": job.clashes,
                    "problems": [problem.document() for problem in job.problems],
                }
                for job in self.jobs
            ],
            "problems": [problem.document() for problem in self.problems],
        }


def gather(
    sources: Sequence[Path],
    into: Path,
    *,
    on_progress: Callable[[int, int], None] = lambda _done, _of: None,
) -> Gathering:
    """Merge every job found under `sources` into the shelf of the home at `into`.

    A job that the shelf does not have gets the folder of its number, or that name and a piece of
    its id where another job has the name. A folder that cannot be read stops none of the others.
    Stopped at any moment, by an exception out of `on_progress` too, it leaves both sides whole; run
    again it goes on.

    Args:
        sources: Folders with jobs in them, however deep.
        into: The home.
        on_progress: Is called with how many of how many job folders are gathered; each of them is
            on disk.

    Raises:
        OSError: The shelf cannot be read or made, or is being gathered into.
    """
    shelf = into / "jobs"
    make_folders(shelf)
    with _alone_at(into) as scratch:
        return _gathered(sources, Places(shelf), scratch, on_progress)


@contextlib.contextmanager
def _alone_at(into: Path) -> Iterator[Path]:
    """A folder to put jobs together in, while no other gathering is at work in this home."""
    hold = Hold(into, "gathering")  # two at once would give one folder to two jobs
    if not hold.take():
        raise OSError(errno.EBUSY, "another gathering is at work there; gather again after it")
    scratch = into / UNFINISHED
    try:
        with contextlib.suppress(FileNotFoundError):  # one that was killed left it
            DISK.remove_folder(scratch)
        DISK.make_folder(scratch)
        try:
            yield scratch
        finally:
            with contextlib.suppress(OSError):
                DISK.remove_folder(scratch)
    finally:
        hold.release()


def _gathered(
    sources: Sequence[Path], places: Places, scratch: Path, on_progress: Callable[[int, int], None]
) -> Gathering:
    gathering = Gathering(problems=places.problems)
    found = [folder for source in sources for folder in _found(source, gathering)]
    of, done = len(found), 0
    on_progress(0, of)
    with _Merging(gathering, scratch) as merging:
        for folder, look in looks(map(Path, found), of):
            try:
                if isinstance(look, OSError):
                    raise look
                if not look.job_id and not look.entry_ids:
                    gathering.problems += look.problems
                    words = "no log here can be told the job of: not taken"
                    gathering.problems.append(Problem(folder.name, 0, words))
                else:
                    place = places.place_of(look)
                    if places.is_namesake(look, place):
                        words = f"another job has the number {look.number} too:"
                        words += f" this one is {place.name} here"
                        problem = Problem(folder.name, 0, words, damage=False)
                        gathering.problems.append(problem)
                    merging.add(look, place)
            except OSError as error:
                gathering.problems.append(_not_gathered(folder, error))
            done += 1
            on_progress(done - merging.waiting, of)
    on_progress(done, of)
    return gathering


def _found(source: Path, gathering: Gathering) -> list[str]:
    """The folders with logs under a source, as text, for ten thousand paths are large."""

    def unreadable(error: OSError) -> None:
        gathering.problems.append(unread(error, source))

    return [str(folder) for folder in job_folders(source, unreadable)]


class _Merging:
    """Merges a few jobs at once, as most of the time goes by waiting for the disk to answer.

    Each is reported once it is on disk, in the order in which they came. Those that are done by
    then are taken together, for one sync of the folder above them makes sure of all their names.
    """

    def __init__(self, gathering: Gathering, scratch: Path) -> None:
        self._gathering = gathering
        self._scratch = scratch
        self._pool = ThreadPoolExecutor(_AT_ONCE)
        self._merging: dict[Path, tuple[FolderScan, Future[MergeReport]]] = {}

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        try:
            while kind is None and self._merging:
                self._take_oldest()
        finally:
            self._pool.shutdown(wait=True, cancel_futures=True)

    @property
    def waiting(self) -> int:
        """Jobs that are not on disk yet."""
        return len(self._merging)

    def add(self, there: FolderScan, place: Path) -> None:
        """Merge a job into its place; not while another is being merged there."""
        while len(self._merging) >= _AT_ONCE or place in self._merging or self._is_much(there):
            self._take_oldest()
        self._merging[place] = there, self._pool.submit(_merge, there, place, self._scratch)

    def _is_much(self, there: FolderScan) -> bool:
        """Whether a job and those that are being merged are more than memory is spent on."""
        bytes_at_once = sum(look.size for look, _ in self._merging.values()) + there.size
        return bool(self._merging) and bytes_at_once > _MOST_BYTES

    def _take_oldest(self) -> None:
        oldest = list(islice(self._merging, _TOGETHER))
        wait(self._merging[place][1] for place in oldest)
        unsynced = _sync_folders({place.parent for place in oldest})
        for place in oldest:
            there, merged = self._merging.pop(place)
            error = merged.exception() or unsynced.get(place.parent)
            if isinstance(error, MemoryError):
                error = OSError(errno.ENOMEM, "more than this machine's memory holds")
            if isinstance(error, OSError):
                self._gathering.problems.append(_not_gathered(there.path, error))
            elif error is not None:
                raise error
            else:
                self._gathering.jobs.append(merged.result())


def _sync_folders(folders: set[Path]) -> dict[Path, OSError]:
    """Put the names in these folders on disk; where that fails, why."""
    unsynced = {}
    for folder in folders:
        try:
            DISK.sync_folder(folder)
        except OSError as error:
            unsynced[folder] = error
    return unsynced


def _merge(there: FolderScan, place: Path, scratch: Path) -> MergeReport:
    if (arrived := put_whole(there, place, scratch)) is not None:
        return arrived
    DISK.make_folder(place)
    return merge_looked(there, place)


def _not_gathered(folder: Path, error: OSError) -> Problem:
    what = f" ({os.path.basename(os.fsdecode(error.filename))})" if error.filename else ""  # noqa: PTH119
    return Problem(folder.name, 0, f"cannot be gathered: {error.strerror or error}{what}")
