"""When each gauge reading was read: what hung then, and what the gauge was to show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.units import quantity
from fieldbook.watch.gauge.spread import expected_band
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.position import Moment, moment

if TYPE_CHECKING:
    from calc.drop_line.fill import Fill
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.string import StringRecord


@dataclass(frozen=True, slots=True)
class Taken:
    """One entry with a reading, and the moment at which it was read.

    Attributes:
        entry: The entry.
        now: Where the string stood then.
        raised: How far it stood above its hang; not written counts as not raised.
        level: Outside level then; where none was recorded yet, the one that is known now.
    """

    entry: Entry
    now: Moment
    raised: Quantity
    level: Quantity | None

    def expect(self, tool: Instrument, fill: Fill) -> Band | None:
        """What the gauge was to show; None while string or level is not known."""
        if self.now.record.string is None or self.level is None or self.now.lost:
            return None
        return expected_band(tool, self.now, self.level, fill, raised=self.raised)


def taken(job: Job, record: StringRecord, entry: Entry, level: Quantity | None) -> Taken:
    """The moment of a reading.

    Args:
        job: The job.
        record: The string that hung then.
        entry: A live entry with a reading.
        level: Outside level to take where none had been recorded by then.
    """
    # A joint that comes out is read before it is broken out; what goes in, and hose, afterwards.
    later = entry.kind == "footage" or entry.text("direction") == "in"
    then = moment(job, record, at=_after(job, entry) if later else entry)
    raised = of_entry(entry, "raised")
    height = raised if raised is not None else quantity(0.0, "ft")
    return Taken(entry, then, height, then.level if then.level is not None else level)


def _after(job: Job, entry: Entry) -> Entry | None:
    """The entry that follows in the log; None after the last."""
    after = None
    for other in reversed(job.entries):
        if other.order <= entry.order:
            return after
        after = other
    return after
