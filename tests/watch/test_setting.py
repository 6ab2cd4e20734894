"""Setting and specific capacity of a job.

Published: 10 ft over the intake, South Dakota ARSD 74:02:04:60. The rest are hand calculations and
common practice, labelled so.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says

WELL = says(
    "well", datum="top of casing", stick_up=1.2, well_depth=440, casing_diameter="6 in",
    screen_top=400, screen_bottom=436, water_temperature="50 F", deepest_level=230,
)  # fmt: skip
PUMP = says(
    "pump", pump_weight=104, pump_length=4, intake_below=1.5, motor_diameter="3.75 in",
    pump_flow="20 gpm",
)  # fmt: skip
PLAN = says("setting", datum="top of casing", setting_depth=380, pumping_level=240)
SET = says("joint", direction="in", joint_number=1, joint_length=21)


def job(*more: dict[str, Any], plan: dict[str, Any] = PLAN) -> Job:
    return job_of(*STEEL, WELL, PUMP, plan, *more)


def check(name: str, made: Job) -> Check:
    return next(c for c in Watcher(made).look().checks if c.name == name)


def names(made: Job) -> set[str]:
    return {c.name for c in Watcher(made).look().checks}


def planned(**values: Any) -> dict[str, Any]:
    return PLAN | {"values": PLAN["values"] | values}


def test_a_sound_setting_is_within() -> None:
    """380 - 240 = 140 ft over the intake; the motor ends at 382.5, 57.5 ft off the bottom.

    20 gpm past 3.75 in in 6 in: 6^2 - 3.75^2 = 21.94, x 0.0408 = 0.895 gal/ft, so 0.37 ft/s of the
    0.25 that a 4 in motor asks (common practice, no published source).
    """
    found = check("setting", job())

    assert found.verdict is Verdict.WITHIN
    assert found.governs == "0.37 ft/s past the motor"


@pytest.mark.parametrize(
    ("level", "verdict", "words"),
    [
        (370.5, Verdict.CAUTION, "9.5 ft of water over the intake, 10 asked"),
        (369.5, Verdict.WITHIN, ""),
        (381, Verdict.STOP, "-1.0 ft of water over the intake"),
    ],
)
def test_water_over_the_intake(level: float, verdict: Verdict, words: str) -> None:
    found = check("setting", job(plan=planned(pumping_level=level)))

    assert found.verdict is verdict
    assert words in found.note


def test_the_deepest_pumping_level_counts() -> None:
    seen = says("level", water_level=375, level_state="pumping")

    assert "5.0 ft of water over the intake" in check("setting", job(seen)).governs


@pytest.mark.parametrize(
    ("well", "verdict"),
    [
        ({"well_depth": 392}, Verdict.WITHIN),
        # 391 + 1.2 ft of stick-up: 9.7 ft below a motor that ends 382.5 ft below the casing
        ({"well_depth": 391}, Verdict.CAUTION),
        ({"well_depth": 440, "tagged_depth": 388}, Verdict.WITHIN),  # 5.5 ft above fill
        ({"well_depth": 440, "tagged_depth": 387}, Verdict.CAUTION),
        ({"well_depth": 440, "tagged_depth": 382}, Verdict.STOP),
    ],
)
def test_room_below_the_motor(well: dict[str, float], verdict: Verdict) -> None:
    """Common practice, no published source: 10 ft off the bottom, 5 above fill."""
    made = job(says("well", screen_top=500, **well))

    assert check("setting", made).verdict is verdict


def test_a_motor_in_still_water_needs_a_sleeve() -> None:
    """A screen that ends above the intake: the water comes from above the motor."""
    assert check("setting", job(says("well", screen_top=300, screen_bottom=350))).verdict is (
        Verdict.STOP
    )


@pytest.mark.parametrize(("feet", "verdict"), [(30, Verdict.WITHIN), (12, Verdict.STOP)])
def test_with_a_sleeve_the_crews_own_speed_counts(feet: float, verdict: Verdict) -> None:
    """The bore of the sleeve is not written; 0.25 ft/s is 15 ft/min past a 4 in motor."""
    made = job(says("duty", flow_sleeve="yes", cooling_speed=f"{feet} ft/min"))

    assert check("setting", made).verdict is verdict
    assert check("setting", job(says("duty", flow_sleeve="yes"))).missing == ("bore at the motor",)


def test_the_agreed_depth_goes_before_the_plan_and_is_brought_to_the_datum() -> None:
    """375 ft below ground is 376.2 below the casing's top, 1.2 above it: 6.2 over 370."""
    made = job(says("depth", datum="ground", setting_depth=375), plan=planned(pumping_level=370))

    assert "6.2 ft of water over the intake" in check("setting", made).governs


@pytest.mark.parametrize(
    ("kind", "name", "word"),
    [
        ("setting", "pumping_level", "pumping level"),
        ("pump", "pump_length", "pump and motor length"),
        ("pump", "intake_below", "intake below discharge"),
        ("pump", "motor_diameter", "outside diameter of the motor"),
        ("pump", "pump_flow", "flow of the pump"),
        ("well", "well_depth", "well depth"),
        ("well", "casing_diameter", "bore at the motor"),
        ("well", "datum", "datum"),
    ],
)
def test_what_a_setting_needs_is_named(kind: str, name: str, word: str) -> None:
    documents = [
        d | {"values": {k: v for k, v in d["values"].items() if k != name}}
        if d["kind"] == kind
        else d
        for d in (*STEEL, WELL, PUMP, PLAN)
    ]
    found = check("setting", job_of(*documents))

    assert found.verdict is Verdict.UNKNOWN
    assert word in found.missing


def test_a_setting_is_not_asked_while_the_old_string_comes_out() -> None:
    out = says("joint", direction="out", joint_number=1, joint_length=21)

    assert "setting" not in names(job_of(*STEEL, WELL, PUMP))
    assert "setting" not in names(job(out))


# --- the well, now against before -----------------------------------------------------------------


def pumped(static: float, pumping: float, flow: float) -> list[dict[str, Any]]:
    return [
        says("level", water_level=static, level_state="static"),
        says("level", water_level=pumping, level_state="pumping", flow=flow, minutes_on=60),
    ]


OUT = (
    says("joint", direction="out", joint_number=1, joint_length=21),
    says("pump_out", rack_count=18),
)


def test_a_well_that_gives_less_is_told() -> None:
    """20 / (208 - 168) = 0.50 before, 18 / (218 - 168) = 0.36 now, by hand."""
    found = check("specific capacity", job(*pumped(168, 208, 20), *OUT, SET, *pumped(168, 218, 18)))

    assert found.verdict is Verdict.CAUTION
    assert found.governs == "0.36 gpm/ft after 60 min, before 0.50 gpm/ft after 60 min"


def test_a_well_that_gives_as_before_is_within() -> None:
    made = job(*pumped(168, 208, 20), *OUT, SET, *pumped(168, 209, 20))

    assert check("specific capacity", made).verdict is Verdict.WITHIN


def test_the_planned_figure_stands_in_for_a_test_before() -> None:
    made = job(says("duty", specific_capacity=0.6), *OUT, SET, *pumped(168, 208, 20))

    assert "before 0.60 gpm/ft as planned" in check("specific capacity", made).governs


def test_nothing_to_compare_with_is_named() -> None:
    made = job(*OUT, SET, *pumped(168, 208, 20))

    assert check("specific capacity", made).missing == ("specific capacity before",)
    assert "specific capacity" not in names(job(*pumped(168, 208, 20)))
    assert "specific capacity" not in names(job(*OUT, SET))


@pytest.mark.parametrize(
    ("capacity", "words"),
    [(0.5, "0.37 ft/s past the motor"), (0.1, "10.0 ft of water over the intake")],
)
def test_the_level_that_follows_from_specific_capacity_counts_where_it_is_deeper(
    capacity: float, words: str
) -> None:
    """At rest 170 ft, 20 gpm: at 0.1 gpm/ft 200 ft of drawdown, 370 of 380 ft; at 0.5 only 40."""
    rest = says("level", water_level=170, level_state="static")
    duty = says("duty", duty_flow="20 gpm", specific_capacity=capacity)

    found = check("setting", job(rest, duty, plan=planned(pumping_level=240)))
    assert found.verdict is Verdict.WITHIN
    assert found.governs == words


def test_a_setting_that_the_specific_capacity_leaves_dry_is_a_stop() -> None:
    """20 gpm / 0.09 = 222.2 ft below 170: 12.2 ft below an intake at 380."""
    rest = says("level", water_level=170, level_state="static")
    duty = says("duty", duty_flow="20 gpm", specific_capacity=0.09)

    found = check("setting", job(rest, duty))
    assert found.verdict is Verdict.STOP
    assert found.note == "-12.2 ft of water over the intake, 10 asked"
