"""The wells over the years, and what is owed, at the keys."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from textual_plotext import PlotextPlot

from fieldbook.app.shelf.well_rows import WellRows
from fieldbook.app.widgets.paged_rows import PAGE
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.store.shelves import FIRST, many_jobs, says


def put(home: Home, number: str, year: int, *drafts: Draft, well: str = "Barn") -> None:
    time = FIRST.replace(year=year)
    opening = says(
        "job", job_number=number, line="steel", work="pull", owner="Sallow Farm", well_name=well
    )
    folder = Shelf(home).create(opening, clock=lambda: time)
    with Book.open(folder, home.device_id(), clock=lambda: time) as book:
        for draft in drafts:
            book.record(draft)


@pytest.fixture
def two_wells(home: Home) -> Home:
    for year, feet, mohm in ((2014, 160, 90), (2019, 166, 60), (2024, 171, 24)):
        put(
            home, f"{year}-1", year,
            says("level", water_level=f"{feet} ft", level_state="static"),
            says("meter", insulation=f"{mohm} Mohm"),
            says("finding", part="cause", finding="[b]worn", cause="sand wear"),
            says(
                "joint", direction="out", joint_number=1, joint_length="21 ft", pipe_condition="pit"
            ),
        )  # fmt: skip
    put(home, "2025-1", 2025, says("follow_up", "amps again", due="2026-05-10"), well="House")
    return home


@pytest.mark.parametrize("size", [SMALL, (SMALL[0], SMALL[1] - 1), LARGE])
async def test_a_well_is_plotted_over_the_years(two_wells: Home, size: tuple[int, int]) -> None:
    async with at_the_keys(two_wells, size) as crew:
        await crew.press("down", "w")
        assert crew.app.screen.query_one(WellRows).chosen is not None
        crew.sees("Sallow Farm, Barn", "3 jobs, last 2024-01-04", "static level, ft", "171 ft")
        crew.sees("line came out: 1 pit", "causes: 2014 sand wear; 2019 sand wear")
        crew.sees("House")
        await crew.press("right", "right")
        crew.sees("insulation, Mohm", "24 Mohm", "90 Mohm")
        plot = crew.app.screen.query_one(PlotextPlot)
        assert [str(size) for size in plot.plt.build().split("X")].__len__() == 4  # three crosses
        lines = re.sub(r"\x1b\[[0-9;]*m", "", plot.plt.build()).splitlines()
        figures = [
            (n, float(line.partition("┤")[0])) for n, line in enumerate(lines) if "┤" in line
        ]
        (top, most), (bottom, least) = figures[0], figures[-1]
        a_row = (most - least) / (bottom - top)
        assert (most, least) == (90, 24), "the outermost rows are of the outermost readings"
        for row, figure in figures:
            assert abs(most - a_row * (row - top) - figure) < a_row / 2 + 0.05, (
                "as far apart as their rows"
            )
        await crew.press("left", "left", "left")
        crew.sees("setting: never written")
        await crew.press("up", "down", "down")
        crew.sees("! 4 days late" if size == LARGE else "1 owed")


async def test_wells_are_found_and_their_newest_job_opened(two_wells: Home) -> None:
    async with at_the_keys(two_wells, LARGE) as crew:
        await crew.press("w", "slash")
        await crew.types("hou", "enter")
        crew.sees("Sallow Farm, House", "never written")
        crew.sees_not("Sallow Farm, Barn")
        await crew.press("slash")
        await crew.types("x")
        crew.sees("No well has all of: houx")
        await crew.press("escape")
        crew.sees("Sallow Farm, Barn")
        await crew.press("home", "enter")
        crew.sees("2025-1", "The job")
        await crew.press("escape", "q")
        crew.sees("fieldbook: the shelf")


async def test_without_a_well_it_says_how_one_is_known(home: Home) -> None:
    Shelf(home).create(says("job", job_number="1", line="steel", work="pull"))
    async with at_the_keys(home) as crew:
        await crew.press("w")
        crew.sees("No well is told by the jobs", "by its tag, or by its owner and its name")
        await crew.press("escape")
        crew.sees("fieldbook: the shelf")


async def test_many_wells_are_paged(home: Home) -> None:
    many_jobs(home, 60)
    for number in range(PAGE):
        put(home, f"26-{number}", 2020, well=f"Well {number + 100}")
    async with at_the_keys(home) as crew:
        await crew.press("w")
        rows = crew.app.screen.query_one(WellRows)
        assert rows.option_count == PAGE
        await crew.press("end", "end")
        assert rows.option_count > PAGE


async def test_what_has_come_is_written_down_in_its_job(two_wells: Home) -> None:
    put(two_wells, "2025-2", 2025, says("sample", sample_id="B-7"), Draft("seal", "QA"))
    async with at_the_keys(two_wells) as crew:
        await crew.press("d")
        crew.sees("days late, 2026-05-10  follow-up: amps again", "no day named  lab result: B-7")
        await crew.press("down")
        await crew.bounce("a", "a", "a")
        crew.sees("It has come: lab result", "B-7", "2026-05-14")
        await crew.types("coliform absent", "enter")
        crew.sees("lab result written down in 2025-2")
        crew.sees_not("B-7")
        await crew.press("enter")
        crew.sees("2025-1")

    with Book.open(Shelf(two_wells).find("2025-2"), "", write=False) as book:
        (answer,) = book.job.live("answer")
        (sample,) = book.job.live("sample")
    assert (answer.by, answer.text("answers"), answer.text("outcome")) == (
        "QA", sample.id, "coliform absent",
    )  # fmt: skip
    assert dt.date.fromisoformat(answer.text("done_on")) == dt.date(2026, 5, 14)


async def test_what_is_not_saved_stays_in_hand(two_wells: Home) -> None:
    with Book.open(Shelf(two_wells).find("2025-1"), two_wells.device_id()):
        async with at_the_keys(two_wells) as crew:
            await crew.press("d", "a")
            await crew.types("done by telephone", "enter")
            crew.sees("NOT SAVED", "done by telephone")
            await crew.press("escape")
            crew.sees("amps again")


async def test_nothing_owed_says_so(home: Home) -> None:
    Shelf(home).create(says("job", job_number="1", line="steel", work="pull"))
    async with at_the_keys(home) as crew:
        await crew.press("d")
        crew.sees("Nothing is owed.")
        await crew.press("a", "enter", "escape")
        crew.sees("fieldbook: the shelf")


async def test_the_rule_of_the_place_is_owed_and_a_wrong_place_is_named(home: Home) -> None:
    put(
        home, "26-1", 2024,
        says("level", water_level="90 ft", level_state="static"),
        says("hold", step="close.record", role="crew lead"),
    )  # fmt: skip
    place = home.path / "locality.txt"
    place.write_text("Atlantis", encoding="utf-8")
    async with at_the_keys(home) as crew:
        await crew.press("d")
        crew.sees("Nothing is owed", "locality.txt: no place 'Atlantis' is known")
        place.write_text("MI", encoding="utf-8")
        await crew.press("escape", "d")
        crew.sees("record to file: Michigan, 60 days after the", "26-1  Sallow Farm, Barn")
        await crew.press("a", "enter")
        await crew.types("filed", "enter")
        crew.sees("Nothing is owed", "record to file written down in 26-1")
