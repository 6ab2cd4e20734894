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
from fieldbook.store.disk import DISK
from fieldbook.store.strict_json import BadJson, read_json

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

_LONGEST_NOTE = 4096
_LIKE_A_LOG = 0o644
"""Who may not write a log cannot hold it; for a wider mode the library tries out each folder."""


class Hold:
    """The lock on one device's files in one job's folder.

    The operating system frees it when the process dies, however it dies. The note beside it only
    says who it is, and is believed only while the lock is held.

    Attributes:
        trouble: Why no note could be left, in words; empty where one was, or none was wanted.
    """

    def __init__(self, folder: Path, device: str) -> None:
        """Lock for `device` in `folder`; nothing is taken yet."""
        self._path = folder / f".{device}.lock"
        self._lock = FileLock(self._path, mode=_LIKE_A_LOG, thread_local=False)
        self._note = folder / f".{device}.holder"
        self.trouble = ""

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
        if now is not None:
            self._leave_note(now)
        else:
            with contextlib.suppress(OSError):  # a killed program's would name the wrong one
                self._take_note_away()
        return True

    def _leave_note(self, now: dt.datetime) -> None:
        words = {
            "process": os.getpid(),
            "machine": socket.gethostname(),
            "since": now.isoformat(timespec="seconds"),
        }
        try:  # the lock is what counts
            self._take_note_away()
            descriptor = DISK.open_append(self._note, new=True)
        except OSError as error:
            self.trouble = f"no note of who has the book is left there: {error.strerror or error}"
            return
        with contextlib.suppress(OSError), os.fdopen(descriptor, "wb") as file:
            file.write(json.dumps(words).encode("ascii"))

    def _take_note_away(self) -> None:
        refuse_special(self._note)
        self._note.unlink(missing_ok=True)

    def who(self) -> str:
        """Who holds it, in words."""
        try:
            note = read_json(read_small(self._note, _LONGEST_NOTE))
            words = f"process {note['process']} on {note['machine']} since {note['since']}"
        except (OSError, BadJson, TypeError, KeyError):
            return "another program"
        return plain(words)[:200]

    def release(self) -> None:
        """Let go of the lock."""
        if self._lock.is_locked:
            with contextlib.suppress(OSError):
                self._take_note_away()
            self._lock.release()
