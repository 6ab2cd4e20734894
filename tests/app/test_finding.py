"""Finding jobs from the shelf, among many."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.app.shelf.job_rows import JobRows
from fieldbook.app.widgets.paged_rows import PAGE
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import INDEX, Shelf
from tests.app.crew import at_the_keys
from tests.app.scenes import scratch_home
from tests.store.shelves import many_jobs, says

COUNT = 2 * PAGE + 7


@pytest.fixture
def stocked(home: Home) -> Home:
    many_jobs(home, COUNT)
    return home


async def test_jobs_are_found_while_typing(stocked: Home) -> None:
    async with at_the_keys(stocked) as crew:
        crew.sees(f"J-{COUNT - 1:05}")
        await crew.bounce("slash", "slash", "slash")
        await crew.types("sallow")
        crew.sees("26 jobs found", "J-00125", "Sallow Farm")
        crew.sees_not("Ketterby")
        await crew.types(" job 15", "down")
        crew.sees("5 jobs found", "J-00015")
        await crew.press("slash")
        await crew.types("x")
        crew.sees("No job has all of: sallow job 15x")
        await crew.press("escape")
        crew.sees(f"J-{COUNT - 1:05}")
        crew.sees_not("jobs found")


async def test_enter_goes_to_what_was_found_and_opens_it(stocked: Home) -> None:
    async with at_the_keys(stocked) as crew:
        await crew.press("slash")
        await crew.types("seen on job 33", "enter", "enter")
        crew.sees("J-00033", "The job")
        await crew.press("escape", "q")
        crew.sees("1 job found", "J-00033")


async def test_the_end_of_a_page_brings_the_next(stocked: Home) -> None:
    async with at_the_keys(stocked) as crew:
        rows = crew.app.screen.query_one(JobRows)
        assert (len(rows._shown), rows.option_count) == (PAGE, PAGE)
        await crew.press("end")
        assert rows.option_count == 2 * PAGE
        await crew.press("end", "end")
        assert rows.option_count == COUNT
        await crew.press("end")
        crew.sees("J-00000")
        assert (len(rows._shown), rows.option_count) == (COUNT, COUNT)


async def test_a_shelf_that_is_read_again_leaves_the_cursor_on_its_job(stocked: Home) -> None:
    async with at_the_keys(stocked) as crew:
        rows = crew.app.screen.query_one(JobRows)
        await crew.press("down", "down", "down")
        assert rows.chosen is not None
        chosen = rows.chosen.job_number
        with Book.open(Shelf(stocked).find("J-00001"), "d-other") as book:
            book.record(says("finding", part="cause", finding="found by another truck"))
        crew.app.screen.reload()  # type: ignore[attr-defined]
        await crew.settle()
        assert rows.chosen is not None
        assert rows.chosen.job_number == chosen
        await crew.press("slash")
        await crew.types("another truck")
        crew.sees("1 job found", "J-00001")


async def test_without_an_index_the_reading_is_told_and_can_be_left(
    stocked: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_the_keys(stocked):
        pass
    kept = {path.name: path.read_bytes() for path in (stocked.path / INDEX).iterdir()}
    for path in (stocked.path / INDEX).iterdir():
        path.unlink()
    async with at_the_keys(stocked) as crew:
        crew.sees(f"J-{COUNT - 1:05}")
    assert {p.name: p.read_bytes() for p in (stocked.path / INDEX).iterdir()} == kept


async def test_words_to_find_are_text_and_nothing_else(tmp_path: Path) -> None:
    home = scratch_home(tmp_path / "h")
    many_jobs(home, 3)
    async with at_the_keys(home) as crew:
        await crew.press("slash")
        await crew.types("[red]q/n?")
        crew.sees("No job has all of: [red]q/n?")
