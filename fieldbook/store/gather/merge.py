"""The union of two folders of one job, file by file, by whole lines.

Each file belongs to one device, which only ever adds to it. So theirs goes on from ours, or ours
from theirs; if neither, somebody altered one of them: both are kept and named to a person.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from fieldbook.store.gather.clashes import clashes
from fieldbook.store.job.attachments import (
    attachments_of,
    copy_attachment,
    missing_attachments,
    missing_in,
)
from fieldbook.store.job.folder import read_all, read_folder
from fieldbook.store.job.lock import Hold
from fieldbook.store.log.disk import make_folders, write_whole
from fieldbook.store.log.line import hash_of
from fieldbook.store.log.logfile import log_files, unfit
from fieldbook.store.log.problem import Problem
from fieldbook.store.log.reader import read_log, read_start
from fieldbook.store.log.writer import set_aside

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.gather.folder_scan import FolderScan
    from fieldbook.store.job.folder import JobFolder


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
    """Take every whole line of `theirs` that `ours` does not have, and every attachment.

    Interrupted at any moment it leaves both folders whole; run again it changes nothing; the order
    in which folders are merged does not matter.

    Raises:
        OSError: One of the folders cannot be read, or ours cannot be written.
    """
    make_folders(ours)
    return _merge_read(read_folder(theirs), ours)


def merge_looked(look: FolderScan, ours: Path) -> MergeReport:
    """Merge a folder that was looked at into ours, which exists; see `merge_job`.

    Where ours has the very same logs, the scan has said everything. Else both folders are read.

    Raises:
        OSError: One of the folders cannot be read, or ours cannot be written.
    """
    mine, refused = log_files(ours)
    if look.files and mine and not refused and _is_as_looked(look, mine):
        report = MergeReport(ours, clashes=[*look.clashes], problems=[*look.problems])
        take_attachments(look.path, ours, report)
        report.problems += missing_in(ours, look.attachments)
        return report
    return _merge_read(read_folder(look.path), ours)


def _is_as_looked(look: FolderScan, mine: list[Path]) -> bool:
    """Whether our logs are, byte for byte, those that were looked at."""
    ours = {path.name: path for path in mine}
    return set(ours) == {file.name for file in look.files} and all(
        ours[file.name].stat().st_size == file.size
        and file.is_start_of(read_start(ours[file.name], file.size))
        for file in look.files
    )


def _merge_read(there: JobFolder, ours: Path) -> MergeReport:
    report = MergeReport(ours)
    report.problems += there.findings()
    before = replace(there, path=ours) if _is_same(there, ours) else read_all(ours)
    if before.unclear:
        report.problems.append(Problem(ours.name, 0, f"not gathered into: {before.unclear}"))
        return report
    for log in there.logs.values():
        if before.job_id and log.job_id and log.job_id != before.job_id:
            report.problems.append(Problem(log.path.name, 1, "belongs to another job: not taken"))
        elif log.lines and not log.is_newer:
            _take(log.path.name, log.device, read_start(log.path, log.whole_bytes), report)
    take_attachments(there.path, ours, report)
    whole = _after(there, before, report)
    report.clashes += clashes(whole)
    report.problems += missing_attachments(whole)
    return report


def _is_same(there: JobFolder, ours: Path) -> bool:
    """Whether our logs are theirs byte for byte, so that reading one of the two tells of both."""
    mine, refused = log_files(ours)
    if refused or there.refused or [path.name for path in mine] != sorted(there.logs):
        return False
    return all(path.read_bytes() == there.logs[path.name].path.read_bytes() for path in mine)


def _after(there: JobFolder, before: JobFolder, report: MergeReport) -> JobFolder:
    """Ours as it is now; read again only where it is not one of the two that were read."""
    if not report.new and not report.grown:
        return before
    if not before.logs and not before.refused and set(there.logs) <= set(report.new):
        return replace(there, path=before.path)
    return read_folder(before.path)


def take_attachments(theirs: Path, into: Path, report: MergeReport) -> None:
    """Copy every attachment that is not there whole into a folder; note which, and which cannot be.

    Raises:
        OSError: The attachments cannot be listed, or one not be written.
    """
    for path in attachments_of(theirs):
        try:
            if done := copy_attachment(path, into):
                report.new.append(path.name)
            if done == "mended":
                words = "was damaged here; it is whole again, from the copy that was gathered"
                report.problems.append(Problem(path.name, 0, words, damage=False))
        except ValueError as problem:
            report.problems.append(Problem(path.name, 0, str(problem)))


def _take(name: str, device: str, raw: bytes, report: MergeReport) -> None:
    """Put the whole lines of a device's log into our folder, unless the device writes there now."""
    hold = Hold(report.folder, device)
    if not hold.take():
        words = f"in use by {hold.who()}: not taken now, gather again later"
        report.problems.append(Problem(name, 0, words))
        return
    try:
        _extend(report.folder / name, raw, report)
    finally:
        hold.release()


def _extend(mine: Path, raw: bytes, report: MergeReport) -> None:
    """Put `raw` in the place of `mine`, where it only adds to it; beside it, where it differs."""
    if not mine.exists():
        write_whole(mine, raw)
        report.new.append(mine.name)
        return
    if why := unfit(mine):
        report.problems.append(Problem(mine.name, 0, f"what is here by that name is {why}"))
        return
    if mine.read_bytes() == raw:
        return
    log = read_log(mine)
    known = mine.read_bytes()[: log.whole_bytes]
    if known.startswith(raw):
        return
    if raw.startswith(known):
        if log.torn:
            set_aside(log)
        write_whole(mine, raw)
        report.grown.append(mine.name)
        return
    stem = mine.stem.partition("~")[0]
    twins = [twin for twin in mine.parent.glob(f"{stem}~*.jsonl") if not unfit(twin)]
    if any(read_start(twin, len(raw)) == raw for twin in twins):
        return
    twin = mine.with_name(f"{stem}~{_parting(known, raw)[:12]}.jsonl")
    if twin == mine or (twin.exists() and (unfit(twin) or not raw.startswith(twin.read_bytes()))):
        twin = mine.with_name(f"{stem}~{hash_of(raw)[:12]}.jsonl")
    write_whole(twin, raw)
    report.new.append(twin.name)


def _parting(known: bytes, raw: bytes) -> str:
    """A hash of `raw` up to the first line that differs, which stays the same while it grows."""
    lines, others = raw.splitlines(keepends=True), known.splitlines(keepends=True)
    same = 0
    while same < min(len(lines), len(others)) and lines[same] == others[same]:
        same += 1
    return hash_of(b"".join(lines[: same + 1]))
