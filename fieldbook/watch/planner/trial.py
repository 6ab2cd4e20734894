"""A candidate's string of one length, and the book's own checks on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, worst
from calc.units import magnitude
from fieldbook.watch.answered import answered, answered_or
from fieldbook.watch.draining.draining import Draining
from fieldbook.watch.lift.lift import Lift, lift, no_lift
from fieldbook.watch.planner.trial_job import TrialJob
from fieldbook.watch.pressure.pressure import pressure
from fieldbook.watch.pressure.pull_in_service import served
from fieldbook.watch.pressure.service import service
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.position import Moment, intake_depth, moment
from fieldbook.watch.state.rigging import REEL, rigging
from fieldbook.watch.state.string import StringRecord, string_record
from fieldbook.watch.well.hose_limits import window

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.planner.candidates import Candidate

PRESSURE = "gross pressure"
LIFTED = "wall, lifted full"
SERVED = "wall, in service"
PATH = "lift path"

_SHORTEST = 0.25
_FULL = Draining(False, "a plan counts on a full line")


@dataclass(frozen=True, slots=True)
class Trial:
    """A candidate's string of one length, checked.

    Attributes:
        length: Of the drop line, ft.
        setting: Depth of the intake below the datum; None while it is not known.
        now: Where it hangs.
        lift: The lift check, line full.
        limits: One check for each limit; its demand is that of the link or cut used most.
        lacking: What is needed to know where the intake hangs.
    """

    length: float
    setting: Quantity | None
    now: Moment
    lift: Lift
    limits: dict[str, Check]
    lacking: tuple[str, ...]


class Bench:
    """Tries one candidate at any length; each length is looked at once.

    Attributes:
        rig: The lift path.
        friction: That the lift allows for; None when not recorded.
        seen: What the line sees in service.
    """

    def __init__(self, job: Job, candidate: Candidate) -> None:
        """Try `candidate` in the well and on the rig of `job`."""
        self._candidate = candidate
        self._trial_job = TrialJob(job, candidate)
        self.rig = rigging(self._trial_job.job(_SHORTEST))
        self.seen = service(job, moment(job, StringRecord()).water_weight)
        self.friction = Facts(job).get("rig", "dry_friction")
        self._seen: dict[float, Trial] = {}

    def at(self, length: float) -> Trial:
        """The candidate with `length` feet of drop line."""
        if length not in self._seen:
            self._seen[length] = self._look(length)
        return self._seen[length]

    def length_for(self, setting: Quantity) -> float | None:
        """Feet of drop line that hang the intake at `setting`; None where that is less than none.

        Where pump or fittings are not known yet, the line alone is taken to reach there.
        """
        shortest = self.at(_SHORTEST)
        wanted = magnitude(setting, "ft", "setting")
        if shortest.setting is not None:
            wanted += _SHORTEST - magnitude(shortest.setting, "ft", "setting")
        return wanted if wanted >= _SHORTEST else None

    def job(self, length: float) -> Job:
        """The job in which that string hangs."""
        return self._trial_job.job(length)

    def _look(self, length: float) -> Trial:
        job = self._trial_job.job(length)
        # A plan asks about the string once all of it hangs, also on a job that is still to set it.
        now = replace(moment(job, string_record(job)), hangs=True, planned=False)
        answer = answered_or(PATH, lambda: lift(job, now, self.rig, _FULL), no_lift)
        pressed = answered(PRESSURE, lambda: pressure(now, self.seen))
        setting, lacking = intake_depth(job, now)
        pieces = {piece.name for piece in now.record.pieces}
        string = [link.check for link in answer.links if link.check.name in pieces]
        gear = [link.check for link in answer.links if link.check.name not in pieces]
        limits = {
            PRESSURE: replace(pressed, name=PRESSURE),
            LIFTED: _most(LIFTED, string, answer),
            SERVED: replace(answered(SERVED, lambda: served(now, self.seen)), name=SERVED),
            PATH: self._path(gear, answer),
        }
        if self._candidate.line == "hose" and (fits := window(job)) is not None:
            limits[fits.name] = fits
        return Trial(length, setting, now, answer, limits, lacking)

    def _path(self, gear: list[Check], answer: Lift) -> Check:
        reel = self._candidate.line == "hose"
        if self.rig.hoist and reel != (self.rig.hoist == REEL):
            need = "a hose reel" if reel else "a hoist for joints"
            return Check(PATH, Verdict.UNKNOWN, missing=(f"{need} (rig: {self.rig.hoist})",))
        return _most(PATH, gear, answer)


def _most(name: str, checks: list[Check], answer: Lift) -> Check:
    """The check that is used most, with whatever any of them lacks."""
    if not checks:
        return Check(name, Verdict.UNKNOWN, missing=answer.check.missing)
    missing = tuple(dict.fromkeys(lack for check in checks for lack in check.missing))
    ruling = governing(checks) or checks[0]
    return replace(ruling, name=name, verdict=worst(checks), missing=missing)
