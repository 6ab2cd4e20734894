"""The closed set of conditions under which a step is part of the walk.

    always          it is
    pump runs       unless a reading says that it does not start
    string whole    unless the string, or a part of it, is lost in the well
    string lost     once a finding says that it is, until one says that it is whole or recovered
    work suspended  from an entry that suspends the work to the one that resumes it
    rig moved       once an arrival entry says that the rig was moved
    leads to move   once a meter entry says that leads are moved next, until one says that none are
    any time        never in turn: it is opened when it happens

A condition holds from the entry that woke it. What was written for a step before that does not
count: moving the rig twice asks for the power lines twice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

IN_A_PHASE = ("always", "pump runs", "string whole", "string lost")
"""What a step of a phase may name: it waits for its turn."""

APART = ("string lost", "work suspended", "rig moved", "leads to move", "any time")
"""What a step of no phase may name: it is asked for at once, or never in turn."""


@dataclass(frozen=True, slots=True)
class Condition:
    """Whether a condition holds.

    Attributes:
        holds: Whether it does.
        since: The entry that woke it, if one did.
    """

    holds: bool
    since: Entry | None = None

    def counts(self, entry: Entry) -> bool:
        """Whether an entry was made since the condition woke."""
        return self.since is None or entry.order > self.since.order


def conditions(job: Job) -> dict[str, Condition]:
    """Each condition as the job is."""
    lost = _string_lost(job)
    return {
        "always": Condition(holds=True),
        "pump runs": Condition(holds=job.text("meter", "pump_runs") != "no"),
        "string whole": Condition(holds=not lost.holds),
        "string lost": lost,
        "work suspended": _suspended(job),
        "rig moved": _rig_moved(job),
        "leads to move": _leads_to_move(job),
        "any time": Condition(holds=False),
    }


def _first_of_the_newest_run(said: Iterable[Entry], wakes: Callable[[Entry], bool]) -> Condition:
    """Whether the newest entry wakes the condition, and since which entry without a break."""
    since = None
    for entry in said:
        since = (since or entry) if wakes(entry) else None
    return Condition(since is not None, since)


def _string_lost(job: Job) -> Condition:
    said = (entry for entry in job.live("finding") if "string_state" in entry.values)
    return _first_of_the_newest_run(said, lambda entry: entry.text("string_state") == "lost")


def _suspended(job: Job) -> Condition:
    said = sorted((*job.live("suspend"), *job.live("resume")), key=lambda entry: entry.order)
    return _first_of_the_newest_run(said, lambda entry: entry.kind == "suspend")


def _rig_moved(job: Job) -> Condition:
    arrivals = reversed(job.live("arrival"))
    moved = next((entry for entry in arrivals if entry.text("rig_moved") == "yes"), None)
    return Condition(moved is not None, moved)


def _leads_to_move(job: Job) -> Condition:
    said = [entry for entry in job.live("meter") if "leads_to_move" in entry.values]
    newest = said[-1] if said else None
    moves = newest is not None and newest.text("leads_to_move") == "yes"
    return Condition(moves, newest if moves else None)
