"""Whose folder it is, where logs of several jobs lie in it.

A folder on a shelf is named by the number of its job, or by that and a piece of its id; so the job
whose own entries say that number is the one it was made for, however large a log was laid beside.
Where the name tells none of them, or several, nothing is guessed: the most lines are read, and
nothing is recorded until a person has moved the others out. On a shelf every folder has such a
name, so there a job that was never given that number is a stranger even where it is alone.
"""

from __future__ import annotations

import os
from collections import defaultdict
from typing import TYPE_CHECKING

from fieldbook.store.shelf.names import folder_name, namesake_name

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from fieldbook.store.log.logfile import LogFile

SHELF = "jobs"
"""Name of the folder in a home in which the folders of its jobs are."""


def owner_of(folder: Path, logs: Iterable[LogFile]) -> tuple[str, str]:
    """The id of the job that a folder is of, and why that is unclear; empty where it is clear.

    The id is empty where no log, or none of the job that the folder is named by, can tell it.
    """
    by_job: defaultdict[str, list[LogFile]] = defaultdict(list)
    for log in logs:
        by_job[log.job_id].append(log)
    jobs = sorted(job_id for job_id in by_job if job_id)
    name = os.path.basename(os.path.abspath(folder))  # noqa: PTH100, PTH119 - `.` has no name
    named = [job_id for job_id, own in by_job.items() if _is_named_by(name, job_id, own)]
    if len(jobs) < 2:
        only = jobs[0] if jobs else ""
        if not only or only in named or not (numbers := _numbers(by_job[only])):
            return only, ""
        if named:  # a log that cannot tell its job has the folder's number
            return "", ""
        if not is_on_shelf(folder):
            return only, ""
        # Of a damaged log the line that said the number may be lost: it is read, not added to.
        is_damaged = any(log.damaged for log in by_job[only])
        return (only if is_damaged else ""), _alone(by_job[only], numbers)
    if len(ids := [job_id for job_id in named if job_id]) == 1:
        return ids[0], ""
    return max(jobs, key=lambda job_id: (_lines(by_job[job_id]), job_id)), _unclear(by_job, jobs)


def is_on_shelf(folder: Path) -> bool:
    """Whether a folder lies where a home keeps its jobs."""
    return os.path.basename(os.path.dirname(os.path.abspath(folder))) == SHELF  # noqa: PTH100, PTH119, PTH120 - as above


def _is_named_by(name: str, job_id: str, logs: Iterable[LogFile]) -> bool:
    """Whether a folder of that name is where a job with these logs is put.

    What follows a blank is a person's or a file manager's, as in `26-127 (copy)`: no name that we
    give has one.
    """
    ours = name.partition(" ")[0].casefold()
    return any(
        ours in (folder_name(n).casefold(), namesake_name(n, job_id).casefold())
        for n in _numbers(logs)
    )


def _numbers(logs: Iterable[LogFile]) -> set[str]:
    """Every number that the job was ever given."""
    entries = (entry for log in logs for _, entry in log.entries if entry.kind == "job")
    return {number for entry in entries if (number := entry.text("job_number"))}


def _lines(logs: Iterable[LogFile]) -> int:
    return sum(log.lines for log in logs)


def _alone(logs: Iterable[LogFile], numbers: Iterable[str]) -> str:
    each = ", ".join(log.path.name for log in [*logs][:3])
    number = min(numbers)
    return (
        f"only a log of job {number[:40]} is in this folder, which has the name of another"
        f" ({each}): move it into the folder {folder_name(number)}, or give this folder that name"
    )


def _unclear(by_job: dict[str, list[LogFile]], jobs: Iterable[str]) -> str:
    each = "; ".join(", ".join(log.path.name for log in by_job[job_id][:3]) for job_id in jobs)
    return (
        f"logs of {len(by_job.keys() - {''})} jobs are in this folder, and its name does not tell"
        f" whose it is ({each}): move those of the other job out, then record"
    )
