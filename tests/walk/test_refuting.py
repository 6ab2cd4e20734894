"""Every hold point is held against the figure that can refute it, before the yes."""

from __future__ import annotations

import pytest

from fieldbook.walk.barring import stopped
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import HOLD_POINTS
from tests.walk.holds import MORE, NEVER, TABLE, WHY, Row, at, job_with, one, refused
from tests.watch.jobs import record


def test_there_is_a_row_for_every_hold_point() -> None:
    assert [row.hold for row in TABLE] == list(HOLD_POINTS)


@pytest.mark.parametrize("row", [*TABLE, *MORE], ids=str)
def test_a_hold_is_held_against_the_figure_that_refutes_it(row: Row) -> None:
    walk, job = job_with(row, row.refuted_by)

    assert walk.step(row.step).hold == row.hold
    assert row.said in refused(walk, job, row.step, **row.yes)

    walk, job = job_with(row, row.allowed_by)
    assert row.said not in refused(walk, job, row.step, **row.yes)


@pytest.mark.parametrize("row", [row for row in (*TABLE, *MORE) if row.name], ids=str)
def test_who_passes_it_by_name_and_which_nobody_passes(row: Row) -> None:
    walk, job = job_with(row, row.refuted_by)
    record(job, at("check_passed", row.step, check=row.name, **WHY))

    still = row.said in refused(walk, job, row.step, **row.yes)
    assert still == (row.passed == NEVER)
    over = refused(walk, job, row.step, "passed_over", **WHY)
    assert (row.said in over) == (row.passed == NEVER)

    record(job, {**at("check_passed", row.step, check="something else", **WHY)})
    if row.refuted_by and row.step == row.refuted_by[0]["values"].get("step"):
        record(job, row.refuted_by[0])
        assert row.said in refused(walk, job, row.step, **row.yes), "a pass serves what it was of"


def test_the_lower_hold_gets_no_yes_while_the_gauge_says_stop() -> None:
    """HP7 at each joint: saving it is the yes, so a stop takes the form away."""
    walk = load("steel", "pull and set")

    assert stopped(walk.step("pull.joint"), ["gauge"])
    assert not stopped(walk.step("pull.joint"), [])


def test_a_setting_is_signed_by_two_different_people() -> None:
    row = TABLE[9]
    walk, job = job_with(row, row.allowed_by)

    assert "a second person" in refused(walk, job, row.step, witness="qa ")
    assert "a second person" not in refused(walk, job, row.step, witness="JB")


def test_the_lock_is_proved_dead_by_a_figure_and_by_no_reason() -> None:
    walk, job = job_with(TABLE[1], one(at("arrival", "test.lockout", reason="no meter")))

    assert "volts after lockout" in refused(walk, job, "test.lockout")
    assert "never skipped" in refused(walk, job, "test.lockout", "passed_over", **WHY)
    paper = {"written_by": "QA", "written_on": "2026-05-13"}
    assert "never skipped" in refused(walk, job, "test.lockout", "passed_over", **WHY, **paper)


@pytest.mark.parametrize("volts", ["1 V", "0", "0.9 V"])
def test_a_volt_is_what_a_meter_shows_on_dead_leads(volts: str) -> None:
    said = one(at("arrival", "test.lockout", lock_number="8", volts_after_lockout=volts))
    walk, job = job_with(TABLE[1], said)

    assert refused(walk, job, "test.lockout") == ""


def test_the_rule_of_the_place_says_what_may_be_left_and_never_more_than_drinking_water() -> None:
    said = at("chlorine", "start_up.flush", chlorine_residual="1 mg/L")
    walk, job = job_with(TABLE[14], (said,))
    assert "more than allowed" in refused(walk, job, "start_up.flush")

    record(job, at("chlorine", "start_up.flush", residual_allowed="2 mg/L"))
    assert "more than allowed" not in refused(walk, job, "start_up.flush")


def test_what_is_still_open_is_named_before_the_record_is_complete() -> None:
    walk, job = job_with(TABLE[17], one(at("signature", "close.sign", role="crew lead")))

    said = refused(walk, job, "close.record")
    assert said.startswith("Still open: ")
    record(job, at("check_passed", "close.record", check="steps still open", **WHY))
    assert refused(walk, job, "close.record") == ""


def test_a_lock_that_nobody_put_on_is_taken_off_by_nobody() -> None:
    walk, job = job_with(TABLE[16], ())
    assert "nobody is written down" in refused(walk, job, "start_up.unlock")
    assert refused(walk, job, "start_up.unlock", "passed_over", **WHY) == ""

    walk, job = job_with(TABLE[16], TABLE[16].allowed_by)
    assert refused(walk, job, "start_up.unlock") == ""
