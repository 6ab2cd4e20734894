"""What may be nothing may be exactly nothing, and not the least bit less."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from calc.electric import cable, electrical
from calc.errors import OutOfRange
from calc.hydraulics import (
    affinity,
    cooling,
    cycling,
    disinfection,
    duty,
    fittings,
    friction,
    pressure,
    tank,
    well,
)
from calc.hydraulics.pump import PumpCurve, PumpPoint
from calc.units import Quantity, quantity, ureg

if TYPE_CHECKING:
    from collections.abc import Callable

WATER = quantity(62.4, "lbf/ft**3")
NO_FLOW, NO_FEET, NO_PSI = quantity(0, "gpm"), quantity(0, "ft"), quantity(0, "psi")
NO_POWER, NO_HOURS = quantity(0, "hp"), quantity(0, "hour")
FLOW, FEET, BORE = quantity(10, "gpm"), quantity(100, "ft"), quantity(2, "in")
SPEEDS = {"speed": quantity(3450, "rpm"), "new_speed": quantity(2875, "rpm")}
GALLONS, AIR = quantity(100, "gallon"), quantity(14.7, "psi")
OHMS = quantity(1.24, "ohm/kft")

CALLS: list[tuple[Callable[..., Any], str, Quantity, dict[str, Any], float]] = [
    (affinity.flow_at_speed, "flow", NO_FLOW, SPEEDS, 0),
    (affinity.head_at_speed, "head", NO_FEET, SPEEDS, 0),
    (affinity.power_at_speed, "power", NO_POWER, SPEEDS, 0),
    (duty.total_dynamic_head, "surface_pressure", NO_PSI,
     {"lift": FEET, "losses": NO_FEET, "water_weight": WATER}, 100),
    (duty.total_dynamic_head, "losses", NO_FEET,
     {"lift": FEET, "surface_pressure": NO_PSI, "water_weight": WATER}, 100),
    (duty.hydraulic_power, "flow", NO_FLOW, {"head": FEET, "water_weight": WATER}, 0),
    (duty.hydraulic_power, "head", NO_FEET, {"flow": FLOW, "water_weight": WATER}, 0),
    (duty.brake_power, "hydraulic_power", NO_POWER, {"efficiency": 1.0}, 0),
    (duty.pump_efficiency, "hydraulic_power", NO_POWER, {"brake_power": quantity(1, "hp")}, 0),
    (friction.velocity, "flow", NO_FLOW, {"inside_diameter": BORE}, 0),
    (friction.hazen_williams, "flow", NO_FLOW,
     {"length": FEET, "inside_diameter": BORE, "coefficient": 150}, 0),
    (friction.hazen_williams, "length", NO_FEET,
     {"flow": FLOW, "inside_diameter": BORE, "coefficient": 150}, 0),
    (friction.darcy_weisbach, "length", NO_FEET,
     {"flow": FLOW, "inside_diameter": BORE, "roughness": NO_FEET,
      "kinematic_viscosity": quantity(1.2e-5, "ft**2/s")}, 0),
    (friction.darcy_weisbach, "roughness", NO_FEET,
     {"flow": NO_FLOW, "length": FEET, "inside_diameter": BORE,
      "kinematic_viscosity": quantity(1.2e-5, "ft**2/s")}, 0),
    (fittings.coefficient_of_loss, "loss", NO_FEET, {"flow": FLOW, "inside_diameter": BORE}, 0),
    (cable.voltage_drop, "current", quantity(0, "ampere"),
     {"length": FEET, "resistance_per_length": OHMS, "phases": 1}, 0),
    (cable.voltage_drop, "length", NO_FEET,
     {"current": quantity(10, "ampere"), "resistance_per_length": OHMS, "phases": 3}, 0),
    (cable.voltage_drop, "resistance_per_length", quantity(0, "ohm/ft"),
     {"current": quantity(10, "ampere"), "length": FEET, "phases": 1}, 0),
    (cable.longest_run, "allowed_drop", quantity(0, "volt"),
     {"current": quantity(10, "ampere"), "resistance_per_length": OHMS, "phases": 1}, 0),
    (electrical.winding_resistance, "meter_leads", quantity(0, "ohm"),
     {"measured": quantity(3, "ohm"), "cable_length": NO_FEET, "resistance_per_length": OHMS}, 3),
    (electrical.winding_resistance, "cable_length", NO_FEET,
     {"measured": quantity(3, "ohm"), "meter_leads": quantity(0, "ohm"),
      "resistance_per_length": OHMS}, 3),
    (electrical.winding_resistance, "resistance_per_length", quantity(0, "ohm/ft"),
     {"measured": quantity(3, "ohm"), "meter_leads": quantity(0, "ohm"), "cable_length": FEET}, 3),
    (electrical.winding_resistance, "measured", quantity(0, "ohm"),
     {"meter_leads": quantity(0, "ohm"), "cable_length": NO_FEET, "resistance_per_length": OHMS},
     0),
    (well.expected_drawdown, "flow", NO_FLOW, {"specific_capacity": quantity(1, "gpm/ft")}, 0),
    (well.air_line_level, "pressure", NO_PSI, {"line_depth": FEET, "water_weight": WATER}, 100),
    (well.setting_depth, "submergence", NO_FEET,
     {"static_level": FEET, "flow": FLOW, "specific_capacity": quantity(1, "gpm/ft")}, 110),
    (cooling.cooling_velocity, "flow", NO_FLOW,
     {"bore": quantity(6, "in"), "motor_diameter": quantity(3.75, "in")}, 0),
    (tank.water_share, "precharge", NO_PSI, {"pressure": AIR, "atmosphere": AIR}, 0.5),
    (tank.water_share, "pressure", NO_PSI, {"precharge": NO_PSI, "atmosphere": AIR}, 0),
    (tank.drawdown_share, "cut_in", NO_PSI,
     {"precharge": NO_PSI, "cut_out": AIR, "atmosphere": AIR}, 0.5),
    (tank.drawdown_share, "precharge", NO_PSI,
     {"cut_in": NO_PSI, "cut_out": AIR, "atmosphere": AIR}, 0.5),
    (cycling.run_time, "demand", NO_FLOW, {"drawdown": GALLONS, "pump_flow": FLOW}, 10),
    (disinfection.chlorine_needed, "volume", quantity(0, "gallon"),
     {"target": quantity(50, "mg/liter")}, 0),
    (disinfection.strength_of_dry_dose, "dose", quantity(0, "gram"),
     {"volume": GALLONS, "available": 1.0}, 0),
    (disinfection.strength_of_liquid_dose, "dose", quantity(0, "liter"),
     {"volume": GALLONS, "trade_percent": 20.0}, 0),
    (disinfection.contact_left, "required", NO_HOURS, {"elapsed": NO_HOURS}, 0),
    (disinfection.contact_left, "elapsed", NO_HOURS, {"required": quantity(8, "hour")}, 8),
    (pressure.standing_pressure, "surface_pressure", NO_PSI,
     {"column": NO_FEET, "water_weight": WATER}, 0),
    (pressure.standing_pressure, "column", NO_FEET,
     {"surface_pressure": AIR, "water_weight": WATER}, 14.7),
    (pressure.surge, "velocity_change", quantity(0, "ft/s"),
     {"wave_speed": quantity(4000, "ft/s"), "water_weight": WATER}, 0),
    (pressure.surge, "wave_speed", quantity(0, "ft/s"),
     {"velocity_change": quantity(4, "ft/s"), "water_weight": WATER}, 0),
    (pressure.end_thrust, "pressure", NO_PSI, {"bore_area": quantity(3, "in**2")}, 0),
    (pressure.end_thrust, "bore_area", quantity(0, "in**2"), {"pressure": AIR}, 0),
]  # fmt: skip
"""Function, the input that is nothing, the others, and the answer by hand."""


@pytest.mark.parametrize(
    ("function", "name", "nothing", "others", "answer"),
    [pytest.param(*call, id=f"{call[0].__name__}-{call[1]}") for call in CALLS],
)
def test_nothing_is_taken_and_a_little_less_is_not(
    function: Callable[..., Any],
    name: str,
    nothing: Quantity,
    others: dict[str, Any],
    answer: float,
) -> None:
    found = function(**{name: nothing}, **others)
    number = found.magnitude if isinstance(found, ureg.Quantity) else found

    assert number == pytest.approx(answer, rel=1e-9, abs=1e-9)
    with pytest.raises(OutOfRange):
        function(**{name: quantity(-1e-3, str(nothing.units))}, **others)


def test_a_curve_may_begin_with_no_efficiency_and_end_with_no_head() -> None:
    """As a maker's sheet does: nothing is delivered at shut-off, nothing lifted at the far end."""
    pump = PumpCurve(
        [
            PumpPoint(NO_FLOW, quantity(300, "ft"), 0.0),
            PumpPoint(quantity(20, "gpm"), NO_FEET, 0.5),
        ],
        speed=quantity(3450, "rpm"),
    )

    assert pump.efficiency_at(NO_FLOW) == 0.0
    assert pump.head_at(quantity(20, "gpm")).m_as("ft") == 0.0
    for short in (-1e-3, -0.2):
        with pytest.raises(OutOfRange):
            PumpCurve(
                [
                    PumpPoint(quantity(short, "gpm"), quantity(300, "ft")),
                    PumpPoint(quantity(20, "gpm"), NO_FEET),
                ],
                speed=quantity(3450, "rpm"),
            )
