"""Invented plans for the checks: the small jobs with what a planner asks for besides."""

from __future__ import annotations

from typing import Any

from tests.watch.jobs import HOSE, STEEL, says

DUTY = (
    says(
        "well",
        well_depth="460 ft",
        casing_diameter="6 in",
        screen_top="400 ft",
        screen_bottom="455 ft",
        stick_up="1.2 ft",
        shut_off_head="500 ft",
        water_ph=7.2,
    ),
    says(
        "pump",
        intake_below="1.5 ft",
        motor_diameter="3.75 in",
        motor_power="5 hp",
        motor_voltage="230 V",
        motor_phase="3",
        service_amps="17.8 A",
        pump_flow="1 gpm",  # known, and so little that the flow wanted rules
    ),
    says("duty", duty_flow="30 gpm", pumping_level="210 ft", discharge_pressure="55 psi"),
    says("setting", datum="top of casing", setting_depth="300 ft"),
    *(
        says("curve_point", curve_flow=flow, curve_head=head, curve_efficiency=share)
        for flow, head, share in ((0, 500, 1), (10, 490, 35), (20, 455, 52), (30, 395, 60),
                                  (40, 290, 55))
    ),
    says("line_choice", line="steel", steel_grade="A", thread_design_factor=4, fitting_rating=3500),
    says(
        "line_choice",
        line="pvc",
        nps="1-1/4",
        schedule="120",
        joint_length=20,
        coupling_weight=0.6,
        tension_rating=1400,
        fitting_rating=1900,
    ),
)  # fmt: skip
STEEL_PLAN: tuple[dict[str, Any], ...] = (*STEEL, *DUTY)
HOSE_PLAN: tuple[dict[str, Any], ...] = (
    *HOSE,
    *DUTY,
    says("hose_sheet", wave_speed="600 ft/s"),
    says("line_choice", line="hose", flow_coefficient=140),
)
SLOW_PLAN: tuple[dict[str, Any], ...] = tuple(
    says("duty", duty_flow="6 gpm", pumping_level="210 ft", discharge_pressure="55 psi")
    if d["kind"] == "duty"
    else d
    for d in STEEL_PLAN
)
"""The same well, asked for less: what 1-1/4 in pipe is run at."""
