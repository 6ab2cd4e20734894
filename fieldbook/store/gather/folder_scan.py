"""What gathering must know of a job's folder, without its entries: small, and said once."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.record.job import Job
from fieldbook.store.gather.clashes import clashes
from fieldbook.store.job.attachments import named_attachments
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.reader import read_start

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.job.folder import JobFolder
    from fieldbook.store.log.problem import Problem


@dataclass(frozen=True, slots=True)
class ScannedFile:
    """A log file whose every line was read and checked.

    Attributes:
        name: Its name.
        device: The device it belongs to.
        size: Length of its whole lines.
        sha: SHA-256 of these bytes.
    """

    name: str
    device: str
    size: int
    sha: bytes

    def is_start_of(self, raw: bytes) -> bool:
        """Whether `raw` begins with the very bytes that were checked."""
        return hashlib.sha256(raw[: self.size]).digest() == self.sha


@dataclass(frozen=True, slots=True)
class FolderScan:
    """A job's folder as it was read.

    Attributes:
        path: The folder.
        job_id: The id that its logs carry; empty when none can be read.
        number: The job's number as its live entries say; empty where none does.
        entry_ids: Of its entries, file by file.
        first_id: Of its first entry; empty where it has none.
        files: Its logs; empty where something in the folder must be looked at file by file.
        problems: Everything that is wrong in it.
        clashes: Everything in which two of its logs cannot both be right.
        attachments: What its entries name, and what to say where it is missing.
        size: Bytes of its logs.
    """

    path: Path
    job_id: str
    number: str
    entry_ids: tuple[str, ...]
    first_id: str
    files: tuple[ScannedFile, ...]
    problems: tuple[Problem, ...]
    clashes: tuple[str, ...]
    attachments: tuple[tuple[str, Problem], ...]
    size: int


def look_at(path: Path) -> FolderScan:
    """Read a job's folder, check every line in it, and keep what gathering needs.

    Raises:
        OSError: The folder cannot be read, or a log is no longer what it was.
    """
    folder = read_folder(path)
    job = Job(folder.entries())
    return FolderScan(
        path,
        folder.job_id,
        job.text("job", "job_number"),
        tuple(entry.id for entry in folder.entries()),
        job.entries[0].id if job.entries else "",
        _files(folder),
        tuple(folder.findings()),
        tuple(clashes(folder, job)),
        tuple(named_attachments(folder)),
        sum(log.whole_bytes for log in folder.logs.values()),
    )


def _files(folder: JobFolder) -> tuple[ScannedFile, ...]:
    logs = folder.logs.values()
    if folder.refused or not all(log.job_id and log.lines for log in logs):
        return ()
    return tuple(
        ScannedFile(
            log.path.name,
            log.device,
            log.whole_bytes,
            hashlib.sha256(read_start(log.path, log.whole_bytes)).digest(),
        )
        for log in logs
    )
