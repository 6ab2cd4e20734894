"""A file system that keeps nothing which was not synced, and a process that dies at any call.

It does what it is told on the real disk, and keeps beside that what a power cut would be sure to
leave. What was not synced may be there, in part or not at all: a write as a piece of itself, as
zeros or as nothing; a new name, a removed one or a rename each for itself.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from fieldbook.store.log.disk import DISK, Disk

CALLS = ("open_append", "write", "sync", "sync_folder", "truncate", "close", "replace", "remove",
         "make_folder", "remove_folder")  # fmt: skip


class ProcessDied(BaseException):
    """The process is gone; what it had done stays visible, and some of it may not be on disk."""


def _within(folder: Path, paths: Iterable[Path]) -> list[Path]:
    """Those of `paths` that are in a folder, or that are it."""
    return [path for path in paths if path == folder or folder in path.parents]


@dataclass
class File:
    durable: bytes = b""
    seen: bytes = b""
    pending: list[tuple[int, bytes | None]] = field(default_factory=list)

    def put(self, offset: int, raw: bytes | None) -> None:
        self.pending.append((offset, raw))
        self.seen = self.seen[:offset] + (raw or b"")

    def after_a_cut(self, chance: random.Random) -> bytes:
        content = self.durable
        for offset, raw in self.pending:
            fate = chance.randrange(5)
            if fate == 0:
                continue
            if raw is None:
                content = content[:offset]
                continue
            kept = {
                1: raw,
                2: raw[: chance.randrange(len(raw) + 1)],
                3: bytes(len(raw)),
                4: bytes(len(raw) // 2) + raw[len(raw) // 2 :],
            }[fate]
            content = content[:offset].ljust(offset, b"\0") + kept
        return content


class ModelDisk(Disk):
    """Counts its calls, dies at the one it is told to, and knows what would be left."""

    def __init__(self, root: Path, dies_at: int | None = None) -> None:
        self.root = root
        self.calls = 0
        self.dies_at = dies_at
        self._files: dict[Path, File] = {}
        self._open: dict[int, File] = {}
        self._kept: dict[Path, File | None] = {root: None}
        self._names: list[tuple[Path, Callable[[dict[Path, File | None]], None]]] = []

    def install(self, patch: pytest.MonkeyPatch) -> None:
        for call in CALLS:
            patch.setattr(DISK, call, getattr(self, call))

    def _count(self) -> None:
        self.calls += 1
        if self.dies_at is not None and self.calls >= self.dies_at:
            raise ProcessDied  # and nothing that is tried afterwards happens

    def open_append(self, path: Path, *, new: bool) -> int:
        self._count()
        descriptor = super().open_append(path, new=new)
        if new:
            made = self._files[path] = File()
            self._names.append((path.parent, lambda names: names.__setitem__(path, made)))
        self._open[descriptor] = self._files[path]
        return descriptor

    def write(self, descriptor: int, raw: bytes) -> None:
        file = self._open[descriptor]
        half = len(raw) // 2
        for piece in (raw[:half], raw[half:]):  # it may die between two pieces of a line
            self._count()
            super().write(descriptor, piece)
            file.put(len(file.seen), piece)

    def sync(self, descriptor: int) -> None:
        self._count()
        file = self._open[descriptor]
        file.durable = file.seen
        file.pending.clear()

    def sync_folder(self, folder: Path) -> None:
        self._count()
        for where, change in self._names:
            if where == folder:
                change(self._kept)
        self._names = [made for made in self._names if made[0] != folder]

    def truncate(self, descriptor: int, size: int) -> None:
        self._count()
        super().truncate(descriptor, size)
        self._open[descriptor].put(size, None)

    def close(self, descriptor: int) -> None:
        super().close(descriptor)
        del self._open[descriptor]

    def replace(self, source: Path, target: Path) -> None:
        self._count()
        super().replace(source, target)
        folder, moved = target.is_dir(), self._files.get(source)
        for path in _within(source, self._files):
            self._files[target / path.relative_to(source)] = self._files.pop(path)

        def change(names: dict[Path, File | None]) -> None:
            for path in _within(source, names):
                names[target / path.relative_to(source)] = names.pop(path)
            names[target] = None if folder else moved

        self._names.append((target.parent, change))

    def remove_folder(self, path: Path) -> None:
        self._count()
        super().remove_folder(path)
        for gone in _within(path, self._files):
            del self._files[gone]

        def change(names: dict[Path, File | None]) -> None:
            for gone in _within(path, names):
                del names[gone]

        self._names.append((path.parent, change))

    def remove(self, path: Path) -> None:
        self._count()
        super().remove(path)
        self._files.pop(path, None)

        def change(names: dict[Path, File | None]) -> None:
            names.pop(path, None)

        self._names.append((path.parent, change))

    def make_folder(self, path: Path) -> None:
        self._count()
        super().make_folder(path)
        self._names.append((path.parent, lambda names: names.__setitem__(path, None)))

    def after_a_cut(self, target: Path, chance: random.Random) -> None:
        """Lay out under `target` one of the states that a power cut now may leave."""
        names = dict(self._kept)
        for _, change in self._names:
            if chance.random() < 0.5:
                change(names)
        for path in sorted(names):
            file = names[path]
            place = target / path.relative_to(self.root)
            if not place.parent.is_dir() and place != target:
                continue  # its folder did not stay
            if file is None:
                place.mkdir(exist_ok=True)
            else:
                place.write_bytes(file.after_a_cut(chance))
