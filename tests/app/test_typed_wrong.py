"""An entry that was typed wrong is struck, and its form comes back to be mended."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.app.forms.form import Form
from fieldbook.app.walk.screen import WalkScreen
from fieldbook.store.shelf.home import Home
from fieldbook.walk.entry.from_paper import NOT_WITNESSED
from tests.app.crew import Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL


@pytest.fixture
def pull(home: Home) -> Path:
    """A steel pull that stands before its first joint."""
    return put_job(home, STEEL, before="pull.joint")


def typed(crew: Crew) -> dict[str, str]:
    """What stands in the form, line by line, where anything does."""
    screen = crew.app.screen
    assert isinstance(screen, WalkScreen)
    form = screen.form
    assert form is not None
    return {name: text for name, text in form.texts.items() if text}


async def strike_as_typed_wrong(crew: Crew) -> None:
    await crew.press("escape", "x", "1", "enter")


async def test_only_the_wrong_figure_is_typed_again(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types("98", "down", "down")
        await crew.press("h", "enter", "enter")
        await strike_as_typed_wrong(crew)
        crew.sees("Joint 1 out: crossed out; its form has what was typed: mend it, Enter saves")
        crew.sees("OUT 0 of 18 joints")
        assert typed(crew) == {
            "joint_number": "1",
            "joint_length": "20.98",
            "gauge_reading": "98",
            "pipe_condition": "hole",
        }
        assert crew.joints(pull) == [], "nothing is saved before Enter"
        await crew.press("enter")  # the length stands as it is
        await crew.press("end")
        await crew.types("0", "enter", "enter", "enter")
        crew.sees("Joint 1 out saved")
        assert typed(crew) == {"joint_number": "2"}

    (joint,) = crew.joints(pull)
    told = [joint.text(n) for n in ("joint_number", "joint_length", "gauge_reading")]
    assert told == ["1", "20.98", "980"]
    assert joint.text("pipe_condition") == "hole"


@pytest.mark.parametrize("length", ["21' 3\"", "6.1 m", "20 1/2"])
async def test_a_figure_comes_back_as_it_was_typed(home: Home, pull: Path, length: str) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types(length, "enter", "enter")
        (before,) = crew.joints(pull)
        await strike_as_typed_wrong(crew)
        assert typed(crew)["joint_length"] == length
        await crew.press("enter", "enter")

    (joint,) = crew.joints(pull)
    assert joint.values["joint_length"] == before.values["joint_length"]


async def test_what_is_half_typed_is_not_lost_to_it(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("12.98", "enter", "enter")
        await crew.types("20.5")
        await strike_as_typed_wrong(crew)
        crew.sees("Joint 1 out: crossed out; the form keeps what was half typed")
        assert typed(crew)["joint_length"] == "20.5"
    assert crew.joints(pull) == []


async def test_what_is_half_typed_at_another_step_stays_there(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("12.98", "enter", "enter")
        await crew.press("escape", "pagedown", "enter")
        other = typed(crew)
        await crew.types("7")
        half = typed(crew)
        assert half != other
        await strike_as_typed_wrong(crew)
        assert typed(crew) == {"joint_number": "1", "joint_length": "12.98"}
        await crew.press("escape", "pagedown")
        assert typed(crew) == half


async def test_a_joint_of_a_run_comes_back_as_one_that_was_not_witnessed(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("3 at 21.0", "enter", "enter")
        await strike_as_typed_wrong(crew)
        assert typed(crew) == {"joint_number": "3", "joint_length": "1 at 21.0"}
        await crew.press("end", "backspace")
        await crew.types("5", "enter", "enter")
        crew.sees("Joint 3 out saved")

    assert [j.text("joint_length") for j in crew.joints(pull)] == ["21.0", "21.0", "21.5"]
    assert {j.text("recorded") for j in crew.joints(pull)} == {NOT_WITNESSED}


async def test_another_reason_leaves_the_form_empty(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("12.98", "enter", "enter")
        await crew.press("escape", "x", "3", "enter")
        assert typed(crew) == {"joint_number": "1"}


async def test_what_no_form_made_is_struck_and_the_form_stays(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "g")
        await crew.types("900", "enter", "enter")
        crew.sees("Gauge reading: gauge 900 lbf")
        await crew.press("enter")
        await crew.types("20.9")
        await strike_as_typed_wrong(crew)
        crew.sees("Gauge reading: crossed out")
        assert typed(crew) == {"joint_number": "1", "joint_length": "20.9"}


async def test_the_form_of_an_earlier_step_comes_back(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.drain")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.press("w", "enter")
        await crew.types("900", "enter", "enter")
        crew.sees("Joint out")
        await strike_as_typed_wrong(crew)
        crew.sees("How the line empties", "its form has what was typed")
        assert typed(crew)["load_before"] == "900"
        await crew.press("enter", "end", "backspace", "enter", "enter")
        crew.sees("Joint out")

    (drain,) = crew.job(folder).live("drain")
    assert drain.text("load_before") == "90"


async def test_what_is_struck_in_the_log_is_no_more_what_the_form_goes_on_from(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter", "enter")
        crew.sees("Joint 1 out saved", "OUT 1 of 18 joints")
        await crew.types("20")  # half typed for the next one
        await crew.press("escape", "v", "x", "2", "enter")
        crew.sees("crossed out")
        await crew.press("escape")
        crew.sees("OUT 0 of 18 joints")
        crew.sees_not("Joint 1 out saved")
        assert typed(crew) == {"joint_number": "1", "joint_length": "20"}

    assert crew.joints(pull) == []


async def test_a_figure_goes_into_the_form_where_the_cursor_has_left_it(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape")
        await crew.types("20.9", "enter")
        texts = crew.app.screen.query_one(Form).texts
        assert (texts["joint_number"], texts["joint_length"]) == ("1", "20.9")


async def test_a_figure_changes_no_form_that_is_full_and_makes_no_choice(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.9", "enter")
        await crew.types("900", "enter")
        await crew.types("as found", "enter", "escape")
        before = crew.app.screen.query_one(Form).texts
        await crew.types("2")
        assert crew.app.screen.query_one(Form).texts == before
