"""The mistakes a count, a tally or a counter is known for, each with what it does to the depth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.drop_line.reconcile import Cause, fitting_causes
from calc.drop_line.threads import makeup_length
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.record.footage import in_feet
from fieldbook.record.string import string_pieces
from fieldbook.watch.depth.by_hanging_weight import WEIGHT
from fieldbook.watch.depth.methods import lengths, listed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.drop_line.reconcile import Way, Weighed
    from fieldbook.record.job import Job
    from fieldbook.watch.state.depth_frame import Frame

_OF_JOINTS = ("tally", "tally by hand", "rack", "rack by hand", "count", "last record")
_OF_MARKS = ("counter", "counter by hand")
_OF_LOADS = (WEIGHT, "load at the water")  # no tape and no count: nothing of a known size
_COUPLING_FT = 0.1  # a joint measured without its coupling: common practice, no published source
_MOST_SHOWN = 2


def likely(job: Job, frame: Frame, off: Weighed, direction: str) -> str:
    """The mistakes that fit, as a question: " (one joint missed?)"; empty when none does."""
    causes = [cause for cause in _causes(job, frame, off.way, direction) if cause.size]
    words = list(dict.fromkeys(cause.words for cause in fitting_causes(off, causes)))
    return f" ({' or '.join(words[:_MOST_SHOWN])}?)" if words else ""


def _causes(job: Job, frame: Frame, off: Way, direction: str) -> Iterator[Cause]:
    name = off.name
    if name in _OF_LOADS:
        return
    if name in _OF_JOINTS:
        yield from _of_joints(job, direction)
    if name in _OF_MARKS:
        for feet in (50.0, 100.0):
            yield from _both(f"a mark misread by {feet:.0f} ft", feet)
    if name == "cable":
        # Slack is taken as a foot in fifty of what hangs.
        yield Cause("slack in the cable", quantity(0.02 * off.depth.m_as("ft"), "ft"))
    yield from _of_the_datum(frame)
    yield from _of_the_ends(job, frame, direction)
    for feet in (5.0, 10.0):
        yield from _both(f"{feet:.0f} ft misread on the tape", feet)


def _of_joints(job: Job, direction: str) -> Iterator[Cause]:
    rows = lengths(job, direction) or listed(job, direction)
    if not rows:
        return
    mean, count = sum(rows) / len(rows), len(rows)
    for joints, word in ((1, "one joint"), (2, "two joints")):
        yield Cause(f"{word} missed", quantity(-joints * mean, "ft"))
        yield Cause(f"{word} counted twice", quantity(joints * mean, "ft"))
    yield from _both("20 ft and 21 ft joints taken as one", float(count))
    yield Cause("joints measured without their couplings", quantity(-_COUPLING_FT * count, "ft"))
    string = string_pieces(job, as_found=direction == "out")
    sizes = (e.text("nps") for e in string if e.text("piece") == "joint")
    try:
        make_up = magnitude(makeup_length(next(sizes, "")), "ft", "make-up")
    except OutOfRange:
        return
    yield Cause("make-up not taken off", quantity(make_up * count, "ft"))
    yield Cause("make-up taken off twice", quantity(-make_up * count, "ft"))


def _of_the_datum(frame: Frame) -> Iterator[Cause]:
    if frame.stick_up is not None:
        yield from _both("from the other datum, a stick-up away", frame.stick_up)
    drop = frame.hang - frame.casing_top
    yield Cause("the drop to the pitless left out", quantity(-drop, "ft"))
    yield Cause("the drop to the pitless taken twice", quantity(drop, "ft"))


def _of_the_ends(job: Job, frame: Frame, direction: str) -> Iterator[Cause]:
    pups = [
        length
        for entry in string_pieces(job, as_found=direction == "out")
        if entry.text("piece") == "pup" and (length := in_feet(entry, "piece_length")) is not None
    ]
    for length in pups:
        yield Cause("a pup left out", quantity(-length, "ft"))
        yield Cause("a pup taken twice", quantity(length, "ft"))
    yield Cause("valves and fittings left out", quantity(-frame.fittings, "ft"))
    yield Cause("to the top of the pump, not the intake", quantity(-frame.intake, "ft"))
    yield Cause(
        "to the end of the motor, not the intake", quantity(frame.pump - frame.intake, "ft")
    )


def _both(words: str, feet: float) -> Iterator[Cause]:
    yield Cause(words, quantity(feet, "ft"))
    yield Cause(words, quantity(-feet, "ft"))
