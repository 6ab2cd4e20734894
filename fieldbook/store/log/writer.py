"""Appends lines to a device's own log files, one fsync each."""

from __future__ import annotations

import contextlib
import errno
import os
from typing import TYPE_CHECKING, Any

from fieldbook.store.log.disk import DISK, write_whole
from fieldbook.store.log.line import FORMAT, LONGEST, NO_LINE, VERSION, encode, hash_of
from fieldbook.store.log.logfile import LARGEST_LOG, MOST_NUMBER, is_plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from fieldbook.store.log.logfile import LogFile

_HEADER_ONLY = 1


class LogWriter:
    """The end of one device's log of one job.

    It goes on in the device's last file where that is whole. Otherwise, and after any write that
    failed and could not be taken back, it goes on in a next file whose first line names the last
    good line of the one before, so that nobody is ever left unable to record.

    Attributes:
        heads: File name -> hash of its last line, of every file that was written to.
        set_aside: Where a torn tail was kept, if there was one.
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
        self._not_saved: list[str] = []
        self._unsettled: LogFile | None = None
        self._settled = False
        self._head = NO_LINE
        self.heads: dict[str, str] = {}
        self.set_aside: Path | None = None

    def go_on_after(self, logs: Sequence[LogFile]) -> None:
        """Go on after what the device's own files hold, as `as_begun` gives them.

        What cannot be settled on disk now is tried again before the next entry.
        """
        for log in logs:
            self._number = log.number
            if log.lines > _HEADER_ONLY and log.head != NO_LINE:
                self._after = {"file": log.path.name, "hash": log.head}
        if logs:
            self._unsettled = logs[-1]
            self._not_saved = logs[-1].not_saved if logs[-1].lines <= _HEADER_ONLY else []
        with contextlib.suppress(OSError):
            self._settle()

    def _settle(self) -> None:
        """Make what is there stay, a torn tail set aside, and open the file to go on in, if any.

        A program that was killed may have left lines and names that never reached the disk.
        """
        self.close()
        DISK.sync_folder(self._folder.parent)
        log = self._unsettled
        if log is not None:
            if log.torn:
                self.set_aside = set_aside(log)
            descriptor = DISK.open_append(log.path, new=False)
            try:
                if log.torn and not log.damaged:
                    DISK.truncate(descriptor, log.whole_bytes)
                DISK.sync(descriptor)
                DISK.sync_folder(self._folder)
            except OSError:
                DISK.close(descriptor)
                raise
            if not log.damaged:
                log.torn = b""
            self._go_on_in(log, descriptor)
        self._settled = True

    def _go_on_in(self, log: LogFile, descriptor: int) -> None:
        if log.damaged or (log.lines and log.version != VERSION):
            DISK.close(descriptor)
            return
        self._descriptor, self._path = descriptor, log.path
        self._lines, self._size, self._head = log.lines, log.whole_bytes, log.head

    @property
    def file(self) -> str:
        """Name of the file that the next line goes to, as far as it is begun; else empty."""
        return self._path.name if self._path is not None else ""

    def append(self, body: dict[str, Any]) -> None:
        """Put one entry on disk; it is there when this returns.

        Raises:
            OSError: It is not saved. The next call goes on where it is safe to.
            TooLong: It would be longer than a line may be; nothing is written.
        """
        if not self._settled:
            self._settle()
        if self._descriptor is not None and self._size > LARGEST_LOG - LONGEST:
            self._leave([])
        if self._descriptor is None:
            self._open_next()
        if self._lines == 0:
            self._put_header()
        try:
            self._put("entry", body)
        except BaseException:
            self.disown()
            raise

    def settle(self) -> None:
        """Make sure that what was there when the writer began stays.

        Raises:
            OSError: It may not.
        """
        if not self._settled:
            self._settle()

    def disown(self) -> bool:
        """Say on disk at once which lines were never acknowledged; whether that is done.

        The next file begins with it, and it is begun now: were it begun with the next entry, and
        the program ended before that, the line would count, and the entry sent again stand twice.
        """
        if not self._is_owed:
            return True
        with contextlib.suppress(OSError):
            self._open_next()
            self._put_header()
        return not self._is_owed

    @property
    def _is_owed(self) -> bool:
        """Whether a line may be on disk that was never acknowledged, and no file says so."""
        return bool(self._not_saved) and self._descriptor is None

    def close(self) -> None:
        """Let go of the file."""
        if self._descriptor is not None:
            with contextlib.suppress(OSError):
                DISK.close(self._descriptor)
            self._descriptor = None

    def _open_next(self) -> None:
        number, path = self._free()
        self._descriptor = DISK.open_append(path, new=True)
        self._path, self._number = path, number
        self._lines, self._size, self._head = 0, 0, NO_LINE

    def _free(self) -> tuple[int, Path]:
        """The next number without a file, and its file; after the last number comes the first.

        A file of that name may be there: a start that failed half-way left it, or it is another's.
        """
        for ahead in range(MOST_NUMBER):
            number = (self._number + ahead) % MOST_NUMBER + 1
            if not os.path.lexists(path := self._named(number)):
                return number, path
        raise OSError(errno.EFBIG, f"{MOST_NUMBER} log files of one device in one job")

    def _named(self, number: int) -> Path:
        return self._folder / f"{self._device}-{number:04d}.jsonl"

    def _put_header(self) -> None:
        header: dict[str, Any] = {
            "format": FORMAT,
            "version": VERSION,
            "device": self._device,
            "job": self._job_id,
            "file": self._number,
            "after": self._after,
        }
        if self._not_saved:
            header["not_saved"] = self._not_saved
        self._put("head", header)
        try:
            DISK.sync_folder(self._folder)
        except OSError:
            self._leave([])
            raise

    def _put(self, key: str, body: dict[str, Any]) -> None:
        assert self._descriptor is not None
        assert self._path is not None
        raw = encode(self._lines + 1, self._head, key, body)
        size = self._size + len(raw) + 1
        try:
            DISK.write(self._descriptor, raw + b"\n")
        except BaseException:
            if not self._taken_back():
                self._leave([hash_of(raw)])
            raise
        try:
            DISK.sync(self._descriptor)
        except BaseException:
            # The system may now hold for written what is not, so whatever it says of this file
            # from here on proves nothing.
            self._taken_back()
            self._leave([hash_of(raw)])
            raise
        if not DISK.is_unchanged(self._descriptor, self._path, size):
            name = self._path.name
            self._leave([hash_of(raw)])
            raise OSError(errno.ESTALE, f"{name} was moved or changed by another program")
        self._lines, self._size, self._head = self._lines + 1, size, hash_of(raw)
        self.heads[self._path.name] = self._head

    def _taken_back(self) -> bool:
        """Cut off what a failed write left; False when that may not have reached the disk."""
        assert self._descriptor is not None
        assert self._path is not None
        try:
            DISK.truncate(self._descriptor, self._size)
            DISK.sync(self._descriptor)
            return DISK.is_unchanged(self._descriptor, self._path, self._size)
        except OSError:
            return False

    def _leave(self, failed: list[str]) -> None:
        """Go on in a next file; one that holds no entry is taken away."""
        assert self._descriptor is not None
        assert self._path is not None
        if self._lines > _HEADER_ONLY:
            self._after = {"file": self._path.name, "hash": self._head}
            self._not_saved = failed
        else:
            self._not_saved = self._not_saved + failed
            self.heads.pop(self._path.name, None)
            with contextlib.suppress(OSError):
                if DISK.is_unchanged(self._descriptor, self._path):
                    DISK.remove(self._path)
        self.close()


def as_begun(logs: Iterable[LogFile]) -> list[LogFile]:
    """A device's own files in the order in which they were begun.

    Where the last number is taken, those that run on from the first were begun after it.
    """
    logs = sorted(logs, key=lambda log: log.number)
    if not logs or logs[-1].number < MOST_NUMBER:
        return logs
    run = sum(log.number == place for place, log in enumerate(logs, 1))
    return logs[run:] + logs[:run]


def set_aside(log: LogFile) -> Path:
    """Keep the torn tail of a log in a side file and return that file.

    Raises:
        OSError: It could not be kept.
    """
    path = log.path.with_name(f"{log.path.stem}.torn-{hash_of(log.torn)[:12]}")
    if not (is_plain(path) and path.stat().st_size == len(log.torn)):
        write_whole(path, log.torn)
    return path
