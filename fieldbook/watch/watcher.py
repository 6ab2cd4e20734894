"""All live checks of a job at once, with the string kept from one look to the next."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, worst
from calc.drop_line.fill import Fill
from fieldbook.watch.answered import answered, answered_or
from fieldbook.watch.depth.reconcile import NAME as DEPTH
from fieldbook.watch.depth.reconcile import Depth, depth
from fieldbook.watch.depth.tally_plan import NAME as TALLY_PLAN
from fieldbook.watch.depth.tally_plan import tally_plan
from fieldbook.watch.draining.draining import (
    GOING_IN,
    RUN,
    Draining,
    draining_check,
    judge_draining,
)
from fieldbook.watch.draining.refilled import Refilled
from fieldbook.watch.estimates import on_estimates
from fieldbook.watch.gauge.agreement import agreement
from fieldbook.watch.gauge.as_read import as_read
from fieldbook.watch.gauge.gauge_check import NAME as GAUGE
from fieldbook.watch.gauge.held_both_ways import gauge_lacks, worse_of_both
from fieldbook.watch.gauge.instrument import Instrument, instrument, reading_of_string
from fieldbook.watch.gauge.next_reading import ahead
from fieldbook.watch.gauge.readings import Readings, no_reading, readings
from fieldbook.watch.lift.lift import NAME as LIFT
from fieldbook.watch.lift.lift import Lift, lift, no_lift
from fieldbook.watch.lift.verdict import judged
from fieldbook.watch.listen.hearing import Hearing
from fieldbook.watch.motor.amps import NAME as AMPS
from fieldbook.watch.motor.amps import amps
from fieldbook.watch.motor.insulation import NAME as INSULATION
from fieldbook.watch.motor.insulation import insulation
from fieldbook.watch.motor.supply import DROP, cable_drop, supply
from fieldbook.watch.motor.supply import NAME as SUPPLY
from fieldbook.watch.motor.windings import NAME as WINDINGS
from fieldbook.watch.motor.windings import windings
from fieldbook.watch.pressure.pressure import NAME as PRESSURE
from fieldbook.watch.pressure.pressure import pressure
from fieldbook.watch.pressure.pull_in_service import NAME as SERVED
from fieldbook.watch.pressure.pull_in_service import beside_service, served
from fieldbook.watch.pressure.service import service
from fieldbook.watch.site.gear_dates import gear_dates
from fieldbook.watch.site.overhead import NAME as OVERHEAD
from fieldbook.watch.site.overhead import power_lines
from fieldbook.watch.site.wind import NAME as WIND
from fieldbook.watch.site.wind import wind
from fieldbook.watch.state.metered import metered
from fieldbook.watch.state.position import Moment, goes_in, moment, moving_in
from fieldbook.watch.state.rigging import Rigging, gauge, rigging
from fieldbook.watch.state.string import StringRecord, key_of, string_record
from fieldbook.watch.well.air_line import NAME as AIR_LINE
from fieldbook.watch.well.air_line import air_line
from fieldbook.watch.well.capacity import NAME as CAPACITY
from fieldbook.watch.well.capacity import capacity
from fieldbook.watch.well.hose_limits import NAME as WINDOW
from fieldbook.watch.well.hose_limits import window
from fieldbook.watch.well.pump_run import NAME as PUMP_RUN
from fieldbook.watch.well.pump_run import pump_run
from fieldbook.watch.well.setting import NAME as SETTING
from fieldbook.watch.well.setting import setting
from fieldbook.watch.well.tank_and_chlorine import CHLORINE, PRECHARGE, chlorine, precharge

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.draining.falls import Falls
    from fieldbook.watch.listen.telling import Telling


@dataclass(frozen=True, slots=True)
class Look:
    """What the book sees at one moment.

    Attributes:
        now: Where the string is.
        rig: The lift path.
        lift: The lift check with every link.
        readings: What the gauge says and should say.
        draining: Whether the line is proved drained.
        depth: How deep the intake hangs or hung, by every way there is.
        checks: Every live check, the lift first.
        tell: Weighs what the gauge is telling, as the job is when it is called.
    """

    now: Moment
    rig: Rigging
    lift: Lift
    readings: Readings
    draining: Draining
    depth: Depth
    checks: tuple[Check, ...]
    tell: Callable[[], Telling] = field(repr=False, compare=False)

    @property
    def telling(self) -> Telling:
        """What the gauge is telling; weighed when it is asked for, and only what is new."""
        return self.tell()

    @property
    def stops(self) -> tuple[Check, ...]:
        """The checks that forbid moving the string at all; nothing waves them through."""
        return tuple(
            check
            for check in (self.readings.check, self.lift.check)
            if check.verdict is Verdict.STOP
        )

    @property
    def stopped_by(self) -> tuple[Check, ...]:
        """What each of these stops by itself: what was read, then what is computed."""
        return tuple(
            check
            for check in (self.readings.check, self.lift.chain)
            if check.verdict is Verdict.STOP
        )

    @property
    def verdict(self) -> Verdict:
        """The verdict that rules them all."""
        return worst(self.checks)


class Watcher:
    """Looks at one job again and again; rebuilds its string only when the record of it changes."""

    def __init__(self, job: Job) -> None:
        """Watch `job`."""
        self._job = job
        self._key: tuple[str, ...] | None = None
        self._records: dict[bool, StringRecord] = {}
        self._hearing = Hearing(job)
        self._refilled = Refilled(job)

    def telling(self) -> Telling:
        """What the gauge is telling, without the other checks."""
        seen, lacking = gauge(self._job)
        rig = rigging(self._job)
        return self._tell(moment(self._job, self._string()), instrument(seen, rig), rig, lacking)

    def look(self, *, joints_out: int | None = None, drained: bool | None = None) -> Look:
        """Every live check as the job is, or for another case.

        Args:
            joints_out: Ask about this many joints out.
            drained: Take the line as drained or as full, whatever has been proved.
        """
        job = self._job
        now = moment(job, self._string(), joints_out=joints_out)
        rig = rigging(job)
        seen, lacking = gauge(job)
        tool = instrument(seen, rig)
        draining = self._draining(now, tool, drained)
        in_service = self._in_service(now)
        pulled = next((check for check in in_service if check.name == SERVED), None)
        computed = answered_or(LIFT, lambda: lift(job, now, rig, draining), no_lift)
        answer = beside_service(computed, pulled, now)
        # The newest reading is of where the job is, whatever case is asked about.
        current = now if joints_out is None else moment(job, now.record)
        held = draining if drained is None else self._draining(current, tool, None)
        agrees = agreement(job, current, tool, reading_of_string(job, current), held)
        if agrees.words:  # weighed only now: most readings are as expected
            agrees = agrees.beside(self._tell(current, tool, rig, lacking))
        lacks = gauge_lacks(job, rig, tool, lacking)
        readings_now = answered_or(
            GAUGE, lambda: readings(job, now, computed, tool, lacks, agrees), no_reading
        )
        readings_now = worse_of_both(job, now, current, draining, held, readings_now)
        answer = judged(answer, readings_now)
        coming = ahead(
            now,
            answer,
            tool,
            readings_now.never,
            fill=Fill.DRAINED if draining.leaves_empty else Fill.FULL,
        )
        readings_now = replace(readings_now, ahead=coming)
        deep = answered_or(DEPTH, lambda: depth(job, current, tool), Depth)
        asked = (
            *in_service,
            answered(WINDOW, lambda: window(job)),
            answered(OVERHEAD, lambda: power_lines(job)),
            answered(WIND, lambda: wind(job)),
            draining_check(job.last("drain"), draining)
            if now.is_lifted and not moving_in(job)
            else None,
            # The day of the record, not of the reader: an old job is no worse for its age.
            gear_dates(job, job.entries[-1].time.date()) if job.entries else None,
            deep.check,
            *self._pump_and_well(current),
        )
        others = (check for check in asked if check is not None)
        answer = replace(answer, check=on_estimates(answer.check, self._job))
        readings_now = replace(readings_now, check=on_estimates(readings_now.check, self._job))
        checks = (answer.check, readings_now.check, *(on_estimates(c, self._job) for c in others))
        tell = partial(self._tell, current, tool, rig, lacking)
        return Look(now, rig, answer, readings_now, draining, deep, checks, tell)

    def _tell(
        self, now: Moment, tool: Instrument | None, rig: Rigging, lacking: tuple[str, ...]
    ) -> Telling:
        missing = lacking or (rig.missing if tool is None else ())
        return self._hearing.tell(now, tool, rig, missing)

    def _pump_and_well(self, now: Moment) -> tuple[Check | None, ...]:
        job = self._job
        read = metered(job)
        return (
            answered(SUPPLY, lambda: supply(job, read)),
            answered(AMPS, lambda: amps(job, read)),
            answered(WINDINGS, lambda: windings(job, read)),
            answered(INSULATION, lambda: insulation(job, read, now)),
            answered(DROP, lambda: cable_drop(job, read)),
            answered(SETTING, lambda: setting(job, read)),
            answered(TALLY_PLAN, lambda: tally_plan(job)),
            answered(CAPACITY, lambda: capacity(job, read)),
            answered(PRECHARGE, lambda: precharge(job, read)),
            answered(PUMP_RUN, lambda: pump_run(job, read)),
            answered(AIR_LINE, lambda: air_line(job)),
            answered(CHLORINE, lambda: chlorine(job)),
        )

    def _in_service(self, now: Moment) -> tuple[Check, ...]:
        if now.visit:
            return ()
        seen = service(self._job, now.water_weight)
        if not (now.hangs or now.planned):
            return (answered(PRESSURE, lambda: pressure(now, seen)),)
        return (
            answered(PRESSURE, lambda: pressure(now, seen)),
            answered(SERVED, lambda: served(now, seen)),
        )

    def _string(self, *, as_found: bool = False) -> StringRecord:
        key = key_of(self._job)
        if key != self._key:
            self._records.clear()
            self._key = key
        if as_found not in self._records:
            self._records[as_found] = string_record(self._job, as_found=as_found)
        return self._records[as_found]

    def _draining(self, now: Moment, tool: Instrument | None, drained: bool | None) -> Draining:
        if drained is not None:
            return Draining(drained, "taken as drained" if drained else "taken as full")
        if goes_in(self._job):
            return GOING_IN
        if moving_in(self._job):
            return RUN
        drain = self._job.last("drain")
        found = judge_draining(
            drain,
            falls=lambda entry: self._falls_at(entry, now.level, tool),
            load_error=tool.load_error if tool is not None else None,
            per_reading=tool.load_per_reading if tool is not None else None,
            full_again=lambda entry: self._full_again(entry, now.level, tool),
        )
        was = as_read(self._job, drain) if found.proved and drain is not None else None
        return found if was is None else self._proved_then(was, now.level, found)

    def _proved_then(self, was: Job, level: Quantity | None, found: Draining) -> Draining:
        """What is proved by the gauge as it is, if the gauge as it was proves it too."""
        tool, string = instrument(gauge(was)[0], rigging(was)), self._string(as_found=True)
        if tool is None:
            return found
        then = judge_draining(
            was.last("drain"),
            falls=lambda entry: Refilled(was).falls(entry, string, tool, level),
            load_error=tool.load_error,
            per_reading=tool.load_per_reading,
            full_again=lambda _: "",  # what was read since is of the gauge as it is
        )
        return found if then.proved else then

    def _falls_at(
        self, entry: Entry, level: Quantity | None, tool: Instrument | None
    ) -> Falls | None:
        found = self._string(as_found=True)
        return self._refilled.falls(entry, found, tool, level) if tool is not None else None

    def _full_again(self, entry: Entry, level: Quantity | None, tool: Instrument | None) -> str:
        found = self._string(as_found=True)
        return self._refilled.words(entry, found, tool, level) if tool is not None else ""
