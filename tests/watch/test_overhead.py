"""Power lines as surveyed, against 29 CFR 1926.1408 Table A; an unknown voltage is never safe."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says


def seen(*more: dict[str, Any]) -> Check | None:
    checks = Watcher(job_of(*STEEL, *more)).look().checks
    return next((check for check in checks if check.name == "power lines"), None)


def found(*more: dict[str, Any]) -> Check:
    check = seen(*more)
    assert check is not None
    return check


@pytest.mark.parametrize(
    ("feet", "volts", "verdict"),
    [
        (48, 7_200, Verdict.WITHIN),
        (19, 7_200, Verdict.CAUTION),
        (10, 7_200, Verdict.CAUTION),
        (9.9, 7_200, Verdict.STOP),
        (14, 69_000, Verdict.STOP),
        (34, 765_000, Verdict.STOP),
        (46, 765_000, Verdict.CAUTION),
        (0, 240, Verdict.STOP),
    ],
)
def test_the_distance_is_held_to_what_the_voltage_asks(
    feet: float, volts: float, verdict: Verdict
) -> None:
    assert found(says("arrival", line_clearance=feet, power_line_voltage=volts)).verdict is verdict


def test_without_the_voltage_only_a_distance_for_any_line_will_do() -> None:
    near = found(says("arrival", line_clearance=49))
    assert (near.verdict, near.missing) == (Verdict.UNKNOWN, ("power line voltage",))
    assert found(says("arrival", line_clearance=300)).verdict is Verdict.WITHIN


def test_over_a_thousand_kilovolts_the_owner_says() -> None:
    far = found(says("arrival", line_clearance=200, power_line_voltage=1_100_000))
    assert far.verdict is Verdict.UNKNOWN
    assert far.missing == ("distance from the owner of the line",)


def test_a_rig_that_moved_stands_near_another_line() -> None:
    before = says("arrival", line_clearance=60, power_line_voltage=7_200)
    moved = found(before, says("arrival", rig_moved="yes"))
    assert (moved.verdict, moved.missing[0]) == (Verdict.UNKNOWN, "power line clearance")
    anew = found(before, says("arrival", rig_moved="yes"), says("arrival", line_clearance=12))
    assert (anew.verdict, anew.missing) == (Verdict.UNKNOWN, ("power line voltage",))


def test_nothing_is_said_before_the_survey() -> None:
    assert seen(says("arrival", weather="clear", wind=5)) is None
