"""The days of a job: when somebody was at the well, and when the work was over."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_AT_THE_WELL = (
    "arrival", "level", "meter", "load", "joint", "footage", "drain", "pump_out", "fitted",
    "depth", "line_test", "chlorine", "tank", "sample",
)  # fmt: skip
_RECORD_COMPLETE = "close.record"


def day_of(entry: Entry) -> dt.date:
    """The day an entry speaks of: that on its paper, else that of the device's clock."""
    written = entry.text("written_on")
    return dt.date.fromisoformat(written) if written else entry.time.date()


def days_at_the_well(job: Job) -> list[dt.date]:
    """Every day on which something was measured or moved, the first one first."""
    return sorted(day_of(entry) for kind in _AT_THE_WELL for entry in job.live(kind))


def closings(job: Job) -> list[Entry]:
    """The entries that say that the work is over: the record said to be complete, the seals."""
    complete = [e for e in job.live("hold") if e.text("step") == _RECORD_COMPLETE]
    return sorted([*complete, *job.live("seal")], key=lambda entry: entry.order)


def finished_on(job: Job) -> dt.date | None:
    """The last day on which something was measured or moved; None while the work goes on.

    The day of the work counts and not that of the paper, so that no day to file by comes out too
    late.
    """
    days = days_at_the_well(job)
    return days[-1] if days and closings(job) else None
