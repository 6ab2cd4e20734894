"""Whether a job is sealed, what came after, and what keeps its record from being taken as whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.kinds import kinds
from fieldbook.store.gather.clashes import clashes
from fieldbook.store.job.attachments import attachment_problems
from fieldbook.store.job.clock import jump
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.seal import after_seal, seal_hash, seal_problems

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.store.job.book import Book
    from fieldbook.store.job.folder import JobFolder
    from fieldbook.store.log.logfile import LogFile
    from fieldbook.store.log.problem import Problem


@dataclass(frozen=True, slots=True)
class SealStatus:
    """What the disk says of a job's record.

    Attributes:
        seal: The newest seal that was not struck; None when the job is not sealed.
        hash: Over that seal, and so over every log it names; empty without one.
        earlier: The seals before it.
        after: Entries that the newest seal does not cover, in the order of the log.
        damage: What cannot be read, or is not what was sealed.
        lost: Between which entries a line cannot be read, and so what nothing is known of.
        clashes: Where two logs of the job cannot both be right.
        jumps: Where a device's clock went back.
    """

    seal: Entry | None = None
    hash: str = ""
    earlier: tuple[Entry, ...] = ()
    after: tuple[Entry, ...] = ()
    damage: tuple[Problem, ...] = ()
    lost: tuple[str, ...] = ()
    clashes: tuple[str, ...] = ()
    jumps: tuple[Problem, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the job is sealed and nothing is damaged."""
        return self.seal is not None and not self.damage


def seal_stand(book: Book) -> SealStatus:
    """What the logs of `book` say of its seal, read again from the disk.

    Raises:
        OSError: A log cannot be read.
    """
    logs = read_folder(book.folder)
    seals = book.job.live("seal")
    newest = seals[-1] if seals else None
    problems = (*book.reports, *seal_problems(logs), *attachment_problems(logs))
    found = {str(problem): problem for problem in problems}
    return SealStatus(
        seal=newest,
        hash=seal_hash(newest) if newest is not None else "",
        earlier=tuple(seals[:-1]),
        after=tuple(after_seal(book.folder, newest)) if newest is not None else (),
        damage=tuple(problem for problem in found.values() if problem.damage),
        lost=tuple(_lost(logs)),
        clashes=tuple(clashes(logs)),
        jumps=tuple(jump(before, after) for before, after in book.job.clock_jumps()),
    )


def _lost(logs: JobFolder) -> Iterator[str]:
    """In words that say when: what stood in a line that cannot be read is on no page."""
    for log in logs.logs.values():
        read = {number for number, _ in log.entries}
        lines = sorted({p.line for p in log.problems if p.damage and p.line > 1} - read)
        for line in lines:
            where = _between(log, line)
            yield f"An entry of {log.device} cannot be read, and is told nowhere: {where}"


def _between(log: LogFile, line: int) -> str:
    before = [entry for number, entry in log.entries if number < line]
    after = [entry for number, entry in log.entries if number > line]
    between = [f"after {_called(before[-1])}"] if before else []
    between += [f"before {_called(after[0])}"] if after else []
    return " and ".join(between) or "no other entry of that log can be read"


def _called(entry: Entry) -> str:
    return f"'{kinds()[entry.kind].label}' by {entry.by} at {entry.time:%Y-%m-%d %H:%M}"
