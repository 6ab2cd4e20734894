"""Files that belong to a job: copied into its folder, named by what they hold."""

from __future__ import annotations

import datetime as dt
import hashlib
import os
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.plain import plain
from fieldbook.quantities.typed import plain_value
from fieldbook.small_file import NotPlain
from fieldbook.store.log.disk import DISK, write_whole
from fieldbook.store.log.logfile import is_plain
from fieldbook.store.log.problem import Problem

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from fieldbook.record.entry import Entry, Value
    from fieldbook.store.job.folder import JobFolder

_NAME = re.compile(r"[0-9a-f]{64}")
_LONGEST_TITLE = 200
LARGEST = 64 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Attached:
    """A file that was copied into a job's folder.

    Attributes:
        name: Its SHA-256, which names it there.
        title: What it was called where it came from.
        size: How many bytes it has.
        time: When it was last written, by its own device.
    """

    name: str
    title: str
    size: int
    time: dt.datetime

    def values(self) -> dict[str, Value]:
        """What the `attachment` entry says of it."""
        return {
            "file_hash": plain_value(self.name),
            "file_title": plain_value(self.title),
            "file_size": plain_value(str(self.size), float(self.size)),
            "file_time": plain_value(f"{self.time:%Y-%m-%d %H:%M}"),
        }


def refusal(source: Path) -> str:
    """Why `source` cannot be attached, in plain words; empty when it can."""
    try:
        if not source.is_file():
            return "there is no such file" if not source.exists() else "this is no file"
        too_large = source.stat().st_size > LARGEST
    except (OSError, ValueError) as error:
        return f"cannot be read: {getattr(error, 'strerror', None) or error}"
    return f"larger than {LARGEST // 2**20} MB: not taken" if too_large else ""


def attach(folder: Path, source: Path) -> Attached:
    """Copy a file into a job's folder, under its hash.

    Record an `attachment` entry of its `values` afterwards; attaching the same file again changes
    nothing.

    Raises:
        OSError: It cannot be read, or the copy is not on disk.
        ValueError: It is no file, or larger than an attachment may be.
    """
    if why := refusal(source):
        raise ValueError(why)
    raw = _read(source)
    made = dt.datetime.fromtimestamp(source.stat().st_mtime).astimezone()
    name = hashlib.sha256(raw).hexdigest()
    target = folder / name
    _take_link_away(target)
    if _trouble(target):
        write_whole(target, raw)
    return Attached(name, plain(source.name)[:_LONGEST_TITLE] or name, len(raw), made)


def attachments_of(folder: Path) -> list[Path]:
    """The attachments in a job's folder.

    Raises:
        OSError: The folder cannot be read.
    """
    named = sorted(path for path in folder.iterdir() if _NAME.fullmatch(path.name))
    return [path for path in named if is_plain(path)]


def copy_attachment(path: Path, folder: Path) -> str:
    """Copy an attachment into another folder of its job; "new", "mended", or "" where it is there.

    What is there by its name and holds something else is damaged, and is mended by the copy.

    Raises:
        OSError: The copy is not on disk.
        ValueError: It cannot be read, is too large, not what its name says, or a folder is there.
    """
    target = folder / path.name
    if _is_there(target):
        return ""
    try:
        raw = read_attachment(path)
    except OSError as error:
        raise ValueError(f"cannot be read: {error.strerror or error}: not taken") from error
    if target.is_dir() and not target.is_symlink():
        raise ValueError("a folder has its name here: not taken")
    was_there = os.path.lexists(target)
    _take_link_away(target)
    try:
        write_whole(target, raw)
    except NotPlain as error:
        raise ValueError(f"{error.strerror}: not taken") from error
    return "mended" if was_there else "new"


def _take_link_away(target: Path) -> None:
    """Take a link out of the place of an attachment; what it leads to stays as it is.

    No other file is named by a hash, so nobody misses it.
    """
    if target.is_symlink():
        DISK.remove(target)


def _is_there(target: Path) -> bool:
    """Whether a folder has an attachment, whole; what cannot be read there is not."""
    try:
        return not _trouble(target)
    except OSError:
        return False


def read_attachment(path: Path) -> bytes:
    """What an attachment holds, which is what its name says.

    Raises:
        OSError: It cannot be read.
        ValueError: It is no file, too large, or not what its name says.
    """
    if not is_plain(path):
        raise ValueError("there is no such file: not taken")
    raw = _read(path)
    if hashlib.sha256(raw).hexdigest() != path.name:
        raise ValueError("it does not hold what its name says: not taken")
    return raw


def missing_attachments(job: JobFolder) -> list[Problem]:
    """The attachments that the log of a job names and that are not in its folder."""
    return missing_in(job.path, named_attachments(job))


def missing_in(folder: Path, named: Iterable[tuple[str, Problem]]) -> list[Problem]:
    """What is said of those of `named` that are not in a folder.

    Raises:
        OSError: The folder cannot be read.
    """
    return [problem for name, problem in named if not is_plain(folder / name)]


def named_attachments(job: JobFolder) -> list[tuple[str, Problem]]:
    """The hash of every attachment that a job's log names, and what to say where it is missing."""
    return [
        (name, Problem(name, 0, f"{_called(entry)}, named by entry {entry.seq}, is not here"))
        for name, entry in _named(job).items()
    ]


def attachment_problems(job: JobFolder) -> list[Problem]:
    """What is wrong with the attachments of a job: missing, altered, or named by no entry.

    Raises:
        OSError: The folder cannot be read.
    """
    found = missing_attachments(job)
    named = _named(job)
    for path in attachments_of(job.path):
        try:
            trouble = _trouble(path)
        except OSError as error:
            trouble = f"cannot be read: {error.strerror or error}"
        if trouble:
            found.append(Problem(path.name, 0, trouble))
        elif path.name not in named:
            words = "an attachment that no entry names"
            found.append(Problem(path.name, 0, words, damage=False))
    return found


def _named(job: JobFolder) -> dict[str, Entry]:
    """Hash -> the first entry that names it, struck or not."""
    named: dict[str, Entry] = {}
    attached = (entry for entry in job.entries() if entry.kind == "attachment")
    for entry in sorted(attached, key=lambda entry: entry.order):
        named.setdefault(entry.text("file_hash"), entry)
    return named


def _called(entry: Entry) -> str:
    title = entry.text("file_title")
    return f"the attachment '{title}'" if title else "an attachment"


def _trouble(path: Path) -> str:
    """Why the attachment at `path` is not what its name says; empty when it is."""
    if not is_plain(path):
        return "is no file"
    if path.lstat().st_size > LARGEST:
        return f"larger than {LARGEST // 2**20} MB, which no attachment is"
    with path.open("rb") as file:
        whole = hashlib.file_digest(file, "sha256").hexdigest() == path.name
    return "" if whole else "does not hold what its name says: it was altered or is damaged"


def _read(path: Path) -> bytes:
    with path.open("rb") as file:
        raw = file.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise ValueError(f"larger than {LARGEST // 2**20} MB: not taken")
    return raw
