"""What a figure was understood to be, and names in the middle of a line."""

from __future__ import annotations

import pytest

from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import understood
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.entry_words import parts_of, title_of
from tests.watch.jobs import entry, says


@pytest.mark.parametrize(
    ("name", "typed", "told"),
    [
        ("latitude", "44.27718 deg", "44.27718"),
        ("longitude", "-72.38400", "-72.38400"),
        ("amps_a", "9.0", "9.0"),
        ("joint_length", ".5 m", "0.5"),
        ("joint_length", "12 1/2", "12.5"),
        ("joint_length", "21' 3\"", "21.25"),  # 21 + 3/12
        ("joint_length", "20 ft 4 in", "20.3333"),  # 20 + 4/12
        ("rope_breaking", "26600 lb", "26,600"),
    ],
)
def test_what_was_understood_has_as_many_places_as_were_typed(
    name: str, typed: str, told: str
) -> None:
    assert understood(parse(typed, definition(name))) == told


@pytest.mark.parametrize(
    ("kind", "values", "title"),
    [
        ("joint", {"direction": "out", "joint_length": "21 ft"}, "Joint 9 out"),
        ("rack", {"joint_length": "21 ft"}, "Joint on the rack 9"),
        ("finding", {"part": "cable", "finding": "cut"}, "Finding, joint 9"),
        ("fitted", {"part": "cable guard"}, "Fitted, joint 9"),
    ],
)
def test_the_number_of_a_joint_is_no_running_number_of_what_was_found_there(
    kind: str, values: dict[str, str], title: str
) -> None:
    walk = load("pvc", "pull and set")

    assert title_of(entry(says(kind, joint_number=9, **values), 1), walk) == title


def test_names_and_symbols_keep_their_capitals_within_a_line() -> None:
    well = entry(says("well", water_ph=7.2, water_temperature="50 degF"), 1)
    line = entry(says("line_choice", line="hose", flow_coefficient=150), 2)
    sheave = entry(says("rig", sheave_factor=1.1), 3)

    assert parts_of(well) == ["water pH 7.2", "water temperature 50 degF"]
    assert parts_of(line) == ["drop line hose", "Hazen-Williams C 150"]
    assert parts_of(sheave) == ["sheave factor K 1.1"]


def test_what_a_foot_of_drawdown_gives_is_told_in_its_unit_and_recorded_as_before() -> None:
    each = definition("specific_capacity")
    typed = parse("0.55 gpm/ft", each)

    assert (typed.number, typed.unit) == (0.55, "")
    for said in ("0.55", "0.55 gpm/ft"):
        duty = entry(says("duty", specific_capacity=said), 1)
        assert parts_of(duty) == ["specific capacity 0.55 gpm/ft"]
    with pytest.raises(NotUnderstood, match="use gpm/ft"):
        parse("0.55 gpm", each)
