"""A disk whose calls fail when they are told to, until somebody mends it."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldbook.store.log.disk import DISK, Disk

CALLS = ("open_append", "write", "sync", "sync_folder", "truncate", "close", "replace", "remove")
"""What saving an entry may call."""
FOLDER_CALLS = ("make_folder", "remove_folder")


class FailingDisk(Disk):
    """The real disk; `fails` is asked at each call, by its number from 1.

    A write that fails has put half of its bytes there, and a close that fails has closed. Nothing
    is synced, as the power stays on; that makes many runs quick.
    """

    def __init__(self, fails: Callable[[int], bool] = lambda _: False, error: int = 0) -> None:
        self.made: list[str] = []
        self.failed: list[str] = []
        self.mended = False
        self._fails = fails
        self._error = error

    def install(self, patch: pytest.MonkeyPatch) -> None:
        for call in (*CALLS, *FOLDER_CALLS):
            patch.setattr(DISK, call, getattr(self, call))

    def _call(self, name: str) -> None:
        self.made.append(name)
        if not self.mended and self._fails(len(self.made)):
            self.failed.append(name)
            raise OSError(self._error, os.strerror(self._error))

    def open_append(self, path: Path, *, new: bool) -> int:
        self._call("open_append")
        return super().open_append(path, new=new)

    def write(self, descriptor: int, raw: bytes) -> None:
        try:
            self._call("write")
        except OSError:
            super().write(descriptor, raw[: len(raw) // 2])
            raise
        super().write(descriptor, raw)

    def sync(self, descriptor: int) -> None:  # noqa: ARG002 - as on a real disk
        self._call("sync")

    def sync_folder(self, folder: Path) -> None:  # noqa: ARG002 - as on a real disk
        self._call("sync_folder")

    def truncate(self, descriptor: int, size: int) -> None:
        self._call("truncate")
        super().truncate(descriptor, size)

    def close(self, descriptor: int) -> None:
        super().close(descriptor)
        self._call("close")

    def replace(self, source: Path, target: Path) -> None:
        self._call("replace")
        super().replace(source, target)

    def remove(self, path: Path) -> None:
        self._call("remove")
        super().remove(path)

    def make_folder(self, path: Path) -> None:
        self._call("make_folder")
        super().make_folder(path)

    def remove_folder(self, path: Path) -> None:
        self._call("remove_folder")
        super().remove_folder(path)
