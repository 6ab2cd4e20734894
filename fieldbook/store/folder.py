"""Reads all logs of a job's folder, and looks at what ties them together."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fieldbook.store.logfile import LogFile, log_files, named
from fieldbook.store.problem import Problem
from fieldbook.store.reading import read_log, read_on

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from fieldbook.record.entry import Entry


@dataclass(slots=True)
class JobFolder:
    """The logs of one job.

    Attributes:
        path: The folder.
        job_id: The id that its logs carry; empty when none can be read.
        logs: File name -> log, of this job only.
        refused: What is in the folder and not read as part of this job.
    """

    path: Path
    job_id: str = ""
    logs: dict[str, LogFile] = field(default_factory=dict)
    refused: list[Problem] = field(default_factory=list)

    def entries(self) -> Iterator[Entry]:
        """The entries of all logs, one file after the other."""
        for log in self.logs.values():
            for _, entry in log.entries:
                yield entry

    def read_new(self, *, own: str | None) -> list[Entry]:
        """Read what was added since the folder was read.

        Args:
            own: The device that writes here now; its files are passed over.

        Raises:
            OSError: The folder or a file in it cannot be read.
        """
        new: list[Entry] = []
        for path in log_files(self.path)[0]:
            log, size = self.logs.get(path.name), path.stat().st_size
            if own is not None and (told := named(path)).device == own and not told.twin:
                continue
            if log is None or size < log.whole_bytes:
                new += self._read_new_file(path)
            elif size != log.whole_bytes + len(log.torn):
                new += read_on(log)
        return new

    def _read_new_file(self, path: Path) -> list[Entry]:
        log = read_log(path)
        if log.job_id and self.job_id and log.job_id != self.job_id:
            return []
        self.logs[path.name] = log
        self.job_id = self.job_id or log.job_id
        return [entry for _, entry in log.entries]

    def findings(self) -> list[Problem]:
        """Everything that is wrong, file by file."""
        found = [*self.refused]
        for log in self.logs.values():
            found += log.findings
            found += self._link(log)
        return found

    def _link(self, log: LogFile) -> list[Problem]:
        """What is wrong with what a next file says of the one before."""
        if log.after is None:
            return []
        name, line_hash = log.after
        before = self.logs.get(name)
        if before is None or before.device != log.device:
            words = f"goes on from '{name[:60]}', which is missing"
        elif line_hash not in before.line_of:
            words = f"goes on from a line of {name} that is no longer there"
        else:
            return []
        return [Problem(log.path.name, 1, words)]


def read_folder(folder: Path) -> JobFolder:
    """Read every log of a job's folder.

    Raises:
        OSError: The folder or a file in it cannot be read.
    """
    paths, refused = log_files(folder)
    logs = [read_log(path) for path in paths]
    found = JobFolder(folder, _job_id(logs), refused=refused)
    for log in logs:
        if log.job_id and log.job_id != found.job_id:
            found.refused.append(Problem(log.path.name, 1, "belongs to another job: not read"))
        else:
            found.logs[log.path.name] = log
    for log in found.logs.values():
        for other in found.logs.values():
            if other.device == log.device:
                for line_hash in log.not_saved:
                    other.leave_out(line_hash)
    return found


def _job_id(logs: Iterable[LogFile]) -> str:
    """The job that most lines are of, so that a stray file cannot take a folder over."""
    lines: Counter[str] = Counter()
    for log in logs:
        if log.job_id:
            lines[log.job_id] += log.lines
    return max(lines, key=lambda job_id: (lines[job_id], job_id), default="")
