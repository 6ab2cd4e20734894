"""Brings trucks' folders into the office's shelf."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fieldbook.record.job import Job
from fieldbook.store.folder import JobFolder, read_folder
from fieldbook.store.logfile import log_files
from fieldbook.store.merge import MergeReport, merge_job
from fieldbook.store.names import folder_name
from fieldbook.store.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path


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


def gather(sources: Iterable[Path], into: Path) -> Gathering:
    """Merge every job found under `sources` into the shelf of the home at `into`.

    A job that the shelf does not have gets the folder of its number, or that name and a piece of
    its id where another job has the name. A folder that cannot be read stops none of the others.

    Raises:
        OSError: The shelf cannot be read.
    """
    gathering = Gathering()
    shelf = _Shelf(into / "jobs")
    for source in sources:
        for folder in _job_folders(source):
            try:
                _gather_job(folder, shelf, gathering)
            except OSError as error:
                words = f"cannot be gathered: {error.strerror or error}"
                gathering.problems.append(Problem(folder.name, 0, words))
    return gathering


def gather_job(sources: Iterable[Path], into: Path) -> list[MergeReport]:
    """Merge several folders of one job into ours, one after the other.

    Raises:
        OSError: One of the folders cannot be read, or ours cannot be written.
    """
    return [merge_job(source, into) for source in sources]


def _gather_job(folder: Path, shelf: _Shelf, gathering: Gathering) -> None:
    there = read_folder(folder)
    if not there.job_id and not any(there.entries()):
        gathering.problems += there.findings()
        words = "no log here can be told the job of: not taken"
        gathering.problems.append(Problem(folder.name, 0, words))
    else:
        gathering.jobs.append(merge_job(folder, shelf.place_of(folder, there)))


class _Shelf:
    """Which of our folders a job belongs to: told by its id, or by any entry where that is lost."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._by_job: dict[str, Path] = {}
        self._by_entry: dict[str, Path] = {}
        for folder in _job_folders(path):
            self._know(folder, read_folder(folder))

    def place_of(self, folder: Path, job: JobFolder) -> Path:
        place = self._by_job.get(job.job_id)
        if place is None:
            known = (self._by_entry.get(entry.id) for entry in job.entries())
            place = next((found for found in known if found is not None), None)
        if place is None:
            place = self._free(folder, job)
        self._know(place, job)
        return place

    def _know(self, place: Path, job: JobFolder) -> None:
        if job.job_id:
            self._by_job.setdefault(job.job_id, place)
        for entry in job.entries():
            self._by_entry.setdefault(entry.id, place)

    def _free(self, folder: Path, job: JobFolder) -> Path:
        entries = Job(job.entries())
        name = folder_name(entries.text("job", "job_number") or folder.name)
        place = self._path / name
        if not place.exists():
            return place
        mark = job.job_id or (entries.entries[0].id if entries.entries else "")
        return self._path / folder_name(f"{name}-{mark[-6:]}")


def _job_folders(root: Path) -> Iterator[Path]:
    """Every folder under `root`, itself too, that holds logs; links are not followed."""
    if not root.is_dir():
        return
    for folder in (root, *sorted(p for p in root.rglob("*") if p.is_dir() and not p.is_symlink())):
        if log_files(folder)[0]:
            yield folder
