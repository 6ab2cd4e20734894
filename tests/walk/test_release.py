"""Who may release a hold, and on what."""

from __future__ import annotations

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.walk.loading import load
from fieldbook.walk.release import refusals

LIFT = load("hose", "pull").step("ready.load_check")
SAID = {"role": "tech", "reason": "no sheet for the shackle", "relies_on": "stamp on its twin"}


@pytest.mark.parametrize(
    ("left_out", "verdict", "over", "says"),
    [
        ((), "within", False, None),
        (("reason", "relies_on"), "within", False, None),
        (("reason", "relies_on"), "caution", False, None),
        (("role",), "within", False, "released by: crew lead or tech"),
        ((), "unknown", False, None),
        (("reason",), "unknown", False, "the check says unknown"),
        (("relies_on",), "unknown", False, "the check says unknown"),
        (("relies_on",), "stop", False, "the check says stop"),
        ((), "stop", False, None),
        ((), "stop", True, "a link over its rating is never passed"),
    ],
)
def test_the_lift_check_is_released_only_on_what_holds(
    left_out: tuple[str, ...], verdict: str, over: bool, says: str | None
) -> None:
    values = {name: word for name, word in SAID.items() if name not in left_out}
    draft = draft_from({"kind": "hold", "by": "QA", "values": {"step": LIFT.id} | values})
    found = refusals(LIFT, draft, verdict=verdict, over_rating=over)

    assert [] == found if says is None else says in "; ".join(found)
