"""How deep can it go, and may I lift this, asked at the keys."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from fieldbook.app.screens.planner_screen import PlannerScreen
from fieldbook.app.walk.action_table import WALK_ACTIONS
from fieldbook.office.samples import build_shelf, sample_names
from fieldbook.quantities.convert import show
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.watch.lift.answer import first_words
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.watcher import Watcher
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import put_job, scratch_home
from tests.store.unsynced import unsynced
from tests.watch.jobs import STEEL
from tests.watch.plans import HOSE_PLAN, SLOW_PLAN, STEEL_PLAN


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_every_line_stands_side_by_side_and_the_jobs_own_is_chosen(
    home: Home, size: tuple[int, int]
) -> None:
    folder = put_job(home, HOSE_PLAN)
    async with at_the_keys(home, size) as crew:
        await crew.press("o")
        await crew.planned()
        own = next(row for row in plan(crew.job(folder)).rows if row.candidate.hangs)
        assert own.governs is not None
        assert own.governs.setting is not None
        crew.sees("300.0 ft", "deepest", "hose 2.00 in: OK", "How deep each limit lets it go")
        crew.sees(f"{own.governs.setting.m_as('ft'):,.0f} gross pressure")
        await crew.press("up")
        crew.sees("steel 6 sch 40: ", "a hoist for joints")
        await crew.press("home")
        crew.sees("PVC 1 sch 80", "working tensile load")


async def test_it_is_opened_from_walk_and_card_and_left_again(home: Home) -> None:
    put_job(home, STEEL_PLAN)
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "o")
        await crew.planned()
        crew.sees("steel 2 sch 40: caution", "wall, in service")
        await crew.press("escape")
        assert not isinstance(crew.app.screen, PlannerScreen)
        await crew.press("c", "o")
        await crew.planned()
        crew.sees("steel 2 sch 40: caution")
        await crew.press("f1")
        crew.sees("Keys here", "Write what the sheet of this line says")
        await crew.press("escape", "escape")
        crew.sees("Job card")


async def test_all_about_one_line_takes_the_screen(home: Home) -> None:
    put_job(home, STEEL_PLAN)
    async with at_the_keys(home) as crew:
        await crew.press("o")
        await crew.planned()
        await crew.press("enter")
        crew.sees("steel 2 sch 40", "At the setting", "Hook load", "Friction", "Total head")
        crew.sees_not("deepest")
        await crew.press("end")
        crew.sees("Cable", "Water past motor", "stops the lift")
        await crew.press("escape")
        crew.sees("deepest", "PVC")


async def test_what_a_sheet_says_makes_a_line_known_at_once(home: Home) -> None:
    folder = put_job(home, SLOW_PLAN)
    async with at_the_keys(home) as crew:
        await crew.press("o")
        await crew.planned()
        await crew.press("home", "down")
        crew.sees("PVC 1 sch 120: can't say", "Missing", "working tensile load")
        await crew.press("y")
        await crew.types("1100 lb", "enter")
        await crew.types("1700 lb", "enter", "enter")
        await crew.planned()
        crew.sees("PVC 1 sch 120: sheet saved", "PVC 1 sch 120: ")
        crew.sees_not("PVC 1 sch 120: can't say")

    said = crew.job(folder).last("line_choice")
    assert said is not None
    assert {name: said.text(name) for name in ("line", "nps", "schedule", "tension_rating")} == {
        "line": "pvc", "nps": "1", "schedule": "120", "tension_rating": "1100 lb"
    }  # fmt: skip


async def test_setting_and_duty_are_written_here(home: Home) -> None:
    folder = put_job(home, STEEL)
    async with at_the_keys(home) as crew:
        await crew.press("o")
        await crew.planned()
        crew.sees("Setting             unknown")
        await crew.press("s")
        crew.sees("[top of casing]")
        await crew.types("260", "enter")
        await crew.planned()
        crew.sees("260.0 ft (as planned)")
        await crew.press("d")
        await crew.types("30", "enter")
        await crew.types("210", "enter", "enter")
        await crew.planned()
        crew.sees("30 gpm from 210 ft")

    assert crew.job(folder).text("duty", "duty_flow") == "30"
    assert crew.job(folder).text("setting", "datum") == "top of casing"


@pytest.fixture(scope="module")
def samples(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home with every sample job on its shelf, to be copied."""
    home = scratch_home(tmp_path_factory.mktemp("samples") / "home")
    with unsynced():
        build_shelf(home)
    return home.path


@pytest.mark.parametrize("name", sample_names())
async def test_may_i_lift_this_is_one_key_from_the_job_on_the_shelf(
    home: Home, name: str, samples: Path
) -> None:
    """The verdict, and the reading to stop at, are on the screen without scrolling."""
    shutil.copytree(samples, home.path, dirs_exist_ok=True)
    listings = [listing.job_number for listing in Shelf(home).jobs()]
    at = next(n for n, number in enumerate(listings) if name.startswith(number))
    async with at_the_keys(home) as crew:
        await crew.press(*["down"] * at)
        await crew.press("l")
        job = crew.job(_folder(home, listings[at]))
        look = Watcher(job).look()
        crew.sees(first_words(look)[:40])
        if look.lift.loads is None:
            crew.sees("nothing is lifted")
            return
        assert look.readings.never is not None
        crew.sees(f"STOP AT {show(look.readings.never, 'lbf')} on the gauge")


async def test_the_lift_check_tells_the_hook_load_that_the_reading_stands_for(home: Home) -> None:
    """The gauge on the dead line shows 0.48544 of the 2,600 lbf that the crew stops at."""
    put_job(home, STEEL)
    async with at_the_keys(home) as crew:
        await crew.press("l")
        crew.sees("Limit from crew's stop load, 2,600 lbf at the hook")


def test_no_two_letters_of_the_walk_are_the_same() -> None:
    keys = [act.key for act in WALK_ACTIONS]

    assert len(keys) == len(set(keys))


def _folder(home: Home, number: str) -> Path:
    return Shelf(home).find(number)
