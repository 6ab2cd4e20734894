"""The trace: what the gauge should show as the string moves, and what it did show."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import zip_longest
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.units import magnitude, quantity
from fieldbook.record.string import pump_came_out, written_again
from fieldbook.watch.gauge.instrument import READING_KINDS, Instrument, instrument
from fieldbook.watch.gauge.next_reading import Ahead
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.position import Moment, idle_words, moment
from fieldbook.watch.state.rigging import gauge, rigging
from fieldbook.watch.state.string import string_record
from fieldbook.watch.state.water_level import outside

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.string import StringRecord
    from fieldbook.watch.watcher import Look

_FEET_A_STEP = 10.0  # of hose, between points of the curve
_MOST_STEPS = 1000  # a length typed with some digits too many has no more points than can be drawn


@dataclass(frozen=True, slots=True)
class Trace:
    """Expected and read, over what is out of the well, or over what is in while it goes in.

    Attributes:
        axis: What is counted along it: "joints out", "ft of hose in".
        counted_in: It runs over what is in, not over what is out.
        at: Where along it the curves have their points, rising.
        full: Reading with the line full, lbf.
        drained: Reading with the line drained, lbf.
        read: (where along it, reading) of each reading of the job, lbf.
        never: The reading never to pass now, lbf.
        missing: What is needed to draw the curves.
        ahead: The readings to expect next, and the pull that is left.
    """

    axis: str
    counted_in: bool = False
    at: Sequence[float] = ()
    full: Sequence[float] = ()
    drained: Sequence[float] = ()
    read: Sequence[tuple[float, float]] = ()
    never: float | None = None
    missing: tuple[str, ...] = ()
    ahead: Ahead = field(default_factory=Ahead)


def trace(job: Job, look: Look) -> Trace:
    """The trace of a job as `look` saw it."""
    now = look.now
    axis, counted_in = _axis(now), now.counted_in
    never = look.readings.never
    read = _read(job, now)
    limit = magnitude(never, "lbf", "reading") if never is not None else None
    seen, lacking = gauge(job)
    tool = instrument(seen, rigging(job))
    missing = [*now.record.missing, *lacking]
    if now.level is None:
        missing.append("depth to water")
    if tool is None or now.record.string is None or now.level is None:
        return Trace(axis, counted_in, read=read, never=limit, missing=tuple(missing))
    at, full = _curve(now, tool, Fill.FULL)
    _, drained = _curve(now, tool, Fill.DRAINED)
    return Trace(axis, counted_in, at, full, drained, read, limit, (), look.readings.ahead)


def pull_trace(job: Job, look: Look) -> Trace | None:
    """The trace of the pull, where `trace` is that of the set; its limit was another one then."""
    boundary = pump_came_out(job)
    seen, _ = gauge(job)
    tool = instrument(seen, rigging(job))
    record = string_record(job, as_found=True)
    levels = [entry for entry in job.live("level") if boundary and entry.order < boundary.order]
    water = outside(levels)
    if not look.now.counted_in or tool is None or record.string is None or water is None:
        return None
    now = replace(look.now, record=record, outside=water, counted_in=False)
    at, full = _curve(now, tool, Fill.FULL)
    _, drained = _curve(now, tool, Fill.DRAINED)
    read = _read(job, now, until=boundary)
    return Trace(_axis(now), at=at, full=full, drained=drained, read=read)


def _axis(now: Moment) -> str:
    what = "ft of hose" if now.record.hose_ft else "joints"
    return f"{what} {'in' if now.counted_in else 'out'}"


def _whole(record: StringRecord) -> float:
    return record.hose_ft or float(len(record.joint_ends))


def _curve(now: Moment, tool: Instrument, fill: Fill) -> tuple[list[float], list[float]]:
    record = now.record
    assert record.string is not None
    whole = sum(magnitude(piece.length, "ft", "length") for piece in record.pieces)
    feet = max(_FEET_A_STEP, whole / _MOST_STEPS)
    step = quantity(feet, "ft") if record.hose_ft else None
    loads = record.string.load_curve(
        level=now.level, top=now.top, fill=fill, water_weight=now.water_weight, every=step
    ).values
    if step is not None:
        steps = int(record.hose_ft // feet) + 1
        points = [(n * feet, loads[n]) for n in range(min(steps, len(loads)))]
    else:
        ends = [0, *record.joint_ends]
        points = [(float(n), loads[end]) for n, end in enumerate(ends) if end < len(loads)]
    if now.counted_in:
        points = [(_whole(record) - out, load) for out, load in reversed(points)]
    zero = magnitude(tool.gauge.zero, "lbf", "zero of the gauge")
    return (
        [at for at, _ in points],
        [zero + load / tool.load_per_reading for _, load in points],
    )


def _read(job: Job, now: Moment, *, until: Entry | None = None) -> list[tuple[float, float]]:
    """Each reading of the string that the curves are of."""
    found = []
    since = pump_came_out(job) if now.counted_in else None
    again = written_again(job.live("joint"))
    for entry, after in zip_longest(job.entries, job.entries[1:]):
        if entry.kind not in READING_KINDS or not job.is_live(entry) or entry.id in again:
            continue
        if until is not None and entry.order >= until.order:
            break
        if until is None and since is not None and entry.order <= since.order:
            continue
        name = "load_after" if entry.kind == "drain" else "gauge_reading"
        reading = of_entry(entry, name)
        if reading is not None:
            at = _read_at(job, now, entry, after)
            found.append((at, magnitude(reading, "lbf", "gauge reading")))
    return found


def _read_at(job: Job, now: Moment, entry: Entry, after: Entry | None) -> float:
    """What was out, or in, when the entry's gauge was read.

    A joint that comes out is read before it is broken out; what is taken in, and hose, afterwards.
    """
    later = entry.kind == "footage" or entry.text("direction") == "in"
    then = moment(job, now.record, at=after if later else entry)
    if now.counted_in and (then.planned or not then.counted_in):
        return 0.0  # nothing but the pump can have hung
    if then.footage_out is not None:
        out = magnitude(then.footage_out, "ft", "footage")
    else:
        out = float(then.joints_out)
    return _whole(now.record) - out if now.counted_in else out


def trace_words(drawn: Trace, now: Moment) -> str:
    """The figures of a trace that matter now, or what is needed to draw it."""
    last = f"last read {drawn.read[-1][1]:,.0f} lbf" if drawn.read else ""
    if not now.has_load:
        return "; ".join(filter(None, (idle_words(now).capitalize(), last)))
    if drawn.missing:
        return f"The curves need: {', '.join(drawn.missing)}"
    never = "limit unknown"
    if drawn.never is not None:
        never = f"stop at {drawn.never:,.0f} lbf (the line across)"
    return f"{last or 'nothing read yet'}; {never}"
