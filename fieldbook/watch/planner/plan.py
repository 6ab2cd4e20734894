"""The plan: every candidate with what its limits allow and what it does at the setting wanted."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.check import Verdict, worst
from fieldbook.watch.answered import answered
from fieldbook.watch.planner.anchors import Anchor, anchors
from fieldbook.watch.planner.candidates import Candidate, candidates
from fieldbook.watch.planner.deepest import Limit, governing_limit, limits
from fieldbook.watch.planner.duty import Duty, duty_of
from fieldbook.watch.planner.flowing import Flowing, flowing
from fieldbook.watch.planner.motor import COOLING, LOAD, motor_cooling, motor_load
from fieldbook.watch.planner.setting import Room, room_in, wanted_setting
from fieldbook.watch.planner.supply import Supply, supply_for
from fieldbook.watch.planner.time_taken import TimeTaken, time_taken
from fieldbook.watch.planner.trial import Bench, Trial
from fieldbook.watch.state.position import moment
from fieldbook.watch.state.string import StringRecord
from fieldbook.watch.watcher import Watcher

if TYPE_CHECKING:
    from collections.abc import Collection

    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.planner.known import Known
    from fieldbook.watch.pressure.service import Gross


@dataclass(frozen=True, slots=True)
class AtSetting:
    """One candidate hung at the setting wanted.

    Attributes:
        trial: Its string, its lift check and each limit's check.
        verdict: That rules all limits there, and the lift as it hangs now where that is a stop.
        gross: Pressure at the foot of the line; None while the pressure at the top is not known.
        flowing: Friction, head and operating point.
        motor: What the pump takes at its operating point, against the motor's nameplate.
        time: To set it: an estimate.
        anchors: Redirect pulleys under the worst load of the lift.
    """

    trial: Trial
    verdict: Verdict
    gross: Gross | None
    flowing: Flowing
    motor: Check
    time: TimeTaken
    anchors: tuple[Anchor, ...]


@dataclass(frozen=True, slots=True)
class PlanRow:
    """One candidate.

    Attributes:
        candidate: Which.
        limits: What each limit allows.
        governs: The limit that allows least of those known; None when none is.
        at: The candidate at the setting wanted; None while no setting is known.
        missing: What is needed to know every limit.
    """

    candidate: Candidate
    limits: tuple[Limit, ...]
    governs: Limit | None
    at: AtSetting | None
    missing: tuple[str, ...]

    @property
    def verdict(self) -> Verdict:
        """At the setting wanted; where none is known, whether its limits are."""
        if self.at is not None:
            return self.at.verdict
        if self.governs is not None and self.governs.length == 0.0:
            return Verdict.STOP
        return Verdict.UNKNOWN if self.missing or self.governs is None else Verdict.WITHIN


@dataclass(frozen=True, slots=True)
class Plan:
    """The candidates side by side.

    Attributes:
        rows: Each candidate.
        setting: Depth of the intake that is planned for.
        room: What the well itself allows.
        duty: What the pump is asked to do.
        supply: The cable; None while no setting is known.
        cooling: The water past the motor.
        common: What every candidate lacks.
        stopped: The lift of what hangs now, where that is a stop; None otherwise.
    """

    rows: tuple[PlanRow, ...]
    setting: Known[Quantity]
    room: Room
    duty: Duty
    supply: Supply | None
    cooling: Check
    common: tuple[str, ...]
    stopped: Check | None

    @property
    def possible(self) -> bool:
        """Whether any candidate is within every limit."""
        return any(row.verdict in (Verdict.WITHIN, Verdict.CAUTION) for row in self.rows)


def plan(job: Job, *, only: Collection[str] = ()) -> Plan:
    """The plan for a job's well, duty, pump, cable and rig.

    Args:
        job: The job.
        only: Names of the candidates to plan for; none for all of them.
    """
    duty = duty_of(job, moment(job, StringRecord()).water_weight)
    room = room_in(job, duty.level)
    setting = wanted_setting(job, room)
    chosen = [c for c in candidates(job) if not only or c.name in only]
    stopped = _stopped(job)
    rows = tuple(_row(job, candidate, duty, setting.value, stopped) for candidate in chosen)
    first = rows[0].missing if rows else ()
    common = [lack for lack in first if all(lack in other.missing for other in rows)]
    return Plan(
        rows,
        setting,
        room,
        duty,
        supply_for(job, setting.value) if setting.value is not None else None,
        answered(COOLING, lambda: motor_cooling(job, duty.flow.value, setting.value)),
        tuple(common),
        stopped,
    )


def _stopped(job: Job) -> Check | None:
    look = Watcher(job).look()
    lift = look.lift.check
    return lift if look.now.has_load and lift.verdict is Verdict.STOP else None


def _row(
    job: Job, candidate: Candidate, duty: Duty, setting: Quantity | None, stopped: Check | None
) -> PlanRow:
    bench = Bench(job, candidate)
    found = limits(bench)
    missing = _lacking(found)
    at = _at(bench, candidate, duty, setting) if setting is not None else None
    if at is not None and candidate.hangs and stopped is not None:
        at = replace(at, verdict=stopped.verdict)
    return PlanRow(candidate, tuple(found), governing_limit(found), at, missing)


def _at(bench: Bench, candidate: Candidate, duty: Duty, setting: Quantity) -> AtSetting | None:
    length = bench.length_for(setting)
    if length is None:
        return None
    trial = bench.at(length)
    load = trial.lift.loads.worst if trial.lift.loads is not None else None
    friction = bench.friction
    pulled = load + friction if load is not None and friction is not None else None
    runs = flowing(duty, candidate, length)
    return AtSetting(
        trial,
        worst(trial.limits.values()),
        bench.seen.at(length, trial.now.top) if bench.seen.top is not None else None,
        runs,
        answered(LOAD, lambda: motor_load(bench.job(length), runs.shaft_power)),
        time_taken(candidate, length),
        anchors(bench.rig, pulled) if pulled is not None else (),
    )


def _lacking(found: list[Limit]) -> tuple[str, ...]:
    """What the limits lack, each once: what the line lacks its fittings lack with it."""
    lacks = dict.fromkeys(lack for limit in found for lack in limit.missing)
    line = {lack.removesuffix(f" of {what}") for lack in lacks for what in ("hose", "joint")}
    stems = {lack: lack.rpartition(" of ")[0] for lack in lacks}
    return tuple(dict.fromkeys(stems[lack] if stems[lack] in line else lack for lack in lacks))
