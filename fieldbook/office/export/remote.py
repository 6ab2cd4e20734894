"""Jobs that lie at an address instead of in a folder: an object store, a server.

What comes from there is fetched into a scratch folder and read there as a truck's folder is, under
names that we give. What goes there goes file by file, and only over what is still as it was when it
was fetched. An object store puts a file there in full or not at all; where a store does not, a file
that was cut off ends in a line that was never finished, and the next gathering mends it.
"""

from __future__ import annotations

import re
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import fsspec

from fieldbook.office.export.address import redacted, redacted_in
from fieldbook.quantities.plain import plain
from fieldbook.store.log.disk import DISK, make_folders
from fieldbook.store.log.problem import Problem
from fieldbook.store.shelf.names import folder_name

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from fsspec import AbstractFileSystem

_OURS = re.compile(
    r"[a-z0-9-]{1,48}-[0-9]{4}(~[0-9a-f]{12})?(\.jsonl|\.torn-[0-9a-f]{12})|[0-9a-f]{64}"
)
_FOLDER = re.compile(r"[A-Za-z0-9_-]{1,80}")
_AT_ONCE = 100
_JOBS = "jobs"


class CannotReach(Exception):
    """What is at an address cannot be read or written; the message says why, never a password."""


@dataclass(slots=True)
class Fetched:
    """Files that were fetched.

    Attributes:
        marks: Where each came from -> what tells whether it is still the same there.
        states: Where each lies now -> its state on disk as it was fetched.
    """

    marks: dict[str, tuple[Any, ...]] = field(default_factory=dict)
    states: dict[Path, tuple[int, int, int]] = field(default_factory=dict)


class Distant:
    """A place that an address names.

    Attributes:
        shown: The address without what opens it.
    """

    def __init__(self, address: str) -> None:
        """Reach for `address`, such as `s3://bucket/folder`.

        Raises:
            CannotReach: It is no address, or what speaks to such a place is not installed.
        """
        self._address = address
        self.shown = plain(redacted(address))
        with self._said():
            fs, root = fsspec.core.url_to_fs(address)
        self._fs: AbstractFileSystem = fs
        self._root = str(root).rstrip("/")

    def fetch(self, folder: Path, on_progress: Callable[[int, int], None]) -> Fetched:
        """Fetch every job below the address, each into a folder of its own in `folder`.

        Raises:
            CannotReach: It cannot be read, or there is nothing.
        """
        found = self._found()
        if not found:
            raise CannotReach(f"{self.shown}: there is no job there")
        wanted = {}
        for path, mark in found.items():
            parent, _, name = path.removeprefix(self._root).strip("/").rpartition("/")
            wanted[folder / folder_name(parent) / name] = (path, mark)
        return self._get(wanted, on_progress)

    def fetch_home(self, home: Path, on_progress: Callable[[int, int], None]) -> Fetched:
        """Fetch the shelf of a book whose home the address is, into the home `home`.

        Raises:
            CannotReach: It cannot be read.
        """
        wanted = {}
        for path, mark in self._found().items():
            parts = path.removeprefix(self._root).strip("/").split("/")
            if len(parts) == 3 and parts[0] == _JOBS and _FOLDER.fullmatch(parts[1]):
                wanted[home.joinpath(*parts)] = (path, mark)
        return self._get(wanted, on_progress)

    def put_home(
        self, home: Path, fetched: Fetched, on_progress: Callable[[int, int], None]
    ) -> list[Problem]:
        """Put what is new or changed in the shelf of `home` there, and say what could not be.

        Raises:
            CannotReach: It cannot be written; what was put before is there.
        """
        jobs = home / _JOBS
        ours = [path for path in sorted(jobs.glob("*/*")) if _OURS.fullmatch(path.name)]
        changed = [path for path in ours if fetched.states.get(path) != _state(path)]
        problems = []
        for done, path in enumerate(changed):
            on_progress(done, len(changed))
            to = f"{self._root}/{path.relative_to(home).as_posix()}"
            with self._said():
                if self._mark(to) != fetched.marks.get(to):
                    words = "was changed there meanwhile: not written, gather again"
                    problems.append(Problem(f"{path.parent.name}/{path.name}", 0, words))
                    continue
                raw = path.read_bytes()
                self._fs.makedirs(to.rpartition("/")[0], exist_ok=True)
                self._fs.pipe_file(to, raw)
                if self._fs.cat_file(to) != raw:
                    words = "is not there as it was written: gather again"
                    problems.append(Problem(f"{path.parent.name}/{path.name}", 0, words))
        on_progress(len(changed), len(changed))
        return problems

    def _found(self) -> dict[str, tuple[Any, ...]]:
        """The files of ours below the address, and the mark of each."""
        with self._said():
            self._fs.invalidate_cache()
            found = self._fs.find(self._root, detail=True)
        files = {str(path): _marked(info) for path, info in found.items()}
        return {path: mark for path, mark in files.items() if _is_ours(path, self._root)}

    def _get(
        self,
        wanted: dict[Path, tuple[str, tuple[Any, ...]]],
        on_progress: Callable[[int, int], None],
    ) -> Fetched:
        fetched = Fetched()
        local = list(wanted)
        for start in range(0, len(local), _AT_ONCE):
            on_progress(start, len(local))
            some = local[start : start + _AT_ONCE]
            for folder in {path.parent for path in some}:
                make_folders(folder, stay=False)
            with self._said():
                self._fs.get([wanted[path][0] for path in some], [str(path) for path in some])
            for path in some:
                DISK.close_to_others(path)
                there, mark = wanted[path]
                fetched.marks[there] = mark
                fetched.states[path] = _state(path)
        on_progress(len(local), len(local))
        return fetched

    def _mark(self, path: str) -> tuple[Any, ...] | None:
        self._fs.invalidate_cache()
        try:
            return _marked(self._fs.info(path))
        except FileNotFoundError:
            return None

    @contextmanager
    def _said(self) -> Iterator[None]:
        """Says in one line what went wrong; every kind of place has errors of its own."""
        try:
            yield
        except Exception as error:
            said = redacted_in(str(error), self._address).strip().split("\n")[0]
            said = said or type(error).__name__
            raise CannotReach(f"{self.shown}: {plain(said)[:200]}") from error


def _is_ours(path: str, root: str) -> bool:
    """Whether a file is a log, its torn tail or an attachment, at a place that is below `root`."""
    below = path.removeprefix(root).strip("/").split("/")
    return (
        path.startswith(root)
        and _OURS.fullmatch(below[-1]) is not None
        and not any(part in ("", ".", "..") for part in below)
    )


def _marked(info: dict[str, Any]) -> tuple[Any, ...]:
    tags = ("ETag", "etag", "mtime", "LastModified", "created")
    return (info.get("size"), *(str(info[tag]) for tag in tags if tag in info))


def _state(path: Path) -> tuple[int, int, int]:
    stat = path.stat()
    return stat.st_ino, stat.st_size, stat.st_mtime_ns
