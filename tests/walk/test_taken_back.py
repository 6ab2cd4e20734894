"""A figure after the yes that says otherwise takes the yes back; what it is not about does not."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.record.job import Job
from fieldbook.walk.states import StepState
from fieldbook.walk.walk import Walk
from tests.walk.holds import TABLE, at, job_with, refused
from tests.watch.jobs import record, says


def dead(*said: dict[str, Any]) -> tuple[Walk, Job]:
    locked = at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V")
    yes = at("hold", "test.lockout", role="crew lead")
    return job_with(TABLE[1], (locked, yes, *said))


FED = (
    says("meter", volts_ab="240 V"),
    says("meter", amps_a="7 A"),
    says("meter", amps_b="7 A"),
    says("meter", amps_c="7 A"),
    says("arrival", volts_after_lockout="118 V"),
    at("meter", "ready.relieve", volts_ca="240 V"),
    says("suspend", held_by="slips", well_covered="yes", locks_on="no"),
)


@pytest.mark.parametrize("fed", FED)
def test_volts_after_proved_dead_take_the_yes_back(fed: dict[str, Any]) -> None:
    walk, job = dead()
    assert walk.stand(job).states["test.lockout"] is StepState.DONE
    found = record(job, fed)

    stand = walk.stand(job)
    assert stand.states["test.lockout"] is StepState.HELD
    assert stand.taken_back["test.lockout"].entry == found
    assert "test.lockout" in [s.id for s in stand.holds_before(walk.step("pull.joint"))]
    assert "measure again" in refused(walk, job, "test.lockout")

    record(job, at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V"))
    assert refused(walk, job, "test.lockout") == ""
    record(job, at("hold", "test.lockout", role="crew lead"))
    assert walk.stand(job).states["test.lockout"] is StepState.DONE


def test_volts_of_an_earlier_step_written_late_and_of_the_running_pump_take_nothing_back() -> None:
    walk, job = dead(at("meter", "test.supply", volts_ab="240 V"))
    assert walk.stand(job).states["test.lockout"] is StepState.DONE

    record(job, at("hold", "start_up.unlock", role="crew lead"))
    record(job, at("meter", "start_up.amps", volts_ab="240 V", amps_a="7 A"))
    assert walk.stand(job).states["test.lockout"] is StepState.DONE


def test_a_struck_figure_takes_nothing_back() -> None:
    walk, job = dead()
    found = record(job, FED[0])
    record(job, {**says("strike", reason="another well"), "strikes": found.id})

    assert walk.stand(job).states["test.lockout"] is StepState.DONE


def test_pressure_that_is_back_takes_the_yes_back_until_the_way_out_is_open() -> None:
    walk, job = job_with(
        TABLE[2], (*TABLE[2].allowed_by, at("hold", "ready.relieve", role="crew lead"))
    )
    assert walk.stand(job).states["ready.relieve"] is StepState.DONE

    back = record(job, says("meter", discharge_pressure="40 psi"))
    assert walk.stand(job).taken_back["ready.relieve"].words.startswith("40 psi in the line")
    record(job, {**says("strike", reason="wrong gauge"), "strikes": back.id})
    record(job, at("hold", "start_up.open", role="crew lead"))
    record(job, at("meter", "start_up.flow", flow="10 gpm", discharge_pressure="50 psi"))
    assert walk.stand(job).states["ready.relieve"] is StepState.DONE


def test_a_sealed_record_is_not_opened_by_it() -> None:
    walk, job = dead(FED[0], {"kind": "seal", "by": "QA", "values": {}})

    assert walk.stand(job).taken_back == {}


@pytest.mark.parametrize("fed", FED)
def test_no_later_hold_gets_a_yes_while_the_wires_are_live(fed: dict[str, Any]) -> None:
    walk, job = dead()
    words = "measure again"
    assert words not in refused(walk, job, "ready.relieve")
    record(job, fed)
    assert words in refused(walk, job, "ready.relieve")
    assert words in refused(walk, job, "ready.load_check")

    record(job, at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V"))
    record(job, at("hold", "test.lockout", role="crew lead"))
    assert words not in refused(walk, job, "ready.relieve")


def test_a_figure_takes_back_no_hold_that_a_named_person_passed() -> None:
    """Pressure that is back after the hold was passed by name: the record shows who passed it."""
    over = at("passed_over", "ready.relieve", reason="no gauge", relies_on="the tap runs open")
    walk, job = job_with(TABLE[2], (over,))
    record(job, says("meter", discharge_pressure="40 psi"))

    assert walk.stand(job).taken_back == {}
