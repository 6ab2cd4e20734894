"""Whether anything hangs, and where its intake is."""

from __future__ import annotations

import pytest

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.record.string import newest_move
from fieldbook.watch.state.position import intake_depth, moment
from fieldbook.watch.state.string import string_record
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, entry, job_of, record, says


def test_nothing_hangs_once_the_pump_is_out_until_pipe_goes_in() -> None:
    job = job_of(*STEEL)
    watcher = Watcher(job)
    for number in range(1, 19):
        record(job, says("joint", direction="out", joint_number=number, joint_length=21))
    record(job, says("pump_out"))
    assert not watcher.look().now.hangs

    record(job, says("joint", direction="in", joint_number=1, joint_length=21))
    look = watcher.look()

    assert look.now.hangs
    assert look.lift.loads is not None
    assert look.now.joints_out == 17


@pytest.mark.parametrize("way", ["out", "in"])
def test_a_joint_that_another_device_wrote_again_moves_nothing(way: str) -> None:
    """However late it comes: the string hangs, and weighs, as it did without it."""
    job = job_of(*STEEL)
    for number in range(1, 19):
        record(job, says("joint", direction="out", joint_number=number, joint_length=21))
    record(job, says("pump_out"))
    for number in range(1, 7):
        record(job, says("joint", direction="in", joint_number=number, joint_length=21))
    before = Watcher(job).look()
    again = says("joint", direction=way, joint_number=1, joint_length=19.4, gauge_reading=90)
    job.add(entry(again, job.last_seq + 1)._replace(device="d-other"))
    after = Watcher(job).look()

    assert before.lift.loads is not None
    assert (after.now.joints_out, after.now.hangs) == (12, True)
    assert after.lift.loads == before.lift.loads


def test_a_joint_that_one_device_wrote_again_came_out_again() -> None:
    job = job_of(*STEEL)
    record(job, says("joint", direction="out", joint_number=1, joint_length=21))
    record(job, says("joint", direction="in", joint_number=1, joint_length=21))
    again = record(job, says("joint", direction="out", joint_number=1, joint_length=21))

    assert newest_move(job) == again


def test_a_count_of_the_rack_after_the_pump_does_not_bring_the_string_back() -> None:
    job = job_of(*STEEL)
    record(job, says("pump_out"))
    record(job, says("pump_out", prior_count=18, rack_count=18))

    assert Watcher(job).look().lift.check.verdict is Verdict.WITHIN
    assert not Watcher(job).look().now.hangs


def test_the_intake_is_worked_from_what_hangs_or_names_what_is_missing() -> None:
    job = job_of(*STEEL)
    depth, missing = intake_depth(job, Watcher(job).look().now)
    assert depth is None
    assert missing == ("intake below discharge",)

    record(job, says("pump", intake_below=1.5))
    depth, _ = intake_depth(job, Watcher(job).look().now)

    # Hand: 18 joints of 21 ft, a valve of 1 ft, then 1.5 ft down the pump, from the datum.
    assert depth is not None
    assert round(magnitude(depth, "ft", "depth"), 2) == 380.5


def test_a_string_is_landed_until_it_is_lifted_or_moved_again() -> None:
    job = job_of(*STEEL)
    record(job, says("joint", direction="in", joint_number=1, joint_length=21))
    record(job, says("load", gauge_reading=900, step="set.first_lift"))
    assert not moment(job, string_record(job)).landed
    record(job, says("load", gauge_reading=30, held_by="plate", step="set.land"))
    record(job, says("load", gauge_reading=30))
    assert moment(job, string_record(job)).landed
    assert not moment(job, string_record(job), joints_out=3).landed, "what if it comes out"

    lifted = record(job, says("load", gauge_reading=900))
    assert not moment(job, string_record(job)).landed
    assert moment(job, string_record(job), at=lifted).landed
    record(job, says("load", gauge_reading=20, step="set.land"))
    assert moment(job, string_record(job)).landed
    record(job, says("joint", direction="out", joint_number=1, joint_length=21))
    assert not moment(job, string_record(job)).landed


def test_depth_and_pressure_ask_for_no_weight() -> None:
    unweighed = [
        says(
            kind,
            **{name: said for name, said in document["values"].items() if "weight" not in name},
        )
        for document in STEEL
        if (kind := document["kind"])
    ]
    seen_of = (says("well", shut_off_head=400), says("pump", pump_flow="20 gpm"))
    whole = Watcher(job_of(*STEEL, says("pump", intake_below=1.5), *seen_of))
    bare = job_of(*unweighed, says("joint", direction="out", joint_number=1, joint_length=21))
    for document in (says("pump", intake_below=1.5), *seen_of):
        record(bare, document)
    look = Watcher(bare).look()
    depth, missing = intake_depth(bare, look.now)
    pressures = [c for seen in (whole.look(), look) for c in seen.checks if c.name == "pressure"]

    assert look.now.record.string is None
    assert missing == ()
    assert depth is not None
    assert round(magnitude(depth, "ft", "depth"), 2) == 359.5  # 17 joints of 21, 1 and 1.5 ft
    assert pressures[1].demand == pressures[0].demand
    assert pressures[1].verdict is pressures[0].verdict is not Verdict.UNKNOWN


def test_of_a_string_that_nobody_described_depth_and_pressure_name_what_they_need() -> None:
    job = job_of(says("job", job_number="1", line="steel", work="pull"))
    look = Watcher(job).look()
    [pressure] = [check for check in look.checks if check.name == "pressure"]

    assert intake_depth(job, look.now)[1] == ("drop line in the string", "intake below discharge")
    assert pressure.missing == (
        "drop line in the string",
        "pressure at the top",
        "shut-off head",
        "static level",
        "flow of the pump (for surge)",
    )


def test_landed_in_a_pitless_the_intake_is_as_deep_as_the_pitless_takes_the_string() -> None:
    job = job_of(*STEEL)
    record(job, says("well", head_kind="pitless adapter", outlet_depth=4, stick_up=1.5))
    record(job, says("pump", intake_below=1.5, pump_length=3))
    for number in range(1, 19):
        record(job, says("joint", direction="in", joint_number=number, joint_length=21))
    on_the_hook, _ = intake_depth(job, Watcher(job).look().now)
    record(job, says("load", gauge_reading=30, held_by="pitless", step="set.land"))
    landed, _ = intake_depth(job, Watcher(job).look().now)

    # Hand: 4 ft below ground and 1.5 ft of casing above it, to the datum.
    assert on_the_hook is not None
    assert landed is not None
    assert round(magnitude(on_the_hook, "ft", "depth"), 2) == 380.5
    assert round(magnitude(landed, "ft", "depth"), 2) == 386.0
