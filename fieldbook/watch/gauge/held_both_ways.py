"""The newest reading held against gauge and rig as they were when it was read, too."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Verdict, worst
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.answered import answered_or
from fieldbook.watch.gauge.agreement import agreement
from fieldbook.watch.gauge.as_read import as_read
from fieldbook.watch.gauge.gauge_check import NAME
from fieldbook.watch.gauge.instrument import Instrument, instrument, reading_of_string
from fieldbook.watch.gauge.readings import Readings, no_reading, readings
from fieldbook.watch.lift.lift import lift
from fieldbook.watch.state.rigging import Rigging, gauge, rigging

if TYPE_CHECKING:
    from fieldbook.record.job import Job
    from fieldbook.watch.draining.draining import Draining
    from fieldbook.watch.state.position import Moment

_WORDS = "as gauge and rig were when it was read; read it again, or cross it out"


def worse_of_both(
    job: Job,
    now: Moment,
    current: Moment,
    draining: Draining,
    held: Draining,
    readings_now: Readings,
) -> Readings:
    """What the gauge says, its check no better than with gauge and rig as they were then.

    The readings to expect and the one never to pass are of the gauge as it is: they are for the
    next reading.

    Args:
        job: The job.
        now: The case that is asked about.
        current: Where the job is.
        draining: What is taken of the water in the line in that case.
        held: What is known of it as the job is.
        readings_now: What the gauge says as it is now.
    """
    found = reading_of_string(job, now)
    was = as_read(job, found[1]) if found is not None else None
    if was is None:
        return readings_now

    def asked() -> Readings:
        rig = rigging(was)
        seen, lacking = gauge(was)
        tool = instrument(seen, rig)
        agrees = agreement(was, current, tool, found, held)
        answer = lift(was, now, rig, draining)
        return readings(was, now, answer, tool, gauge_lacks(was, rig, tool, lacking), agrees)

    then = answered_or(NAME, asked, no_reading)
    ruling = worst((readings_now.check, then.check))
    if ruling is readings_now.check.verdict or ruling is Verdict.WITHIN:
        return readings_now
    check = replace(then.check, note="; ".join(filter(None, (_WORDS, then.check.note))))
    return replace(readings_now, check=check, off=readings_now.off or then.off)


def gauge_lacks(
    job: Job, rig: Rigging, tool: Instrument | None, lacking: tuple[str, ...]
) -> tuple[str, ...]:
    """What keeps the gauge from being believed: itself, the rig, or a stop that nobody chose."""
    lacks = lacking or (rig.missing if tool is None else ())
    if job.value("limit", "stop_load") is None:  # the crew's own to choose, for each phase
        lacks = (*lacks, within(definition("stop_load").label))
    return lacks
