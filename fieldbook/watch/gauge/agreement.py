"""Whether the newest reading agrees with what was to be read then, and what else it may be."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.check import Verdict
from calc.drop_line.fill import Fill
from calc.units import magnitude
from fieldbook.record.string import written_again
from fieldbook.watch.bands import band_words
from fieldbook.watch.gauge.reading_moment import Taken, taken

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.draining.draining import Draining
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.listen.telling import Telling
    from fieldbook.watch.state.position import Moment

_WRONG = 2.0
"""Of any load to expect, above zero: so many times it, or less, no string explains. Ours."""
_AT_ZERO = 2.0  # gauge errors, within which a reading is that of the empty hook: ours
_MAY_BE_CARRIED = ("suspend", "resume", "handover")
"""Kinds in which a hold may carry the string, and the gauge little of it."""


@dataclass(frozen=True, slots=True)
class Agreement:
    """How the newest reading compares with what was to be read at its own moment.

    Attributes:
        verdict: `within` the band; `caution` outside it; `unknown` where it contradicts the record.
        words: What is off, with both figures; empty where nothing is.
        off: The same in a few words.
        missing: What would settle it, where it is `unknown`.
        shows: Share of the load that the gauge shows at the least, where it shows far too little:
            the reading never to pass is no more than that share of what it was. 0 for none.
    """

    verdict: Verdict = Verdict.WITHIN
    words: str = ""
    off: str = ""
    missing: tuple[str, ...] = ()
    shows: float = 1.0

    def beside(self, telling: Telling) -> Agreement:
        """The same with what else the reading may be."""
        may_be = telling.may_be
        return replace(self, words=f"{self.words}; may be: {may_be}") if may_be else self


AGREES = Agreement()


def agreement(
    job: Job,
    now: Moment,
    tool: Instrument | None,
    found: tuple[Quantity, Entry] | None,
    draining: Draining,
) -> Agreement:
    """Hold the newest reading against what the gauge was to show when it was read.

    Args:
        job: The job.
        now: Where it is.
        tool: The gauge as rigged; without it the check of the gauge is unknown by itself.
        found: The newest reading and its entry.
        draining: What is known of the water in the line.
    """
    if tool is None or found is None or not _speaks_of_the_string(job, now, found[1]):
        return AGREES
    reading, entry = found
    then = taken(job, now.record, entry, now.level)
    if then.now.planned or not then.now.is_lifted:
        return AGREES
    if then.level is None:
        return Agreement(Verdict.UNKNOWN, missing=("depth to water",))
    expect = then.expect(tool, _fill(job, entry, draining))
    if expect is None or (_is_carried(entry) and reading < expect.low):
        return AGREES
    return _held(reading, expect, tool, then, job.last("drain"))


def _speaks_of_the_string(job: Job, now: Moment, entry: Entry) -> bool:
    if now.planned or now.landed or not now.is_lifted or now.lost or now.record.string is None:
        return False
    if entry.kind == "pump_out" or now.beyond:
        return False
    return entry.id not in written_again(job.live("joint"))


def _is_carried(entry: Entry) -> bool:
    """Whether somebody wrote what carries the string while the work rests or changes hands."""
    return entry.kind in _MAY_BE_CARRIED and bool(entry.text("held_by"))


def _fill(job: Job, entry: Entry, draining: Draining) -> Fill:
    """What stood in the bore when the entry was read, as far as it is proved."""
    drain = job.last("drain")
    since = drain is not None and entry.order >= drain.order
    return Fill.DRAINED if draining.going_in or (draining.proved and since) else Fill.FULL


def _held(
    reading: Quantity, expect: Band, tool: Instrument, then: Taken, drain: Entry | None
) -> Agreement:
    read, low, high, zero = (
        magnitude(each, "lbf", "reading")
        for each in (reading, expect.low, expect.high, tool.gauge.zero)
    )
    if low <= read <= high:
        return AGREES
    over = read > high
    by = f"{read - high:,.0f} lbf over" if over else f"{low - read:,.0f} lbf under"
    words = f"read {read:,.0f} lbf, {band_words(expect)} expected then"
    off = f"read {by} its band"
    if not over and _is_as_drained(read, tool, then, drain):
        return Agreement(Verdict.CAUTION, f"{words}; as of a line that is drained", off)
    if not _contradicts(read - zero, low - zero, high - zero, tool):
        return Agreement(Verdict.CAUTION, words, off)
    shows = max(read - zero, 0.0) / (high - zero) if not over and high > zero else 1.0
    if not over and read - zero <= _AT_ZERO * _error(tool):
        words, shows = f"{words}: it shows its zero with the string hanging", 0.0
    lack = f"a reading that agrees: {read:,.0f} lbf read, {band_words(expect)} expected"
    return Agreement(Verdict.UNKNOWN, words, off, (lack,), shows)


def _contradicts(read: float, low: float, high: float, tool: Instrument) -> bool:
    """Whether a load, all above zero, may be twice what to expect, half of it, or nothing."""
    if read >= _WRONG * low or read <= high / _WRONG:
        return True
    return read <= _AT_ZERO * _error(tool) < low


def _error(tool: Instrument) -> float:
    error = tool.gauge.error
    return magnitude(error, "lbf", "error of the gauge") if error is not None else 0.0


def _is_as_drained(read: float, tool: Instrument, then: Taken, drain: Entry | None) -> bool:
    """Whether the crew said that the line was drained, and the reading is that of such a line."""
    if drain is None or then.entry.order < drain.order:
        return False
    empty = then.expect(tool, Fill.DRAINED)
    return empty is not None and magnitude(empty.low, "lbf", "reading") <= read
