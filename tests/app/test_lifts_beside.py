"""A tech looks at one lift after the other from the shelf, and is back there with Esc."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.keys import counted
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says


def seven(home: Home) -> list[str]:
    numbers = [f"S-{place}" for place in range(1, 8)]
    for number in numbers:
        put_job(home, [says("job", job_number=number, line="steel", work="pull"), *STEEL[1:]])
    return numbers


async def test_seven_lifts_take_seven_keys(home: Home) -> None:
    numbers = seven(home)
    async with counted(home) as crew:
        seen = []
        for key in ("l", *["right"] * 6):
            await crew.press(key)
            crew.sees("OK TO LIFT")
            seen.append(crew.screen.split()[0])
        assert sorted(seen) == numbers
        assert crew.keys == 7
        await crew.press("left")
        assert crew.screen.split()[0] == seen[5]
        await crew.press("escape")
        crew.sees("the shelf")
        assert crew.app._session is None


async def test_a_lift_from_the_walk_goes_back_to_the_walk(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "l", "right")
        crew.sees("OK TO LIFT")
        crew.sees_not("next job")
        await crew.press("escape")
        crew.sees("Joint out")


async def test_the_planner_from_the_shelf_goes_back_to_the_shelf(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("o", "escape")
        crew.sees("the shelf")
        assert crew.app._session is None
        await crew.press("enter")
        crew.sees("Joint out")
