"""What looks wrong in this job, though by itself it might be right. Feet only.

The crew is asked once and decides; nothing is refused for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.footage import in_feet, to_feet
from fieldbook.record.string import LENGTHS, counted_on_from, string_pieces
from fieldbook.walk.counts import counts
from fieldbook.walk.planned_doubts import doubt_by_air_line, doubt_in_plan

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.walk.counts import Counts
    from fieldbook.walk.steps import Step

_DOUBTED = {("footage", "footage"), ("footage", "mark"), ("joint", "joint_length")}
_LONGER = 1.05  # a counter that slips may run past the end of the hose by as much; our own figure
_APART_FT, _APART = 20.0, 0.1  # of counter and mark, at least, and of the hose; our own figures
_OTHER_FT = 2.0  # between joints of one string: lots of 20 and 21 ft are mixed; our own figure


def doubt_in(job: Job, step: Step, name: str, said: Mapping[str, Value]) -> str:
    """Why the crew should look again at what a form of `step` says; empty where it should not.

    Args:
        job: The job as recorded.
        step: The step; one that describes or moves the string, or tells how it was last set.
        name: The quantity.
        said: What the form says, up to that quantity.
    """
    if step.records in ("duty", "setting"):
        return doubt_in_plan(job, step, name, said)
    if (step.records, name) == ("level", "air_line_pressure"):
        return doubt_by_air_line(said)
    if (step.records, name) == ("prior", "plug_depth"):
        return _plug(_feet(said.get("piece_length")), _feet(said.get("plug_depth")))
    if (step.records, name) == ("piece", "place"):
        return _taken(counted_on_from(job, length=_is_line(step)), said.get("place"))
    return _in_motion(job, step, name, said)


def _in_motion(job: Job, step: Step, name: str, said: Mapping[str, Value]) -> str:
    """What is asked of a joint or of the reel on its way out or in."""
    direction = step.fixed.get("direction", "")
    length = _feet(said.get(name)) if (step.records, name) in _DOUBTED and direction else None
    if length is None:
        return ""
    if name == "footage":
        return _counter(counts(job), direction, length)
    if name == "mark":
        return _mark(counts(job), direction, length, _feet(said.get("footage")))
    return _of_the_string(job, direction, length) or _joint(counts(job), direction, length)


def _is_line(step: Step) -> bool:
    return step.fixed.get("piece", "") in LENGTHS


def _taken(pieces: list[Entry], place: Value | None) -> str:
    """Two pieces in one place both hang: whoever mends one by writing it again hangs it twice."""
    if place is None:
        return ""
    there = (p for p in pieces if "place" in p.values and p.values["place"].number == place.number)
    piece = next(there, None)
    if piece is None:
        return ""
    return f"a {piece.text('piece')} has this place; one that was wrong is struck (Esc, v)"


def _counter(found: Counts, direction: str, counter: float) -> str:
    whole = found.whole_ft(direction)
    if whole is not None and counter > whole * _LONGER:
        return f"the hose is {whole:,.0f} ft long"
    last = (found.hose_out if direction == "out" else found.hose_in).counted_ft
    return f"the counter stood at {last:,.0f} ft" if last is not None and counter < last else ""


def _mark(found: Counts, direction: str, mark: float, counter: float | None) -> str:
    whole = found.whole_ft(direction)
    if whole is None:
        return ""
    if mark > whole:
        return f"the hose is {whole:,.0f} ft long"
    passed = mark if direction == "out" else whole - mark  # marks count from the top end
    known = found.hose_out if direction == "out" else found.hose_in
    counted = counter + (known.off_ft or 0.0) if counter is not None else passed
    apart = abs(passed - counted)
    return f"{apart:,.0f} ft from the counter" if apart > max(_APART_FT, _APART * whole) else ""


def _plug(hose: float | None, plug: float | None) -> str:
    """A plug below the end of the hose: one of the two figures is another's."""
    below = hose is not None and plug is not None and plug > hose * _LONGER
    return f"the hose is {hose:,.0f} ft long" if below else ""


def _joint(found: Counts, direction: str, length: float) -> str:
    whole = found.whole_joints(direction)
    joints = found.out if direction == "out" else found.into
    if whole is not None and joints.count >= whole:
        return f"all {whole} joints are {direction} already"
    last = in_feet(joints.newest[-1], "joint_length") if joints.count else None
    other = last is not None and abs(length - last) > _OTHER_FT
    return f"the joint before was {last:,.2f} ft" if other else ""


def _of_the_string(job: Job, direction: str, length: float) -> str:
    """A joint on its way in that is another than the string says: load and depth go by the string.

    It goes in from the bottom up.
    """
    going_in = direction == "in"
    lengths = list(_joints_of(job)) if going_in else []
    count = counts(job).into.count
    said = lengths[-1 - count] if count < len(lengths) else None
    if said is None or abs(length - said) <= _OTHER_FT:
        return ""
    return f"the string has {said:,.2f} ft here; another goes into the string first (Esc, w)"


def _joints_of(job: Job) -> Iterator[float | None]:
    """How long each joint and pup of the string is, from the top down."""
    for piece in string_pieces(job):
        if piece.text("piece") == "pup":
            yield in_feet(piece, "piece_length")
        elif piece.text("piece") == "joint":
            count = piece.values.get("joint_count")
            many = int(count.number) if count is not None and count.number is not None else 1
            yield from [in_feet(piece, "joint_length")] * many


def _feet(value: Value | None) -> float | None:
    return to_feet(value.number, value.unit) if value is not None and value.number else None
