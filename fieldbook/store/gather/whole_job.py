"""A job that the shelf does not have comes into it whole: all its files at once, or none."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from fieldbook.store.gather.merge import MergeReport, take_attachments
from fieldbook.store.job.attachments import missing_in
from fieldbook.store.log.disk import DISK, write_new
from fieldbook.store.log.reader import read_start

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.gather.folder_scan import FolderScan


def put_whole(look: FolderScan, place: Path, scratch: Path) -> MergeReport | None:
    """Put a job that was looked at into its place on the shelf; None where it must be merged.

    What is written is what was checked, byte for byte. Nobody else can know the folder before it
    has its name, so nothing is locked. Its name is on disk once the shelf is synced. Whatever goes
    wrong is left to merging, which tells it.

    Args:
        look: The job.
        place: Where it belongs.
        scratch: A folder on the same disk, to put it together in; nobody else writes there.
    """
    if not look.files or place.exists():
        return None
    beside = scratch / place.name
    report = MergeReport(place, clashes=[*look.clashes], problems=[*look.problems])
    try:
        DISK.make_folder(beside)
        if not _fill(beside, look, report):
            DISK.remove_folder(beside)
            return None
        DISK.sync_folder(beside)
        DISK.replace(beside, place)
    except OSError:
        with contextlib.suppress(OSError):
            DISK.remove_folder(beside)
        return None
    return report


def _fill(folder: Path, look: FolderScan, report: MergeReport) -> bool:
    """Write everything that was looked at; False when a log is no longer what it was."""
    for file in look.files:
        raw = read_start(look.path / file.name, file.size)
        if not file.is_start_of(raw):
            return False
        write_new(folder / file.name, raw)
        report.new.append(file.name)
    take_attachments(look.path, folder, report)
    report.problems += missing_in(folder, look.attachments)
    return True
