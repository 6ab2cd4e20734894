"""Facts for the regulator that stand in no single entry, worked out from several."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hydraulics.well import drawdown as drawdown_of
from calc.hydraulics.well import specific_capacity as specific_capacity_of
from calc.units import magnitude, quantity
from fieldbook.office.sheet.parts import LINE_WORDS
from fieldbook.quantities.convert import show
from fieldbook.quantities.figures import figure
from fieldbook.record.days import days_at_the_well, finished_on
from fieldbook.record.string import LENGTHS, string_pieces
from fieldbook.walk.definition.record_now import NO_FAULT
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units import Quantity
    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

NOT_FLOWING = "not applicable: the water does not stand above the datum"


def contractor(context: SheetContext) -> str:
    """Whose sheet it is, by its letterhead."""
    return ", ".join(context.letterhead)


def started(context: SheetContext) -> str:
    """The first day at the well."""
    days = days_at_the_well(context.job)
    return f"{days[0]}" if days else ""


def finished(context: SheetContext) -> str:
    """The last day at the well, once the work is over."""
    day = finished_on(context.job)
    return f"{day}" if day is not None else ""


def position(context: SheetContext) -> str:
    """Latitude and longitude as typed."""
    both = [context.job.text("job", name) for name in ("latitude", "longitude")]
    return f"{', '.join(both)} (WGS 84)" if all(both) else ""


def _test(job: Job) -> tuple[Quantity, Entry] | None:
    """The drawdown of the newest pumping level against the newest static level before it."""
    pumping = [e for e in job.live("level") if e.text("level_state") == "pumping"]
    if not pumping:
        return None
    static = [
        e for e in job.live("level")
        if e.text("level_state") == "static" and e.order < pumping[-1].order
    ]  # fmt: skip
    if not static:
        return None
    before, during = (of_entry(e, "water_level") for e in (static[-1], pumping[-1]))
    if before is None or during is None:
        return None
    try:
        return drawdown_of(static_level=before, pumping_level=during), pumping[-1]
    except OutOfRange:
        return None


def drawdown(context: SheetContext) -> str:
    """Pumping level less the static level before it."""
    test = _test(context.job)
    return f"{show(test[0], 'ft', 1)} (computed)" if test is not None else ""


def specific_capacity(context: SheetContext) -> str:
    """As written, or flow over drawdown of the newest test."""
    written = context.job.value("duty", "specific_capacity")
    if written is not None:
        return figure(written)
    test = _test(context.job)
    flow = of_entry(test[1], "flow") if test is not None else None
    if test is None or flow is None:
        return ""
    try:
        found = specific_capacity_of(flow=flow, drawdown=test[0])
    except OutOfRange:  # no flow, or no drawdown
        return ""
    return f"{found.m_as('gpm/ft'):.2f} (computed)"


def shut_in(context: SheetContext) -> str:
    """Of a flowing well: the pressure with its flow shut off."""
    static = [e for e in context.job.live("level") if e.text("level_state") == "static"]
    if not static:
        return ""
    level = of_entry(static[-1], "water_level")
    if level is not None and magnitude(level, "ft", "level") >= 0:
        return NOT_FLOWING
    value = static[-1].values.get("discharge_pressure")
    return figure(value) if value is not None else ""


def drop_line(context: SheetContext) -> str:
    """Kind and size of the drop line that hangs."""
    lengths = [e for e in string_pieces(context.job) if e.text("piece") in LENGTHS]
    sizes = [f"{e.text('nps')} in" if e.text("nps") else e.text("hose_bore") for e in lengths]
    if not any(sizes):
        return ""
    line = context.job.text("job", "line")
    return ", ".join(dict.fromkeys((LINE_WORDS.get(line, line), *(size for size in sizes if size))))


def line_length(context: SheetContext) -> str:
    """What went in, by the tally or the corrected reel counter."""
    counts = context.counts
    if counts.hose_in.feet is not None:
        return _counted_in(counts.hose_in.feet)
    gaps = counts.gaps("in")
    words = _counted_in(counts.into_ft)
    return f"{words}; MISSING {gaps}" if words and gaps else words


def _counted_in(feet: float) -> str:
    return f"{show(quantity(feet, 'ft'), 'ft', 2)} (counted in)" if feet else ""


def joints(context: SheetContext) -> str:
    """How many joints went in."""
    count, gaps = context.counts.into.count, context.counts.gaps("in")
    return f"{count}{f'; MISSING {gaps}' if gaps else ''}" if count else ""


def lab_result(context: SheetContext) -> str:
    """What the laboratory answered to the samples of this job."""
    job = context.job
    samples = {entry.id for entry in job.live("sample")}
    answers = [e for e in job.live("answer") if e.text("answers") in samples]
    return "; ".join(f"{e.text('outcome')} ({e.text('done_on')})" for e in answers)


def found_wrong(context: SheetContext) -> str:
    """Each finding of a fault that this copy shows, in a line."""
    findings = [e for e in context.job.live("finding") if e.text("finding") != NO_FAULT]
    return "; ".join(f"{e.text('part')}: {e.text('finding')}" for e in findings)


def signed(context: SheetContext) -> str:
    """Who signed, as what, on which day."""
    signed = [f"{e.by}, {e.text('role')}, {e.time:%Y-%m-%d}" for e in context.job.live("signature")]
    return "; ".join(signed)


DERIVED: dict[str, Callable[[SheetContext], str]] = {
    function.__name__: function
    for function in (
        contractor, started, finished, position, drawdown, specific_capacity, shut_in, drop_line,
        line_length, joints, lab_result, found_wrong, signed,
    )
}  # fmt: skip
"""By the name that facts.toml gives them; an empty text is a fact that is missing."""
