"""A pull by keys: joints, the same again, a mistake struck, and keys that bounce."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says


@pytest.fixture
def pull(home: Home) -> Path:
    """A steel pull that stands before its first joint."""
    return put_job(home, STEEL, before="pull.joint")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_joints_go_straight_in_and_one_key_repeats_the_last(
    home: Home, pull: Path, size: tuple[int, int]
) -> None:
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("Joint out", "Length", "STOP AT")
        await crew.types("20.98", "enter")
        await crew.types("900", "enter", "enter")
        crew.sees("Joint 1 out saved")
        await crew.press("=")
        crew.sees("Joint 2 out saved")

    first, second = crew.joints(pull)
    assert first.text("joint_length") == "20.98"
    assert first.text("gauge_reading") == "900"
    assert (second.text("joint_number"), second.text("joint_length")) == ("2", "20.98")
    assert second.text("gauge_reading") == "", "what was read on one joint is not repeated"


async def test_a_condition_seen_on_one_joint_is_not_repeated(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21", "enter", "down", "down")
        await crew.press("h")
        crew.sees("Joint out", "[hole]")
        await crew.press("enter", "enter")
        await crew.press("=")

    first, second = crew.joints(pull)
    assert first.text("pipe_condition") == "hole"
    assert second.text("pipe_condition") == ""


async def test_what_is_typed_goes_along_with_the_same_again(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21", "enter", "enter")
        await crew.press("down")
        await crew.types("870", "up", "=")

    assert [j.text("gauge_reading") for j in crew.joints(pull)] == ["", "870"]


@pytest.mark.parametrize("key", ["enter", "="])
async def test_a_key_that_bounces_or_is_held_makes_one_joint(
    home: Home, pull: Path, key: str
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.5", "enter")
        await crew.bounce("enter", "enter", "enter", "enter")
        assert len(crew.joints(pull)) == 1
        crew.sees("Joint 1 out saved")
        await crew.bounce("=", "=", *[key] * 5)
        assert len(crew.joints(pull)) == 2
        await crew.press("=")

    assert [j.text("joint_number") for j in crew.joints(pull)] == ["1", "2", "3"]


async def test_a_mistake_is_struck_and_stays_in_the_log(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("12.98", "enter", "enter")
        await crew.bounce("-", "-", "-")
        crew.sees("Cross out this entry?", "Joint 1 out", "1 typed wrong")
        await crew.press("1", "enter")
        crew.sees("Joint 1 out: crossed out", "OUT 0 of 18 joints")
        await crew.press("end", *["backspace"] * 5)
        await crew.types("20.98", "enter", "enter")
        crew.sees("Joint 1 out saved")
        await crew.press("escape", "v")
        crew.sees("X", "typed wrong")

    (standing,) = crew.joints(pull)
    assert standing.text("joint_length") == "20.98"
    struck = [e for e in crew.job(pull).entries if not crew.job(pull).is_live(e)]
    assert [e.text("joint_length") for e in struck] == ["12.98"]


async def test_an_odd_length_is_asked_about_once_and_a_bounce_is_no_answer(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.pilot.press(*"31.5")
        await crew.bounce("enter", "enter")
        crew.sees("length is usually 9.5 to 22.5 ft", "again to keep it", "31.5")
        await crew.press("enter", "enter")

    assert [j.text("joint_length") for j in crew.joints(pull)] == ["31.5"]


async def test_what_is_not_understood_is_said_beside_the_field_and_kept(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20,98", "enter")
        crew.sees("20,98", "a comma can mean two things")
        await crew.press(*["backspace"] * 5)
        await crew.types("21' 3\"", "enter", "enter")

    (joint,) = crew.joints(pull)
    assert joint.values["joint_length"].number == 21.25


async def test_joints_written_down_later_are_marked_as_not_witnessed(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "a", "enter", "enter")
        crew.sees("FROM PAPER", "Time on paper")
        await crew.press("enter")
        await crew.types("21", "enter", "enter")

    (joint,) = crew.joints(pull)
    assert joint.text("recorded") == "afterwards, hold not witnessed"
    assert joint.text("written_by") == "QA"


async def test_letters_act_only_outside_a_field(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "down", "l")
        crew.sees("Joint out")
        await crew.press("escape", "l")
        crew.sees("OK TO LIFT", "Load path, top down")
        await crew.press("escape")
        crew.sees("Joint out")


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        (("2",), "counted twice"),
        (("2", *" joints in one"), "2 joints in one"),
        (("1", *"2 joints"), "12 joints"),
        (("2", "end", *", and seen"), "counted twice, and seen"),
        (("2", "backspace", *"!"), "counted twic!"),
    ],
)
async def test_a_digit_is_a_choice_only_where_no_more_is_typed_behind_it(
    home: Home, pull: Path, typed: tuple[str, ...], reason: str
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        await crew.press("-", *typed, "enter")

    (strike,) = crew.job(pull).live("strike")
    assert strike.text("reason") == reason


async def test_a_joint_more_than_there_are_is_asked_about_when_repeated_too(home: Home) -> None:
    said = {"direction": "out", "joint_length": 21}
    joints = [
        {"kind": "joint", "by": "QA", "values": said | {"joint_number": number}}
        for number in range(1, 19)
    ]
    folder = put_job(home, [*STEEL, *joints], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "=")
        crew.sees("all 18 joints are out already")
        assert len(crew.joints(folder)) == 18
        await crew.press("enter", "enter")
        crew.sees("Joint 19 out saved")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_run_of_like_joints_is_typed_at_once_and_was_not_witnessed(
    home: Home, pull: Path, size: tuple[int, int]
) -> None:
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        await crew.types("19 at 21.0", "enter", "enter")
        crew.sees("joints left to go out, not 19")
        await crew.press("up", *["backspace"] * 10)
        await crew.types("4 at 21.0", "enter")
        await crew.types("900", "enter", "enter")
        crew.sees("A run says length alone")
        assert crew.joints(pull) == []
        await crew.press("up", *["backspace"] * 3, "enter")
        crew.sees("4 like joints, the last: Joint 4 out saved")
        await crew.types("20.9", "enter", "enter")

    told = [(j.text("joint_number"), j.text("joint_length")) for j in crew.joints(pull)]
    assert told == [*((str(number), "21.0") for number in range(1, 5)), ("5", "20.9")]
    marks = [j.text("recorded") for j in crew.joints(pull)]
    assert marks == [*["afterwards, hold not witnessed"] * 4, ""]


async def test_the_record_shows_what_was_asked_about_and_confirmed(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("31.5", "enter")
        crew.sees("again to keep it")
        await crew.press("enter", "enter")
        crew.sees("Joint 1 out saved")
        await crew.press("=")
        crew.sees("again to keep it")  # what is the same again is as odd as it was
        await crew.press("enter", "enter")
        crew.sees("Joint 2 out saved")

    assert [joint.text("sure") for joint in crew.joints(pull)] == ["yes", "yes"]


async def test_what_was_asked_about_and_mended_is_not_confirmed(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("31.5", "enter")
        await crew.press("end", *["backspace"] * 4)
        await crew.types("21.5", "enter", "enter")

    (joint,) = crew.joints(pull)
    assert (joint.text("joint_length"), joint.text("sure")) == ("21.5", "")


async def test_a_gauge_reading_that_was_asked_about_is_confirmed_in_the_record(home: Home) -> None:
    pull = put_job(home, [*STEEL, says("gauge", gauge_capacity=200_000)], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "g")
        await crew.types("90000", "enter")
        crew.sees("again to keep it")
        await crew.press("enter", "enter")
        await crew.press("escape", "g")
        await crew.types("900", "enter", "enter", "enter")

    odd, sound = crew.job(pull).live("load")[-2:]
    assert (odd.text("gauge_reading"), odd.text("sure")) == ("90000", "yes")
    assert (sound.text("gauge_reading"), sound.text("sure")) == ("900", "")


async def test_the_same_again_twice_within_two_seconds_is_one_joint(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        await crew.press("=")
        crew.watch.seconds += 1.9
        await crew.pilot.press("=")
        await crew.settle()
        assert len(crew.joints(pull)) == 2
        await crew.press("=")

    assert len(crew.joints(pull)) == 3
