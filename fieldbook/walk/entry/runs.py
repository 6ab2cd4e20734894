"""A run of like joints, typed at once as "12 at 21.0": how many, and what is said of each.

Whoever writes joints in a batch was not there with the book at each of them: an entry of a run
says that its hold was not witnessed.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from fieldbook.quantities.typed import plain_value
from fieldbook.walk.counts import counts
from fieldbook.walk.entry.from_paper import NOT_WITNESSED
from fieldbook.walk.moves import MOVES

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.record.entry import Value
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

NUMBER, LENGTH = "joint_number", "joint_length"
_RUN = re.compile(r"\s*([1-9]\d{0,2})\s+at\s+(\S.*)", re.IGNORECASE)
_OF_ALL_ALIKE = {NUMBER, LENGTH, "written_at", "sure"}


def run_in(text: str) -> tuple[int | None, str]:
    """How many joints a typed length means, and the length of one as typed.

    Returns:
        None and the text itself where it is no run.
    """
    found = _RUN.fullmatch(text)
    return (int(found[1]), found[2]) if found else (None, text)


def not_a_run(step: Step, job: Job, values: Mapping[str, Value], times: int) -> str:
    """Why so many joints are not written at once, in plain words; empty where they are."""
    if set(values) - _OF_ALL_ALIKE:
        return "A run says length alone: write a joint on which more was seen by itself"
    direction = step.fixed.get("direction", "")
    found = counts(job)
    whole = found.whole_joints(direction) if direction else None
    left = whole - (found.out if direction == "out" else found.into).count if whole else times
    if times > left:
        return f"The string has {max(left, 0)} joints left to go {direction}, not {times}"
    return ""


def each_of(step: Step, values: Mapping[str, Value], times: int) -> Iterator[dict[str, Value]]:
    """What is said of each joint of a run, numbered on from the first."""
    marks = {"recorded": plain_value(NOT_WITNESSED)} if step.records in MOVES else {}
    first = values[NUMBER]
    for count in range(times):
        number = (first.number or 0.0) + count
        yield {**values, NUMBER: replace(first, text=f"{number:.0f}", number=number), **marks}


def rest_of(values: Mapping[str, Value], times: int, saved: int) -> dict[str, str]:
    """What to type for the joints of a run that are not on disk yet."""
    number = (values[NUMBER].number or 0.0) + saved
    return {NUMBER: f"{number:.0f}", LENGTH: f"{times - saved} at {values[LENGTH].text}"}
