"""Depth by the load: each joint takes more off the hook once the pump is out of the water."""

from __future__ import annotations

from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.drop_line.hinge import Hinge, hinge
from calc.errors import OutOfRange
from calc.units import magnitude
from fieldbook.quantities.convert import number_in
from fieldbook.record.footage import footage, footages, in_feet
from fieldbook.record.string import string_pieces
from fieldbook.record.tally import tally
from fieldbook.watch.depth.methods import way

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.drop_line.reconcile import Way
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.depth_frame import Frame
    from fieldbook.watch.state.position import Moment

_LEAST_GAIN = 10.0  # F of two lines against one: far past 1 in 100 for the readings of a pull
_LEVEL = 0.5  # how well the level is known while the string moves, ft: ours, no published source
_STEP = 0.3  # how well the water's lift on a pump is known, as a share: ours, no published source
_COARSEST = 30.0  # a bend that could be anywhere in this, ft, tells no depth


def crossing(
    job: Job, now: Moment, frame: Frame, tool: Instrument | None, direction: str
) -> Iterator[Way]:
    """The depth at which the pump crossed the water, where the readings show it; else nothing.

    Only readings in one go count: those before the line was last drained are left out, for
    draining steps the load too.
    """
    if now.level is None or tool is None or now.record.string is None:
        return
    level = magnitude(now.level, "ft", "level")
    points, blur = _points(job, direction)
    try:
        bend = hinge(points)
    except OutOfRange:
        return
    if not _is_the_water(bend, direction):
        return
    # The pump loses what the water bore of it: the lines meet that much beyond the water.
    step = now.record.pieces[-1].displaced * now.water_weight
    beyond = magnitude(step, "lbf", "buoyancy of the pump") / (
        abs(bend.after - bend.before) * tool.load_per_reading
    )
    off = hypot(bend.uncertainty, blur, _LEVEL, frame.pump / sqrt(12.0), _STEP * beyond)
    if off > _COARSEST:
        return
    # The middle of the pump is at the level, and so much line hangs between it and the casing.
    hung = level - frame.casing_top - frame.pump / 2.0 - frame.fittings
    if direction == "out":
        line = bend.at - beyond + hung
    else:
        line = _moved(job, "in") - bend.at - beyond + hung
    if hung > 0.0 and line > 0.0:
        yield way("load at the water", frame.depth(line), off)


def _is_the_water(bend: Hinge, direction: str) -> bool:
    """Whether the load changes faster on the side where the pump hangs in air, and plainly so."""
    air, wet = (bend.after, bend.before) if direction == "out" else (bend.before, bend.after)
    falls = air < 0.0 if direction == "out" else air > 0.0
    return falls and abs(air) > abs(wet) and bend.gain >= _LEAST_GAIN


def _points(job: Job, direction: str) -> tuple[list[tuple[float, float]], float]:
    """(line moved in ft, reading) in the order of the log, and how blurred the first is."""
    drained = job.last("drain")
    if job.text("job", "line") == "hose":
        return _hose_points(job, direction, drained), 1.0
    run, points, longest = 0.0, [], 0.0
    for entry in tally(job.live("joint"), direction).newest:
        length = in_feet(entry, "joint_length") or 0.0
        longest = max(longest, length)
        reading = _reading(entry)
        if reading is not None and (drained is None or entry.order > drained.order):
            points.append((run + length / 2.0, reading))
        run += length
    # A joint is read somewhere between set down and lifted clear: a length wide, evenly spread.
    return points, longest / sqrt(12.0)


def _hose_points(job: Job, direction: str, drained: Entry | None) -> list[tuple[float, float]]:
    whole = sum(
        length
        for e in string_pieces(job, as_found=direction == "out")
        if e.text("piece") == "hose" and (length := in_feet(e, "piece_length")) is not None
    )
    points: list[tuple[float, float]] = []
    for entry, moved in footages(job.live("footage"), direction, whole or None):
        reading = _reading(entry)
        if reading is None or moved.feet is None or (points and moved.feet <= points[-1][0]):
            continue
        if drained is None or entry.order > drained.order:
            points.append((moved.feet, reading))
    return points


def _reading(entry: Entry) -> float | None:
    value = entry.values.get("gauge_reading")
    return number_in(value, "lbf") if value is not None and value.number is not None else None


def _moved(job: Job, direction: str) -> float:
    if job.text("job", "line") == "hose":
        return footage(job.live("footage"), direction, None).feet or 0.0
    rows = (in_feet(e, "joint_length") for e in tally(job.live("joint"), direction).newest)
    return sum(length for length in rows if length is not None)
