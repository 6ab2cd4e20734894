"""What earlier jobs on a well remember."""

from __future__ import annotations

import pytest

from fieldbook.record.job import Job
from fieldbook.record.memory import Memory, remember
from tests.office.sampled import sample_job
from tests.walk.logs import Log


def was_set() -> Memory:
    memory = remember([sample_job("26-114-pvc")])
    assert memory is not None
    return memory


def test_the_string_that_was_set_is_remembered_and_not_the_one_that_was_found() -> None:
    """Twelve joints were found, thirteen new ones were set, with an arrestor that was not there."""
    memory = was_set()

    assert memory.words == "as set 2026-05-14, job 26-114"
    assert memory.joints == 13
    assert [piece.text("joint_count") for piece in memory.lengths] == ["13"]
    assert [piece.text("piece") for piece in memory.fittings] == ["check valve", "torque arrestor"]
    assert memory.said["pump", "pump_serial"].text == "A-40417"


def test_the_last_record_is_what_the_next_crew_would_copy() -> None:
    prior = was_set().prior

    assert prior["set_on"].text == "2026-05-14"
    assert prior["setting_depth"].number == 261.1
    assert prior["prior_count"].number == 13
    assert prior["cable_length"].number == 280
    assert prior["insulation"].number == 340
    assert prior["water_level"].number == 72.6


def test_the_length_of_the_hose_and_the_place_of_its_plug_are_remembered() -> None:
    memory = remember([sample_job("26-149-hose")])
    assert memory is not None

    assert memory.prior["piece_length"].number == 270
    assert memory.prior["plug_depth"].number == 270


def test_a_check_visit_brings_newer_readings_and_leaves_the_string_as_it_was_set() -> None:
    memory = remember([sample_job("26-163-pvc"), sample_job("26-114-pvc")])
    assert memory is not None

    assert memory.job == "26-114"
    assert memory.said["level", "water_level"].number == 79.8
    assert memory.said["meter", "insulation"].number == 310


def test_after_a_pull_nothing_hangs_and_no_string_is_remembered() -> None:
    memory = remember([sample_job("26-127-steel")])
    assert memory is not None

    assert not memory.hangs
    assert memory.words.startswith("as left 2026-05-12")
    assert not memory.lengths
    assert not memory.prior
    assert memory.said["well", "well_depth"].number == 440


def test_a_string_that_was_lost_while_it_was_set_is_not_remembered_as_set() -> None:
    log = Log()
    log.write("job", job_number="26-001", line="steel", work="pull and set")
    log.write("piece", place=1, piece="joint", joint_count=2, joint_length="21 ft")
    log.write("joint", direction="in", joint_number=1, joint_length="21 ft")
    log.write("finding", part="string", finding="load gone", string_state="lost")
    memory = remember([log.job])
    assert memory is not None

    assert not memory.hangs
    assert not memory.lengths


@pytest.mark.parametrize("jobs", [[], [Job()]])
def test_no_string_was_moved_so_there_is_nothing_to_remember(jobs: list[Job]) -> None:
    assert remember(jobs) is None


def test_the_bench_reading_of_a_motor_out_of_the_well_is_no_memory() -> None:
    log = Log()
    log.write("job", job_number="26-001", line="steel", work="pull and set")
    log.write("meter", insulation="60 Mohm")
    log.write("meter", insulation="900 Mohm", part="motor out of the well")
    log.write("joint", direction="in", joint_number=1, joint_length="21 ft")
    memory = remember([log.job])
    assert memory is not None

    assert memory.said["meter", "insulation"].number == 60
