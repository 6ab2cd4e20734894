"""Brings trucks' folders into the office's shelf."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fieldbook.store.merge import MergeReport, merge_job
from fieldbook.store.problem import Problem
from fieldbook.store.reading import job_id_of, log_files

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

    A job that the shelf does not have gets a folder of the same name, or that name and a piece of
    its id where another job has the name.

    Raises:
        OSError: The shelf cannot be written.
    """
    gathering = Gathering()
    shelf = into / "jobs"
    ours = {job_id: folder for folder in _job_folders(shelf) if (job_id := job_id_of(folder))}
    for source in sources:
        for folder in _job_folders(source):
            job_id = job_id_of(folder)
            if not job_id:
                words = "no log here can be told the job of: not taken"
                gathering.problems.append(Problem(folder.name, 0, words))
                continue
            target = ours.setdefault(job_id, _free(shelf, folder.name, job_id))
            gathering.jobs.append(merge_job(folder, target))
    return gathering


def _job_folders(root: Path) -> Iterator[Path]:
    """Every folder under `root`, itself too, that holds logs; links are not followed."""
    if not root.is_dir():
        return
    for folder in (root, *sorted(p for p in root.rglob("*") if p.is_dir() and not p.is_symlink())):
        if log_files(folder)[0]:
            yield folder


def _free(shelf: Path, name: str, job_id: str) -> Path:
    plain = shelf / name
    return plain if not plain.exists() else shelf / f"{name}-{job_id[-6:]}"
