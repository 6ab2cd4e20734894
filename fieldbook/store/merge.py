"""The union of two folders of one job, file by file, by whole lines.

Each file belongs to one device, which only ever adds to it. So theirs goes on from ours, or ours
from theirs; if neither, somebody altered one of them: both are kept and a person is told.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fieldbook.record.job import Job
from fieldbook.record.tally import tally
from fieldbook.store.book import local_time
from fieldbook.store.disk import write_whole
from fieldbook.store.holder import Hold
from fieldbook.store.line import hash_of
from fieldbook.store.problem import Problem
from fieldbook.store.reading import LogFile, job_id_of, log_files, read_log

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(slots=True)
class MergeReport:
    """What merging one job's folder into ours did.

    Attributes:
        folder: Our folder of the job.
        new: Files we did not have.
        grown: Files that went on.
        clashes: What two logs say differently, for a person to settle.
        problems: What is damaged or could not be taken.
    """

    folder: Path
    new: list[str] = field(default_factory=list)
    grown: list[str] = field(default_factory=list)
    clashes: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    @property
    def clean(self) -> bool:
        """Whether nothing needs a person."""
        return not self.clashes and not any(problem.damage for problem in self.problems)


def merge_job(theirs: Path, ours: Path) -> MergeReport:
    """Take every whole line of `theirs` that `ours` does not have.

    Interrupted at any moment it leaves both folders whole; run again it changes nothing; the order
    in which folders are merged does not matter.

    Raises:
        OSError: One of the folders cannot be read, or ours cannot be written.
    """
    report = MergeReport(ours)
    paths, refused = log_files(theirs)
    report.problems += refused
    ours.mkdir(parents=True, exist_ok=True)
    job_id = job_id_of(ours)
    for path in paths:
        log = read_log(path)
        report.problems += log.problems
        if job_id and log.job_id and log.job_id != job_id:
            report.problems.append(Problem(path.name, 1, "belongs to another job: not taken"))
            continue
        if log.lines:
            _take(log, ours, report)
    report.clashes += clashes(ours)
    return report


def _take(log: LogFile, ours: Path, report: MergeReport) -> None:
    raw = log.path.read_bytes()[: log.whole_bytes]
    mine = ours / log.path.name
    hold = Hold(ours, log.device)
    if not hold.take(local_time()):
        report.problems.append(Problem(log.path.name, 0, f"in use by {hold.who()}: not taken now"))
        return
    try:
        if not mine.exists():
            write_whole(mine, raw)
            report.new.append(mine.name)
            return
        known = mine.read_bytes()[: read_log(mine).whole_bytes]
        if known.startswith(raw):
            return
        if raw.startswith(known):
            write_whole(mine, raw)
            report.grown.append(mine.name)
            return
        _keep_both(log, raw, ours, report)
    finally:
        hold.release()


def _keep_both(log: LogFile, raw: bytes, ours: Path, report: MergeReport) -> None:
    """Keep theirs beside ours, under a name made of what it holds, so that it is kept once."""
    stem = log.path.stem.partition("~")[0]
    if any(twin.read_bytes().startswith(raw) for twin in ours.glob(f"{stem}~*.jsonl")):
        return
    twin = ours / f"{stem}~{hash_of(raw)[:12]}.jsonl"
    write_whole(twin, raw)
    report.new.append(twin.name)


def clashes(folder: Path) -> list[str]:
    """What the logs of a job say differently, in words for a person to settle.

    Raises:
        OSError: The folder cannot be read.
    """
    paths, _ = log_files(folder)
    job = Job(entry for path in paths for _, entry in read_log(path).entries)
    found = [
        f"{path.name} and {path.name.partition('~')[0]}.jsonl do not go on from one another: one"
        " of them was altered; both are kept"
        for path in paths
        if "~" in path.name
    ]
    for entry in job.entries:
        strikers = job.struck_by(entry)
        if len({striker.device for striker in strikers}) > 1:
            who = " and ".join(striker.by for striker in strikers)
            found.append(f"entry {entry.seq} of {entry.device} was struck twice, by {who}")
    found += [
        f"joint {number} {direction} is recorded more than once"
        for direction in ("out", "in")
        for number in tally(job.live("joint"), direction).doubles
    ]
    return found
