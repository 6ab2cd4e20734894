"""The first start, an empty shelf, a new job, and help everywhere."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.office.samples import build_shelf, sample_names
from fieldbook.quantities.safety import SAFETY
from fieldbook.store.shelf.home import Home, Settings
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job, scratch_home
from tests.watch.jobs import HOSE, STEEL, says


async def test_the_first_start_asks_once_and_shows_the_safety_words(tmp_path: Path) -> None:
    home = Home(tmp_path)
    async with at_the_keys(home) as crew:
        crew.sees("Before you start", *(words[:40] for words in SAFETY))
        await crew.press("enter")
        crew.sees("needed")
        await crew.types("MT", "down", "right", "enter")
        crew.sees("The shelf is empty", "Press n for a new job")
    assert (home.settings.initials, home.settings.units) == ("MT", "metric")

    async with at_the_keys(home) as crew:
        crew.sees_not("Before you start")


@pytest.mark.parametrize("key", ["f10", "ctrl+c"])
async def test_the_book_is_closed_from_a_dialog_too(tmp_path: Path, key: str) -> None:
    """Who only looks at the first words is not held there."""
    async with at_the_keys(Home(tmp_path)) as crew:
        crew.sees("Before you start", "F10 quit")
        await crew.press(key)
    assert crew.app.return_code == 0
    assert not Home(tmp_path).settings.safety_seen


async def test_the_first_start_asks_for_the_folder_and_remembers_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for kind in ("data", "config"):
        place = str(tmp_path / kind)
        monkeypatch.setattr(f"platformdirs.user_{kind}_dir", lambda *_, place=place, **__: place)
    (tmp_path / "file").write_text("no folder")
    put_job(Home(tmp_path / "truck"), STEEL)
    async with at_the_keys(Home.find(None), may_choose=True) as crew:
        crew.sees("in this folder", str(tmp_path)[:20])
        await crew.types("MT")
        await crew.bounce("enter", "enter", "enter")  # one press of a worn key
        crew.sees("Before you start")
        await crew.press("enter", "ctrl+u")
        await crew.types(str(tmp_path / "file" / "book"), "enter")
        crew.sees("This folder cannot be used", "Before you start")
        await crew.press("ctrl+u")
        await crew.types(str(tmp_path / "truck"), "enter")
        crew.sees_not("Before you start", "The shelf is empty")
        crew.sees("26-")
    assert Home.find(None) == Home(tmp_path / "truck")
    assert Home.find(None).settings.initials == "MT"


async def test_a_folder_that_was_named_is_shown_and_not_asked(tmp_path: Path) -> None:
    async with at_the_keys(Home(tmp_path / "b")) as crew:
        crew.sees("The book is kept in")
        crew.sees_not("type another")
        await crew.types("MT", "enter", "enter")
        crew.sees("The shelf is empty")


async def test_where_the_initials_are_known_one_enter_goes_on(tmp_path: Path) -> None:
    home = Home(tmp_path)
    home.keep(Settings(initials="QA"))
    async with at_the_keys(home) as crew:
        crew.sees("Before you start")
        await crew.press("enter")
        crew.sees_not("Before you start")


async def test_a_new_job_is_opened_by_keys(home: Home) -> None:
    async with at_the_keys(home) as crew:
        await crew.bounce("n", "n", "n")
        crew.sees("New job")
        await crew.press("p", *["up"] * 3, "end", *["backspace"] * 12)
        await crew.types("26-140", "enter")
        await crew.press("s", "enter", "p", "enter", "enter")
        crew.sees("26-140", "pvc set", "The job")
        await crew.press("escape", "q", "n")
        await crew.press("p", *["up"] * 3, "end", *["backspace"] * 12)
        await crew.types("26-140", "enter")
        await crew.press("s", "enter", "p", "enter", "enter")
        crew.sees("on the shelf already")


async def test_metric_numbers_are_understood_as_metric(tmp_path: Path) -> None:
    home = Home(tmp_path)
    async with at_the_keys(home) as crew:
        await crew.types("MT", "down", "right", "enter")
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("6.4")
        crew.sees("= 6.4 m")
        await crew.press("enter", "enter")

    (joint,) = crew.joints(folder)
    assert (joint.values["joint_length"].number, joint.values["joint_length"].unit) == (6.4, "m")


@pytest.mark.parametrize("size", [(80, 24), (100, 30), LARGE, (200, 60)])
async def test_every_screen_fits_and_has_help(home: Home, size: tuple[int, int]) -> None:
    put_job(home, [*HOSE, says("well", well_depth=520)], before="pull.drain")
    async with at_the_keys(home, size) as crew:
        await crew.press("f1")
        crew.sees("Keys here", "New job")
        await crew.press("escape", "enter", "f1")
        crew.sees("Keys here", "Lift check")
        crew.sees_not("Focus Next", "Copy selected")
        await crew.press("escape")
        crew.sees("STOP AT", "Hook load", "saved", "Gauge after", "bottom")
        for key in "vcwlt":
            await crew.press("escape", key, "f1")
            crew.sees("Keys here")
            await crew.press("escape", "escape")
        await crew.press("escape", "question_mark")
        crew.sees("Keys here")


async def test_what_is_read_from_afar_is_large_where_there_is_room(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("OUT, joints", "STOP AT lbf: crew's", "INTAKE ft: top of casing")
        # Its check is within, which nobody may take for a reading.
        crew.sees("GAUGE: not read", "Gauge not read")
        await crew.press("escape", "g")
        await crew.types("900", "enter", "enter", "enter")
        crew.sees("GAUGE lbf: lift OK", "Gauge read 900 lbf OK")


async def test_a_limit_that_is_not_known_is_said_to_be_unknown_beside_the_large_figure(
    home: Home,
) -> None:
    put_job(home, STEEL[:1])
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("STOP AT lbf: unknown")


async def test_every_letter_of_the_walk_is_in_the_palette(home: Home) -> None:
    from fieldbook.app.walk.action_table import LETTERS  # noqa: PLC0415 - the walk loads pint

    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        offered = {c.title for c in crew.app.get_system_commands(crew.app.screen)}

    assert {letter.description for letter in LETTERS} <= offered


async def test_a_hose_is_not_asked_about_joint_by_joint(home: Home) -> None:
    put_job(home, HOSE, before="pull.drain")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "l")
        crew.sees("Gauge should read:", "line full")
        told = crew.screen
        await crew.press("plus", "j")
        assert crew.screen == told
        crew.sees_not("one more out", "every joint", "ASKED FOR")
        await crew.press("f1")
        crew.sees("Take the line as full")
        crew.sees_not("One more joint out")


async def test_initials_can_be_changed_and_count_from_then_on(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "i")
        await crew.types("RO", "enter")
        crew.sees("RO records")
        await crew.types("21", "enter", "enter")

    (joint,) = crew.joints(folder)
    assert joint.by == "RO"


def test_the_shelf_is_painted_before_pint_and_plots_are_loaded(tmp_path: Path) -> None:
    scratch_home(tmp_path)
    script = f"""
import asyncio, sys
from pathlib import Path
from fieldbook.app.app import FieldbookApp
from fieldbook.store.shelf.home import Home

async def main() -> None:
    app = FieldbookApp(Home(Path({str(tmp_path)!r})))
    async with app.run_test() as pilot:
        await app.workers.wait_for_complete()
        await pilot.pause()
        print(*sys.modules)

asyncio.run(main())
"""
    loaded = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    ).stdout.split()

    assert {"pint", "plotext"}.isdisjoint(loaded)


async def test_the_mouse_does_what_the_letters_do(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape")
        assert await crew.pilot.click("#acts-beside", offset=(3, 0))
        await crew.settle()
        crew.sees("OK TO LIFT")
        assert await crew.pilot.click("ActionList", offset=(3, 0))
        await crew.press("escape")
        assert await crew.pilot.click("#acts-beside", offset=(2 + 14, 1))
        await crew.settle()
        crew.sees("The log, newest first")


async def test_what_is_written_beside_a_step_and_at_any_time(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "b")
        crew.sees("Cable as it comes")
        await crew.types("nick in the cable", "enter", "enter")
        await crew.press("escape", "w", "end")
        crew.sees("Note")
        while "Extra work approved" not in _lit(crew.app):
            await crew.press("up")
        await crew.press("enter")
        crew.sees("Extra work approved", "Words *")
        await crew.types("two new joints, by phone with the owner", "enter", "enter")
        crew.sees("saved")

    job = crew.job(folder)
    assert job.live("finding")[-1].text("finding") == "nick in the cable"
    assert job.live("approval")[-1].note == "two new joints, by phone with the owner"


def _lit(app: object) -> str:
    rows = app.screen.query_one("Rows")  # type: ignore[attr-defined]
    return str(rows.get_option_at_index(rows.highlighted).prompt)


async def test_a_tech_has_the_lift_answer_of_every_sample_within_three_keys(home: Home) -> None:
    build_shelf(home)
    async with at_the_keys(home, LARGE) as crew:
        for row in range(1, len(sample_names()) + 1):
            await crew.press(str(row), "l")
            crew.sees("Gauge should read:")
            told = crew.screen
            assert "STOP AT" in told or "nothing" in told, told
            await crew.press("escape")
