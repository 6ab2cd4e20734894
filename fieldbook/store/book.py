"""A job's book: open it, record in it, see what others recorded."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING, Self

from fieldbook.quantities.admit import Refused, problems
from fieldbook.record.codec import to_document
from fieldbook.record.entry import Draft, Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.store.holder import Hold
from fieldbook.store.journal import Journal
from fieldbook.store.line import VERSION
from fieldbook.store.problem import Problem
from fieldbook.store.reading import LogFile, log_files, read_log, read_on
from fieldbook.store.writing import LogWriter

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path
    from types import TracebackType
    from typing import Any

Clock = Callable[[], dt.datetime]


class NotSaved(OSError):
    """An entry is not on disk; it is kept in hand, and recording the same draft tries it again."""

    def __init__(self, draft: Draft, why: str) -> None:
        super().__init__(why)
        self.draft = draft

    def __str__(self) -> str:
        return str(self.args[0])


class ReadOnly(NotSaved):
    """The book is held by another program, or cannot be written by this one."""


def local_time() -> dt.datetime:
    """Now, by this device's clock, with its offset from UTC."""
    return dt.datetime.now().astimezone()


class Book:
    """One job on disk, as one device sees it.

    Attributes:
        folder: The job's folder.
        device: The device that records.
        job: The fold over every entry that can be read.
        reports: Everything that was found wrong, in plain words.
        holder: Who keeps this book from being written, in words; None when it may be written.
    """

    def __init__(self, folder: Path, device: str, *, clock: Clock = local_time) -> None:
        """Use `open`."""
        self.folder = folder
        self.device = device
        self.job = Job()
        self.reports: list[Problem] = []
        self.holder: str | None = "it was opened to be read"
        self._clock = clock
        self._journal = Journal(self._append)
        self._logs: dict[str, LogFile] = {}
        self._hold: Hold | None = None
        self._writer: LogWriter | None = None
        self._in_hand: tuple[Draft, Entry] | None = None

    @classmethod
    def open(
        cls, folder: Path, device: str, *, clock: Clock = local_time, write: bool = True
    ) -> Self:
        """Open the job in `folder`.

        Where another program holds it, or the folder cannot be written, it opens to be read and
        `holder` says why.

        Raises:
            OSError: The folder cannot be read.
        """
        book = cls(folder, device, clock=clock)
        if write:
            book._take_hold()
        try:
            book._read_all()
            if book._hold is not None:
                book._start_writer()
        except BaseException:
            book.close()
            raise
        return book

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    @property
    def entries(self) -> Journal:
        """The entries as a TinyDB database, to be searched."""
        return self._journal

    @property
    def job_id(self) -> str:
        """The id that all logs of this job carry; empty when none can be read."""
        return next((log.job_id for log in self._logs.values() if log.job_id), "")

    def heads(self) -> dict[str, str]:
        """File name -> hash of its last good line, of every log file."""
        heads = {name: log.head for name, log in self._logs.items() if log.lines}
        if self._writer is not None and self._writer.path is not None:
            heads[self._writer.path.name] = self._writer.head
        return dict(sorted(heads.items()))

    def record(self, draft: Draft) -> Entry:
        """Put an entry on disk, and return it once it is there.

        Recording a draft again after `NotSaved` tries the very same entry again, so that it can
        never be there twice.

        Raises:
            Refused: It is nonsense; nothing is stored.
            NotSaved: It is not on disk; `ReadOnly` when this book may not be written.
        """
        if found := problems(draft):
            raise Refused("; ".join(found))
        if self._writer is None:
            raise ReadOnly(draft, f"the book cannot be written: {self.holder}")
        entry = self._entry(draft)
        try:
            self._journal.entries.insert(to_document(entry))
        except OSError as error:
            self._in_hand = (draft, entry)
            raise NotSaved(draft, error.strerror or str(error)) from error
        self._in_hand = None
        self.job.add(entry)
        return entry

    def reread(self) -> list[Entry]:
        """Take in what other devices and programs wrote since, and return the new entries.

        Raises:
            OSError: The folder cannot be read.
        """
        new: list[Entry] = []
        paths, _ = log_files(self.folder)
        for path in paths:
            if self._writer is not None and path == self._writer.path:
                continue
            log = self._logs.get(path.name)
            size = path.stat().st_size
            if log is not None and size == log.whole_bytes + len(log.torn):
                continue
            if log is not None and size > log.whole_bytes and not log.damaged:
                before = len(log.problems)
                new += self._add(read_on(log))
                self.reports += log.problems[before:]
            else:
                new += self._take(read_log(path))
        return new

    def close(self) -> None:
        """Let go of the files and of the hold."""
        if self._writer is not None:
            self._writer.close()
            self._writer = None
        if self._hold is not None:
            self._hold.release()
            self._hold = None
        self._journal.close()

    def _take_hold(self) -> None:
        hold = Hold(self.folder, self.device)
        try:
            if hold.take(local_time()):
                self._hold, self.holder = hold, None
            else:
                self.holder = hold.who()
        except OSError as error:
            self.holder = f"its folder cannot be written ({error.strerror or error})"

    def _read_all(self) -> None:
        paths, refused = log_files(self.folder)
        self.reports += refused
        for path in paths:
            self._take(read_log(path))
        for before, after in self.job.clock_jumps():
            words = f"the clock of {after.device} went back from entry {before.seq} to {after.seq}"
            self.reports.append(Problem(self.folder.name, 0, words, damage=False))

    def _take(self, log: LogFile) -> list[Entry]:
        known = self.job_id
        if log.version <= VERSION and known and log.job_id and log.job_id != known:
            self.reports.append(Problem(log.path.name, 1, "belongs to another job: not read"))
            return []
        self._logs[log.path.name] = log
        self.reports += log.problems
        return self._add([entry for _, entry in log.entries])

    def _add(self, entries: list[Entry]) -> list[Entry]:
        added = [entry for entry in entries if self.job.add(entry)]
        for entry in added:
            self._journal.take(to_document(entry))
        return added

    def _start_writer(self) -> None:
        if any(log.version > VERSION for log in self._logs.values()):
            self._give_up("a newer fieldbook wrote part of this job; update this one")
            return
        own = [log for log in self._logs.values() if log.device == self.device]
        writer = LogWriter(self.folder, self.device, self.job_id or new_id(local_time()))
        if own:
            try:
                writer.go_on_after(max(own, key=lambda log: (log.number, log.path.name)))
            except OSError as error:
                writer.close()
                self._give_up(f"its log cannot be written ({error.strerror or error})")
                return
        self._writer = writer

    def _give_up(self, why: str) -> None:
        self.holder = why
        if self._hold is not None:
            with contextlib.suppress(OSError):
                self._hold.release()
            self._hold = None

    def _entry(self, draft: Draft) -> Entry:
        if self._in_hand is not None and self._in_hand[0] == draft:
            return self._in_hand[1]
        time = self._clock()
        # The log keeps milliseconds, so that is all an entry has, before it is read again too.
        time = time.replace(microsecond=time.microsecond // 1000 * 1000)
        return Entry(
            id=new_id(time),
            seq=self.job.last_seq + 1,
            time=time,
            by=draft.by,
            device=self.device,
            kind=draft.kind,
            values=draft.values,
            note=draft.note,
            strikes=draft.strikes,
        )

    def _append(self, document: Mapping[str, Any]) -> None:
        assert self._writer is not None
        self._writer.append(dict(document))
