"""The job in which a candidate hangs: the job's well, pump, cable and rig, and another string."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from calc.units import magnitude
from fieldbook.quantities.convert import as_quantity
from fieldbook.record.entry import Entry, Origin, Value
from fieldbook.record.job import Job
from fieldbook.record.string import LENGTHS, string_pieces
from fieldbook.watch.state.couplings import USUAL_JOINT_FT
from fieldbook.watch.state.drop_line import DropLine, line_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.watch.planner.candidates import Candidate

_CACHED = ("job", "well", "rig", "redirect", "cable", "pump", "level", "hose_sheet")
_MADE_UP = "plan"
_NEVER = dt.datetime.fromtimestamp(0, dt.UTC)


class TrialJob:
    """Makes the job for any length of one candidate."""

    def __init__(self, job: Job, candidate: Candidate) -> None:
        """Take well, pump, cable, rig and fittings from `job`."""
        self._cache = [entry for kind in _CACHED for entry in job.live(kind)]
        self._fittings = [e for e in string_pieces(job) if e.text("piece") not in LENGTHS]
        self._candidate = candidate

    def job(self, length: float) -> Job:
        """The job with `length` feet of the candidate above the fittings, nothing of it out.

        A uniform run is loaded most at its ends, so one long joint shows what many would; what
        couplings add is spread over it. Every fitting is taken to hang at the foot.
        """
        candidate = self._candidate
        hose = candidate.line == "hose"
        run: dict[str, Value] = {
            **candidate.values,
            "line": Value(candidate.line),
            "piece": Value("hose" if hose else "joint"),
            "place": _number(0.0),
            "piece_length" if hose else "joint_length": _number(length, "ft"),
        }
        if not hose:
            run |= {"nps": Value(candidate.nps), "schedule": Value(candidate.schedule)}
            run["joint_count"] = _number(1.0)
            run |= self._couplings(length, run)
        made = [_entry("piece", run, 1)]
        for number, fitting in enumerate(self._fittings, 2):
            made.append(_entry("piece", self._fitted(fitting), number))
        return Job([*self._cache, *made])

    def _couplings(self, length: float, run: Mapping[str, Value]) -> dict[str, Value]:
        each = self._candidate.values.get("coupling_weight")
        if each is None and (usual := self._usual_coupling(run)) > 0.0:
            each = _number(usual, "lbf")
        if each is None or each.number is None:
            return {}
        joint = self._candidate.values.get("joint_length")
        feet = USUAL_JOINT_FT
        if joint is not None:
            feet = magnitude(as_quantity(joint), "ft", "joint length", above=0.0)
        return {"coupling_weight": replace(each, number=each.number * length / feet)}

    def _usual_coupling(self, run: Mapping[str, Value]) -> float:
        line = line_of(_entry("piece", run, 1), self._candidate.line, None)
        return line.coupling if isinstance(line, DropLine) else 0.0

    def _fitted(self, fitting: Entry) -> Mapping[str, Value]:
        if self._candidate.hangs:
            return fitting.values
        # A valve of another size is another valve: its weight is near enough, its rating is not.
        values = {n: v for n, v in fitting.values.items() if n != "fitting_rating"}
        rated = self._candidate.values.get("fitting_rating")
        return values if rated is None else values | {"fitting_rating": rated}


def _number(number: float, unit: str = "") -> Value:
    return Value(f"{number:g}", number, unit, Origin.COMPUTED)


def _entry(kind: str, values: Mapping[str, Value], number: int) -> Entry:
    return Entry(
        id=f"{_MADE_UP}-{kind}-{number}",
        seq=number,
        time=_NEVER,
        by=_MADE_UP,
        device=_MADE_UP,
        kind=kind,
        values=values,
    )
