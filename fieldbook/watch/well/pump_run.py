"""What the tank gives between cut-out and cut-in, and how long the pump runs to fill it again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, judge
from calc.errors import OutOfRange
from calc.hydraulics.atmosphere import atmosphere_at
from calc.hydraulics.cycling import run_time, shortest_cycle
from calc.hydraulics.tank import drawdown
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.metered import MeterPlace

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "pump run"
_FORMULA = "motor's least run / shortest run: drawdown of the tank / flow, nothing else drawn"
_SOURCE = "Boyle's law at sea level, where a tank gives least; MIL-HDBK-1005/9A 2.5.3.6"
_NOTHING = quantity(0.0, "gpm")
_LESS = 0.75  # of the run by its air: flow by bucket and gauges read by eye; ours, no source


def pump_run(job: Job, read: Metered) -> Check | None:
    """The shortest run, by the tank's air and as it was timed, against what the motor asks.

    None before a tank is written, and while a string is moved out. A minute is common practice
    and no rating: without the motor maker's figure no run is within.
    """
    if read.place in (MeterPlace.ON_THE_WAY_OUT, MeterPlace.OUT) or not job.live("tank"):
        return None
    facts = Facts(job)
    least = facts.need("tank", "least_run")
    gives = _gives(facts)
    flow = _flow(job, facts, read)
    runs = None
    if gives is not None and flow is not None:
        runs = run_time(drawdown=gives, pump_flow=flow, demand=_NOTHING)
    timed = _above_nothing(facts.get("tank", "cycle_minutes"))
    shortest = min((each for each in (runs, timed) if each is not None), default=None)
    return judge(
        NAME,
        least,
        shortest,
        unit="minute",
        caution_share=1.0,
        governs=_words(gives, runs, timed, least),
        missing=facts.missing,
        formula=_FORMULA,
        source=_SOURCE,
        note=_note(runs, timed, gives, flow),
        at_least=True,
    )


def _gives(facts: Facts) -> Quantity | None:
    """The water from cut-out down to cut-in; noted as missing where the figures give none."""
    names = ("tank_size", "precharge", "cut_in", "cut_out")
    size, charge, on, off = (facts.need("tank", name) for name in names)
    if size is None or charge is None or on is None or off is None:
        return None
    sea = atmosphere_at(quantity(0.0, "ft"))
    try:
        water = drawdown(volume=size, precharge=charge, cut_in=on, cut_out=off, atmosphere=sea)
    except OutOfRange:
        facts.lack("a tank, a precharge under cut-in, and a cut-out above it")
        return None
    return _above_nothing(water)


def _flow(job: Job, facts: Facts, read: Metered) -> Quantity | None:
    """The most that was measured since the pump came to where it hangs: it fills the tank first."""
    out = max((entry.order for entry in job.live("pump_out")), default=None)
    levels = (entry for entry in job.live("level") if out is None or entry.order > out)
    found = (_above_nothing(of_entry(entry, "flow")) for entry in (*read.entries, *levels))
    flow = max((each for each in found if each is not None), default=None)
    if flow is None:
        facts.lack(within(definition("flow").label))
    return flow


def _above_nothing(figure: Quantity | None) -> Quantity | None:
    return figure if figure is not None and figure.magnitude > 0 else None


def _words(
    gives: Quantity | None, runs: Quantity | None, timed: Quantity | None, least: Quantity | None
) -> str:
    said = [] if gives is None else [f"the tank gives {show(gives, 'gallon', 1)}"]
    if runs is not None:
        said.append(f"a run of {show(runs, 'min', 1)} at the least")
    if timed is not None:
        said.append(f"timed {show(timed, 'min', 1)}")
    if said and least is None:
        said.append("a minute is common practice and no rating")
    return ", ".join(said)


def _note(
    runs: Quantity | None, timed: Quantity | None, gives: Quantity | None, flow: Quantity | None
) -> str:
    if runs is None or gives is None or flow is None:
        return ""
    often = show(shortest_cycle(drawdown=gives, pump_flow=flow), "min", 1)
    words = f"starts at most every {often}"
    by_air = magnitude(runs, "minute", "run")
    if timed is not None and magnitude(timed, "minute", "run") < _LESS * by_air:
        return f"timed shorter than its air gives: the tank has lost air; {words}"
    return words
