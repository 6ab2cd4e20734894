"""The emergency card: everything on it, what is missing named, the company's numbers first."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says

_NUMBER = '[[number]]\nwho = "Office"\ncall = "555-0142"\n'


async def test_the_card_says_where_who_lines_and_wind(home: Home) -> None:
    job, *rest = STEEL
    said = {"site": "9 Elm road", "access": "north gate", "emergency": "Hill clinic 555-0101"}
    where = {"latitude": 44.1, "longitude": -93.2, "well_name": "Well 2"}
    opening = job | {"values": job["values"] | said | where}
    arrival = says("arrival", line_clearance="40 ft", power_line_voltage="7.2 kV", wind="9 mph",
                   lock_number="L7", crew="AB, CD")  # fmt: skip
    home.emergency_file.write_text(_NUMBER, encoding="utf-8")
    put_job(home, [opening, *rest, arrival, says("rig", wind_limit="25 mph")])
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "e")
        crew.sees("read this aloud", "Call Office: 555-0142", "9 Elm road", "north gate")
        crew.sees("Hill clinic 555-0101", "44.1", "-93.2", "Well 2", "40 ft", "7.2 kV")
        crew.sees("Wind: 9 mph", "Wind limit: 25 mph", "L7", "AB, CD", "Power off", "Esc back")
        crew.sees_not("not written")


async def test_what_nobody_wrote_is_said_to_be_missing(home: Home) -> None:
    put_job(home, STEEL)
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "e")
        crew.sees("Site: blank on this job", "Wind limit: blank on this job")


async def test_numbers_that_cannot_be_read_hide_nothing_else(home: Home) -> None:
    home.emergency_file.write_text("[[number]]\nwho = 3\n", encoding="utf-8")
    put_job(home, STEEL)
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "e")
        crew.sees("The company's numbers: emergency.toml: number 1: who", "Site: blank")
