"""One verdict of the lift on every screen that says it."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL, says


async def test_a_reading_over_the_limit_stops_the_lift_on_every_screen(home: Home) -> None:
    put_job(home, [*STEEL, says("load", gauge_reading=1510)], before="pull.joint")
    async with at_the_keys(home, size=LARGE) as crew:
        await crew.press("enter")
        crew.sees(
            "STOP: gauge 1,510, stop at 1,290",
            "OVER BY 220 lbf",
            "LIFT STOP: by the gauge",
            "lift STOP",
        )
        crew.sees("Water: load 230, gauge 168 ft")
        crew.sees_not("STOP: lift")
        await crew.press("l")
        crew.sees("STOP: gauge reads 1,510, stop at 1,290: OVER BY 220", "gauge, as a reading")
        crew.sees("Hook load, water at its deepest, 230.0 ft", "with water at 168.0 ft, static")
        await crew.press("d")
        crew.sees("STOP: gauge reads 1,510")
        await crew.press("escape", "t")
        crew.sees("STOP: gauge reads 1,510")


async def test_a_reading_that_contradicts_the_record_is_unknown_on_the_lift_screen(
    home: Home,
) -> None:
    put_job(home, [*HOSE, says("load", gauge_reading=30)], before="pull.footage")
    async with at_the_keys(home, size=LARGE) as crew:
        await crew.press("enter", "escape", "l")
        crew.sees("CAN'T SAY", "a reading that agrees: 30 lbf read", "STOP AT: can't say")
