"""The jobs that the attempts are made on: one a drop line, with every figure a check asks for."""

from __future__ import annotations

from typing import Any

from tests.watch.jobs import HOSE, STEEL, says

Documents = tuple[dict[str, Any], ...]

_WELL = says(
    "well",
    well_depth="460 ft",
    casing_diameter="6 in",
    screen_top="400 ft",
    screen_bottom="455 ft",
    stick_up="1.2 ft",
    shut_off_head="260 ft",
    water_ph=7.2,
)
_PUMP = says(
    "pump",
    intake_below="1.5 ft",
    motor_diameter="3.75 in",
    motor_power="5 hp",
    motor_voltage="230 V",
    motor_phase="3",
    motor_age="used",
    service_amps="17.8 A",
)
_TANK = says("tank", tank_size="80 gal", precharge="38 psi", cut_in="40 psi", cut_out="60 psi")
_WIRES = says("cable", cable_size="10 AWG", cable_length="400 ft")

PVC: Documents = (
    says("job", job_number="P-1", line="pvc", work="pull"),
    says(
        "well",
        datum="top of casing",
        deepest_level="110 ft",
        water_temperature="55 F",
        surface_pressure="60 psi",
    ),
    says(
        "rig",
        hoist="block and line",
        parts_of_line=2,
        sheave_factor=1.06,
        block_weight=80,
        drum_pull=3000,
        rope_breaking=9800,
        rope_design_factor=3.5,
        mast_rating=9000,
        hook_rating=5000,
        holding_rating=2500,
        lifting_sub_rating=2500,
        dry_friction=100,
    ),
    says("gauge", gauge_place="hook", gauge_zero=0, gauge_capacity=3000, gauge_error=10),
    says("limit", stop_load=900),
    says(
        "piece",
        place=1,
        piece="joint",
        nps="1-1/4",
        schedule="80",
        joint_count=12,
        joint_length=20,
        coupling_weight=0.6,
        tension_rating=1800,
        pressure_rating=260,
    ),
    says("piece", place=2, piece="check valve", piece_length=1, piece_weight=4,
         fitting_rating=1900),
    says("cable", cable_weight=0.25),
    says("pump", pump_weight=62, pump_length=3.5),
    says("level", water_level=88, level_state="static"),
    _WELL,
    _PUMP,
    _TANK,
    _WIRES,
)  # fmt: skip
BASES: dict[str, Documents] = {
    "pvc": PVC,
    "steel": (*STEEL, _WELL, _PUMP, _TANK, _WIRES),
    "hose": (*HOSE, _WELL, _PUMP, _TANK, _WIRES),
}
