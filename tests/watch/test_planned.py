"""Before anything goes in, the checks answer for the whole string that is to hang."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.record.job import Job
from fieldbook.watch.state.position import PLANNED
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, record, says


def doing(work: str) -> Job:
    return job_of(*STEEL[1:], says("job", job_number="S-1", line="steel", work=work))


def pulled() -> Job:
    job = doing("pull and set")
    for number in range(1, 19):
        record(job, says("joint", direction="out", joint_number=number, joint_length=20.94))
    record(job, says("pump_out", gauge_reading=95))
    return job


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def test_once_the_pump_is_out_nothing_hangs_and_nothing_is_asked() -> None:
    look = Watcher(pulled()).look()

    assert not look.now.has_load
    assert [look.lift.check.verdict, look.readings.check.verdict] == [Verdict.WITHIN] * 2
    assert look.readings.check.governs == "pump out, nothing hangs"


def test_a_heavier_pump_to_be_set_is_weighed_before_anything_hangs() -> None:
    job = pulled()
    before = Watcher(doing("pull and set")).look().lift.loads
    pump = next(d for d in STEEL if d["kind"] == "pump")["values"]
    heavier = float(str(pump["pump_weight"]).removesuffix(" lb")) + 50
    record(job, says("pump", pump_weight=heavier, pump_length=pump["pump_length"]))
    look = Watcher(job).look()

    assert look.now.planned
    assert not look.now.hangs
    assert PLANNED in look.lift.check.note
    assert before is not None
    assert look.lift.loads is not None
    # 14 % of a pump's weight is carried by the water where it hangs in it; the design case is dry.
    assert lbf(look.lift.loads.design) - lbf(before.design) == pytest.approx(50)
    assert lbf(look.lift.loads.full) - lbf(before.full) == pytest.approx(50 * 0.86, rel=1e-4)


def test_the_stop_of_the_whole_new_string_is_seen_before_it_hangs() -> None:
    job = pulled()
    record(job, says("limit", stop_load=400))
    look = Watcher(job).look()

    assert look.readings.check.verdict is Verdict.STOP
    assert look.stops


def test_the_first_joint_in_is_all_that_hangs() -> None:
    job = pulled()
    record(job, says("limit", stop_load=2600))
    whole = Watcher(job).look()
    record(job, says("joint", direction="in", joint_number=1, joint_length=20.94))
    look = Watcher(job).look()

    assert look.now.hangs
    assert look.now.joints_out == whole.now.joints_out + 17
    assert look.lift.loads is not None
    assert whole.lift.loads is not None
    assert lbf(look.lift.loads.design) < lbf(whole.lift.loads.design) / 5


def test_a_joint_is_named_by_the_number_it_has_as_it_goes_in() -> None:
    """The crew counts from the pump up: with two in the one above joint 1 is joint 2, not 17."""
    job = pulled()
    record(job, says("limit", stop_load=2600))
    for number in (1, 2):
        record(job, says("joint", direction="in", joint_number=number, joint_length=20.94))
    look = Watcher(job).look()

    joints = [link.check.name for link in look.lift.links if link.check.name.startswith("joint")]
    assert joints == ["joint 2", "joint 1"]
    assert look.lift.check.governs == "thread root, joint 2"


def test_a_job_that_only_sets_is_planned_until_the_first_joint() -> None:
    job = doing("set")
    assert Watcher(job).look().now.planned

    record(job, says("joint", direction="in", joint_number=1, joint_length=20.94))
    assert not Watcher(job).look().now.planned


def test_the_first_joint_on_the_hook_is_read_before_it_is_in() -> None:
    job = doing("set")
    record(job, says("load", gauge_reading=60))
    read = Watcher(job).look().readings.read

    assert read is not None
    assert lbf(read) == pytest.approx(60)


def test_what_the_old_string_read_is_not_of_the_new_one() -> None:
    job = pulled()
    record(job, says("limit", stop_load=2600))

    assert Watcher(job).look().now.planned
    assert Watcher(job).look().readings.read is None


def test_before_the_first_reading_the_one_to_expect_is_held_against_the_limit() -> None:
    job = doing("pull")
    told = Watcher(job).look().readings

    assert told.read is None
    assert told.expect_full is not None
    assert told.check.verdict is Verdict.WITHIN
    assert told.check.demand is not None
    assert lbf(told.expect_full.low) < lbf(told.check.demand) < lbf(told.expect_full.high)


def test_with_no_level_there_is_nothing_to_expect_and_the_reading_is_missing() -> None:
    check = (
        Watcher(job_of(*(document for document in STEEL if document["kind"] != "level")))
        .look()
        .readings.check
    )

    assert check.verdict is Verdict.UNKNOWN
    assert "a gauge reading" in check.missing


def test_a_check_visit_lifts_nothing_and_asks_for_no_string() -> None:
    job = job_of(
        says("job", job_number="C-1", line="pvc", work="check"),
        says("level", water_level=80, level_state="static"),
    )
    look = Watcher(job).look()

    assert look.lift.check.verdict is look.readings.check.verdict is Verdict.WITHIN
    assert "nothing is lifted" in look.lift.check.governs
    assert "pressure" not in {check.name for check in look.checks}


def test_a_string_described_on_a_check_visit_is_weighed() -> None:
    look = Watcher(doing("check")).look()

    assert look.lift.loads is not None
    assert "pressure" in {check.name for check in look.checks}
