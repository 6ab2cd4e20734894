"""What the logs of one job say differently, in words for a person to settle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.job import Job
from fieldbook.record.tally import tally

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.store.job.folder import JobFolder


def clashes(folder: JobFolder, job: Job | None = None) -> list[str]:
    """Everything in which two logs of a job cannot both be right.

    Args:
        folder: The logs.
        job: What they add up to, where that is known already.
    """
    job = job or Job(folder.entries())
    return [*_files(folder), *_contents(folder), *_strikes(job), *_counts(job)]


def _files(folder: JobFolder) -> Iterator[str]:
    for name, log in folder.logs.items():
        if log.twin:
            first = f"{log.device}-{log.number:04d}.jsonl"
            yield (
                f"{name} and {first} do not go on from one another: one of them was altered or"
                " spoiled; both are kept and read"
            )


def _contents(folder: JobFolder) -> Iterator[str]:
    """Entries of one id that say different things: only the first of them is counted."""
    first: dict[str, Entry] = {}
    for entry in folder.entries():
        known = first.setdefault(entry.id, entry)
        if known is not entry and known != entry:
            yield f"entry {entry.seq} of {entry.device} says two different things: one was altered"


def _strikes(job: Job) -> Iterator[str]:
    for entry in job.entries:
        if job.is_live(entry):
            continue
        strikers = job.struck_by(entry)
        if len({striker.device for striker in strikers}) > 1:
            who = " and ".join(striker.by for striker in strikers)
            yield f"entry {entry.seq} of {entry.device} was crossed out twice, by {who}"


def _counts(job: Job) -> Iterator[str]:
    for direction in ("out", "in"):
        counted = tally(job.live("joint"), direction)
        for number in counted.doubles:
            entries = "; ".join(_entry_words(entry) for entry in counted.joints[number])
            yield f"joint {number} {direction} is recorded more than once: {entries}"


def _entry_words(entry: Entry) -> str:
    length = entry.text("joint_length") or "no length"
    when = f"{entry.time:%Y-%m-%d %H:%M}"
    return f"{length} by {entry.by} at {when}, entry {entry.seq} of {entry.device}"
