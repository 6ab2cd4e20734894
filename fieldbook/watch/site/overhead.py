"""Overhead power lines: the distance as it was surveyed, against what their voltage asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import OutOfRange
from calc.hoisting.overhead import SOURCE, clearance_of_any_line, least_clearance
from calc.units import magnitude
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

NAME = "power lines"
_CAUTION = 0.5  # 10 ft of 20: the rule begins at 20 ft from a line of up to 350 kV
_NEARER = "nearer only where the utility has the line dead and grounded, and says so"


def power_lines(job: Job) -> Check | None:
    """The newest survey of the overhead lines; None before there is one.

    Voltage and distance are of one survey: a rig that has moved is near another line. Where the
    voltage is not known, only a distance that is enough for any line is within.
    """
    survey = _newest_survey(job)
    if survey is None:
        return None
    measured, voltage = (of_entry(survey, n) for n in ("line_clearance", "power_line_voltage"))
    needed, words = _needed(measured, voltage)
    missing = [] if measured is not None else [_label("line_clearance")]
    if needed is None:
        missing.append(words)
    elif measured is not None and measured.magnitude <= 0:
        # Nothing divides by a distance of nothing, and no voltage allows it.
        return Check(NAME, Verdict.STOP, needed, governs="touching", source=SOURCE, note=_NEARER)
    return judge(
        NAME,
        needed,
        measured if needed is not None else None,
        unit="ft",
        caution_share=_CAUTION,
        governs=words if needed is not None else "",
        missing=missing,
        formula="distance that the voltage asks / nearest distance, with swing and sway",
        source=SOURCE,
        note=_NEARER,
        at_least=True,
    )


def _newest_survey(job: Job) -> Entry | None:
    """The newest arrival that measured a distance, or said that the rig was moved."""
    for entry in reversed(job.live("arrival")):
        if "line_clearance" in entry.values or entry.text("rig_moved") == "yes":
            return entry
    return None


def _needed(measured: Quantity | None, voltage: Quantity | None) -> tuple[Quantity | None, str]:
    """What is asked and of which line; or nothing, and what is lacking for it."""
    if voltage is None:
        any_line = clearance_of_any_line()
        if measured is not None and measured >= any_line:
            return any_line, "voltage not known: as for any line to 1,000 kV"
        return None, _label("power_line_voltage")
    try:
        kilovolts = magnitude(voltage, "kV", "voltage of the line")
        return least_clearance(voltage), f"line of {kilovolts:,.3g} kV"
    except OutOfRange:
        return None, "distance from the owner of the line"


def _label(name: str) -> str:
    return within(definition(name).label)
