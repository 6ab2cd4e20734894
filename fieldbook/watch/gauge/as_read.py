"""The job with gauge and rig as they were when a reading was read: what was read stays read.

A zero, a place or a part of line that is written over afterwards makes no other load of it. So
the newest reading is held against both, until another is taken or it is struck.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.in_use import came_into_use
from fieldbook.record.job import Job

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry

_ADD_UP = ("gauge", "rig")
"""Kinds whose entries add up to one thing, the newest figure counting."""
_NAMES = frozenset({"library_item", "gauge_name", "rig_name", "step"})


def as_read(job: Job, reading: Entry) -> Job | None:
    """The job with gauge and rig as they were then; None where nothing else was written since.

    What nobody had written by then is taken as it was written first: a crew may read before it
    describes the gauge.
    """
    kept: dict[str, Entry | None] = {}
    for kind in _ADD_UP:
        kept |= {entry.id: new for entry, new in _first_said(job, kind, reading)}
    kept |= {entry.id: None for entry in _pulleys_since(job, reading)}
    if not kept:
        return None
    entries = (kept.get(entry.id, entry) for entry in job.entries)
    return Job(entry for entry in entries if entry is not None)


def _first_said(job: Job, kind: str, reading: Entry) -> Iterator[tuple[Entry, Entry | None]]:
    """Each later entry that says a figure again, without it; None for one of another thing."""
    live = job.live(kind)
    other = came_into_use(kind, live)
    said: set[str] = set()
    for entry in live:
        if entry.order < reading.order:
            said |= entry.values.keys()
            continue
        if not said:
            said |= entry.values.keys()
            continue
        if other is not None and reading.order < other.order <= entry.order:
            yield entry, None
            continue
        values = {n: v for n, v in entry.values.items() if n not in said}
        said |= values.keys()
        if len(values) < len(entry.values):
            values = {n: v for n, v in values.items() if n not in _NAMES}
            yield entry, entry._replace(values=values)


def _pulleys_since(job: Job, reading: Entry) -> list[Entry]:
    """Pulleys that were written after the reading, where some stood before it."""
    pulleys = job.live("redirect")
    if not any(entry.order < reading.order for entry in pulleys):
        return []
    return [entry for entry in pulleys if entry.order > reading.order]
