"""Each way the record has of knowing how deep the intake hangs, with an honest uncertainty.

The uncertainties are common practice, no published source, unless a constant says otherwise.
"""

from __future__ import annotations

from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.drop_line.reconcile import Way
from calc.units import magnitude, quantity
from fieldbook.record.footage import footage, in_feet, with_the_pump
from fieldbook.record.levels import at_rest
from fieldbook.record.string import string_pieces
from fieldbook.record.tally import tally
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.depth_frame import Frame

_TAPE = 0.001  # a bad tape errs more than 0.1 ft in 100 (USGS note on errors in water levels)
_A_JOINT = 0.03  # reading one joint, and how far it was made up
_NOMINAL = 0.1  # a joint by its list: make-up, or the coupling left out
_MARK_READ = 0.5  # a mark as it passes the datum
_SLIP = 0.02  # of a counter on wet hose, since its last mark
_NO_MARK = 0.10  # of a counter that no mark corrected: half of what a bare core misses
_HOSE_STRETCH = 0.02  # at most, where the sheet does not say
_CABLE_SLACK = 0.01  # cable goes in with up to a foot of slack in 50
_CABLE_READ = 1.0
_SOUNDED = 0.3  # feeling the pump with a tape
_WET_MARK = 1.0  # the mark is a band, and the level moves
_RECORD = 0.005  # an old record: made somehow, by someone
_TYPED = {
    "depth_by_tally": "tally by hand",
    "depth_by_rack": "rack by hand",
    "depth_by_counter": "counter by hand",
    "depth_by_cable": "cable",
    "depth_by_tape": "tape",
}


def ways_in(job: Job, frame: Frame) -> list[Way]:
    """The ways of a string that was set; those that are not recorded are left out."""
    found = [*_tally(job, frame, "in"), *_rack_in(job, frame), *_reel(job, frame, "in")]
    return [*found, *_typed(job, frame, {way.name: way for way in found})]


def ways_out(job: Job, frame: Frame) -> list[Way]:
    """The ways of a string that came out: how deep it hung; what is not recorded is left out."""
    return [
        *_tally(job, frame, "out"),
        *_rack_out(job, frame),
        *_reel(job, frame, "out"),
        *_wet_mark(job, frame),
        *_record(job, frame),
    ]


def way(name: str, depth: float, sure: float) -> Way:
    """A way from plain feet."""
    return Way(name, quantity(depth, "ft"), quantity(sure, "ft"))


def lengths(job: Job, direction: str) -> list[float]:
    """The joints that went one way, by number, in feet."""
    rows = (in_feet(e, "joint_length") for e in tally(job.live("joint"), direction).newest)
    return [length for length in rows if length is not None]


def listed(job: Job, direction: str) -> list[float]:
    """The joints of the list of the string that went one way, in feet.

    A joint without a length is left out.
    """
    found = []
    for entry in string_pieces(job, as_found=direction == "out"):
        length = in_feet(entry, "joint_length")
        if entry.text("piece") == "joint" and length is not None:
            count = of_entry(entry, "joint_count")
            found += [length] * (int(count.magnitude) if count is not None else 1)
    return found


def _measured(line: float, joints: int) -> float:
    return hypot(_TAPE * line, _A_JOINT * sqrt(joints), 0.05)


def _tally(job: Job, frame: Frame, direction: str) -> Iterator[Way]:
    rows = lengths(job, direction)
    if rows:
        yield way("tally", frame.depth(sum(rows)), _measured(sum(rows), len(rows)))


def _rack_in(job: Job, frame: Frame) -> Iterator[Way]:
    """What lay on the rack, measured, less what is left there."""
    left = Facts(job).get("depth", "rack_count")
    measured = {e.text("joint_number"): in_feet(e, "joint_length") for e in job.live("rack")}
    rows = [length for length in measured.values() if length is not None]
    gone = len(rows) - int(left.magnitude) if left is not None else 0
    if rows and gone > 0:
        mean = sum(rows) / len(rows)
        scatter = sqrt(sum((row - mean) ** 2 for row in rows) / len(rows))
        sure = hypot(_measured(mean * gone, gone), scatter * sqrt(min(gone, len(rows) - gone)))
        yield way("rack", frame.depth(mean * gone), sure)


def _rack_out(job: Job, frame: Frame) -> Iterator[Way]:
    """What a second person counted on the rack, by the mean joint: measured, else by the list."""
    counted = Facts(job).get("pump_out", "rack_count")
    if counted is None or counted.magnitude <= 0:
        return
    joints, measured = int(counted.magnitude), lengths(job, "out")
    rows = measured or listed(job, "out")
    if rows:
        line = joints * sum(rows) / len(rows)
        sure = _measured(line, joints) if measured else _NOMINAL * joints
        yield way("count", frame.depth(line), sure)


def _reel(job: Job, frame: Frame, direction: str) -> Iterator[Way]:
    string = string_pieces(job, as_found=direction == "out")
    pieces = [e for e in string if e.text("piece") == "hose"]
    known = [length for e in pieces if (length := in_feet(e, "piece_length")) is not None]
    moved = footage(job.live("footage"), direction, sum(known) if known else None)
    if moved.feet is None:
        return
    if direction == "out":
        moved = with_the_pump(moved, job.live("pump_out"))
    feet, since = moved.feet, moved.since_mark_ft
    if feet is None or since is None or feet <= 0.0:
        return
    counted = hypot(_MARK_READ, _SLIP * since) if moved.off_ft is not None else _NO_MARK * feet
    stretch = of_entry(pieces[0], "hose_stretch") if pieces else None
    stretch = stretch if stretch is not None else Facts(job).get("hose_sheet", "hose_stretch")
    share = magnitude(stretch, "dimensionless", "stretch") if stretch is not None else _HOSE_STRETCH
    # Somewhere between none and all of it: marks are painted on the hose as it lies flat.
    yield way("counter", frame.depth(feet), hypot(counted, share * feet / sqrt(3.0)))


def _typed(job: Job, frame: Frame, derived: dict[str, Way]) -> Iterator[Way]:
    entry = job.last("depth")
    if entry is None:
        return
    for name, word in _TYPED.items():
        depth = in_feet(entry, name)
        below = frame.on_datum(depth, entry.text("datum")) if depth is not None else None
        if below is None or ((same := derived.get(word.split()[0])) and _is_same(same, below)):
            continue
        yield way(word, below, _sure_of_typed(name, abs(below)))


def _is_same(derived: Way, below: float) -> bool:
    """Whether a figure typed by hand is the one the book computes from the same entries."""
    return abs(magnitude(derived.depth, "ft", "depth") - below) <= 0.1


def _sure_of_typed(name: str, depth: float) -> float:
    if name == "depth_by_cable":
        return hypot(_CABLE_SLACK * depth, _CABLE_READ)
    if name == "depth_by_counter":
        return hypot(_SLIP * depth, _MARK_READ)
    return hypot(_TAPE * depth, _SOUNDED)


def _wet_mark(job: Job, frame: Frame) -> Iterator[Way]:
    """Water at rest leaves its mark on the pipe: what hung below the mark hung below the water."""
    facts = Facts(job)
    level, mark = _static_level(job), facts.get("pump_out", "wet_mark")
    joint = facts.get("pump_out", "wet_joint")
    out = tally(job.live("joint"), "out")
    if level is None or mark is None or joint is None or out.gaps:
        return
    rows = [in_feet(e, "joint_length") for e in out.newest]
    number = int(joint.magnitude)
    if None in rows or not 1 <= number <= len(rows):
        return
    below = sum(length for length in rows[number - 1 :] if length is not None)
    line = below - magnitude(mark, "ft", "wet mark")
    depth = level + line + frame.fittings + frame.intake
    yield way("water mark", depth, hypot(_WET_MARK, _TAPE * depth))


def _static_level(job: Job) -> float | None:
    """The first level at rest of the job, in feet below the datum: the mark is from before it."""
    rests = at_rest(job.live("level"))
    return in_feet(rests[0], "water_level") if rests else None


def _record(job: Job, frame: Frame) -> Iterator[Way]:
    entry = next(_with(job.live("prior"), "setting_depth"), None)
    depth = in_feet(entry, "setting_depth") if entry is not None else None
    if entry is None or depth is None:
        return
    below = frame.on_datum(depth, entry.text("datum"))
    if below is not None:
        yield way("last record", below, max(1.0, _RECORD * abs(below)))


def _with(entries: Sequence[Entry], name: str) -> Iterator[Entry]:
    return (entry for entry in reversed(entries) if name in entry.values)
