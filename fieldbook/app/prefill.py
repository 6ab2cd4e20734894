"""What a step's form starts with, and what its entry says besides what was typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import parse, plain_value
from fieldbook.record.entry import Origin
from fieldbook.record.tally import tally

if TYPE_CHECKING:
    from fieldbook.record.entry import Value
    from fieldbook.record.job import Job
    from fieldbook.walk.steps import Step

_NUMBERED = {"piece": "place", "redirect": "place"}


def prefill(step: Step, job: Job) -> dict[str, str]:
    """The words that the form of `step` starts with."""
    texts = {name: word for name, word in step.fixed.items() if name in step.asks}
    for name in step.known:
        for value in _said(job, step.records, name):
            texts[name] = value.text
    number = next_number(step, job)
    for name in ("joint_number", "place"):
        if number is not None and name in step.asks:
            texts[name] = str(number)
    return texts


def _said(job: Job, kind: str, name: str) -> list[Value]:
    for source in (kind, *kinds()):
        value = job.value(source, name)
        if value is not None:
            return [value]
    return []


def next_number(step: Step, job: Job) -> int | None:
    """The number that the next entry of the step gets, where its entries are numbered."""
    if step.records == "joint":
        return tally(job.live("joint"), step.fixed.get("direction", "out")).next_number
    if step.records in _NUMBERED:
        return len(job.live(step.records)) + 1
    if step.records == "rack":
        return len(job.live("rack")) + 1
    return None


def given(
    step: Step, job: Job, values: dict[str, Value], *, done: bool = False
) -> dict[str, Value]:
    """What the entry says that nobody typed: its step, fixed words, and the next number.

    Args:
        step: The step.
        job: The job before the entry.
        values: What was typed; it is never overruled.
        done: Whether the entry marks the step as done instead of being of its kind.
    """
    said = {"step": plain_value(step.id)}
    if done:
        return said
    kind = kinds()[step.records]
    for name, word in step.fixed.items():
        if name not in values:
            said[name] = parse(word, definition(name), origin=Origin.STATED)
    number = next_number(step, job)
    for name in ("joint_number", "place"):
        if number is not None and name in kind.needs and name not in values:
            said[name] = plain_value(str(number), float(number), origin=Origin.COMPUTED)
    return said
