"""How deep: the ways of a set and of a pull, held against hand calculations."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from calc.drop_line.fill import Fill
from calc.drop_line.reconcile import reconcile
from fieldbook.record.job import Job
from fieldbook.watch.depth.methods import way
from fieldbook.watch.depth.mistakes import likely
from fieldbook.watch.depth.reconcile import Depth
from fieldbook.watch.document import look_document
from fieldbook.watch.state.depth_frame import frame_of
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says

HEAD = says("well", head_kind="well seal", stick_up="1.2 ft")
ENDS = says("pump", intake_below="1.5 ft")
JOINT = 20.94
# By hand: 18 x 20.94 + 1 ft of valve + 1.5 ft to the intake, from the top of the casing.
LANDED = 18 * JOINT + 1 + 1.5


def joints(direction: str, count: int = 18, **more: Any) -> list[dict[str, Any]]:
    return [
        says("joint", direction=direction, joint_number=n, joint_length=JOINT, **more)
        for n in range(1, count + 1)
    ]


def rack(count: int = 20) -> list[dict[str, Any]]:
    return [says("rack", joint_number=n, joint_length=JOINT) for n in range(1, count + 1)]


def agreed(**more: Any) -> dict[str, Any]:
    return says("depth", datum="top of casing", **more)


def was_set(*more: dict[str, Any], went_in: int = 18) -> Job:
    return job_of(*STEEL, HEAD, ENDS, *rack(), *joints("in", went_in), *more)


def deep(job: Job) -> Depth:
    return Watcher(job).look().depth


def check_of(job: Job) -> Check:
    check = deep(job).check
    assert check is not None
    return check


def by_name(found: Depth) -> dict[str, float]:
    assert found.found is not None
    return {each.way.name: each.way.depth.m_as("ft") for each in found.found.ways}


def test_the_string_on_its_way_is_not_asked_how_deep() -> None:
    assert deep(job_of(*STEEL, HEAD, ENDS)).check is None
    assert deep(job_of(*STEEL, HEAD, ENDS, *joints("out", 6))).check is None
    assert deep(job_of(*STEEL, HEAD, ENDS, *joints("in", 6))).check is None


def test_a_set_that_agrees_is_within() -> None:
    job = was_set(agreed(rack_count=2, depth_by_tape=f"{LANDED + 0.2} ft", setting_depth=LANDED))
    found = deep(job)

    assert by_name(found) == pytest.approx(
        {"tally": LANDED, "rack": LANDED, "tape": LANDED + 0.2}, abs=1e-6
    )
    assert check_of(job).verdict is Verdict.WITHIN
    assert check_of(job).share == pytest.approx(0.2)


def test_a_joint_that_was_not_written_is_named() -> None:
    job = was_set(agreed(rack_count=2, depth_by_tape=LANDED, depth_by_cable=LANDED), went_in=17)
    check = check_of(job)

    assert check.verdict is Verdict.UNKNOWN
    assert check.governs == "tally"
    assert "the tally is 20.9 ft short of the other 3 (one joint missed" in check.missing[0]


def test_two_ways_say_that_they_differ_and_not_which() -> None:
    check = check_of(was_set(agreed(depth_by_tape=LANDED), went_in=17))

    assert check.verdict is Verdict.UNKNOWN
    assert check.missing[0].startswith("which is right: tally and tape differ by 20.9 ft")


def test_one_way_alone_is_too_few() -> None:
    check = check_of(was_set())

    assert (check.verdict, check.missing) == (
        Verdict.UNKNOWN,
        ("a second way of knowing the depth",),
    )


@pytest.mark.parametrize(
    ("off", "words"),
    [
        (1.9, "from the other datum"),
        (5.0, "5 ft misread on the tape"),
        (2.5, "to the end of the motor"),
    ],
)
def test_mistakes_of_a_known_size_are_offered(off: float, words: str) -> None:
    """Stick-up 1.9 ft; a pump of 4 ft with its intake 1.5 ft down has 2.5 ft below that."""
    job = was_set(says("well", stick_up="1.9 ft"), agreed(rack_count=2, depth_by_tape=LANDED + off))
    check = check_of(job)

    assert check.governs == "tape"
    assert words in check.missing[0]


def test_make_up_that_was_not_taken_off_is_offered() -> None:
    """2 in NPT makes up 0.436 + 3 / 11.5 = 0.697 in (ASME B1.20.1): 1.05 ft in 18 joints."""
    job = was_set()
    frame, _ = frame_of(job, "in")
    assert frame is not None
    ways = [way("tally", LANDED + 1.05, 0.2), way("rack", LANDED, 0.2), way("tape", LANDED, 0.2)]
    odd = reconcile(ways).odd

    assert odd is not None
    assert "make-up not taken off" in likely(job, frame, odd, "in")


# Hand figures of the string that was set, 18 x 21 ft of 2 in schedule 40 with the water at 168 ft:
# 378 ft x 3.68 lb/ft of pipe (ASTM A53, coupled), 0.30 of cable, 5 lb of valve, 104 of pump; under
# water, 210 + 1 ft of line, 3.68 x 62.4 / 490 and 0.3 x 0.30 a foot less, and 14 % of the pump.
LIGHTER = 211 * (3.68 * 62.4 / 490 + 0.09) + 0.14 * 104
DRAINED = 378 * 3.68 + 379 * 0.30 + 5 + 104 - LIGHTER
A_FOOT = 3.68 * (1 - 62.4 / 490) + 0.21
EXACT = says("gauge", gauge_place="hook", gauge_zero=0, gauge_error=2)


def weighed(load: float, *, gauge: dict[str, Any] = EXACT, **more: Any) -> Depth:
    return deep(was_set(gauge, agreed(gauge_reading=round(load, 1), **more)))


def weight_of(found: Depth) -> tuple[float, float]:
    assert found.found is not None
    each = next(w.way for w in found.found.ways if w.way.name == "weight")
    return each.depth.m_as("ft"), each.uncertainty.m_as("ft")


@pytest.mark.parametrize("joints_less", [0, 1, -1])
def test_the_weight_on_the_hook_tells_the_length_by_hand(joints_less: int) -> None:
    """The list says 18 x 21 = 378 ft, 1 of valve and 1.5 to the intake; a joint weighs 71.9."""
    found = weighed(DRAINED - joints_less * 21 * A_FOOT)

    assert 21 * A_FOOT == pytest.approx(71.9, abs=0.1)
    assert weight_of(found)[0] == pytest.approx(378 + 1 + 1.5 - 21 * joints_less, abs=0.5)


def test_the_weight_is_as_sure_as_the_gauge_and_the_weights_are() -> None:
    """By hand: 2 lbf evenly spread, 3 % of the line, 8 % of the pump and 1 % of drag."""
    line = DRAINED - 104
    by_hand = (
        (2 / 3**0.5) ** 2 + (0.03 * line) ** 2 + (0.08 * 104) ** 2 + (0.01 * DRAINED) ** 2
    ) ** 0.5
    rough = EXACT | {"values": EXACT["values"] | {"gauge_error": 60}}

    assert weight_of(weighed(DRAINED))[1] == pytest.approx(by_hand / A_FOOT, rel=0.02)
    assert weight_of(weighed(DRAINED, gauge=rough))[1] > weight_of(weighed(DRAINED))[1]


def test_a_gauge_too_coarse_for_it_tells_no_depth_by_weight() -> None:
    """200 lbf one way, evenly spread, are 115 lbf: 34 ft of this line."""
    rough = EXACT | {"values": EXACT["values"] | {"gauge_error": 200}}

    assert "weight" not in by_name(weighed(DRAINED, gauge=rough))


def test_a_weight_alone_is_no_second_way() -> None:
    """It may be a joint off by itself, so it cannot vouch that no joint was missed."""
    check = weighed(DRAINED).check

    assert check is not None
    assert check.missing == ("a second way of knowing the depth",)


def test_the_last_joints_reading_serves_where_none_was_taken_for_the_depth() -> None:
    rows = joints("in")
    rows[-1] = says(
        "joint", direction="in", joint_number=18, joint_length=JOINT, gauge_reading=round(DRAINED)
    )
    job = job_of(*STEEL, HEAD, ENDS, EXACT, *rows)

    assert weight_of(deep(job))[0] == pytest.approx(380.5, abs=0.5)
    record(job, says("load", gauge_reading=0, held_by="well seal"))
    assert weight_of(deep(job))[0] == pytest.approx(380.5, abs=0.5)


def test_a_string_that_is_not_weighed_has_no_weight() -> None:
    assert "weight" not in by_name(deep(was_set(agreed(depth_by_tape=LANDED))))
    no_level = [d for d in STEEL if d["kind"] != "level"]
    job = job_of(*no_level, HEAD, ENDS, EXACT, *joints("in"), agreed(gauge_reading=round(DRAINED)))
    assert "weight" not in by_name(deep(job))


def test_plastic_that_weighs_next_to_nothing_in_water_tells_no_length() -> None:
    """1 in schedule 80 PVC is 0.11 lb/ft in water, and the gauge good to 2 lbf: 3 % of the line."""
    pvc = [
        says("job", job_number="P-1", line="pvc", work="set"),
        *(d for d in STEEL if d["kind"] not in ("job", "piece")),
        says("piece", place=1, piece="joint", nps="1", schedule="80", joint_count=18,
             joint_length=21, tension_rating=900),
    ]  # fmt: skip
    job = job_of(*pvc, HEAD, ENDS, EXACT, *joints("in"), agreed(gauge_reading=190))

    found = deep(job)
    assert "tally" in by_name(found)
    assert "weight" not in by_name(found)
    assert found.lines[-1].startswith("The weight read tells no depth")


def test_a_typed_sum_that_is_the_books_own_is_not_counted_twice() -> None:
    names = by_name(deep(was_set(agreed(depth_by_tally=LANDED + 0.05, depth_by_tape=LANDED))))

    assert set(names) == {"tally", "tape"}


def test_depths_on_the_other_datum_are_brought_over() -> None:
    """Ground lies a stick-up of 1.2 ft below the top of the casing."""
    said = says("depth", datum="ground", depth_by_tape=f"{LANDED - 1.2} ft")

    assert by_name(deep(was_set(said)))["tape"] == pytest.approx(LANDED)


def test_a_depth_on_another_datum_without_the_stick_up_is_no_way() -> None:
    head = says("well", head_kind="well seal")
    said = says("depth", datum="ground", depth_by_tape=LANDED)
    job = job_of(*STEEL, head, ENDS, *joints("in"), said)

    assert set(by_name(deep(job))) == {"tally"}


def test_a_pitless_hangs_lower_than_the_casing() -> None:
    """Outlet 5 ft below ground and 1.2 ft of casing above it: 6.2 ft below the casing's top."""
    head = says("well", head_kind="pitless adapter", stick_up="1.2 ft", outlet_depth="5 ft")

    assert by_name(deep(job_of(*STEEL, head, ENDS, *joints("in"))))["tally"] == pytest.approx(
        LANDED + 6.2
    )


@pytest.mark.parametrize(
    ("left_out", "word"),
    [("head_kind", "well head"), ("outlet_depth", "outlet below ground"), ("stick_up", "stick-up"),
     ("datum", "datum")],
)  # fmt: skip
def test_what_the_hanger_needs_is_named(left_out: str, word: str) -> None:
    well = {"head_kind": "pitless unit", "stick_up": 1.2, "outlet_depth": 5, "datum": "ground"}
    del well[left_out]
    base = [d | {"values": {k: v for k, v in d["values"].items() if k != "datum"}} for d in STEEL]
    if left_out == "stick_up":
        well["datum"] = "top of casing"
    check = check_of(job_of(*base, says("well", **well), ENDS, *joints("in"), agreed()))

    assert check.verdict is Verdict.UNKNOWN
    assert word in check.missing


@pytest.mark.parametrize(
    ("name", "word"),
    [("intake_below", "intake below discharge"), ("pump_length", "pump and motor length")],
)
def test_the_ends_of_the_pump_are_named(name: str, word: str) -> None:
    pump = {"intake_below": 1.5, "pump_length": 4, "pump_weight": 104}
    del pump[name]
    base = [d for d in STEEL if d["kind"] != "pump"]
    job = job_of(*base, HEAD, says("pump", **pump), *joints("in"), agreed(depth_by_tape=LANDED))

    assert word in check_of(job).missing


def test_an_agreed_depth_that_is_none_of_them_is_a_caution() -> None:
    job = was_set(agreed(rack_count=2, depth_by_tape=LANDED, setting_depth=LANDED + 4))

    assert check_of(job).verdict is Verdict.CAUTION
    assert "+4.0 ft off" in check_of(job).note


# --- how deep it hung -----------------------------------------------------------------------------


def was_pulled(*more: dict[str, Any], out: int = 18) -> Job:
    return job_of(*STEEL, HEAD, ENDS, *joints("out", out), says("pump_out", rack_count=18), *more)


def test_a_pull_is_held_against_its_rack_and_its_record() -> None:
    prior = says("prior", setting_depth=f"{LANDED - 1.2} ft", datum="ground")
    job = was_pulled(prior)

    assert by_name(deep(job)) == pytest.approx(
        {"tally": LANDED, "count": LANDED, "last record": LANDED}
    )
    assert check_of(job).verdict is Verdict.WITHIN


def test_the_wet_mark_says_how_deep_it_hung() -> None:
    """Level 168 ft; the mark 0.48 ft down joint 9: 8 x 20.94 + 0.48 = 168 ft below the casing."""
    job = was_pulled(says("pump_out", wet_joint=9, wet_mark="0.48 ft"))

    assert by_name(deep(job))["water mark"] == pytest.approx(LANDED, abs=1e-6)


def test_a_joint_missed_above_the_water_shows_by_the_wet_mark() -> None:
    """One joint less was written, so the joint with the mark is the eighth."""
    prior = says("prior", setting_depth=LANDED, datum="top of casing")
    job = was_pulled(prior, says("pump_out", wet_joint=8, wet_mark="0.48 ft"), out=17)
    found = by_name(deep(job))

    assert found["water mark"] == pytest.approx(LANDED, abs=1e-6)
    assert (
        "why the tally is 20.9 ft short of the other 3 (one joint missed"
        in (check_of(job).missing[0])
    )


def reading(out_ft: float, *, full: bool) -> float:
    """What a deadline gauge on two parts shows, by the book's own loads of the whole string."""
    look = Watcher(job_of(*STEEL)).look()
    string = look.now.record.string
    assert string is not None
    pieces = round(out_ft / 21)
    load = string.hook_load(
        level=look.now.level, top=look.now.top, fill=Fill.FULL if full else Fill.DRAINED,
        water_weight=look.now.water_weight, out=pieces,
    )  # fmt: skip
    return 48 + load.m_as("lbf") / 2


@pytest.mark.parametrize("full", [True, False])
def test_the_load_shows_where_the_pump_left_the_water(full: bool) -> None:
    """Readings made from a string of 18 x 21 ft; nothing else tells its length."""
    rows = [
        says(
            "joint",
            direction="out",
            joint_number=n,
            joint_length=21,
            gauge_reading=round(reading(21 * (n - 1), full=full), 1),
        )
        for n in range(1, 19)
    ]
    job = job_of(*STEEL, HEAD, ENDS, *rows, says("pump_out", prior_count=18))
    found = deep(job).found
    assert found is not None
    load = next(w.way for w in found.ways if w.way.name == "load at the water")

    assert load.depth.m_as("ft") == pytest.approx(
        18 * 21 + 2.5, abs=1.5 * load.uncertainty.m_as("ft")
    )
    assert 6 <= load.uncertainty.m_as("ft") <= 15


def test_readings_without_a_bend_tell_no_depth() -> None:
    rows = [r | {"values": r["values"] | {"gauge_reading": 900 - 36 * n}}
            for n, r in enumerate(joints("out"))]  # fmt: skip
    job = job_of(*STEEL, HEAD, ENDS, *rows, says("pump_out", rack_count=18))

    assert "load at the water" not in by_name(deep(job))


def test_hose_is_told_by_its_counter_as_the_marks_correct_it() -> None:
    """420 ft by a mark at 0, 1 ft of valve, 1.5 ft to the intake, hung at the casing's top."""
    base = job_of(*HOSE, HEAD, ENDS, says("hose_sheet", hose_stretch="1 %"))
    for counter, mark in ((205, 220), (400, 20), (418, 0)):
        record(base, says("footage", direction="in", footage=counter, mark=mark))
    record(base, agreed(depth_by_tape="424 ft"))
    found = deep(base)

    assert by_name(found) == pytest.approx({"counter": 422.5, "tape": 424})
    assert check_of(base).verdict is Verdict.WITHIN


def test_hose_whose_stretch_nobody_wrote_is_not_good_to_one_percent() -> None:
    job = job_of(*HOSE, HEAD, ENDS, says("footage", direction="in", footage=418, mark=0))
    record(job, agreed(depth_by_tape="424 ft"))

    assert check_of(job).verdict is Verdict.CAUTION
    assert "no two of the ways are good to 4.2 ft" in check_of(job).note


def test_a_counter_that_met_no_mark_is_hardly_sure() -> None:
    job = job_of(*HOSE, HEAD, ENDS, says("footage", direction="in", footage=420), agreed())
    found = deep(job).found

    assert found is not None
    assert found.ways[0].way.uncertainty.m_as("ft") > 42


def test_the_ways_go_out_as_lines_and_as_a_document() -> None:
    job = was_set(agreed(rack_count=2, depth_by_tape=LANDED), went_in=17)
    look = Watcher(job).look()
    document = look_document(look)["depth"]

    assert document["odd"] == "tally"
    assert {w["name"] for w in document["ways"]} == {"tally", "rack", "tape"}
    assert any(line.startswith("> tally") for line in look.depth.lines)
    assert look.depth.lines[0].startswith("Intake 379.4 +-")
    assert look.depth.lines[1].split() == ["way", "depth,", "ft", "share", "off"]


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({"depth_by_tape": LANDED, "setting_depth": 390}, "390.0 ft was agreed, +"),
        ({"depth_by_tape": LANDED + 1.2}, "The ways are 1.2 ft apart, 1.0 allowed"),
    ],
)
def test_a_depth_that_is_in_doubt_says_why_in_its_lines(said: dict[str, Any], why: str) -> None:
    found = deep(was_set(agreed(rack_count=2, **said)))

    assert found.lines[0].endswith(": caution")
    assert any(line.startswith(why) for line in found.lines), found.lines


def test_slack_of_a_foot_in_fifty_is_offered_where_the_cable_is_off() -> None:
    job = was_set()
    frame, _ = frame_of(job, "in")
    assert frame is not None
    off = LANDED * 0.02
    ways = [way("cable", LANDED + off, 0.2), way("rack", LANDED, 0.2), way("tape", LANDED, 0.2)]
    odd = reconcile(ways).odd

    assert odd is not None
    assert odd.way.name == "cable"
    assert "slack in the cable" in likely(job, frame, odd, "in")
