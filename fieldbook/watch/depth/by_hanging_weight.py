"""Depth by weight: the gauge with the whole string hanging still, against what it should show."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.drop_line.weighing import load_per_length, longer_by_weight
from calc.errors import OutOfRange
from calc.units import magnitude
from fieldbook.record.string import newest_move
from fieldbook.watch.depth.methods import way
from fieldbook.watch.listen.scene import DRAG, LINE_WEIGHT, PUMP_WEIGHT
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.drop_line.reconcile import Way
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.depth_frame import Frame
    from fieldbook.watch.state.position import Moment

WEIGHT = "weight"
"""What this way is called."""

_COARSEST = 30.0  # a weight that could mean a joint and a half more or less, ft, tells no depth


def by_weight(job: Job, now: Moment, frame: Frame, tool: Instrument | None) -> Iterator[Way]:
    """The depth of a string that was set, by its weight on the hook; nothing where none can say.

    The line has filled through the pump to the water outside, as it does on the way in. The length
    that the list of the string gives cancels out of it, so neither list nor tally makes this way.

    Args:
        job: The job.
        now: Where its string is, all of it in.
        frame: What turns a length of line into a depth.
        tool: The gauge as rigged; None where it cannot be read.
    """
    record, level = now.record, now.level
    band = _weighed(job, tool)
    if band is None or record.string is None or level is None:
        return
    if any(line.coupling for line in record.lines.values()):  # counted at the heaviest: no measure
        return
    low, high = (magnitude(end, "lbf", "hook load") for end in (band.low, band.high))
    line = [piece for piece in record.pieces if piece.name in record.lines]
    # Of the whole list, whatever the count says is in.
    expected = replace(now, out=0).load(level, Fill.DRAINED)
    each = load_per_length(
        record.string,
        line,
        level=level,
        top=now.top,
        fill=Fill.DRAINED,
        water_weight=now.water_weight,
    )
    try:
        longer = longer_by_weight(
            load=(band.low + band.high) / 2.0, expected=expected, per_length=each
        )
    except OutOfRange:  # plastic so light in water that a foot of it adds nothing
        return
    pump = magnitude(record.pieces[-1].weight, "lbf", "pump")
    load = magnitude(expected, "lbf", "hook load")
    # The gauge's error and the sheaves' friction lie evenly in their band.
    sure = hypot(
        (high - low) / sqrt(12.0), LINE_WEIGHT * (load - pump), PUMP_WEIGHT * pump, DRAG * load
    ) / magnitude(each, "lbf/ft", "load per length")
    length = sum(piece.numbers.length for piece in line) + magnitude(longer, "ft", "length")
    if sure <= _COARSEST and length > 0.0:
        yield way(WEIGHT, frame.depth(length), sure)


def _weighed(job: Job, tool: Instrument | None) -> Band | None:
    """What the hook carried with the whole string in: read for the depth, else at the last move."""
    reading = _reading(job)
    if reading is None or tool is None:
        return None
    try:
        return tool.means(reading)
    except OutOfRange:  # past what the gauge can show
        return None


def _reading(job: Job) -> Quantity | None:
    last, agreed = newest_move(job), job.last("depth")
    if last is None or last.text("direction") != "in":
        return None
    after = agreed is not None and agreed.order > last.order
    read = of_entry(agreed, "gauge_reading") if agreed is not None and after else None
    return read if read is not None else of_entry(last, "gauge_reading")
