"""The index of a shelf: a TinyDB database of summaries, so that not every job need be read.

It is derived from the jobs' logs, lies beside them in the home, and is never the only copy of
anything: it may be thrown away at any time. Every line carries a checksum; a line that is damaged,
or whose job has changed on disk since, is made again from the logs.
"""

from __future__ import annotations

import contextlib
import json
import os
import re
import threading
import zlib
from typing import TYPE_CHECKING, Any

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Table

from fieldbook.small_file import open_plain, refuse_linked
from fieldbook.store.log.disk import make_folders, write_whole
from fieldbook.store.shelf.summary import Summary, words_of
from fieldbook.store.shelf.summary_shape import is_summary

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

JOBS = "jobs"
VERSION = 6
FIRST_PAGE = 60
"""Jobs in the file that is read before the first paint; more than a tall screen shows."""
_KEEP_EVERY = 500
_LONGEST_LINE = 4 * 2**20  # bytes; a summary of a whole job has a few thousand
_WRITING = threading.Lock()  # a file being written is named by its process, not by its thread
_LOG = re.compile(r".+\.jsonl")
Stamp = list[list[Any]]
Read = dict[str, Summary]


class IndexStorage(Storage):
    """The summaries by folder name, the newest saved first; on disk a line each."""

    def __init__(self, folder: Path) -> None:
        """Keep the index in `folder`."""
        self._path = folder / "jobs.jsonl"
        self._first = folder / "newest.jsonl"
        self._loading = threading.Lock()
        self._documents: Read | None = None

    def read(self) -> dict[str, Read]:
        """The whole state, as TinyDB keeps it."""
        with self._loading:
            if self._documents is None:
                _, summaries = _read(self._path)
                self._documents = {s["folder"]: s | {"words": words_of(s)} for s in summaries}
            return {JOBS: self._documents}

    def write(self, data: dict[str, Read]) -> None:
        """Put the whole state on disk, in full or not at all.

        Raises:
            OSError: It could not be written; what was on disk before still is.
        """
        documents = dict(sorted(data.get(JOBS, {}).items(), key=_newest_first))
        self._documents = documents
        raw = [_line(doc) for doc in documents.values() if not doc.get("passing")]
        head = _line({"version": VERSION, "jobs": len(raw)})
        with _WRITING:
            refuse_linked(self._path.parent)
            make_folders(self._path.parent)
            write_whole(self._path, b"".join([head, *raw]))
            write_whole(self._first, b"".join([head, *raw[:FIRST_PAGE]]))

    def newest(self) -> tuple[list[Summary], int]:
        """The newest jobs, and how many there are, as last read or kept."""
        if self._documents is not None:
            return list(self._documents.values())[:FIRST_PAGE], len(self._documents)
        head, summaries = _read(self._first)
        newest = list(summaries)
        return newest, max(len(newest), head["jobs"])


class JobTable(Table):
    """The summaries; a document's id is the name of the job's folder."""

    document_id_class = str  # type: ignore[assignment] # TinyDB counts, folders have names


class Index(TinyDB):
    """The index of one shelf as a TinyDB database."""

    table_class = JobTable
    default_table_name = JOBS

    def __init__(self, folder: Path, jobs: Path) -> None:
        """Open the index that lies in `folder`, of the jobs in the folder `jobs`."""
        super().__init__(folder, storage=IndexStorage)
        self._jobs = jobs
        self._refreshing = threading.Lock()

    @property
    def _state(self) -> IndexStorage:
        assert isinstance(self.storage, IndexStorage)
        return self.storage

    def newest(self) -> tuple[list[Summary], int]:
        """The newest jobs, as last kept, and how many jobs there were: read without a look."""
        return self._state.newest()

    def documents(self) -> list[Summary]:
        """Every summary, the newest saved first, as of the last refresh."""
        return list(self._state.read()[JOBS].values())

    def refresh(
        self,
        read: Callable[[Path], Summary | None],
        *,
        basis: str = "",
        on_progress: Callable[[int, int], None] = lambda _done, _of: None,
    ) -> None:
        """Read again what changed on disk since it was read, and keep the index.

        Args:
            read: Gives the summary of the job in a folder, None where there is no job. A summary
                that must not be kept has a true `passing`.
            basis: What the words of `status_of` rest on besides the logs; a job whose words rest on
                something else is read again. Empty: no matter.
            on_progress: Is called with how many of the jobs to read are read.

        Raises:
            OSError: The folder of the jobs cannot be read; the index is as it was.
        """
        with self._refreshing:
            known = self._state.read()[JOBS]
            there = dict(_stamps(self._jobs))
            stale = [n for n, stamp in there.items() if not _is_fresh(known.get(n), stamp, basis)]
            new = {name: doc for name, doc in known.items() if name in there}
            changed = len(new) != len(known)
            for done, name in enumerate(stale):
                on_progress(done, len(stale))
                changed = _put(new, name, read(self._jobs / name)) or changed
                if name in new:
                    new[name] |= {"stamp": there[name], "basis": basis}
                if done % _KEEP_EVERY == _KEEP_EVERY - 1:
                    self._keep(dict(new))
            on_progress(len(stale), len(stale))
            if changed:
                self._keep(new)

    def _keep(self, documents: Read) -> None:
        for document in documents.values():
            if "words" not in document:
                document["words"] = words_of(document)
        # Where it cannot be kept it is made again next time: nothing but time is lost.
        with contextlib.suppress(OSError):
            self._state.write({JOBS: documents})
        self.table(JOBS).clear_cache()


def _put(documents: Read, name: str, document: Summary | None) -> bool:
    """Put a summary in its place; whether anything is other than before."""
    if document is None:
        return documents.pop(name, None) is not None
    documents[name] = document
    return True


def _is_fresh(document: Summary | None, stamp: Stamp, basis: str) -> bool:
    return (
        document is not None
        and not document.get("passing")
        and document.get("stamp") == stamp
        and (not basis or document.get("basis") == basis)
    )


def _stamps(jobs: Path) -> Iterator[tuple[str, Stamp]]:
    """Each job's folder and, of each log in it, name, length and time of its last change."""
    try:
        names = [folder.name for folder in os.scandir(jobs) if folder.is_dir()]
    except FileNotFoundError:  # no job was begun yet
        return
    for name in names:
        try:
            with os.scandir(jobs / name) as found:
                logs = [entry for entry in found if _LOG.fullmatch(entry.name)]
            stats = [(log.name, log.stat(follow_symlinks=False)) for log in logs]
        except OSError:
            yield name, [["", -1, -1]]
            continue
        if stats:
            yield name, sorted([log, stat.st_size, stat.st_mtime_ns] for log, stat in stats)


def _newest_first(item: tuple[str, Summary]) -> tuple[float, str]:
    return -item[1].get("at", 0.0), item[1].get("number", item[0])


def _line(document: Summary) -> bytes:
    kept = {name: value for name, value in document.items() if name != "words"}
    raw = json.dumps(kept, ensure_ascii=True, separators=(",", ":")).encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(raw), raw)


def _read(path: Path) -> tuple[dict[str, Any], Iterator[Summary]]:
    """The first line, and every summary that is what was written; none where it is of no use."""
    lines = _lines(path)
    head = next(lines, {})
    if head.get("version") != VERSION or not isinstance(head.get("jobs"), int):
        return {"jobs": 0}, iter(())
    return head, (line for line in lines if is_summary(line))


def _lines(path: Path) -> Iterator[dict[str, Any]]:
    with contextlib.suppress(OSError):
        refuse_linked(path.parent)
        with open_plain(path) as file:
            while line := file.readline(_LONGEST_LINE):
                if (document := _whole(line)) is not None:
                    yield document


def _whole(line: bytes) -> dict[str, Any] | None:
    checksum, _, raw = line.rstrip(b"\n").partition(b" ")
    if checksum != b"%08x" % zlib.crc32(raw):
        return None
    try:
        document = json.loads(raw)
    except (ValueError, RecursionError):
        return None
    return document if isinstance(document, dict) else None
