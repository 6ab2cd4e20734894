"""Reads all logs of a job's folder, and looks at what ties them together."""

from __future__ import annotations

import errno
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fieldbook.store.job.owner import owner_of
from fieldbook.store.log.logfile import LogFile, log_files, named
from fieldbook.store.log.problem import Problem
from fieldbook.store.log.reader import read_log, read_on

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from fieldbook.record.entry import Entry


STRANGER = "belongs to another job: not read; move it into the folder of its own"


@dataclass(slots=True)
class JobFolder:
    """The logs of one job.

    Attributes:
        path: The folder.
        job_id: The id that its logs carry; empty when none can be read.
        logs: File name -> log, of this job only.
        refused: What is in the folder and not read as part of this job.
        unclear: Why nothing may be recorded here until a person moved a file; empty: it may.
        unread: Why a log could not be read, the first of them; None when all were.
        lost: Names of the logs of which nothing was read, whatever job they are of.
    """

    path: Path
    job_id: str = ""
    logs: dict[str, LogFile] = field(default_factory=dict)
    refused: list[Problem] = field(default_factory=list)
    unclear: str = ""
    unread: OSError | None = None
    lost: list[str] = field(default_factory=list)

    def closed_to(self, device: str) -> str:
        """Why a device must not record here until a person did something; empty where it may.

        A device that cannot read its own log would number its entries again, and where no log at
        all is read it would begin another job; both are set apart once the log is back.
        """
        if any(log.is_newer for log in self.logs.values()):
            return "a newer fieldbook wrote part of this job; update this one"
        if self.unclear:
            return self.unclear
        own = [name for name in self.lost if named(self.path / name).device == device]
        if not own and (self.logs or not (self.lost or self.refused)):
            return ""
        names = ", ".join((own or self.lost or [p.file for p in self.refused])[:3])
        why = "and what is recorded now would not go on from it"
        return f"{names} is not read, {why}: bring the log back as it was, then record"

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
            if own is not None and (found := named(path)).device == own and not found.twin:
                continue
            if log is None or size < log.whole_bytes:
                new += self._read_new_file(path)
            elif size != log.whole_bytes + len(log.torn):
                new += read_on(log)
        return new

    def _read_new_file(self, path: Path) -> list[Entry]:
        if any(problem.file == path.name for problem in self.refused):
            return []
        log = read_log(path)
        if log.job_id and self.job_id and log.job_id != self.job_id:
            self.refused.append(Problem(path.name, 1, STRANGER))
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
    """Read every log of a job's folder; one that cannot be read is among what is `refused`.

    Raises:
        OSError: The folder cannot be read.
    """
    paths, refused = log_files(folder)
    found = JobFolder(folder, refused=refused)
    logs = [log for path in paths if (log := _read(path, found)) is not None]
    found.lost = [problem.file for problem in found.refused]
    found.job_id, found.unclear = owner_of(folder, logs)
    if found.unclear:
        found.refused.append(Problem(".", 0, found.unclear))
    for log in logs:
        if log.job_id and log.job_id != found.job_id:
            found.refused.append(Problem(log.path.name, 1, STRANGER))
        elif found.unclear and not log.job_id:
            words = "cannot tell which of the jobs it is of: not read"
            found.refused.append(Problem(log.path.name, 1, words))
        else:
            found.logs[log.path.name] = log
    for log in found.logs.values():
        for other in found.logs.values():
            if other.device == log.device:
                for line_hash in log.not_saved:
                    other.leave_out(line_hash)
    return found


def read_all(folder: Path) -> JobFolder:
    """As `read_folder`, where every log has to be read.

    Raises:
        OSError: The folder or a log in it cannot be read.
    """
    found = read_folder(folder)
    if found.unread is not None:
        raise found.unread
    return found


def _read(path: Path, found: JobFolder) -> LogFile | None:
    try:
        return read_log(path)
    except MemoryError:
        error = OSError(errno.ENOMEM, "more than this machine's memory holds", str(path))
    except OSError as problem:
        error = problem
    found.refused.append(Problem(path.name, 0, f"cannot be read: {error.strerror or error}"))
    found.unread = found.unread or error
    return None
