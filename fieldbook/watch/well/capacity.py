"""What the well gives for each foot it is drawn down, now against before."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.errors import OutOfRange
from calc.hydraulics.well import drawdown, specific_capacity
from calc.units import magnitude, quantity
from fieldbook.record.levels import is_at_rest
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.metered import MeterPlace

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "specific capacity"
_AS_BEFORE = 0.9  # flow by bucket or meter is good to 5 %, the levels to about as much: ours
_SOURCE = "flow / drawdown: MIL-HDBK-1164 4.5.1; less by a tenth is told: ours, no published source"


@dataclass(frozen=True, slots=True)
class _Tested:
    """One figure of the well: gpm for each foot, and how it came about."""

    each: float
    words: str
    order: tuple[int, str, str]


def capacity(job: Job, read: Metered) -> Check | None:
    """The newest test of the set well against the first figure there is of it.

    None until the well was pumped with its new string; less is a caution, for it speaks of the
    well and not of the lift.
    """
    if read.place is not MeterPlace.NEWLY_SET:
        return None
    tests = _tests(job)
    cut = max((e.order for e in job.live("pump_out")), default=None)
    after = [test for test in tests if cut is None or test.order > cut]
    before = [*(test for test in tests if test not in after), *_as_written(job, after)]
    if not after:
        return None
    now = after[-1]
    if not before:
        lacks = ("specific capacity before",)
        return Check(NAME, Verdict.UNKNOWN, governs=now.words, missing=lacks, source=_SOURCE)
    was = min(before, key=lambda test: test.order)
    less = now.each < _AS_BEFORE * was.each
    return Check(
        NAME,
        Verdict.CAUTION if less else Verdict.WITHIN,
        demand=quantity(_AS_BEFORE, "dimensionless"),
        allowable=quantity(now.each / was.each, "dimensionless"),
        share=_AS_BEFORE * was.each / now.each,
        governs=f"{now.words}, before {was.words}",
        formula="now / before, against nine tenths of it",
        source=_SOURCE,
        note="the well gives less: not the pump" if less else "",
        at_least=True,
    )


def _tests(job: Job) -> list[_Tested]:
    """Each pumping level with a flow, with the static level that came before it."""
    found = []
    static: Quantity | None = None
    for entry in job.live("level"):
        level = of_entry(entry, "water_level")
        if level is None:
            continue
        if is_at_rest(entry.text("level_state")):
            static = level
        elif entry.text("level_state") == "pumping" and static is not None:
            test = _test(entry, static, level)
            if test is not None:
                found.append(test)
    return found


def _test(entry: Entry, static: Quantity, level: Quantity) -> _Tested | None:
    flow = of_entry(entry, "flow")
    if flow is None:
        return None
    try:
        down = drawdown(static_level=static, pumping_level=level)
        each = magnitude(specific_capacity(flow=flow, drawdown=down), "gpm/ft", NAME)
    except OutOfRange:  # no flow, or the level is above the static one
        return None
    minutes = of_entry(entry, "minutes_on")
    after = f" after {minutes.m_as('min'):g} min" if minutes is not None else ""
    return _Tested(each, f"{each:.2f} gpm/ft{after}", entry.order)


def _as_written(job: Job, after: list[_Tested]) -> list[_Tested]:
    """The figure that the duty was planned on, if it was written before the newest test."""
    found = []
    for entry in job.live("duty"):
        value = of_entry(entry, "specific_capacity")
        if value is not None and value.magnitude > 0 and after and entry.order < after[0].order:
            each = float(value.magnitude)
            found.append(_Tested(each, f"{each:.2f} gpm/ft as planned", entry.order))
    return found
