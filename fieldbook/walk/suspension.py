"""Work that was stopped for now: how it was left, and what must be looked at on return."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.convert import number_in
from fieldbook.quantities.units import show_unit
from fieldbook.walk.entry.entry_words import words_of

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

_LEFT_OPEN = {"well_covered": "the well is NOT covered", "locks_on": "the locks are NOT on"}


def left_open(said: Entry) -> str:
    """What an entry that suspends or resumes the work says is not as it must be; or nothing."""
    return " and ".join(words for name, words in _LEFT_OPEN.items() if said.text(name) == "no")


def gauge_moved(said: Entry, job: Job) -> str:
    """How far the gauge is from where it was left, where that is more than the gauge may err.

    Each of the two readings may be off by the gauge's error; where that is not known, any
    difference is named.

    Args:
        said: The entry that resumes the work; of any other, nothing is named.
        job: The job that holds it.
    """
    stopped = job.last("suspend")
    now = said.values.get("gauge_reading")
    was = stopped.values.get("gauge_reading") if stopped is not None else None
    if said.kind != "resume" or now is None or was is None or now.number is None:
        return ""
    left = number_in(was, now.unit)
    error = job.value("gauge", "gauge_error")
    if abs(now.number - left) <= 2.0 * (number_in(error, now.unit) if error is not None else 0.0):
        return ""
    return f"the gauge reads {now.number:,.0f}, left at {left:,.0f} {show_unit(now.unit)}"


def as_left(step: Step, job: Job) -> str:
    """For the step that takes the work up again: how it was left, to be compared."""
    stopped = job.last("suspend")
    if step.when != "work suspended" or stopped is None:
        return ""
    return f"As it was left {stopped.time:%m-%d %H:%M} by {stopped.by}: {words_of(stopped)}"
