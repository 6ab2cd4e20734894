"""The readings of a lift in order, each with where the string stood when it was read."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from calc.units import magnitude
from fieldbook.record.string import written_again
from fieldbook.watch.gauge.instrument import READING_KINDS
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.position import footage_out, joints_off, moving_in

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.string import StringRecord


class Sighting(NamedTuple):
    """One reading, or the crew's word that the line was drained.

    Attributes:
        reading: In lbf; None for the draining itself.
        hanging: Length that hangs by the count, ft.
        raised: How far it stood above its hang, ft; not written counts as not raised.
        minutes: Since the first entry, by the clock of the device.
        setting: The string is going in.
    """

    reading: float | None
    hanging: float
    raised: float
    minutes: float
    setting: bool


_MOVES = ("joint", "footage")


def heard(job: Job) -> list[Entry]:
    """The live entries that hold a reading, move the string or drain it, in order.

    Not a joint that another device had written before: nobody can say where the string stood then.
    """
    kinds = {*READING_KINDS, *_MOVES, "drain"}
    again = written_again(job.live("joint"))
    found = [entry for kind in kinds for entry in job.live(kind) if entry.id not in again]
    return sorted(found, key=lambda entry: entry.order)


def sightings(job: Job, record: StringRecord, entry: Entry, after: Entry | None) -> list[Sighting]:
    """What one entry says of the gauge.

    Args:
        job: The job.
        record: Its string.
        entry: A live entry of `heard`.
        after: The one that follows it there; where it goes in, a length is read hanging.
    """
    if entry.kind == "pump_out":
        return []
    # A joint that comes out is read before it is broken out; what is taken in, afterwards.
    later = entry.kind == "footage" or entry.text("direction") == "in"
    at = after if later else entry
    place = (_hanging(job, record, at), _figure(entry, "raised"), entry.time.timestamp() / 60.0)
    setting = moving_in(job, after)
    if entry.kind != "drain":
        return _read(entry, "gauge_reading", place, setting=setting)
    found = _read(entry, "load_before", place, setting=setting)
    if entry.text("drained_by") != "joint by joint":
        found.append(Sighting(None, *place, setting))
    return [*found, *_read(entry, "load_after", place, setting=setting)]


def _read(
    entry: Entry, name: str, place: tuple[float, float, float], *, setting: bool
) -> list[Sighting]:
    reading = of_entry(entry, name)
    if reading is None:
        return []
    return [Sighting(magnitude(reading, "lbf", "gauge reading"), *place, setting)]


def _figure(entry: Entry, name: str) -> float:
    value = of_entry(entry, name)
    return magnitude(value, "ft", name) if value is not None else 0.0


def _hanging(job: Job, record: StringRecord, at: Entry | None) -> float:
    """Length that hangs, in ft, before the entry `at`, or now."""
    lengths = [piece.numbers.length for piece in record.pieces]
    if record.hose_ft:
        out = magnitude(footage_out(job, record, at), "ft", "footage out")
        return sum(lengths) - out
    count = joints_off(job, record, at)
    return sum(lengths[record.joint_ends[count - 1] if count else 0 :])
