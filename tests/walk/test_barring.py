"""What a check that says stop keeps from being done, and what it leaves open as the way out."""

from __future__ import annotations

import pytest

from fieldbook.walk.barring import stopped
from fieldbook.walk.definition.loading import load

STEPS = load("steel", "pull and set").steps
WITH_LIFT = [step for step in STEPS if "lift" in step.checks]


@pytest.mark.parametrize("kind", ["done", "load"])
def test_a_lift_that_is_stopped_bars_what_says_that_all_is_ready(kind: str) -> None:
    steps = [step for step in WITH_LIFT if step.records == kind]
    assert steps
    assert all(stopped(step, {"lift"}) for step in steps)
    assert not any(stopped(step, set()) for step in steps)


def test_what_changes_the_rig_stays_open_while_the_lift_is_stopped() -> None:
    steps = [step for step in STEPS if step.records in {"rig", "gauge", "limit", "level"}]
    assert steps
    assert not any(stopped(step, {"lift"}) for step in steps)
