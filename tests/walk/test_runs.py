"""A run of like joints, typed at once."""

from __future__ import annotations

import pytest

from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import parse
from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.runs import each_of, not_a_run, rest_of, run_in
from tests.walk.logs import Log

VALUES = {
    "joint_number": parse("4", definition("joint_number")),
    "joint_length": parse("21' 3\"", definition("joint_length")),
}


@pytest.mark.parametrize(
    ("text", "many", "one"),
    [
        ("12 at 21.0", 12, "21.0"),
        (" 3 AT 20' 11\"", 3, "20' 11\""),
        ("1 at 6.4 m", 1, "6.4 m"),
        ("20.98", None, "20.98"),
        ("0 at 21", None, "0 at 21"),
        ("12 at", None, "12 at"),
        ("2.5 at 21", None, "2.5 at 21"),
    ],
)
def test_how_many_and_how_long(text: str, many: int | None, one: str) -> None:
    assert run_in(text) == (many, one)


def test_each_joint_is_numbered_on_and_only_one_that_moved_had_a_hold() -> None:
    walk = load("steel", "pull and set")
    moved = list(each_of(walk.step("set.joint"), VALUES, 3))
    racked = list(each_of(walk.step("set.tally"), VALUES, 3))

    assert [said["joint_number"].number for said in moved] == [4, 5, 6]
    assert {said["joint_length"].number for said in moved} == {21.25}
    assert all(said["recorded"].text == "afterwards, hold not witnessed" for said in moved)
    assert not any("recorded" in said for said in racked)


def test_what_is_not_on_disk_yet_can_be_typed_again() -> None:
    assert rest_of(VALUES, 3, 2) == {"joint_number": "6", "joint_length": "1 at 21' 3\""}


def test_a_run_ends_with_the_string_and_says_length_alone() -> None:
    step, log = load("steel", "pull").step("pull.joint"), Log()
    log.write("piece", place=1, piece="joint", joint_count=5, joint_length=21)

    assert not_a_run(step, log.job, VALUES, 5) == ""
    assert "5 joints left to go out, not 6" in not_a_run(step, log.job, VALUES, 6)
    seen = VALUES | {"pipe_condition": parse("hole", definition("pipe_condition"))}
    assert "length alone" in not_a_run(step, log.job, seen, 2)
