"""A second crew takes over in the middle of the string."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL


def setting(documents: tuple[dict[str, Any], ...]) -> list[dict[str, Any]]:
    """The same job as one that sets."""
    opening = documents[0] | {"values": documents[0]["values"] | {"work": "set"}}
    return [opening, *documents[1:]]


async def test_in_a_set_what_is_in_is_counted(home: Home) -> None:
    folder = put_job(home, setting(STEEL), before="set.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21", "enter", "enter", "=")
        crew.sees("Joint 2 in saved")
        await crew.press("escape", "h")
        crew.sees("Hand over", "IN 2 of 18 joints, 42.0 ft by the book")
        await crew.types("CD", "enter")
        await crew.types("2", "enter", "enter")
        crew.sees("handed over", "CD")

    handed = crew.job(folder).last("handover")
    assert handed is not None
    assert (handed.by, handed.text("witness"), handed.text("direction")) == ("QA", "CD", "in")
    assert handed.values["count_now"].number == 2


async def test_a_hose_is_handed_over_by_its_footage_and_a_difference_is_said(home: Home) -> None:
    documents = [*setting(HOSE), {"kind": "footage", "by": "QA", "values": {"direction": "in",
                 "footage": "120 ft"}}]  # fmt: skip
    folder = put_job(home, documents, before="set.footage")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "h")
        crew.sees("IN 120 of 420 ft by the book", "Reel counter")
        await crew.types("CD", "enter")
        await crew.types("150", "enter", "enter")
        crew.sees("the counter reads 150 ft in, 120 ft is written")

    handed = crew.job(folder).last("handover")
    assert handed is not None
    assert handed.values["footage"].number == 150


@pytest.mark.parametrize("looking_back", [(), ("pageup",)])
async def test_work_that_was_stopped_is_compared_and_taken_up_before_the_next_joint(
    home: Home, looking_back: tuple[str, ...]
) -> None:
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", *looking_back, "escape", "z")
        await crew.types("slips and clamp", "enter")
        await crew.types("870", "enter")
        await crew.press("n", "enter", "y", "enter")
        crew.sees("Shut down, but the well is NOT covered", "Take up the work again")
        crew.sees("As it was left 05-14", "slips and clamp, gauge 870 lbf")
        await crew.press("escape", "pageup")
        while "Joint out " not in crew.screen:  # the title; in a list of steps a comma follows
            await crew.press("pageup")
        crew.sees("First: Take up the work again")
        crew.sees_not("Length *")

    assert crew.job(folder).last("suspend") is not None
    assert crew.joints(folder) == []


async def test_the_lock_of_the_crew_that_leaves_is_named(home: Home) -> None:
    folder = put_job(home, STEEL, before="test.lockout")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("7", "enter")
        await crew.types("0", "enter")
        await crew.press("enter", "c", "enter")
        crew.sees(": signed")
        await crew.press("escape", "h")
        await crew.types("CD", "enter")
        await crew.types("0", "enter", "enter")
        crew.sees("locked out by QA: put your own lock on")

    assert crew.job(folder).last("handover") is not None
