"""String lost, work stopped overnight, rig moved, a second crew: nothing is left out."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.walk.barring import held_up
from fieldbook.walk.counts import counts
from fieldbook.walk.definition.loading import load
from fieldbook.walk.states import StepState
from fieldbook.walk.suspension import as_left, gauge_moved, left_open
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log

SAFE = {"well_covered": "yes", "locks_on": "yes"}
MOVING = {"pvc": "pull.joint", "steel": "pull.joint", "hose": "pull.footage"}
LINES = tuple(MOVING)


def mid_string(line: str) -> tuple[Walk, Log]:
    """A pull and set with part of the string out, every step before that settled."""
    walk, log = load(line, "pull and set"), Log()
    log.write("job", job_number="W-1", line=line, work="pull and set")
    moving = walk.step(MOVING[line])
    for each in walk.steps[: walk.steps.index(moving)]:
        log.write("passed_over", step=each.id, reason="test", relies_on="test")
    move(log, line)
    assert walk.stand(log.job).current is moving
    return walk, log


def move(log: Log, line: str) -> None:
    if line == "hose":
        log.write("footage", step="pull.footage", direction="out", footage="120 ft")
    else:
        number = counts(log.job).out.next_number
        log.write("joint", step="pull.joint", direction="out", joint_number=number, joint_length=21)


def first(walk: Walk, log: Log, line: str) -> list[str]:
    """What stands before the next move of the string."""
    return [step.id for step in held_up(walk.step(MOVING[line]), walk.stand(log.job))]


def now(walk: Walk, log: Log) -> str:
    current = walk.stand(log.job).current
    assert current is not None
    return current.id


@pytest.mark.parametrize("line", LINES)
def test_a_string_that_parts_is_described_its_well_secured_and_nothing_set(line: str) -> None:
    walk, log = mid_string(line)
    log.write("finding", step="any_time.lost", part="string", string_state="lost", finding="jerk")
    assert now(walk, log) == "any_time.lost_stop"
    assert first(walk, log, line) == [], "what is in hand comes out, before anything is sounded"
    move(log, line)
    assert now(walk, log) == "any_time.lost_stop"
    log.write("done", step="any_time.lost_stop")
    assert now(walk, log) == "any_time.lost_what"
    log.write("finding", step="any_time.lost_what", part="what is in the well", finding="pump")
    assert now(walk, log) == "any_time.lost_what", "the depth to its top is not left out unsaid"
    log.write(
        "finding",
        step="any_time.lost_what",
        part="what is in the well",
        finding="pump and 6 joints",
        top_of_lost="212 ft",
    )
    assert now(walk, log) == "any_time.lost_secured"
    log.write("hold", step="any_time.lost_secured", role="helper")
    assert now(walk, log) == "any_time.lost_secured"
    log.write("hold", step="any_time.lost_secured", role="crew lead")
    assert now(walk, log) == MOVING[line]
    phases = {step.phase for step in walk.stand(log.job).steps}
    assert not phases & {"choose", "set", "start_up"}
    assert "close" in phases


@pytest.mark.parametrize("line", LINES)
def test_work_that_was_stopped_moves_nothing_until_it_is_taken_up_again(line: str) -> None:
    walk, log = mid_string(line)
    assert first(walk, log, line) == []
    left: dict[str, Any] = {"held_by": "slips and clamp", "gauge_reading": 870}
    log.write("suspend", by="AB", **left, **SAFE)
    assert first(walk, log, line) == ["any_time.resume"]

    step = walk.step("any_time.resume")
    told = as_left(step, log.job)
    for words in ("by AB", "held by slips and clamp", "gauge 870", "well covered yes", "locks on"):
        assert words in told
    assert as_left(walk.step(MOVING[line]), log.job) == ""

    log.write("resume", step="any_time.resume", held_by="slips and clamp", **SAFE)
    assert first(walk, log, line) == []
    assert now(walk, log) == MOVING[line]


@pytest.mark.parametrize("kind", ["suspend", "resume"])
@pytest.mark.parametrize("lacking", ["held_by", "well_covered", "locks_on"])
def test_hold_cover_and_locks_are_all_said_when_it_stops_and_when_it_goes_on(
    kind: str, lacking: str
) -> None:
    said = {"held_by": "slips"} | SAFE
    del said[lacking]
    with pytest.raises(Refused, match="is needed"):
        draft_from({"kind": kind, "by": "QA", "values": said})


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (SAFE, ""),
        (SAFE | {"well_covered": "no"}, "the well is NOT covered"),
        ({"well_covered": "no", "locks_on": "no"},
         "the well is NOT covered and the locks are NOT on"),
    ],
)  # fmt: skip
def test_what_is_left_open_is_said(said: dict[str, str], words: str) -> None:
    assert words == left_open(Log().write("suspend", held_by="slips", **said))


@pytest.mark.parametrize(
    ("error", "now", "words"),
    [
        ("20 lbf", "670 lbf", ""),
        ("20 lbf", "560 lbf", "the gauge reads 560, left at 700 lbf"),
        ("20 lbf", "254 kgf", "the gauge reads 254, left at 318 kgf"),
        ("", "695 lbf", "the gauge reads 695, left at 700 lbf"),
        ("20 lbf", "", ""),
    ],
)
def test_a_gauge_that_moved_while_nobody_was_there_is_told(
    error: str, now: str, words: str
) -> None:
    """Two readings of one load differ by twice the gauge's error at the most."""
    log = Log()
    log.write("gauge", **({"gauge_error": error} if error else {"gauge_zero": "40 lbf"}))
    left = log.write("suspend", held_by="slips", gauge_reading="700 lbf", **SAFE)
    read = {"gauge_reading": now} if now else {}
    said = log.write("resume", held_by="slips", **read, **SAFE)

    assert words == gauge_moved(said, log.job)
    assert gauge_moved(left, log.job) == ""


@pytest.mark.parametrize("line", LINES)
def test_a_rig_that_was_moved_lifts_nothing_before_lines_and_level_are_looked_at(line: str) -> None:
    walk, log = mid_string(line)
    again = ["any_time.power_lines_again", "any_time.rig_level_again"]
    log.write("arrival", step="any_time.rig_moved", rig_moved="yes")
    assert first(walk, log, line) == again
    log.write("hold", step=again[0], role="crew lead")
    assert first(walk, log, line) == again, "no yes without the clearance"
    log.write("arrival", step=again[0], line_clearance="60 ft")
    log.write("hold", step=again[0], role="crew lead")
    assert first(walk, log, line) == again[1:]
    log.write("hold", step=again[1], role="crew lead")
    assert first(walk, log, line) == []

    log.write("arrival", step="any_time.rig_moved", rig_moved="yes")
    assert first(walk, log, line) == again


@pytest.mark.parametrize("line", LINES)
def test_a_second_crew_goes_on_with_the_count_and_puts_its_own_lock_on(line: str) -> None:
    walk, log = mid_string(line)
    struck = next(e for e in log.job.live("passed_over") if e.text("step") == "test.lockout")
    log.strike(struck)
    lock: dict[str, Any] = {"lock_number": "7", "volts_after_lockout": 0}
    log.write("arrival", by="AB", step="test.lockout", **lock)
    log.write("hold", by="AB", step="test.lockout", role="crew lead")
    assert walk.stand(log.job).holders == {"start_up.unlock": "AB"}

    log.write("handover", by="AB", witness="CD", count_now=1)
    assert now(walk, log) == MOVING[line], "the walk goes on where it was"
    log.write("hold", by="CD", step="start_up.unlock", role="crew lead")
    assert walk.stand(log.job).states["start_up.unlock"] is StepState.HELD

    log.write("arrival", by="CD", step="test.lockout", **lock | {"lock_number": "9"})
    assert first(walk, log, line) == ["test.lockout"]
    log.write("hold", by="CD", step="test.lockout", role="crew lead")
    assert first(walk, log, line) == []
    assert walk.stand(log.job).holders == {"start_up.unlock": "CD"}
    before = counts(log.job).out.count
    move(log, line)
    assert counts(log.job).out.count == before + (line != "hose")


@pytest.mark.parametrize("witness", ["AB", "ab", " AB "])
def test_nobody_hands_over_to_himself(witness: str) -> None:
    with pytest.raises(Refused, match="hands over to himself"):
        draft_from({"kind": "handover", "by": "AB", "values": {"witness": witness}})
