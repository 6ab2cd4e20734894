"""The company's gear at the keys: looked at, taken, warned of, kept."""

from __future__ import annotations

import errno
import shutil
from pathlib import Path

import pytest

from fieldbook.app.widgets.rows import Rows
from fieldbook.gear.inventory import load
from fieldbook.office.samples import sample_folder
from fieldbook.record.entry import Origin
from fieldbook.store.log.disk import Disk
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL

_BARE_STEEL = [d for d in STEEL if d["kind"] not in ("rig", "gauge", "limit")]
_BARE_HOSE = [d for d in HOSE if d["kind"] not in ("rig", "gauge", "redirect", "piece")]


@pytest.fixture
def gear(home: Home) -> Path:
    """The sample library in the home."""
    shutil.copytree(sample_folder() / "gear", home.gear_folder)
    return home.gear_folder


@pytest.fixture
def rigging(home: Home, gear: Path) -> Path:
    """A steel pull that stands before its rig is written."""
    return put_job(home, _BARE_STEEL, before="plan.rig")


async def go_to(crew: Crew, words: str) -> None:
    """Put the cursor on the row that says `words`."""
    rows = crew.app.screen.query_one(Rows)
    said = [str(rows.get_option_at_index(at).prompt) for at in range(rows.option_count)]
    rows.highlighted = next(at for at, row in enumerate(said) if words in row)
    await crew.settle()


async def look_at(crew: Crew, title: str) -> None:
    """Put the cursor on an item, and look at it."""
    await go_to(crew, title)
    await crew.press("enter")


async def test_an_item_stands_in_a_form_and_is_taken_when_the_crew_saves(
    home: Home, rigging: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "u")
        crew.sees("The company's gear for: Hoist and line", "Derrick 1", "due 2027-05-04")
        crew.sees_not("Reel truck 2", "Line gauge 1")
        await crew.press("down", "up", "enter")
        crew.sees("Derrick 1, from the library", "plates on mast, block and drum", "3500 lbf")
        assert crew.job(rigging).last("rig") is None  # nothing is taken silently
        await crew.press("escape")
        crew.sees("Hoist and line")
        assert crew.job(rigging).last("rig") is None
        await crew.press("escape", "u")
        await look_at(crew, "Derrick 1")
        await crew.press(*["enter"] * 14)
        crew.sees("Derrick 1: taken from the library")

    (entry,) = crew.job(rigging).live("rig")
    assert entry.text("library_item") == "Derrick 1"
    assert entry.text("inspection_due") == "2027-05-04"
    assert entry.values["hook_rating"].origin is Origin.NAMEPLATE
    assert entry.values["sheave_factor"].origin is Origin.TABLE
    assert (entry.values["hook_rating"].number, entry.values["hook_rating"].unit) == (8000, "lbf")
    assert "plates on mast, block and drum" in entry.note
    assert "step" not in entry.values


async def test_gear_past_its_date_says_so_before_and_after_it_is_taken(
    home: Home, rigging: Path
) -> None:
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u", "a")
        crew.sees("! Elevator and slips 2 in", "inspection was due 2026-04-14", "x Hose clamp 1")
        await look_at(crew, "Elevator")
        crew.sees("Dates: inspection was due 2026-04-14")
        await crew.press("enter", "enter", "enter", "enter")
        crew.sees("taken from the library", "Gear caution", "was due 2026-04-14")


async def test_a_figure_that_was_written_otherwise_is_the_crews_own(
    home: Home, rigging: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "u", "a")
        await look_at(crew, "Elevator")
        await crew.press(*["backspace"] * 8)
        await crew.types("5500 lb", "enter", "enter", "enter", "enter")

    (entry,) = crew.job(rigging).live("rig")
    rating = entry.values["holding_rating"]
    assert (rating.text, rating.origin) == ("5500 lb", Origin.STATED)
    assert "otherwise here: holding tool rating" in entry.note


async def test_what_the_item_does_not_say_and_the_job_does_is_named(home: Home, gear: Path) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u")
        await look_at(crew, "Elevator")
        crew.sees("Stays as this job says it:", "hook rating")
        await crew.press("escape", "escape", "u")
        await look_at(crew, "Line gauge 1")
        crew.sees_not("Stays as")


async def test_what_is_retired_or_asked_for_nowhere_is_not_taken(home: Home, rigging: Path) -> None:
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u", "a")
        await look_at(crew, "Hose clamp 1")
        crew.sees("Hose clamp 1 is retired")
        await crew.press("escape", "u", "a")
        await look_at(crew, "Window of riser hose A")
        crew.sees("no step of this job asks for it")
    assert crew.job(rigging).last("rig") is None


async def test_a_pulley_gets_its_place_and_what_only_the_job_knows(home: Home, gear: Path) -> None:
    folder = put_job(home, _BARE_HOSE, before="plan.redirect")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u")
        await look_at(crew, "Corner pulley 2")
        crew.sees("Piece no. from top", "Turn *", "Anchor rating *")
        await crew.types("60", "enter")
        await crew.types("4000", "enter", "enter", "enter", "enter")

    (entry,) = crew.job(folder).live("redirect")
    assert entry.text("place") == "1"
    assert entry.values["turn_angle"].number == 60
    assert entry.values["anchor_rating"].origin is Origin.STATED
    assert entry.values["pulley_rating"].origin is Origin.NAMEPLATE


async def test_a_broken_library_is_named_and_takes_nothing_away(home: Home, rigging: Path) -> None:
    (home.gear_folder / "rigs.toml").write_text("[[item]]\nid = 3\n", encoding="utf-8")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u")
        crew.sees("the library cannot be used", "rigs.toml", "Hoist and line")


async def test_what_the_job_says_is_kept_as_a_new_item(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "u")
        crew.sees("No gear is kept yet")
        await crew.press("escape", "c")
        await go_to(crew, "Hook rating")
        await crew.press("k")
        crew.sees("Keep in the library: rig", "Title *", "Figures stand")
        await crew.types("Derrick 9", "enter")
        await crew.types("plates, read today", "enter")
        await crew.types("2026-05-01", "enter")
        await crew.types("2027-05-01", "enter")
        crew.sees("kept in the library")
        await go_to(crew, "Hook rating")
        await crew.press("k")
        await crew.types("derrick 9", "enter")
        await crew.types("plates", "enter", "enter")
        crew.sees("choose another title")

    (item,) = load(home.gear_folder)
    assert (item.title, item.kind, item.source) == ("Derrick 9", "rig", "plates, read today")
    assert item.dates == {"inspected": "2026-05-01", "inspection_due": "2027-05-01"}
    assert item.values["hook_rating"].number == 8000
    assert item.values["holding_rating"].number == 6000


async def test_what_is_of_the_job_alone_is_not_kept(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "c", "k")
        crew.sees("This is of the job")
    assert not home.gear_folder.exists()


async def test_what_cannot_be_kept_stays_typed_until_it_is(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "c")
        await go_to(crew, "Gauge capacity")
        await crew.press("k")
        await crew.types("Dial 2", "enter")
        await crew.types("plate", "enter")
        with monkeypatch.context() as full:
            full.setattr(Disk, "write", _no_room)
            await crew.press("enter")
            crew.sees("NOT SAVED", "No space left", "Dial 2")
        assert list(home.gear_folder.glob("*.toml")) == []
        await crew.press("enter")
        crew.sees("kept in the library")

    (item,) = load(home.gear_folder)
    assert item.title == "Dial 2"


def _no_room(_disk: Disk, _descriptor: int, _raw: bytes) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")
