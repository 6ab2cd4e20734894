"""Wind at the mast against the rig's limit: what is newest counts, and an unknown limit is said."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says

LIMIT = says("rig", wind_limit="25 mph")
SAFE = {"held_by": "slips", "well_covered": "yes", "locks_on": "yes"}


def seen(*more: dict[str, Any]) -> Check | None:
    checks = Watcher(job_of(*STEEL, *more)).look().checks
    return next((check for check in checks if check.name == "wind"), None)


@pytest.mark.parametrize(
    ("blows", "verdict"),
    [
        ("12 mph", Verdict.WITHIN),
        ("20 mph", Verdict.CAUTION),
        ("26 mph", Verdict.STOP),
        ("42 km/h", Verdict.STOP),
    ],
)
def test_the_wind_is_held_to_the_limit_of_the_rig(blows: str, verdict: Verdict) -> None:
    """By hand: 42 km/h is 26.1 mph."""
    check = seen(LIMIT, says("arrival", wind=blows))

    assert check is not None
    assert check.verdict is verdict


def test_the_newest_wind_counts_also_that_of_a_return() -> None:
    check = seen(LIMIT, says("arrival", wind="30 mph"), says("resume", wind="8 mph", **SAFE))

    assert check is not None
    assert check.verdict is Verdict.WITHIN


def test_without_a_limit_it_is_unknown_and_without_a_reading_nothing_is_said() -> None:
    check = seen(says("arrival", wind="8 mph"))

    assert check is not None
    assert check.verdict is Verdict.UNKNOWN
    assert check.missing == ("wind limit",)
    assert seen(LIMIT) is None
    visit = says("job", work="check", job_number="S", line="steel")
    assert seen(LIMIT, visit, says("arrival", wind="8 mph")) is None
