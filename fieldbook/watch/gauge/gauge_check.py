"""The check of the gauge: its reading against the one never to pass, and against the record."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge, worst
from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.lift.lift import STOP_LOAD
from fieldbook.watch.lift.load_path import CAUTION_SHARE
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.rigging import gauge_capacity

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.agreement import Agreement
    from fieldbook.watch.lift.lift import Lift

NAME = "gauge"
_FORMULA = "reading / least limit as a reading, zero, parts and friction the worst way"


def gauge_check(
    job: Job,
    read: Quantity | None,
    shown: Band | None,
    never: Quantity | None,
    answer: Lift,
    missing: tuple[str, ...],
    agrees: Agreement,
) -> Check:
    """Hold the newest reading, or the one to expect, against the one never to pass.

    Args:
        job: The job.
        read: The newest reading; None before anything was read.
        shown: What a full line of the recorded weights shows, by gauge and sheaves alone.
        never: The reading never to pass; None while it is not known.
        answer: What is computed of the lift.
        missing: What is needed to believe the gauge.
        agrees: Whether the reading was as expected when it was read.
    """
    check = _pegged(job, read) or _against_the_limit(job, read, shown, never, answer, missing)
    if not agrees.words:
        return check
    # Outside what to expect it is no better than caution.
    note = "; ".join(filter(None, (agrees.words, check.note)))
    return replace(_at_least_caution(check), note=note)


def _pegged(job: Job, read: Quantity | None) -> Check | None:
    """A gauge at the end of its scale, whatever else of it is not known."""
    capacity = gauge_capacity(job)
    if read is None or capacity is None or read < capacity:
        return None
    return Check(
        NAME,
        Verdict.STOP,
        demand=read,
        allowable=capacity,
        share=1.0,
        governs="the gauge is at its stop and may be carrying far more",
    )


def _against_the_limit(
    job: Job,
    read: Quantity | None,
    shown: Band | None,
    never: Quantity | None,
    answer: Lift,
    missing: tuple[str, ...],
) -> Check:
    lacking = list(missing)
    if read is None and shown is None:
        lacking.append("a gauge reading")
    if gauge_capacity(job) is None:
        lacking.append(within(definition("gauge_capacity").label))
    limit, of = never, answer.limit_of
    if never is None and read is not None and (stop := Facts(job).get("limit", "stop_load")):
        # No place of a gauge but a pin shows more than hangs: over the crew's own stop is over it.
        limit, of = (stop, STOP_LOAD) if read > stop else (None, of)
    # Before anything was read: what the gauge is going to show.
    seen, note = (read if read is not None else shown.high if shown is not None else None), ""
    if read is None and shown is not None and limit is not None and shown.low <= limit < shown.high:
        # The load is no more than the limit; friction and error may yet carry the reading past it.
        seen, note = shown.low, "the reading to expect may pass the one never to pass"
    incomplete = answer.chain.verdict is Verdict.UNKNOWN
    if limit is not None and limit.magnitude <= 0 and (seen is None or seen >= limit):
        words = f"nothing may hang: stop at {show(limit, 'lbf')}, {of}"
        return Check(NAME, Verdict.STOP, demand=seen, allowable=limit, governs=words)
    check = judge(
        NAME,
        seen,
        limit if limit is not None and limit.magnitude > 0 else None,
        unit="lbf",
        caution_share=CAUTION_SHARE,
        governs=of,
        missing=dict.fromkeys((*lacking, *(answer.chain.missing if incomplete else ()))),
        formula=_FORMULA
        if read is not None
        else f"nothing read yet, so the one to expect: {_FORMULA}",
        source="API RP 9B sheave friction; statics",
        note=note,
    )
    return _at_least_caution(check) if note else check


def _at_least_caution(check: Check) -> Check:
    return replace(check, verdict=worst((check, Check(NAME, Verdict.CAUTION))))
