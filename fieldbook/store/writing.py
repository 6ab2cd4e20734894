"""Appends lines to a device's own log files, one fsync each."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING, Any

from fieldbook.store.disk import DISK, write_whole
from fieldbook.store.line import FORMAT, NO_LINE, VERSION, encode, hash_of

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.store.reading import LogFile


class LogWriter:
    """The end of one device's log of one job.

    It goes on in the device's last file where that is whole. Otherwise, and after any write that
    failed and could not be taken back, it goes on in a next file whose first line names the last
    good line of the one before, so that nobody is ever left unable to record.
    """

    def __init__(self, folder: Path, device: str, job_id: str) -> None:
        """Write for `device` in the job's `folder`; nothing is written yet."""
        self._folder = folder
        self._device = device
        self._job_id = job_id
        self._descriptor: int | None = None
        self._path: Path | None = None
        self._lines = 0
        self._size = 0
        self._number = 0
        self._after: dict[str, str] | None = None
        self.head = NO_LINE

    @property
    def path(self) -> Path | None:
        """The file that is written to; None before the first line."""
        return self._path

    def go_on_after(self, log: LogFile) -> None:
        """Go on after what the device's last file holds.

        Raises:
            OSError: A torn tail could not be set aside or cut off.
        """
        self._number = log.number
        if log.torn:
            set_aside(log)
        if log.damaged or (log.lines and log.version != VERSION):
            self._leave(log.path.name, log.head)
            return
        self._path = log.path
        self._lines, self._size, self.head = log.lines, log.whole_bytes, log.head
        self._descriptor = DISK.open_append(log.path, new=False)
        if log.torn:
            DISK.truncate(self._descriptor, log.whole_bytes)
            DISK.sync(self._descriptor)

    def append(self, body: dict[str, Any]) -> None:
        """Put one entry on disk; it is there when this returns.

        Raises:
            OSError: It is not saved. The next call goes on where it is safe to.
        """
        if self._descriptor is None:
            self._open_next()
        if self._lines == 0:
            self._put_header()
        self._put("entry", body)

    def close(self) -> None:
        """Let go of the file."""
        if self._descriptor is not None:
            with contextlib.suppress(OSError):
                DISK.close(self._descriptor)
            self._descriptor = None

    def _open_next(self) -> None:
        number = self._number + 1
        path = self._folder / f"{self._device}-{number:04d}.jsonl"
        while path.exists():  # left by a start that failed half-way
            number += 1
            path = self._folder / f"{self._device}-{number:04d}.jsonl"
        self._descriptor = DISK.open_append(path, new=True)
        self._path, self._number = path, number
        self._lines, self._size, self.head = 0, 0, NO_LINE

    def _put_header(self) -> None:
        assert self._path is not None
        header = {
            "format": FORMAT,
            "version": VERSION,
            "device": self._device,
            "job": self._job_id,
            "file": self._number,
            "after": self._after,
        }
        self._put("head", header)
        try:
            DISK.sync_folder(self._folder)
        except OSError:
            self._leave(self._path.name, self.head)
            raise

    def _put(self, key: str, body: dict[str, Any]) -> None:
        assert self._descriptor is not None
        raw = encode(self._lines + 1, self.head, key, body)
        try:
            DISK.write(self._descriptor, raw + b"\n")
            DISK.sync(self._descriptor)
        except OSError:
            self._take_back()
            raise
        self._lines += 1
        self._size += len(raw) + 1
        self.head = hash_of(raw)

    def _take_back(self) -> None:
        """Cut off what a failed write left, or leave the file for a next one."""
        assert self._descriptor is not None
        assert self._path is not None
        try:
            DISK.truncate(self._descriptor, self._size)
            DISK.sync(self._descriptor)
        except OSError:
            self._leave(self._path.name, self.head)

    def _leave(self, name: str, head: str) -> None:
        if head != NO_LINE:
            self._after = {"file": name, "hash": head}
        self.close()


def set_aside(log: LogFile) -> Path:
    """Keep the torn tail of a log in a side file and return that file.

    Raises:
        OSError: It could not be kept.
    """
    name = f"{log.path.stem}.torn-{hash_of(log.torn)[:12]}"
    path = log.path.with_name(name)
    if not path.exists():
        write_whole(path, log.torn)
    return path
