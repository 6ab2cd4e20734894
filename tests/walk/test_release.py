"""Who may release a hold."""

from __future__ import annotations

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.walk.definition.loading import load
from fieldbook.walk.release import refusals

LIFT = load("hose", "pull").step("ready.load_check")


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({"role": "tech"}, []),
        ({}, ["this hold is released by crew lead or tech, and no role is named"]),
        ({"role": "helper"}, ["this hold is released by crew lead or tech, not by helper"]),
    ],
)
def test_the_lift_check_is_released_by_a_crew_lead_or_a_tech(
    said: dict[str, str], says: list[str]
) -> None:
    draft = draft_from({"kind": "hold", "by": "QA", "values": {"step": LIFT.id} | said})

    assert says == list(refusals(LIFT, draft).values())
