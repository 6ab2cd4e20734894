"""The gauge: what it says hangs, what it should show now, and what it must never show."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.drop_line.fill import Fill
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.watch.gauge.agreement import AGREES, Agreement
from fieldbook.watch.gauge.gauge_check import NAME, gauge_check
from fieldbook.watch.gauge.instrument import reading_of_string
from fieldbook.watch.gauge.next_reading import Ahead
from fieldbook.watch.gauge.spread import expected_band
from fieldbook.watch.lift.lift import STOP_LOAD
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.position import idle_words

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.lift.lift import Lift
    from fieldbook.watch.state.position import Moment

_ON_A_LINE = ("deadline", "fast line")


@dataclass(frozen=True, slots=True)
class Readings:
    """What the gauge tells, as readings.

    Attributes:
        check: The newest reading against the reading never to pass.
        read: The newest reading; None when there is none.
        hook_load: The hook loads it can mean.
        expect_full: What it shows now with the line full.
        expect_drained: What it shows now with the line drained.
        never: The reading never to pass, for the worst direction of travel.
        never_of: Which link or stop sets it.
        never_needs: What is missing to know it whole; it may be known in part. It needs no reading.
        off: How far the newest reading is from what to expect at its own moment; empty for not.
        ahead: The readings to expect next, and the pull that is left.
    """

    check: Check
    read: Quantity | None
    hook_load: Band | None
    expect_full: Band | None
    expect_drained: Band | None
    never: Quantity | None
    never_of: str
    never_needs: tuple[str, ...] = ()
    off: str = ""
    ahead: Ahead = field(default_factory=Ahead)


def readings(
    job: Job,
    now: Moment,
    answer: Lift,
    tool: Instrument | None,
    missing: tuple[str, ...],
    agrees: Agreement = AGREES,
) -> Readings:
    """What the gauge says, held against the reading never to pass.

    Args:
        job: The job.
        now: Where it is, or the case that is asked about.
        answer: What is computed for it.
        tool: The gauge as rigged.
        missing: What keeps the gauge from being read.
        agrees: Whether the newest reading was as expected when it was read.
    """
    found = reading_of_string(job, now)
    read = found[0] if found is not None else None
    never = _never(answer, tool, agrees) if tool is not None else _crews_own(job)
    full, drained = _expected(now, tool)
    needs = agrees.missing if agrees.shows <= 0.0 else _never_needs(never, answer, missing)
    if not now.has_load:
        check = Check(NAME, Verdict.WITHIN, governs=idle_words(now))
    else:
        most = now.load(now.level, Fill.FULL) if full is not None else None
        shown = tool.expect(most) if tool is not None and most is not None else None
        lacking = (*missing, *(needs if never is None else ()), *agrees.missing)
        check = gauge_check(job, read, shown, never, answer, lacking, agrees)
    return Readings(
        check,
        read,
        _meaning(read, tool),
        full,
        drained,
        never,
        _never_of(never, answer, tool, agrees),
        needs,
        agrees.off,
    )


def no_reading(check: Check) -> Readings:
    """What the gauge tells where `check` says all that there is to say."""
    return Readings(check, None, None, None, None, None, "", check.missing)


def _crews_own(job: Job) -> Quantity | None:
    """The crew's stop load as a reading, of a gauge that nobody has described whole.

    None where the gauge may be on one of several parts of line: it shows a part of the load then.
    """
    facts = Facts(job)
    place, parts = facts.words("gauge", "gauge_place"), facts.get("rig", "parts_of_line")
    if place in _ON_A_LINE or (not place and parts is not None and parts.magnitude > 1):
        return None
    return facts.get("limit", "stop_load")


def _never(answer: Lift, tool: Instrument, agrees: Agreement) -> Quantity | None:
    """The reading never to pass; of a gauge that shows too little, no more than it shows of it.

    Of a gauge that shows nothing of the load there is none.
    """
    if answer.limit is None:
        return None
    never = tool.expect(answer.limit).low
    if tool.gauge.capacity is not None:
        never = min(never, tool.gauge.capacity)
    # Where nothing may be read, what the gauge shows of the load makes no odds.
    if agrees.shows >= 1.0 or never.magnitude <= 0:
        return never
    if agrees.shows <= 0.0:
        return None
    zero, most = (magnitude(each, "lbf", "reading") for each in (tool.gauge.zero, never))
    return quantity(zero + (most - zero) * agrees.shows, "lbf")


def _never_needs(never: Quantity | None, answer: Lift, missing: tuple[str, ...]) -> tuple[str, ...]:
    if never is not None:
        return tuple(dict.fromkeys((*missing, *answer.needs)))
    of_limit = answer.chain.missing if answer.limit is None else ()
    return tuple(dict.fromkeys((*missing, *of_limit))) or ("a limit to hold it against",)


def _never_of(
    never: Quantity | None, answer: Lift, tool: Instrument | None, agrees: Agreement
) -> str:
    if never is None:
        return ""
    if tool is None:
        return STOP_LOAD
    if agrees.shows < 1.0:
        return f"{answer.limit_of}, as little as the gauge shows"
    capped = tool is not None and never == tool.gauge.capacity
    return "the gauge's own capacity" if capped else answer.limit_of


def _meaning(read: Quantity | None, tool: Instrument | None) -> Band | None:
    if read is None or tool is None:
        return None
    try:
        return tool.means(read)
    except OutOfRange:
        return None


def _expected(now: Moment, tool: Instrument | None) -> tuple[Band | None, Band | None]:
    known = now.record.string is not None and now.has_load and not now.lost and not now.beyond
    if tool is None or now.level is None or not known:
        return None, None
    return (
        expected_band(tool, now, now.level, Fill.FULL),
        expected_band(tool, now, now.level, Fill.DRAINED),
    )
