"""The demo that plays by itself ends in a stop, and the job it made is a job like any other."""

from __future__ import annotations

import asyncio

import pytest

from fieldbook.app.play import play_a_pull, script
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import job_in


async def test_a_pull_is_played_until_the_reading_that_stops_it(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_the_keys(home) as crew:
        real = asyncio.sleep

        async def passes(seconds: float, *_: object) -> None:
            crew.watch.seconds += seconds  # the clock of the guard; nobody waits for it
            await real(0)

        monkeypatch.setattr("fieldbook.app.play.asyncio.sleep", passes)
        await play_a_pull(crew.pilot)
        monkeypatch.undo()
        await crew.settle()
        crew.sees("STOP: gauge 1,700, stop at 1,500", "OVER BY 200 lbf", "OUT 4 of")
    (folder,) = home.jobs_folder.iterdir()
    assert [j.text("joint_length") for j in job_in(folder).live("joint")] == ["21"] * 4


def test_its_pauses_leave_room_in_forty_seconds_for_the_screens() -> None:
    assert 20.0 < sum(seconds for seconds, _ in script()) < 35.0
