"""A form takes no initials that name nobody, wherever it asks for them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL


@pytest.fixture
def pull(home: Home) -> Path:
    return put_job(home, STEEL, before="pull.joint")


@pytest.mark.parametrize("typed", ["7", "-", "a b"])
async def test_who_records_is_named_by_letters(home: Home, pull: Path, typed: str) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "i")
        await crew.press("end", *["backspace"] * 4)
        await crew.types(typed, "enter")
        crew.sees("initials are 1 to 4 letters")
        await crew.press("end", *["backspace"] * 4)
        await crew.types("J.R.", "enter")
        crew.sees("J.R. records")


@pytest.mark.parametrize("typed", ["7", "-", "a b"])
async def test_the_first_start_takes_letters_only(tmp_path: Path, typed: str) -> None:
    home = Home(tmp_path / "book")
    async with at_the_keys(home) as crew:
        await crew.types(typed, "down", "enter")
        crew.sees("initials are 1 to 4 letters", "Before you start")
        assert not home.settings.safety_seen
        await crew.press("end", *["backspace"] * 4)
        await crew.types("MT", "enter", "enter")
        crew.sees_not("Before you start")
    assert home.settings.initials == "MT"


async def test_initials_that_were_kept_before_record_nothing_new(home: Home, pull: Path) -> None:
    home.keep(replace(home.settings, initials="7"))
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        crew.sees("initials are 1 to 4 letters")
        assert crew.joints(pull) == []
