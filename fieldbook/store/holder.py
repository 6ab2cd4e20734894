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
from fieldbook.store.disk import DISK
from fieldbook.store.strict_json import BadJson, read_json

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

_LONGEST_NOTE = 4096


class Hold:
    """The lock on one device's files in one job's folder.

    The operating system frees it when the process dies, however it dies. The note beside it only
    says who it is, and is believed only while the lock is held.
    """

    def __init__(self, folder: Path, device: str) -> None:
        """Lock for `device` in `folder`; nothing is taken yet."""
        lock = folder / f".{device}.lock"
        self._lock = FileLock(lock, mode=DISK.file_mode, thread_local=False)  # as a log
        self._note = folder / f".{device}.holder"

    def take(self, now: dt.datetime | None = None) -> bool:
        """Take the lock; False when another program has it.

        Args:
            now: The time for the note of who has it. Without it no note is left, for a lock that
                is held for a moment only: the note costs more than what is done under the lock.

        Raises:
            OSError: The folder cannot be written.
        """
        try:
            self._lock.acquire(blocking=False)
        except Timeout:
            return False
        except NotImplementedError as error:
            raise OSError(errno.ENOLCK, "this file system cannot lock a file") from error
        if now is not None:
            self._leave_note(now)
        else:
            self._take_note_away()  # one that a killed program left behind would name the wrong one
        return True

    def _leave_note(self, now: dt.datetime) -> None:
        words = {
            "process": os.getpid(),
            "machine": socket.gethostname(),
            "since": now.isoformat(timespec="seconds"),
        }
        with contextlib.suppress(OSError):  # the lock is what counts
            self._note.write_text(json.dumps(words), encoding="utf-8")
            DISK.close_to_others(self._note)

    def _take_note_away(self) -> None:
        with contextlib.suppress(OSError):
            self._note.unlink()

    def who(self) -> str:
        """Who holds it, in words."""
        try:
            with self._note.open("rb") as file:
                note = read_json(file.read(_LONGEST_NOTE))
            words = f"process {note['process']} on {note['machine']} since {note['since']}"
        except (OSError, BadJson, TypeError, KeyError):
            return "another program"
        return plain(words)[:200]

    def release(self) -> None:
        """Let go of the lock."""
        if self._lock.is_locked:
            self._take_note_away()
            self._lock.release()
