"""More out, or in, than the string has: the record contradicts itself; what hangs is unknown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.footage import footage
from fieldbook.record.string import is_planned, newest_move
from fieldbook.record.tally import tally

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.string import StringRecord

_COUNTER_OFF = 0.05
"""Share by which a reel counter may run past the whole hose, from stretch and slip: ours."""


def beyond(
    job: Job, record: StringRecord, *, joints_out: int | None = None, at: Entry | None = None
) -> str:
    """What went out, or in, beyond the whole string, in words; empty where nothing did.

    Args:
        job: The job.
        record: Its string as recorded.
        joints_out: Ask about this many joints out instead of where the job is.
        at: Ask about the moment of this entry, with nothing that came after it.
    """
    joints, hose = len(record.joint_ends), record.hose_ft
    if record.unmeasured or not (joints or hose):
        return ""
    if joints_out is not None:
        return _joints(joints_out, joints, "out")
    if is_planned(job, at):
        return ""
    newest = newest_move(job, at)
    way = newest.text("direction") if newest is not None else "out"
    if joints:
        return _joints(tally(_before(job, "joint", at), way).count, joints, way)
    moved = footage(_before(job, "footage", at), way, hose).feet or 0.0
    if moved <= hose * (1.0 + _COUNTER_OFF):
        return ""
    return f"{moved:,.0f} ft of hose {way}, {hose:,.0f} in the string: one of the two is wrong"


def _joints(moved: int, joints: int, way: str) -> str:
    if moved <= joints:
        return ""
    return f"{moved} joints {way}, {joints} in the string: one of the two is wrong"


def _before(job: Job, kind: str, at: Entry | None) -> list[Entry]:
    return [entry for entry in job.live(kind) if at is None or entry.order < at.order]
