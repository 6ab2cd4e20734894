"""Who holds a device's log of a job: one program at a time, the others read."""

from __future__ import annotations

import contextlib
import errno
import json
import os
import socket
from typing import TYPE_CHECKING

from filelock import FileLock, Timeout

from fieldbook.quantities.plain import plain
from fieldbook.small_file import read_small, refuse_special
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.strict_json import BadJson, read_json

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

_LONGEST_NOTE = 4096
_NOTE_SIZE = 1024
UNKNOWN = "?"
"""In the place of an entry's id, that nobody knows which was last acknowledged."""
_AGAIN = os.O_WRONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
_NEW = _AGAIN | os.O_CREAT | os.O_EXCL


class Hold:
    """The lock on one device's files in one job's folder.

    The operating system frees it when the process dies, however it dies. The note beside it only
    says who it is, and is believed only while the lock is held.

    The note also says which entry was last acknowledged. A note that is there although nobody
    holds the lock was left by a program that was ended by force, or could not take back what it
    had reported as not saved: so the next one learns which line was never acknowledged.

    Attributes:
        trouble: Why no note could be left, in words; empty where one was, or none was wanted.
        last_saved: Id of the entry that was last acknowledged before a program was ended by force;
            empty when none was, `UNKNOWN` where a note is there and cannot be read. None where
            none was ended so, or by an earlier fieldbook, which noted nothing.
    """

    def __init__(self, folder: Path, device: str) -> None:
        """Lock for `device` in `folder`; nothing is taken yet."""
        self._path = folder / f".{device}.lock"
        self._lock = FileLock(self._path, mode=DISK.file_mode, thread_local=False)  # as a log
        self._note = folder / f".{device}.holder"
        self.trouble = ""
        self.last_saved: str | None = None
        self._is_answered = False
        self._descriptor: int | None = None
        self._words: dict[str, object] = {}

    @property
    def note(self) -> str:
        """Name of the file that says who it is."""
        return self._note.name

    def take(self, now: dt.datetime | None = None) -> bool:
        """Take the lock; False when another program has it.

        Args:
            now: The time for the note of who has it. Without it no note is left, for a lock that
                is held for a moment only: the note costs more than what is done under the lock.

        Raises:
            OSError: The folder cannot be written, or no plain file is in the place of the lock.
        """
        refuse_special(self._path)
        try:
            self._lock.acquire(blocking=False)
        except Timeout:
            return False
        except NotImplementedError as error:
            raise OSError(errno.ENOLCK, "this file system cannot lock a file") from error
        self.last_saved = self._left()
        if now is not None:
            self._words = {
                "process": os.getpid(),
                "machine": socket.gethostname(),
                "since": now.isoformat(timespec="seconds"),
            }
        # A killed program's note would name the wrong one; what it says of its entries stays.
        if now is not None or self.last_saved is not None:
            last_saved = {} if self.last_saved is None else {"told": self.last_saved}
            self._leave_note(self._words | last_saved)
        if now is None:
            self._close_note()
        return True

    def _left(self) -> str | None:
        try:
            last_saved = self._read_note().get("told")
        except FileNotFoundError:
            return None
        except (OSError, BadJson):
            last_saved = UNKNOWN
        if last_saved is not None and not (isinstance(last_saved, str) and last_saved != UNKNOWN):
            last_saved = UNKNOWN
            self.trouble = "it is lost which line was last told as saved: look at the last one"
        return last_saved

    def _read_note(self) -> dict[str, object]:
        note = read_json(read_small(self._note, _LONGEST_NOTE))
        if not isinstance(note, dict):
            raise BadJson("no note")
        return note

    def _leave_note(self, words: dict[str, object]) -> None:
        """Put a note in the place of the one that is there, which stays until the new is whole."""
        beside = self._note.with_name(f"{self._note.name}.{os.getpid()}.next")
        try:  # the lock is what counts
            refuse_special(self._note)
            beside.unlink(missing_ok=True)
            new = os.open(beside, _NEW, DISK.file_mode)
            try:
                _write_at_once(new, words)
                made = os.fstat(new)
            finally:
                os.close(new)  # some systems rename no open file
            beside.replace(self._note)
            self._descriptor = _opened_again(self._note, made)
        except OSError as error:
            with contextlib.suppress(OSError):
                beside.unlink(missing_ok=True)
            self._trouble(error)

    def _trouble(self, error: OSError) -> None:
        self.trouble = f"no note of who has the book is left there: {error.strerror or error}"

    def tell(self, last_saved: str) -> None:
        """Note the entry that was last acknowledged.

        It is not synced: that would cost as much as saving does. The system has it, so it outlives
        this program however it is ended; after a power cut it may say less than is so.

        Args:
            last_saved: Id of the entry; empty for none.
        """
        self._is_answered = True
        words = self._words | {"told": last_saved}
        if self._descriptor is None:
            self._leave_note(words)
            return
        try:
            os.lseek(self._descriptor, 0, os.SEEK_SET)
            _write_at_once(self._descriptor, words)
        except OSError as error:
            self._trouble(error)

    def _close_note(self) -> None:
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None

    def who(self) -> str:
        """Who holds it, in words."""
        try:
            note = self._read_note()
            words = f"process {note['process']} on {note['machine']} since {note['since']}"
        except (OSError, BadJson, TypeError, KeyError):
            return "another program"
        return plain(words)[:200]

    def release(self, *, settled: bool = True) -> None:
        """Let go of the lock.

        Args:
            settled: Whether it is known what became of every line; the note stays where not.
        """
        if self._lock.is_locked:
            settled = settled and (self.last_saved is None or self._is_answered)
            if settled and (self._is_answered or self._descriptor is not None):
                self._close_note()  # some systems remove no open file
                with contextlib.suppress(OSError):
                    refuse_special(self._note)
                    self._note.unlink(missing_ok=True)
            self._close_note()
            self._lock.release()


def _opened_again(note: Path, made: os.stat_result) -> int:
    descriptor = os.open(note, _AGAIN)
    if os.path.samestat(made, os.fstat(descriptor)):
        return descriptor
    os.close(descriptor)
    raise OSError(errno.ESTALE, "another program changed it")


def _write_at_once(descriptor: int, words: dict[str, object]) -> None:
    """Write a note, always as long as before; a program that is ended leaves it whole."""
    raw = json.dumps(words).encode("ascii").ljust(_NOTE_SIZE)
    if os.write(descriptor, raw) < len(raw):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
