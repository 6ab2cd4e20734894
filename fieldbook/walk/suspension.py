"""Work that was stopped for now: how it was left, and what must be looked at on return."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.walk.entry_words import words_of

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.steps import Step

_LEFT_OPEN = {"well_covered": "the well is NOT covered", "locks_on": "the locks are NOT on"}


def left_open(said: Entry) -> str:
    """What an entry that suspends or resumes the work says is not as it must be; or nothing."""
    return " and ".join(words for name, words in _LEFT_OPEN.items() if said.text(name) == "no")


def as_left(step: Step, job: Job) -> str:
    """For the step that takes the work up again: how it was left, to be compared."""
    stopped = job.last("suspend")
    if step.when != "work suspended" or stopped is None:
        return ""
    return f"As it was left {stopped.time:%m-%d %H:%M} by {stopped.by}: {words_of(stopped)}"
