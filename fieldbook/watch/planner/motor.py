"""The motor: the water past it, and what the pump takes of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import CalcError
from calc.hydraulics.cooling import judge_cooling, least_cooling_velocity
from calc.units import magnitude
from fieldbook.watch.lift.load_path import CAUTION_SHARE
from fieldbook.watch.state.facts import Facts

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.planner.known import Known

COOLING = "cooling flow past the motor"
LOAD = "motor load"
_NOMINAL = ((5.0, 4), (7.0, 6), (9.0, 8), (11.5, 10))  # a motor is a little under its name


def motor_cooling(job: Job, flow: Quantity | None, setting: Quantity | None) -> Check:
    """Whether enough water passes the motor for its size, at the flow wanted."""
    facts = Facts(job)
    motor = facts.get("pump", "motor_diameter")
    temperature = facts.get("well", "water_temperature")
    sleeve = facts.words("duty", "flow_sleeve") == "yes"
    least = None
    if motor is not None and temperature is not None:
        least = _least(motor, temperature)
    bore = facts.get("well", "casing_diameter")
    if motor is not None and bore is not None and motor >= bore:
        words = "the motor does not go into the casing"
        return Check(COOLING, Verdict.STOP, governs=words, note=words)
    return judge_cooling(
        flow=flow,
        bore=None if sleeve else bore,
        motor_diameter=motor,
        least_velocity=least,
        water_from_below=True if sleeve else _from_below(facts, setting),
        caution_share=CAUTION_SHARE,
    )


def _least(motor: Quantity, temperature: Quantity) -> Quantity | None:
    across = magnitude(motor, "in", "motor")
    nominal = next((name for most, name in _NOMINAL if across < most), None)
    if nominal is None:
        return None
    try:
        return least_cooling_velocity(nominal_size=nominal, water_temperature=temperature)
    except CalcError:
        return None  # no rule for water so warm: the motor's maker says


def _from_below(facts: Facts, setting: Quantity | None) -> bool | None:
    """Whether the water comes in under the motor: None where it may come from either side."""
    length, below = facts.get("pump", "pump_length"), facts.get("pump", "intake_below")
    top, foot = facts.get("well", "screen_top"), facts.get("well", "screen_bottom")
    if setting is None or length is None or below is None:
        return None
    if top is not None and top >= setting + length - below:
        return True
    if foot is not None and foot <= setting:
        return False
    return None


def motor_load(job: Job, shaft_power: Known[Quantity]) -> Check:
    """What the pump takes where it runs, against the motor's rated power."""
    facts = Facts(job)
    rated = facts.need("pump", "motor_power")
    return judge(
        LOAD,
        shaft_power.value,
        rated if rated is not None and magnitude(rated, "hp", "motor power") > 0.0 else None,
        unit="hp",
        caution_share=1.0,
        missing=(*shaft_power.missing, *facts.missing),
        formula="flow x head / efficiency, where the pump meets the well",
        source="nameplate; its service factor is not counted on",
    )
