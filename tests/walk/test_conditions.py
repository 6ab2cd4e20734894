"""What happens brings steps into the walk, and what is lost takes the setting out of it."""

from __future__ import annotations

import pytest

from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import ANY_TIME
from fieldbook.walk.states import StepState
from tests.walk.logs import Log

SAFE = {"well_covered": "yes", "locks_on": "yes"}
WALK = load("steel", "pull and set")


def active(log: Log) -> set[str]:
    return {each.id for each in WALK.stand(log.job).steps}


def now(log: Log) -> str:
    current = WALK.stand(log.job).current
    assert current is not None
    return current.id


def lost(log: Log) -> None:
    log.write("finding", part="string", finding="load gone", string_state="lost")


def test_what_is_opened_any_time_never_has_a_turn() -> None:
    log = Log()

    assert {"any_time.suspend", "any_time.lost", "any_time.note"} <= {s.id for s in WALK.any_time}
    assert not any(each.phase == ANY_TIME for each in WALK.stand(log.job).steps)


def test_a_lost_string_is_seen_to_before_anything_else_and_nothing_is_set() -> None:
    log = Log()
    before = now(log)
    assert "set.joint" in active(log)
    lost(log)

    assert "any_time.lost_stop" == now(log)
    assert not any(name.startswith("set.") for name in active(log))
    log.write("done", step="any_time.lost_stop")
    assert "any_time.lost_what" == now(log)
    log.write("finding", step="any_time.lost_what", part="pump", finding="f", top_of_lost=212)
    assert "any_time.lost_secured" == now(log)
    assert 16 in {hold.hold for hold in WALK.stand(log.job).open_holds}
    log.write("hold", step="any_time.lost_secured", role="crew lead")
    assert before == now(log)


@pytest.mark.parametrize("word", ["recovered", "whole"])
def test_a_string_that_is_there_after_all_may_be_set(word: str) -> None:
    log = Log()
    lost(log)
    log.write("finding", part="string", finding="all of it out", string_state=word)

    assert "set.joint" in active(log)
    assert "any_time.lost_what" not in active(log)


def test_striking_the_loss_takes_it_back() -> None:
    log = Log()
    said = log.write("finding", part="string", finding="load gone", string_state="lost")
    log.strike(said)

    assert "set.joint" in active(log)


def test_more_about_what_is_lost_does_not_ask_again() -> None:
    log = Log()
    lost(log)
    log.write("finding", step="any_time.lost_what", part="pump", finding="f", top_of_lost=212)
    lost(log)

    assert StepState.DONE is WALK.stand(log.job).states["any_time.lost_what"]


def test_suspended_work_is_taken_up_before_it_goes_on() -> None:
    log = Log()
    before = now(log)
    log.write("suspend", held_by="slips and clamp", **SAFE)
    assert "any_time.resume" == now(log)

    log.write("resume", step="any_time.resume", held_by="slips and clamp", **SAFE)
    assert before == now(log)
    log.write("suspend", held_by="hanger", **SAFE)
    assert "any_time.resume" == now(log)


def test_striking_the_resumption_suspends_again() -> None:
    log = Log()
    log.write("suspend", held_by="slips", **SAFE)
    resumed = log.write("resume", held_by="slips", **SAFE)
    log.strike(resumed)

    assert "any_time.resume" == now(log)


def test_every_move_of_the_rig_asks_for_power_lines_and_level() -> None:
    log = Log()
    again = ("any_time.power_lines_again", "any_time.rig_level_again")
    assert not active(log) & set(again)
    for _ in range(2):
        log.write("arrival", rig_moved="yes")
        assert again[0] == now(log)
        log.write("arrival", step=again[0], line_clearance=60)
        assert again[0] == now(log)
        log.write("hold", step=again[0], role="crew lead")
        assert again[1] == now(log)
        log.write("hold", step=again[1], role="crew lead")
        assert not now(log).startswith(ANY_TIME)


def test_an_arrival_that_does_not_move_the_rig_asks_nothing() -> None:
    log = Log()
    log.write("arrival", wind=12)
    log.write("arrival", rig_moved="no")

    assert "any_time.power_lines_again" not in active(log)


def test_the_phase_is_that_of_the_work_that_waits() -> None:
    log = Log()
    before = WALK.stand(log.job).phase
    log.write("suspend", held_by="slips", **SAFE)

    assert before == WALK.stand(log.job).phase != ""
