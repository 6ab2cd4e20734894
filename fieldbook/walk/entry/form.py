"""What the form of a step starts with, and what its entry says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Origin, Value
from fieldbook.record.string import LENGTHS, counted_on_from

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

_COUNTED = ("joint_number", "place")


def starts_with(step: Step, job: Job) -> dict[str, Value]:
    """The values that the form of `step` starts with: fixed words, known facts, the next number."""
    values = {name: Value(text=word, origin=step.origin) for name, word in step.fixed.items()}
    for name in step.known:
        said = _last_said(job, name)
        if said is not None:
            values[name] = said
    for name in _COUNTED:
        if name in step.asks and name in kinds()[step.records].needs:
            number = _next_number(step, job, name)
            values[name] = Value(text=str(number), number=float(number), origin=step.origin)
    return values


def entry_values(step: Step, job: Job, typed: Mapping[str, Value]) -> dict[str, Value]:
    """What the entry of a form says: what was typed, and what nobody needs to type.

    A known fact that the form started with and that was cleared stays unsaid; one that it does not
    ask is said again.
    """
    untyped = {
        name: value
        for name, value in starts_with(step, job).items()
        if name not in typed and not (name in step.known and name in step.asks)
    }
    return untyped | dict(typed) | {"step": naming(step)}


def said_already(step: Step, job: Job) -> dict[str, Value]:
    """What the job says already of what a step describes, so that one fact can be changed.

    Only the plan describes; what is measured is measured again each time.
    """
    if step.phase != "plan" or step.repeat:
        return {}
    said = {name: job.value(step.records, name) for name in step.asks}
    return {name: value for name, value in said.items() if value is not None}


def news(step: Step, job: Job, typed: Mapping[str, Value]) -> dict[str, Value]:
    """What of `typed` the job does not say yet; empty when it says all of it."""
    said = said_already(step, job)
    return {
        name: value
        for name, value in typed.items()
        if name not in said or _said(value) != _said(said[name])
    }


def _said(value: Value) -> tuple[str, float | None, str]:
    return value.text if value.number is None else "", value.number, value.unit


def naming(step: Step) -> Value:
    """The value by which an entry names its step."""
    return Value(text=step.id, origin=Origin.STATED)


def _last_said(job: Job, name: str) -> Value | None:
    said = (e.values[name] for e in reversed(job.entries) if name in e.values and job.is_live(e))
    return next(said, None)


def _next_number(step: Step, job: Job, name: str) -> int:
    numbers = (entry.values[name].number for entry in _alike(step, job) if name in entry.values)
    return int(max((number for number in numbers if number is not None), default=0)) + 1


def _alike(step: Step, job: Job) -> Iterator[Entry]:
    """The entries of the step's kind that go the same way, or into the same string."""
    if step.records == "piece":
        return iter(counted_on_from(job, length=step.fixed.get("piece", "") in LENGTHS))
    way = step.fixed.get("direction", "")
    return (entry for entry in job.live(step.records) if entry.text("direction") in ("", way))
