"""What the duty makes of a candidate: velocity, friction, total head, and where the pump runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.drop_line.pipe import pvc_pipe, steel_pipe
from calc.errors import CalcError
from calc.hydraulics.duty import brake_power, hydraulic_power, total_dynamic_head
from calc.hydraulics.fittings import fitting, minor_loss
from calc.hydraulics.friction import hazen_williams, surface, velocity
from calc.hydraulics.well import expected_drawdown
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import as_quantity
from fieldbook.watch.planner.known import Known, known, unknown

if TYPE_CHECKING:
    from calc.hydraulics.pump import OperatingPoint
    from calc.units import Quantity
    from fieldbook.watch.planner.candidates import Candidate
    from fieldbook.watch.planner.duty import Duty

_VALVE = "lift check valve"
_SURFACES = {"pvc": "PVC", "steel": "galvanized steel"}


@dataclass(frozen=True, slots=True)
class Flowing:
    """What the duty makes of one candidate of one length.

    Attributes:
        velocity: In its bore, at the flow wanted.
        friction: Lost in line and check valves, at the flow wanted.
        total_head: That the pump must give at the flow wanted.
        point: Where the pump will run.
        shaft_power: That the pump takes there.
    """

    velocity: Known[Quantity]
    friction: Known[Quantity]
    total_head: Known[Quantity]
    point: Known[OperatingPoint]
    shaft_power: Known[Quantity]


@dataclass(frozen=True, slots=True)
class _System:
    """What a candidate takes from the pump at any flow."""

    duty: Duty
    length: Quantity
    bore: Quantity
    coefficient: float

    def lost(self, flow: Quantity) -> Quantity:
        line = hazen_williams(
            flow=flow,
            length=self.length,
            inside_diameter=self.bore,
            coefficient=self.coefficient,
        )
        valves = self.duty.valves * fitting(_VALVE).coefficient
        fixed = minor_loss(flow=flow, inside_diameter=self.bore, coefficient=valves)
        lost: Quantity = line + fixed
        return lost

    def taken(self, flow: Quantity, level: Quantity, pressure: Quantity) -> Quantity:
        return total_dynamic_head(
            lift=level,
            surface_pressure=pressure,
            losses=self.lost(flow),
            water_weight=self.duty.water_weight,
        )


def flowing(duty: Duty, candidate: Candidate, length: float) -> Flowing:
    """What the duty makes of a candidate with `length` feet of drop line."""
    bore, rough = bore_of(candidate), _coefficient(candidate)
    speed: Known[Quantity] = unknown(*duty.flow.missing, *bore.missing)
    if duty.flow.value is not None and bore.value is not None:
        speed = known(velocity(flow=duty.flow.value, inside_diameter=bore.value))
    needs = (*bore.missing, *rough.missing)
    if bore.value is None or rough.value is None:
        lacking = (*needs, *duty.level.missing, *duty.head_pressure.missing)
        return Flowing(
            speed,
            unknown(*duty.flow.missing, *needs),
            unknown(*duty.flow.missing, *lacking),
            unknown(*lacking, *duty.curve.missing),
            unknown(*lacking, *duty.curve.missing),
        )
    system = _System(duty, quantity(length, "ft"), bore.value, rough.value)
    friction, head = _wanted(system, rough.how)
    point = _meeting(system)
    return Flowing(speed, friction, head, point, _shaft_power(duty, point))


def _wanted(system: _System, how: str) -> tuple[Known[Quantity], Known[Quantity]]:
    duty = system.duty
    if duty.flow.value is None:
        lacking = (*duty.flow.missing, *duty.level.missing, *duty.head_pressure.missing)
        return unknown(*duty.flow.missing), unknown(*lacking)
    friction = known(system.lost(duty.flow.value), how)
    level, pressure = duty.level, duty.head_pressure
    if level.value is None or pressure.value is None:
        return friction, unknown(*level.missing, *pressure.missing)
    head = system.taken(duty.flow.value, level.value, pressure.value)
    return friction, known(head, f"level {level.how}")


def _meeting(system: _System) -> Known[OperatingPoint]:
    duty = system.duty
    curve, level, pressure = duty.curve.value, duty.level.value, duty.head_pressure.value
    if curve is None or level is None or pressure is None:
        return unknown(*duty.curve.missing, *duty.level.missing, *duty.head_pressure.missing)
    static, capacity = duty.static, duty.capacity

    def asked(flow: Quantity) -> Quantity:
        at = level
        if static is not None and capacity is not None:
            at = static + expected_drawdown(flow=flow, specific_capacity=capacity)
        return system.taken(flow, at, pressure)

    how = "the level falls as flow grows"
    if static is None or capacity is None:
        how = "pumping level held: static level and specific capacity not given"
    try:
        return known(curve.operating_point(asked), how)
    except CalcError as problem:
        return unknown(f"a point on the curve: {problem}")


def _shaft_power(duty: Duty, point: Known[OperatingPoint]) -> Known[Quantity]:
    if point.value is None or duty.curve.value is None:
        return unknown(*point.missing)
    try:
        share = duty.curve.value.efficiency_at(point.value.flow)
        water = hydraulic_power(
            flow=point.value.flow, head=point.value.head, water_weight=duty.water_weight
        )
        return known(brake_power(hydraulic_power=water, efficiency=share))
    except CalcError as problem:
        return unknown(f"efficiency there: {problem}")


def bore_of(candidate: Candidate) -> Known[Quantity]:
    """The bore that water runs through: the average of PVC, the swollen one of hose."""
    match candidate.line:
        case "pvc":
            return known(pvc_pipe(candidate.nps, candidate.schedule).average_inside_diameter)
        case "steel":
            return known(steel_pipe(candidate.nps, candidate.schedule).inside_diameter)
        case _:
            bore, swell = (candidate.values.get(n) for n in ("hose_bore", "hose_swell"))
            if bore is None or swell is None:
                return unknown("hose bore and its swell")
            wider = 1.0 + magnitude(as_quantity(swell), "dimensionless", "swell")
            return known(as_quantity(bore) * wider, "swollen, by its sheet")


def _coefficient(candidate: Candidate) -> Known[float]:
    typed = candidate.values.get("flow_coefficient")
    if typed is not None and typed.number is not None:
        return known(typed.number, f"C {typed.number:g}, {typed.origin}")
    name = _SURFACES.get(candidate.line)
    if name is None:
        return unknown("Hazen-Williams C of the hose")
    return known(surface(name).coefficient, f"C {surface(name).coefficient:g}, {name}, new")
