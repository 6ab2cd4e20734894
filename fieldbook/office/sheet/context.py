"""All that a sheet is made from: the job and what the walk, the watch and the disk make of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fieldbook.office.sheet.inside import DESCRIBES, inside_of, without_inside
from fieldbook.office.sheet.seal_status import SealStatus, seal_stand
from fieldbook.record.job import Job
from fieldbook.walk.counts import Counts, counts
from fieldbook.walk.definition.loading import as_started, load
from fieldbook.walk.definition.steps import BadWalk
from fieldbook.walk.walk import Walk
from fieldbook.watch.lift.trace import Trace, pull_trace, trace
from fieldbook.watch.watcher import Look, Watcher

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.record.entry import Entry
    from fieldbook.record.memory import Memory
    from fieldbook.store.job.book import Book
    from fieldbook.walk.stand import WalkStatus


@dataclass(frozen=True, slots=True)
class SheetContext:
    """One job, ready to be printed.

    Attributes:
        folder: Where its logs and the files that were attached lie.
        job: The entries that are shown.
        walk: Its steps; none where the log does not say what the work is.
        stand: Where it is among them.
        look: What the checks see.
        trace: Expected and read over what is out; of the set, once there is one.
        pull_trace: That of the pull before the set; None where `trace` is it.
        counts: Joints and footage.
        seal: What the disk says of its record.
        memory: What earlier jobs on the well remember; None where none is known.
        inside: How many entries, or words beside them, this copy leaves out; None when it is the
            office's own.
        letterhead: Whose sheet it is, line by line.
    """

    folder: Path
    job: Job
    walk: Walk
    stand: WalkStatus
    look: Look
    trace: Trace
    pull_trace: Trace | None
    counts: Counts
    seal: SealStatus
    memory: Memory | None = None
    inside: int | None = None
    letterhead: tuple[str, ...] = ()

    @property
    def for_customer(self) -> bool:
        """Whether this is the customer's copy."""
        return self.inside is not None


def account_of(
    book: Book,
    company: Path | None = None,
    letterhead: tuple[str, ...] = (),
    memory: Memory | None = None,
) -> SheetContext:
    """The context of `book` as it is.

    Args:
        book: The open book.
        company: Folder of a company's own step files, if it has one.
        letterhead: Whose sheet it is, line by line.
        memory: What earlier jobs on the well remember.

    Raises:
        OSError: A log cannot be read.
        BadWalk: A company's step file is wrong.
    """
    job = book.job
    walk = _walk(job, company)
    look = Watcher(job).look()
    return SheetContext(
        folder=book.folder,
        job=job,
        walk=walk,
        stand=walk.stand(job),
        look=look,
        trace=trace(job, look),
        pull_trace=pull_trace(job, look),
        counts=counts(job),
        seal=seal_stand(book),
        memory=memory,
        letterhead=letterhead,
    )


def _walk(job: Job, company: Path | None) -> Walk:
    line, work = job.text("job", "line"), job.text("job", "work")
    try:
        load(line, work)
    except BadWalk:  # the log does not say, or not in words that we know
        return Walk(line, work, ())
    return as_started(load(line, work, company), job.text("job", "start"))


def customer_copy(context: SheetContext) -> SheetContext:
    """The same account without what the company keeps inside.

    Checks, holds, stops and what the crew passed are never inside: they are the customer's to know.
    """
    inside = inside_of(context.job)
    shown = Job(without_inside(context.job, inside))
    # A strike of what is left out is no entry of its own to be counted.
    left_out = sum(1 for entry in inside.values() if entry.kind != "strike")
    kept = (entry for entry in context.job.entries if entry.id not in inside)
    beside = sum(1 for entry in kept if entry.note and entry.kind in DESCRIBES)
    return replace(
        context, job=shown, seal=_unnamed(context.seal, inside), inside=left_out + beside
    )


def _unnamed(seal: SealStatus, inside: Mapping[str, Entry]) -> SealStatus:
    """What is wrong on disk, without the titles of files that are inside."""
    files = {entry.text("file_hash") for entry in inside.values()} - {""}
    damage = (
        replace(problem, words="a file of the company's own is missing or damaged")
        if problem.file in files
        else problem
        for problem in seal.damage
    )
    return replace(seal, damage=tuple(damage))
