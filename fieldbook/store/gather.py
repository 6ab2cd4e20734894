"""Brings trucks' folders into the office's shelf."""

from __future__ import annotations

from collections import deque
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Self

from fieldbook.store.disk import DISK, make_folders
from fieldbook.store.looking import looks
from fieldbook.store.merge import MergeReport, merge_looked
from fieldbook.store.places import Places, job_folders
from fieldbook.store.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from concurrent.futures import Future
    from pathlib import Path

    from fieldbook.store.look import Look

_AT_ONCE = 6


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
            what = f"{len(job.new)} new, {len(job.grown)} grown" if job.new or job.grown else "same"
            lines.append(f"{job.folder.name}: {what}")
            lines += [f"  CLASH {clash}" for clash in job.clashes]
            lines += [f"  {problem}" for problem in job.problems]
        lines += [str(problem) for problem in self.problems]
        return "\n".join(lines) if lines else "no job was found there"

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
    told: Callable[[int, int], None] = lambda _done, _of: None,
) -> Gathering:
    """Merge every job found under `sources` into the shelf of the home at `into`.

    A job that the shelf does not have gets the folder of its number, or that name and a piece of
    its id where another job has the name. A folder that cannot be read stops none of the others.
    Stopped at any moment, by an exception out of `told` too, it leaves both sides whole; run again
    it goes on.

    Args:
        sources: Folders with jobs in them, however deep.
        into: The home.
        told: Is told how many of how many job folders are gathered; each of them is on disk.

    Raises:
        OSError: The shelf cannot be read or made.
    """
    shelf = into / "jobs"
    make_folders(shelf)
    places = Places(shelf)
    gathering = Gathering()
    of = sum(1 for source in sources for _ in job_folders(source))
    done = 0
    told(0, of)
    with _Merging(gathering) as merging:
        folders = (folder for source in sources for folder in job_folders(source))
        for folder, look in looks(folders, of):
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
            told(done - merging.waiting, of)
    told(done, of)
    return gathering


class _Merging:
    """Merges a few jobs at once, as most of the time goes by waiting for the disk to answer."""

    def __init__(self, gathering: Gathering) -> None:
        self._gathering = gathering
        self._pool = ThreadPoolExecutor(_AT_ONCE)
        self._merging: deque[tuple[Path, Look, Future[MergeReport]]] = deque()

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

    def add(self, there: Look, place: Path) -> None:
        """Merge a job into its place; not while another is being merged there."""
        while len(self._merging) >= _AT_ONCE or any(p == place for p, _, _ in self._merging):
            self._take_oldest()
        self._merging.append((place, there, self._pool.submit(_merge, there, place)))

    def _take_oldest(self) -> None:
        _, there, merged = self._merging.popleft()
        try:
            self._gathering.jobs.append(merged.result())
        except OSError as error:
            self._gathering.problems.append(_not_gathered(there.path, error))


def _merge(there: Look, place: Path) -> MergeReport:
    DISK.make_folder(place)
    DISK.sync_folder(place.parent)
    return merge_looked(there, place)


def _not_gathered(folder: Path, error: OSError) -> Problem:
    return Problem(folder.name, 0, f"cannot be gathered: {error.strerror or error}")
