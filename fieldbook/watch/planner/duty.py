"""What the pump is asked to do in this well: flow, level, pressure, and the curve it has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import CalcError
from calc.hydraulics.pump import PumpCurve, PumpPoint
from calc.hydraulics.well import drawdown, expected_drawdown, specific_capacity
from calc.units import magnitude, quantity
from fieldbook.record.levels import at_rest
from fieldbook.record.string import string_pieces
from fieldbook.watch.planner.known import Known, known, unknown
from fieldbook.watch.pressure.service import of_pump, pump_since
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job

_ANY_SPEED = quantity(1.0, "rpm")  # the curve is never taken to another speed here


@dataclass(frozen=True, slots=True)
class Duty:
    """The duty as recorded, the same for every candidate.

    Attributes:
        flow: Wanted.
        level: Pumping level below the datum, and how it is known.
        head_pressure: At the top, in service.
        curve: Of the pump, or why there is none.
        static: Level at rest; None when not recorded.
        capacity: Specific capacity, from a test or from the levels; None when neither is there.
        valves: Check valves listed in the string.
        water_weight: Of the water, a volume.
    """

    flow: Known[Quantity]
    level: Known[Quantity]
    head_pressure: Known[Quantity]
    curve: Known[PumpCurve]
    static: Quantity | None
    capacity: Quantity | None
    valves: int
    water_weight: Quantity


def duty_of(job: Job, water_weight: Quantity) -> Duty:
    """The duty that the job's entries describe."""
    facts = Facts(job)
    flow = facts.get("duty", "duty_flow")
    if flow is not None and flow.magnitude <= 0.0:
        flow = None  # no water wanted is no duty to plan for
    static = _static(job)
    capacity = facts.get("duty", "specific_capacity")
    if capacity is not None:
        capacity = quantity(magnitude(capacity, "dimensionless", "specific capacity"), "gpm/ft")
    level = _pumping_level(facts, flow, static, capacity)
    if capacity is None:
        capacity = _of_levels(flow, static, level.value)
    pressure = facts.get("duty", "discharge_pressure")
    if pressure is None:
        pressure = facts.get("well", "surface_pressure")
    return Duty(
        flow=known(flow) if flow is not None else unknown("flow wanted, more than none"),
        level=level,
        head_pressure=known(pressure) if pressure is not None else unknown("pressure at the top"),
        curve=_curve(job),
        static=static,
        capacity=capacity,
        valves=sum(1 for entry in string_pieces(job) if entry.text("piece") == "check valve"),
        water_weight=water_weight,
    )


def _static(job: Job) -> Quantity | None:
    rests = at_rest(job.live("level"))
    return of_entry(rests[-1], "water_level") if rests else None


def _pumping_level(
    facts: Facts, flow: Quantity | None, static: Quantity | None, capacity: Quantity | None
) -> Known[Quantity]:
    for kind in ("duty", "setting"):
        if (level := facts.get(kind, "pumping_level")) is not None:
            return known(level, "as recorded")
    if flow is None or static is None or capacity is None:
        return unknown("pumping level, or static level, specific capacity and flow wanted")
    try:
        down = expected_drawdown(flow=flow, specific_capacity=capacity)
    except CalcError as problem:
        return unknown(f"pumping level: {problem}")
    return known(static + down, "static level + flow / specific capacity")


def _of_levels(
    flow: Quantity | None, static: Quantity | None, pumping: Quantity | None
) -> Quantity | None:
    if flow is None or static is None or pumping is None or pumping <= static:
        return None
    return specific_capacity(
        flow=flow, drawdown=drawdown(static_level=static, pumping_level=pumping)
    )


def _curve(job: Job) -> Known[PumpCurve]:
    points = []
    since = pump_since(job)
    for entry in (e for e in job.live("curve_point") if of_pump(e, since)):
        flow, head = of_entry(entry, "curve_flow"), of_entry(entry, "curve_head")
        share = of_entry(entry, "curve_efficiency")
        if flow is None or head is None:
            continue
        part = magnitude(share, "dimensionless", "efficiency") if share is not None else None
        points.append(PumpPoint(flow, head, part))
    if not points:
        return unknown("points of the pump's curve")
    points.sort(key=lambda point: magnitude(point.flow, "gpm", "flow"))
    try:
        return known(PumpCurve(points, speed=_ANY_SPEED))
    except CalcError as problem:
        return unknown(f"a curve that holds: {problem}")
