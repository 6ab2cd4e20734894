"""A job's book: open it, record in it, see what others recorded."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING, Self

from fieldbook.quantities.admit import Refused, new_problems
from fieldbook.record.codec import to_document
from fieldbook.record.entry import Draft, Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.store.job.clock import jump, local_time
from fieldbook.store.job.errors import NotSaved, ReadOnly
from fieldbook.store.job.folder import JobFolder, read_all
from fieldbook.store.job.journal import Journal
from fieldbook.store.job.lock import Hold
from fieldbook.store.job.readback import as_read_back, says_the_same
from fieldbook.store.log.line import TooLong
from fieldbook.store.log.problem import Problem
from fieldbook.store.log.seal import LIST, listed_apart, seal_hash, seal_note
from fieldbook.store.log.writer import LogWriter, as_begun

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence
    from pathlib import Path
    from types import TracebackType
    from typing import Any

    from fieldbook.store.job.clock import Clock
    from fieldbook.store.log.logfile import LogFile


class Book:
    """One job on disk, as one device sees it.

    Attributes:
        folder: The job's folder.
        device: The device that records.
        job: The fold over every entry that can be read.
        holder: Who keeps this book from being written, in words; None when it may be written.
        doubtful: This device's last entry, where it was written and nobody saw that it is
            saved, until another one is. It counts; a person has to say whether it does.
    """

    def __init__(self, folder: Path, device: str, *, clock: Clock = local_time) -> None:
        """Use `open`."""
        self.folder = folder
        self.device = device
        self.job = Job()
        self.holder: str | None = "it was opened to be read"
        self.doubtful: Entry | None = None
        self._clock = clock
        self._journal = Journal(self._append)
        self._files = JobFolder(folder)
        self._noted: list[Problem] = []
        self._hold: Hold | None = None
        self._writer: LogWriter | None = None
        self._newest: Entry | None = None
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
        return self._files.job_id

    @property
    def reports(self) -> list[Problem]:
        """Everything that was found wrong so far, in plain words."""
        return [*self._files.findings(), *self._noted]

    def now(self) -> dt.datetime:
        """The time by the clock that entries get theirs from."""
        return self._clock()

    def heads(self) -> dict[str, str]:
        """File name -> hash of its last good line, of every log file."""
        heads = {name: log.head for name, log in self._files.logs.items() if log.last_number}
        if self._writer is not None:
            heads |= self._writer.heads
        return dict(sorted(heads.items()))

    def record(self, draft: Draft) -> Entry:
        """Put an entry on disk, and return it once it is there.

        Recording a draft again after `NotSaved` tries the very same entry again, so that it can
        never be there twice; nor can what `doubtful` says, where it comes again. A `seal` gets
        the heads of all logs into its note; what does not fit is listed in entries before it.

        Raises:
            Refused: It is nonsense; nothing is stored.
            NotSaved: It is not on disk; `ReadOnly` when this book may not be written.
        """
        if found := new_problems(draft):
            raise Refused("; ".join(found))
        if self._writer is None or self._hold is None:
            raise ReadOnly(draft, f"the book cannot be written: {self.holder}")
        if self.doubtful is not None and says_the_same(draft, self.doubtful):
            return self._saved_after_all(self.doubtful, draft)
        return self._put(draft)

    def _put(self, draft: Draft) -> Entry:
        entry = self._entry(draft)
        self._in_hand = (draft, entry)
        try:
            self._journal.entries.insert(as_read_back(entry))
        except TooLong as error:
            raise Refused("far more than fits into one entry") from error
        except OSError as error:
            raise NotSaved(draft, error.strerror or str(error)) from error
        self._in_hand = self.doubtful = None
        self._tell(entry.id)
        self.job.add(entry)
        if self._newest is not None and entry.time < self._newest.time:
            self._noted.append(jump(self._newest, entry))
        self._newest = entry
        return entry

    def reread(self) -> list[Entry]:
        """Take in what other devices and programs wrote since, and return the new entries.

        Raises:
            OSError: The folder cannot be read.
        """
        own = self.device if self._writer is not None else None
        return self._add(self._files.read_new(own=own))

    def close(self) -> None:
        """Let go of the files and of the hold."""
        settled = self.doubtful is None
        if self._writer is not None:
            settled = self._writer.disown() and settled
            self._writer.close()
            self._writer = None
        if self._hold is not None:
            self._hold.release(settled=settled)
            self._hold = None
        self._journal.close()

    def _take_hold(self) -> None:
        hold = Hold(self.folder, self.device)
        try:
            if hold.take(local_time()):
                self._hold, self.holder = hold, None
                self._note_trouble(hold)
            else:
                self.holder = f"held by {hold.who()}; close it there first"
        except OSError as error:
            self.holder = f"its folder cannot be written ({error.strerror or error})"

    def _tell(self, entry_id: str) -> None:
        """Note which entry was reported as saved, which it is whether that can be noted or not."""
        assert self._hold is not None
        self._hold.tell(entry_id)
        self._note_trouble(self._hold)

    def _note_trouble(self, hold: Hold) -> None:
        if found := hold.trouble and Problem(hold.note, 0, hold.trouble, damage=False):
            self._noted += [found] if found not in self._noted else []

    def _read_all(self) -> None:
        self._files = read_all(self.folder)
        self._add(self._files.entries())
        self._noted += [jump(before, after) for before, after in self.job.clock_jumps()]

    def _add(self, entries: Iterable[Entry]) -> list[Entry]:
        added = [entry for entry in entries if self.job.add(entry)]
        for entry in added:
            self._journal.take(to_document(entry))
        own = [entry for entry in added if entry.device == self.device]
        if own:
            self._newest = max(own, key=lambda entry: entry.order)
        return added

    def _start_writer(self) -> None:
        logs = self._files.logs.values()
        if why := self._files.closed_to(self.device):
            self._give_up(why)
            return
        # Logs that cannot tell their job leave it open for their next file too: see `read_folder`.
        job_id = self.job_id or ("" if logs else new_id(local_time()))
        self._files.job_id = job_id
        self._writer = LogWriter(self.folder, self.device, job_id)
        own = as_begun(log for log in logs if log.device == self.device and not log.twin)
        torn = own[-1].torn if own else b""
        self._writer.go_on_after(own)
        self._look_at_last(own)
        if torn and self._writer.set_aside is not None:
            words = f"{len(torn)} bytes of a line that was never finished are set aside in"
            name = self._writer.set_aside.name
            self._noted.append(Problem(own[-1].path.name, 0, f"{words} {name}", damage=False))

    def _look_at_last(self, own: Sequence[LogFile]) -> None:
        """Look whether the last entry was acknowledged that this device wrote."""
        assert self._hold is not None
        last = next((log.entries[-1][1] for log in reversed(own) if log.entries), None)
        if last is not None and self._hold.last_saved not in (None, last.id):
            self.doubtful = last
        else:
            self._tell(last.id if last is not None else "")

    def _saved_after_all(self, entry: Entry, draft: Draft) -> Entry:
        """Take what comes again for the entry that is there already and was never acknowledged."""
        assert self._writer is not None
        try:
            self._writer.settle()
        except OSError as error:
            raise NotSaved(draft, error.strerror or str(error)) from error
        self.doubtful = None
        self._tell(entry.id)
        return entry

    def _give_up(self, why: str) -> None:
        self.holder = why
        if self._hold is not None:
            with contextlib.suppress(OSError):
                self._hold.release()
            self._hold = None

    def _entry(self, draft: Draft) -> Entry:
        if self._in_hand is not None and self._in_hand[0] == draft:
            return self._in_hand[1]
        note = draft.note if draft.kind != "seal" else self._sealing(draft)
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
            note=note,
            strikes=draft.strikes,
        )

    def _sealing(self, draft: Draft) -> str:
        """The note of a seal, after what it does not hold is listed."""
        assert self._writer is not None
        with contextlib.suppress(OSError):
            self.reread()
        listed: dict[str, str] = {}
        heads, more = self.heads(), ""
        while some := listed_apart(draft.note, heads, more, self._writer.file):
            try:
                entry = self._put(Draft(LIST, draft.by, note=seal_note("", some, more)))
            except NotSaved as problem:
                raise NotSaved(draft, str(problem)) from problem.__cause__
            listed |= some
            heads = {name: h for name, h in self.heads().items() if listed.get(name) != h}
            more = seal_hash(entry)
        return seal_note(draft.note, heads, more)

    def _append(self, document: Mapping[str, Any]) -> None:
        assert self._writer is not None
        self._writer.append(dict(document))
