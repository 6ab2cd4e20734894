"""What cannot well be on this job is asked about, and what may be is not."""

from __future__ import annotations

import pytest

from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import parse
from fieldbook.record.entry import Value
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import Step
from fieldbook.walk.entry.doubts import Asked, doubt_about
from tests.walk.logs import Log
from tests.walk.test_counts import hose, joint, reel

PULL = load("hose", "pull").step("pull.footage")
SET = load("hose", "pull and set").step("set.footage")
JOINT = load("steel", "pull").step("pull.joint")


def doubt_in(job: Job, step: Step, name: str, said: dict[str, Value]) -> str:
    return doubt_about(job, Asked.at(step), name, said)


def typed(**figures: str) -> dict[str, Value]:
    return {name: parse(text, definition(name)) for name, text in figures.items()}


@pytest.mark.parametrize(
    ("counter", "words"),
    [
        ("430", ""),
        ("442", "the hose is 420 ft long"),
        ("9900", "the hose is 420 ft long"),
        ("140 m", "the hose is 420 ft long"),
        ("150", ""),
        ("90", "the counter stood at 100 ft"),
    ],
)
def test_a_counter_is_held_against_the_hose_and_its_last_reading(counter: str, words: str) -> None:
    log = Log()
    hose(log)
    reel(log, "100")

    assert doubt_in(log.job, PULL, "footage", typed(footage=counter)) == words


@pytest.mark.parametrize(
    ("mark", "words"),
    [
        ("100", ""),
        ("140", ""),
        ("150", "50 ft from the counter"),
        ("740", "the hose is 420 ft long"),
    ],
)
def test_a_mark_is_held_against_the_hose_and_the_counter(mark: str, words: str) -> None:
    log = Log()
    hose(log)

    assert doubt_in(log.job, PULL, "mark", typed(footage="100", mark=mark)) == words


def test_going_in_marks_count_from_the_top_end_down() -> None:
    log = Log()
    hose(log)

    assert doubt_in(log.job, SET, "mark", typed(footage="100", mark="320")) == ""
    said = typed(footage="100", mark="100")
    assert doubt_in(log.job, SET, "mark", said) == "220 ft from the counter"


def test_a_counter_that_is_known_to_be_off_is_corrected_before_it_is_doubted() -> None:
    log = Log()
    hose(log)
    reel(log, "100", mark="160")

    assert doubt_in(log.job, PULL, "mark", typed(footage="150", mark="210")) == ""


@pytest.mark.parametrize(
    ("length", "words"),
    [("21.4", ""), ("20", ""), ("12.98", "the joint before was 21.00 ft")],
)
def test_a_joint_is_held_against_the_one_before(length: str, words: str) -> None:
    log = Log()
    joint(log, 1)

    assert doubt_in(log.job, JOINT, "joint_length", typed(joint_length=length)) == words


def test_a_joint_more_than_the_string_has_is_doubted() -> None:
    log = Log()
    log.write("pump_out", prior_count=2)
    joint(log, 1)
    assert doubt_in(log.job, JOINT, "joint_length", typed(joint_length="21")) == ""
    joint(log, 2)

    words = doubt_in(log.job, JOINT, "joint_length", typed(joint_length="21"))
    assert words == "all 2 joints are out already"


def test_where_nothing_says_how_long_the_hose_is_nothing_is_doubted() -> None:
    log = Log()

    assert doubt_in(log.job, PULL, "footage", typed(footage="1400")) == ""
    assert doubt_in(log.job, PULL, "mark", typed(footage="50", mark="700")) == ""


def test_a_step_that_moves_nothing_is_not_held_against_the_string() -> None:
    log = Log()
    hose(log)
    step = load("hose", "pull").step("plan.well")

    assert doubt_in(log.job, step, "footage", typed(footage="1400")) == ""


@pytest.mark.parametrize(("length", "doubted"), [("21", False), ("20", False), ("6.1", True)])
def test_a_joint_going_in_is_held_against_the_string_from_the_bottom_up(
    length: str, doubted: bool
) -> None:
    """Load and depth go by the string: a pup that is not in it would make both wrong."""
    log = Log()
    log.write("piece", place=1, piece="pup", piece_length="6 ft")
    log.write("piece", place=2, piece="joint", joint_count=2, joint_length="21 ft")
    step = load("steel", "set").step("set.joint")

    words = doubt_in(log.job, step, "joint_length", typed(joint_length=length))
    assert words.startswith("the string has 21.00 ft here") == doubted
    for number in (1, 2):
        joint(log, number, direction="in")
    words = doubt_in(log.job, step, "joint_length", typed(joint_length=length))
    assert words.startswith("the string has 6.00 ft here") != doubted


@pytest.mark.parametrize(
    ("plug", "words"), [("298", ""), ("300", ""), ("328", "the hose is 300 ft long")]
)
def test_a_plug_below_the_end_of_the_last_hose_is_asked_about(plug: str, words: str) -> None:
    prior = load("hose", "pull").step("plan.prior")

    assert doubt_in(Log().job, prior, "plug_depth", typed(piece_length="300", plug_depth=plug)) == (
        words
    )


CHOOSE = load("steel", "pull and set")
DUTY = {"duty_flow": "25 gpm", "specific_capacity": "1.9", "pumping_level": "108 ft",
        "friction_loss": "6 ft", "discharge_pressure": "45 psi"}  # fmt: skip


@pytest.mark.parametrize(
    ("head", "words"),
    [
        ("218 ft", ""),
        ("226 ft", ""),  # within a twentieth
        ("66.4 m", ""),
        ("159 ft", "108 + 6 + 45 psi x 2.31 = 218 ft"),  # the psi added as feet
        ("318 ft", "108 + 6 + 45 psi x 2.31 = 218 ft"),
    ],
)
def test_a_total_head_that_does_not_add_up_is_asked_about(head: str, words: str) -> None:
    """108 + 6 + 45 x 2.31 = 217.95."""
    said = typed(**DUTY, total_head=head)

    assert doubt_in(Log().job, CHOOSE.step("choose.duty"), "total_head", said) == words


@pytest.mark.parametrize(
    ("level", "words"),
    [("108 ft", ""), ("150 ft", "95 at rest + 25 gpm / 1.9 = 108 ft")],
)
def test_a_pumping_level_is_held_against_rest_flow_and_specific_capacity(
    level: str, words: str
) -> None:
    """94.9 + 25 / 1.9 = 108.06. A level that was drawn down is no level at rest."""
    log, step = Log(), CHOOSE.step("choose.duty")
    said = typed(**(DUTY | {"pumping_level": level}))
    assert doubt_in(log.job, step, "pumping_level", said) == ""

    log.write("level", water_level="94.9 ft", level_state="static")
    log.write("level", water_level="140 ft", level_state="pumping")
    assert doubt_in(log.job, step, "pumping_level", said) == words


@pytest.mark.parametrize(
    ("depth", "words"),
    [("251.8 ft", ""), ("152 ft", "108 and 144 of water over it = 252 ft")],
)
def test_a_setting_depth_is_held_against_level_and_submergence(depth: str, words: str) -> None:
    said = typed(pumping_level="108 ft", submergence="144 ft", setting_depth=depth)

    assert doubt_in(Log().job, CHOOSE.step("choose.setting"), "setting_depth", said) == words


@pytest.mark.parametrize("left_out", ["pumping_level", "friction_loss", "discharge_pressure"])
def test_a_sum_with_a_part_left_out_is_not_asked_about(left_out: str) -> None:
    said = typed(**{n: t for n, t in DUTY.items() if n != left_out}, total_head="900 ft")

    assert doubt_in(Log().job, CHOOSE.step("choose.duty"), "total_head", said) == ""


@pytest.mark.parametrize(
    ("depth", "words"),
    [("251.8 ft", ""), ("262 ft", "251.8 ft was agreed; another is signed by two first (Esc, w)")],
)
def test_a_depth_that_two_signed_is_not_changed_where_nobody_signs(depth: str, words: str) -> None:
    log = Log()
    log.write("setting", datum="ground", setting_depth="251.8 ft")
    said = typed(datum="ground", setting_depth=depth)

    assert doubt_in(log.job, CHOOSE.step("choose.line_plan"), "setting_depth", said) == words
    assert doubt_in(log.job, CHOOSE.step("choose.setting"), "setting_depth", said) == ""


def test_a_place_that_a_piece_has_already_is_asked_about_and_one_that_was_struck_is_free() -> None:
    log = Log()
    log.write("piece", piece="joint", place=1)
    valve = log.write("piece", piece="check valve", place=2)
    fittings = load("steel", "set").step("plan.fittings")

    taken = "a check valve has this place; one that was wrong is crossed out (Esc, v)"
    assert doubt_in(log.job, fittings, "place", typed(place="2")) == taken
    assert doubt_in(log.job, fittings, "place", typed(place="3")) == ""
    log.strike(valve)
    assert doubt_in(log.job, fittings, "place", typed(place="2")) == ""


def test_a_new_string_begins_at_a_place_that_the_one_that_came_out_had() -> None:
    log = Log()
    log.write("job", job_number="26-9", line="steel", work="pull and set")
    log.write("piece", piece="joint", place=1, joint_count=12)
    log.write("pump_out")
    lengths = load("steel", "pull and set").step("choose.string")

    assert doubt_in(log.job, lengths, "place", typed(place="1")) == ""
    log.write("piece", piece="joint", place=1, joint_count=11)
    assert doubt_in(log.job, lengths, "place", typed(place="1")).startswith("a joint has")


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("3", ""),
        ("4", ""),
        ("2", "joint 2 out is written already"),
        ("5", "joints 3 to 4 out are not written"),
    ],
)
def test_a_joint_number_written_again_or_two_left_out_is_asked_about(
    number: str, words: str
) -> None:
    log = Log()
    for written in ("1", "2"):
        log.write("joint", direction="out", joint_number=written, joint_length="21")

    assert doubt_in(log.job, JOINT, "joint_number", typed(joint_number=number)) == words
