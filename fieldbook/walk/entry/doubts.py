"""What looks wrong: by itself, or in this job. Feet only.

Whoever records is asked once and decides: a form asks, `enter` wants `"sure": true`, and a card
prints it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.admit import is_sure
from fieldbook.quantities.convert import doubt
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within
from fieldbook.record.footage import in_feet, to_feet
from fieldbook.record.job import Job
from fieldbook.record.string import (
    LENGTHS,
    counted_on_from,
    joints_in,
    pump_came_out,
    string_pieces,
)
from fieldbook.walk.counts import counts
from fieldbook.walk.entry.planned_doubts import doubt_by_air_line, doubt_in_plan

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.record.entry import Draft, Entry, Value
    from fieldbook.walk.counts import Counts
    from fieldbook.walk.definition.steps import Step

_DOUBTED = {("footage", "footage"), ("footage", "mark"), ("joint", "joint_length")}
_LONGER = 1.05  # a counter that slips may run past the end of the hose by as much; our own figure
_APART_FT, _APART = 20.0, 0.1  # of counter and mark, at least, and of the hose; our own figures
_SKIPPED = 2  # joint numbers left out that are asked about; our own figure
_HALF = 0.5  # of the joints on the last record: a string may be written in two runs; our own figure
_OTHER_FT = 2.0  # between joints of one string: lots of 20 and 21 ft are mixed; our own figure


@dataclass(frozen=True, slots=True)
class Asked:
    """What is about to be recorded, as far as it decides what is asked about it.

    Attributes:
        kind: The kind of entry.
        fixed: What every entry of its step says; of an entry from elsewhere, all that it says.
        is_signed: Whether its step is a hold, for which others sign.
    """

    kind: str
    fixed: Mapping[str, str]
    is_signed: bool = False

    @classmethod
    def at(cls, step: Step) -> Asked:
        """By the form of a step."""
        return cls(step.records, step.fixed, step.hold is not None)


def doubt_about(job: Job | None, asked: Asked | None, name: str, said: Mapping[str, Value]) -> str:
    """Why a quantity should be looked at again; empty where it need not be.

    Args:
        job: The job as recorded; None where it is of no job.
        asked: What is about to be recorded; None where it is of no job.
        name: The quantity.
        said: What is said, up to that quantity.
    """
    in_job = _doubt_in(job, asked, name, said) if job is not None and asked is not None else ""
    return in_job or doubt(said[name], definition(name))  # what the job says tells more


def doubts_of(job: Job, draft: Draft | Entry, *, is_signed: bool = False) -> dict[str, str]:
    """Quantity -> why it should be looked at again, for all that an entry says.

    Args:
        job: The job before it.
        draft: What is about to be recorded.
        is_signed: Whether its step is a hold, for which others sign.
    """
    if draft.strikes is not None:  # what it takes the place of does not stand beside it
        job = Job(entry for entry in job.entries if entry.id != draft.strikes)
    texts = {name: value.text for name, value in draft.values.items()}
    asked = Asked(draft.kind, texts, is_signed)
    found: dict[str, str] = {}
    for name in draft.values:
        words = doubt_about(job, asked, name, draft.values)
        if words and words not in found.values():  # two figures of one sum
            found[name] = words
    return found


def doubts_of_all(job: Job) -> list[str]:
    """What looks wrong in each entry of a job, one after the other, and was not confirmed."""
    so_far, found = Job(), []
    for entry in job.entries:
        if not is_sure(entry):
            said = doubts_of(so_far, entry).values()
            found += [f"{within(kinds()[entry.kind].label)}: {words}" for words in said]
        so_far.add(entry)
    return found


def _doubt_in(job: Job, asked: Asked, name: str, said: Mapping[str, Value]) -> str:
    """Why the crew should look again at a figure, by what the job says."""
    if asked.kind in ("duty", "setting"):
        return doubt_in_plan(job, name, said, is_signed=asked.is_signed)
    if (asked.kind, name) == ("level", "air_line_pressure"):
        return doubt_by_air_line(said)
    if (asked.kind, name) == ("prior", "plug_depth"):
        return _plug(_feet(said.get("piece_length")), _feet(said.get("plug_depth")))
    if asked.kind == "piece":
        return _of_a_piece(job, asked, name, said)
    return _in_motion(job, asked, name, said)


def _of_a_piece(job: Job, asked: Asked, name: str, said: Mapping[str, Value]) -> str:
    length = asked.fixed.get("piece", "") in LENGTHS
    if name == "place":
        return _taken(counted_on_from(job, length=length), said.get("place"))
    if name == "joint_count":
        return _as_last_recorded(job, said)
    return ""


def _as_last_recorded(job: Job, said: Mapping[str, Value]) -> str:
    """Far fewer joints in the string as found than the last record has, or more of them."""
    last, count = job.value("prior", "prior_count"), said["joint_count"].number
    if last is None or last.number is None or count is None or pump_came_out(job) is not None:
        return ""
    place = said["place"].number if "place" in said else None
    others = [
        piece
        for piece in string_pieces(job, as_found=True)
        if "place" not in piece.values or piece.values["place"].number != place
    ]
    joints = joints_in(others) + count
    if last.number * _HALF <= joints <= last.number:
        return ""
    return f"{joints:.0f} joints so far; the last record has {last.number:.0f}"


def _in_motion(job: Job, asked: Asked, name: str, said: Mapping[str, Value]) -> str:
    """What is asked of a joint or of the reel on its way out or in."""
    direction = asked.fixed.get("direction", "")
    if (asked.kind, name) == ("joint", "joint_number") and direction:
        return _number(counts(job), direction, said[name])
    length = _feet(said.get(name)) if (asked.kind, name) in _DOUBTED and direction else None
    if length is None:
        return ""
    if name == "footage":
        return _counter(counts(job), direction, length)
    if name == "mark":
        return _mark(counts(job), direction, length, _feet(said.get("footage")))
    return _of_the_string(job, direction, length) or _joint(counts(job), direction, length)


def _taken(pieces: list[Entry], place: Value | None) -> str:
    """Two pieces in one place both hang: whoever mends one by writing it again hangs it twice."""
    if place is None:
        return ""
    there = (p for p in pieces if "place" in p.values and p.values["place"].number == place.number)
    piece = next(there, None)
    if piece is None:
        return ""
    return f"a {piece.text('piece')} has this place; one that was wrong is crossed out (Esc, v)"


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


def _number(found: Counts, direction: str, number: Value) -> str:
    """A joint that is written already, or numbers left out before it."""
    joints = found.out if direction == "out" else found.into
    if number.number is None:
        return ""
    if number.number in joints.joints:
        return f"joint {number.number:.0f} {direction} is written already"
    skipped = range(joints.next_number, int(number.number))
    if not joints.count or len(skipped) < _SKIPPED:
        return ""
    return f"joints {skipped[0]} to {skipped[-1]} {direction} are not written"


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
