"""Who may release a hold."""

from __future__ import annotations

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.walk.definition.loading import load
from fieldbook.walk.release import refusals
from fieldbook.walk.states import lacking
from tests.walk.logs import Log

LIFT = load("hose", "pull").step("ready.load_check")


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({"role": "tech"}, []),
        ({}, ["this hold is signed by crew lead or tech, and no role is named"]),
        ({"role": "helper"}, ["this hold is signed by crew lead or tech, not by helper"]),
    ],
)
def test_the_lift_check_is_released_by_a_crew_lead_or_a_tech(
    said: dict[str, str], says: list[str]
) -> None:
    draft = draft_from({"kind": "hold", "by": "QA", "values": {"step": LIFT.id} | said})

    assert says == list(refusals(LIFT, draft).values())


@pytest.mark.parametrize("typed", ["~0", "about 0 V"])
def test_a_figure_that_a_hold_hangs_on_is_measured_and_never_estimated(typed: str) -> None:
    step = load("steel", "pull").step("test.lockout")
    log = Log()
    log.write("arrival", step=step.id, lock_number="7", volts_after_lockout=typed)
    assert "volts_after_lockout" in lacking(step, log.job.live("arrival"))
    log.write("arrival", step=step.id, lock_number="7", volts_after_lockout=0)
    assert not lacking(step, log.job.live("arrival"))
