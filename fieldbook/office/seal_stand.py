"""Whether a job is sealed, what came after, and what keeps its record from being taken as whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.store.attachments import attachment_problems
from fieldbook.store.clashes import clashes
from fieldbook.store.clockwork import jump
from fieldbook.store.folder import read_folder
from fieldbook.store.seal import after_seal, seal_hash, seal_problems

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.store.book import Book
    from fieldbook.store.problem import Problem


@dataclass(frozen=True, slots=True)
class SealStand:
    """What the disk says of a job's record.

    Attributes:
        seal: The newest seal that was not struck; None when the job is not sealed.
        hash: Over that seal, and so over every log it names; empty without one.
        earlier: The seals before it.
        after: Entries that the newest seal does not cover, in the order of the log.
        damage: What cannot be read, or is not what was sealed.
        clashes: Where two logs of the job cannot both be right.
        jumps: Where a device's clock went back.
    """

    seal: Entry | None = None
    hash: str = ""
    earlier: tuple[Entry, ...] = ()
    after: tuple[Entry, ...] = ()
    damage: tuple[Problem, ...] = ()
    clashes: tuple[str, ...] = ()
    jumps: tuple[Problem, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the job is sealed and nothing is damaged."""
        return self.seal is not None and not self.damage


def seal_stand(book: Book) -> SealStand:
    """What the logs of `book` say of its seal, read anew from the disk.

    Raises:
        OSError: A log cannot be read.
    """
    logs = read_folder(book.folder)
    seals = book.job.live("seal")
    newest = seals[-1] if seals else None
    problems = (*book.reports, *seal_problems(logs), *attachment_problems(logs))
    found = {str(problem): problem for problem in problems}
    return SealStand(
        seal=newest,
        hash=seal_hash(newest) if newest is not None else "",
        earlier=tuple(seals[:-1]),
        after=tuple(after_seal(book.folder, newest)) if newest is not None else (),
        damage=tuple(problem for problem in found.values() if problem.damage),
        clashes=tuple(clashes(logs)),
        jumps=tuple(jump(before, after) for before, after in book.job.clock_jumps()),
    )
