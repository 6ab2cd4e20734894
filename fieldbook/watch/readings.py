"""The gauge: what it says hangs, what it should show now, and what it must never show."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import OutOfRange
from calc.fill import Fill
from calc.gauge import Gauge, hook_load_from_reading, reading_for_hook_load
from calc.hoist import Motion, Reeving
from calc.units import magnitude, quantity
from fieldbook.watch.ahead import Ahead
from fieldbook.watch.facts import of_entry
from fieldbook.watch.links import CAUTION_SHARE
from fieldbook.watch.moment import idle_words

if TYPE_CHECKING:
    from calc.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.lift import Lift
    from fieldbook.watch.moment import Moment
    from fieldbook.watch.rigging import Rigging

NAME = "gauge"
_FORMULA = "reading / least limit as a reading, zero, parts and friction the worst way"
READING_KINDS = (
    "load",
    "joint",
    "footage",
    "drain",
    "suspend",
    "resume",
    "handover",
    "pump_out",
    "depth",
)
"""Kinds of entry that may hold a gauge reading."""
_CHANGING = ("joint", "footage", "drain", "pump_out", "piece", "well", "level")
"""Kinds after which another reading is to be expected than before."""


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
        never_needs: What is missing to know it; empty where it is known. It needs no reading.
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
    ahead: Ahead = field(default_factory=Ahead)


@dataclass(frozen=True, slots=True)
class Instrument:
    """A gauge as it is rigged, ready to turn loads into readings and back."""

    gauge: Gauge
    reeving: Reeving

    def expect(self, load: Quantity) -> Band:
        """The readings a hook load at rest can give."""
        positive = max(load, quantity(0.0, "lbf"))
        return reading_for_hook_load(
            positive, gauge=self.gauge, reeving=self.reeving, moving=Motion.STATIC
        )

    def means(self, reading: Quantity) -> Band:
        """The hook loads a reading at rest can mean.

        Raises:
            OutOfRange: The reading is over the gauge's capacity.
        """
        return hook_load_from_reading(
            reading, gauge=self.gauge, reeving=self.reeving, moving=Motion.STATIC
        )

    @property
    def load_per_reading(self) -> float:
        """Hook load that one lbf of reading means, without friction."""
        still = Reeving(self.reeving.parts, 1.0, self.reeving.lead_sheaves)
        plain = Gauge(self.gauge.place, quantity(0.0, "lbf"), wrap=self.gauge.wrap)
        one = reading_for_hook_load(
            quantity(1.0, "lbf"), gauge=plain, reeving=still, moving=Motion.STATIC
        )
        return 1.0 / magnitude(one.high, "lbf", "reading")

    @property
    def load_error(self) -> Quantity | None:
        """The gauge's error as a hook load, one way."""
        error = self.gauge.error
        return error * self.load_per_reading if error is not None else None


def instrument(gauge: Gauge | None, rig: Rigging) -> Instrument | None:
    """The gauge as rigged, or None while it cannot be read."""
    if gauge is None or rig.reeving is None:
        return None
    return Instrument(gauge, rig.reeving)


def newest_reading(job: Job) -> tuple[Quantity, Entry] | None:
    """The newest gauge reading and the entry that holds it."""
    newest: tuple[Quantity, Entry] | None = None
    for kind in READING_KINDS:
        for entry in reversed(job.live(kind)):
            name = "load_after" if kind == "drain" else "gauge_reading"
            value = of_entry(entry, name)
            if value is not None:
                if newest is None or entry.order > newest[1].order:
                    newest = (value, entry)
                break
    return newest


def off_expected(job: Job, expect: Band | None) -> str:
    """How far the newest reading is from what to expect, in words; empty where it is not.

    Only a reading by itself, after which nothing moved or was drained, is of the string as it hangs
    now: one that came with a joint was taken before the joint was broken out.
    """
    found = newest_reading(job)
    if expect is None or found is None or found[1].kind != "load":
        return ""
    moved = [entry for kind in _CHANGING if (entry := job.last(kind)) is not None]
    if any(entry.order > found[1].order for entry in moved):
        return ""
    read, low, high = (
        round(magnitude(value, "lbf", "reading")) for value in (found[0], expect.low, expect.high)
    )
    if low <= read <= high:
        return ""
    return (
        f"read {read - high:,} lbf over that"
        if read > high
        else f"read {low - read:,} lbf under that"
    )


def readings(
    job: Job, now: Moment, answer: Lift, tool: Instrument | None, missing: tuple[str, ...]
) -> Readings:
    """What the gauge says, held against the reading never to pass."""
    found = newest_reading(job)
    out = job.last("pump_out") if now.planned else None
    # What was read while the old string hung says nothing of the one that is to go in.
    old = found is not None and out is not None and found[1].order <= out.order
    read = found[0] if found is not None and not old else None
    never = tool.expect(answer.limit).low if tool and answer.limit is not None else None
    if never is not None and tool is not None and tool.gauge.capacity is not None:
        never = min(never, tool.gauge.capacity)
    full, drained = _expected(now, tool)
    needs = _never_needs(never, answer, missing)
    check = (
        _check(read, full, never, answer, tool, (*missing, *needs))
        if now.has_load
        else Check(NAME, Verdict.WITHIN, governs=idle_words(now))
    )
    return Readings(
        check,
        read,
        _meaning(read, tool),
        full,
        drained,
        never,
        _never_of(never, answer, tool),
        needs,
    )


def _never_needs(never: Quantity | None, answer: Lift, missing: tuple[str, ...]) -> tuple[str, ...]:
    if never is not None:
        return ()
    of_limit = answer.check.missing if answer.limit is None else ()
    return tuple(dict.fromkeys((*missing, *of_limit))) or ("a limit to hold it against",)


def _never_of(never: Quantity | None, answer: Lift, tool: Instrument | None) -> str:
    if never is None:
        return ""
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
    known = now.record.string is not None and now.has_load and not now.lost
    if tool is None or now.level is None or not known:
        return None, None
    return (
        tool.expect(now.load(now.level, Fill.FULL)),
        tool.expect(now.load(now.level, Fill.DRAINED)),
    )


def _check(
    read: Quantity | None,
    full: Band | None,
    never: Quantity | None,
    answer: Lift,
    tool: Instrument | None,
    missing: tuple[str, ...],
) -> Check:
    lacking = list(missing)
    if read is None and full is None:
        lacking.append("a gauge reading")
    capacity = tool.gauge.capacity if tool is not None else None
    if read is not None and capacity is not None and read >= capacity:
        return Check(
            NAME,
            Verdict.STOP,
            demand=read,
            allowable=capacity,
            share=1.0,
            governs="the gauge is at its stop",
            note="it may be carrying far more",
        )
    incomplete = answer.check.verdict is Verdict.UNKNOWN
    return judge(
        NAME,
        # Before anything was read: what the gauge is going to show.
        read if read is not None or full is None else full.high,
        never if never is not None and never.magnitude > 0 else None,
        unit="lbf",
        caution_share=CAUTION_SHARE,
        governs=answer.limit_of,
        missing=dict.fromkeys((*lacking, *(answer.check.missing if incomplete else ()))),
        formula=_FORMULA
        if read is not None
        else f"nothing read yet, so the one to expect: {_FORMULA}",
        source="API RP 9B sheave friction; statics",
    )
