"""What the forms of the plan start with on a well that earlier jobs remember.

Nothing is recorded by itself: the crew looks at each figure and saves what still holds.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.string import LENGTHS, is_length

if TYPE_CHECKING:
    from fieldbook.record.entry import Value
    from fieldbook.record.job import Job
    from fieldbook.record.memory import Memory
    from fieldbook.walk.definition.steps import Step


def recalled(step: Step, job: Job, memory: Memory | None) -> dict[str, Value]:
    """The values that the form of a step of the plan may start with."""
    if memory is None or step.phase != "plan":
        return {}
    if step.records == "piece":
        return _next_piece(step, job, memory)
    if step.records == "prior":
        found = dict(memory.prior)
    else:
        found = {name: value for (kind, name), value in memory.said.items() if kind == step.records}
    return {
        name: value
        for name, value in found.items()
        if name in step.asks and job.value(step.records, name) is None
    }


def _next_piece(step: Step, job: Job, memory: Memory) -> dict[str, Value]:
    """The piece that follows those that the job describes already, of a job with one string."""
    if job.text("job", "work") == "set":
        return {}
    of_line = step.fixed.get("piece") in LENGTHS
    pieces = memory.lengths if of_line else memory.fittings
    written = [piece for piece in job.live("piece") if is_length(piece) is of_line]
    if len(written) >= len(pieces):
        return {}
    piece = pieces[len(written)]
    return {
        name: value
        for name, value in piece.values.items()
        if name in step.asks and name not in ("place", *step.fixed)
    }
