"""Paper from the day the laptop died, put into the book afterwards."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.walk.definition.loading import load
from fieldbook.walk.states import StepState
from tests.app.crew import Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL

READ = [*STEEL, {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}]


async def _takes_up_the_paper_of_lm(crew: Crew) -> None:
    await crew.press("escape", "a")
    crew.sees("From paper or from memory", "Day on paper")
    await crew.press(*["backspace"] * 2)
    await crew.types("LM", "enter", "enter")
    crew.sees("FROM PAPER")


async def test_a_hold_on_paper_is_recorded_and_not_taken_for_a_witnessed_one(home: Home) -> None:
    folder = put_job(home, READ, before="ready.load_check")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await _takes_up_the_paper_of_lm(crew)
        await crew.types("0801", "enter")
        crew.sees("Sign: ", "LM", "08:01")
        await crew.press("enter", "c", "enter", "enter")
        crew.sees("signed")
        await crew.press("escape", "w", "up")
        crew.sees("~ Ready     Lift check before lifting", "~ hold not witnessed")
        await crew.press("escape", "v")
        crew.sees("recorded from paper,", "hold not witnessed, on paper by LM 2026-05-14 08:01")

    hold = crew.job(folder).last("hold")
    assert hold is not None
    assert (hold.by, hold.text("recorded")) == ("LM", "afterwards, hold not witnessed")
    stand = load("steel", "pull").stand(crew.job(folder))
    assert stand.states["ready.load_check"] is StepState.NOT_WITNESSED


@pytest.fixture
def stopped(home: Home) -> Path:
    """A pull whose last reading is over the stop load."""
    over = {"kind": "load", "by": "QA", "values": {"gauge_reading": 2999}}
    folder = put_job(home, READ, before="pull.joint")
    with Book.open(folder, home.device_id()) as book:
        book.record(draft_from(over))
    return folder


async def test_joints_that_went_on_over_a_stop_are_written_down_from_paper_and_only_so(
    home: Home, stopped: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("STOP")
        crew.sees_not("Length *")
        await _takes_up_the_paper_of_lm(crew)
        crew.sees("STOP", "Length *")
        await crew.types("8:01", "enter")
        await crew.types("21", "enter", "enter")
        await crew.press("escape", "a")
        crew.sees("STOP", "Before the next lift: look at what holds")
        crew.sees_not("Length *")

    (joint,) = crew.joints(stopped)
    assert joint.text("written_by") == "LM"
    assert joint.text("written_at") == "08:01"
    assert joint.by == "QA"


async def test_a_time_that_has_not_come_is_refused_and_kept(home: Home) -> None:
    folder = put_job(home, READ, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await _takes_up_the_paper_of_lm(crew)
        await crew.types("23:59", "enter")
        await crew.types("21", "enter", "enter")
        crew.sees("has not come yet", "23:59")
        assert crew.joints(folder) == []
        await crew.press("escape", "n")
        await crew.types("swivel was loud", "enter")
        await crew.types("0803", "enter", "enter")

    note = crew.job(folder).last("note")
    assert note is not None
    assert (note.text("written_at"), note.text("recorded")) == ("08:03", "afterwards")


@pytest.mark.parametrize("size", [(80, 24), (100, 30)])
async def test_a_joint_from_paper_is_said_to_be_not_witnessed_under_the_whole_title(
    home: Home, size: tuple[int, int]
) -> None:
    named = {**READ[0], "values": {**READ[0]["values"], "job_title": "Hobbin Hill nursery, deep"}}
    put_job(home, [named, *READ[1:]], before="pull.joint")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("HOLD: saving confirms lower hold carries")
        await _takes_up_the_paper_of_lm(crew)
        crew.sees("HOLD: saved from paper, not witnessed", "Hobbin Hill nursery, deep  ")
        crew.sees_not("\u2026", "saving says")
        assert crew.app.screen.query_one("#left").max_scroll_y == 0, crew.screen
        await crew.press("escape", "a")
        crew.sees("HOLD: saving confirms lower hold carries", "steel pull")
