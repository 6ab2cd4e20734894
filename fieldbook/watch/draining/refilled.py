"""Readings of a full line after it was said to be drained: they take the proof away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.units import magnitude
from fieldbook.record.string import written_again
from fieldbook.watch.draining.falls import falls
from fieldbook.watch.gauge.instrument import READING_KINDS
from fieldbook.watch.gauge.reading_moment import taken
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.position import moment

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.draining.falls import Falls
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.string import StringRecord

_BASIS = ("well", "level", "gauge", "rig", "redirect", "drain")
"""Kinds on which the readings to expect rest, beside the string."""


class Refilled:
    """Looks at each reading once; again only when what they are held against changes."""

    def __init__(self, job: Job) -> None:
        """Look at `job`, nothing so far."""
        self._job = job
        self._basis: object = None
        self._seen: dict[str, str] = {}
        self._falls: Falls | None = None

    def falls(
        self, drain: Entry, record: StringRecord, tool: Instrument, level: Quantity | None
    ) -> Falls | None:
        """What may have lowered the reading at `drain`; None while string or level is unknown.

        Args:
            drain: The entry by which the line was drained.
            record: The string that hung then.
            tool: The gauge as rigged.
            level: Outside level where none had been recorded by then.
        """
        self._catch_up(record, tool)
        if self._falls is None and record.string is not None:
            then = moment(self._job, record, at=drain)
            water = then.level if then.level is not None else level
            if water is not None and not then.beyond:
                self._falls = falls(then, water, tool)
        return self._falls

    def _catch_up(self, record: StringRecord, tool: Instrument) -> None:
        live = tuple(entry.id for kind in _BASIS for entry in self._job.live(kind))
        basis = (id(record), tool, live)
        if basis != self._basis:
            self._basis, self._seen, self._falls = basis, {}, None

    def words(
        self, drain: Entry, record: StringRecord, tool: Instrument, level: Quantity | None
    ) -> str:
        """The first reading after `drain` that is of a full line, in words; empty for none.

        Args:
            drain: The entry by which the line was drained.
            record: The string that hung then.
            tool: The gauge as rigged.
            level: Outside level where none had been recorded by then.
        """
        self._catch_up(record, tool)
        again = written_again(self._job.live("joint"))
        later = [
            entry
            for kind in READING_KINDS
            for entry in self._job.live(kind)
            if entry.order > drain.order and "gauge_reading" in entry.values
        ]
        for entry in sorted(later, key=lambda entry: entry.order):
            if entry.id in again:
                continue
            if entry.id not in self._seen:
                self._seen[entry.id] = self._of(entry, record, tool, level)
            if self._seen[entry.id]:
                return self._seen[entry.id]
        return ""

    def _of(
        self, entry: Entry, record: StringRecord, tool: Instrument, level: Quantity | None
    ) -> str:
        reading = of_entry(entry, "gauge_reading")
        then = taken(self._job, record, entry, level)
        full, drained = (then.expect(tool, fill) for fill in (Fill.FULL, Fill.DRAINED))
        if reading is None or full is None or drained is None or not then.now.is_lifted:
            return ""
        if reading < full.low or reading <= drained.high:
            return ""
        read = magnitude(reading, "lbf", "gauge reading")
        return f"not proved: {read:,.0f} lbf read since is of a full line; hung up? cross it out"
