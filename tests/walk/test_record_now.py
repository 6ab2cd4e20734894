"""A job that records at once keeps every hold that guards a life, and asks the rest later."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.quantities.kinds import kinds
from fieldbook.walk.definition.conditions import conditions
from fieldbook.walk.definition.loading import as_started, load, own_steps
from fieldbook.walk.definition.record_now import PLAN_FIRST, RECORD_NOW, turns, wanted
from fieldbook.walk.definition.steps import ANY_TIME, LINES, WORKS
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log
from tests.walk.test_every_walk import finish, write

MOVING = ["pull", "set", "pull and set"]
WALKS = [(line, work) for line in LINES for work in MOVING]
STAY = {
    "pull": {2, 3, 4, 7, 17, 18},
    "set": {2, 3, 4, 7, 13, 14, 17, 18},
    "pull and set": {2, 3, 4, 7, 13, 14, 17, 18},
}
"""Dead, pressure off, lift check, the lower hold carries, depth agreed, way out open, lock off by
who put it on, record complete. Hose that only goes in is let down from the reel: no lower hold."""


def now(line: str, work: str) -> Walk:
    return as_started(load(line, work), RECORD_NOW)


def test_the_file_names_steps_and_quantities_that_the_book_has() -> None:
    by_id = {step.id: step for step in own_steps()}
    for name, turn in turns().items():
        assert name in by_id, name
        variants = [step for step in own_steps() if step.id == name]
        for asked in (*turn.asks, *turn.must):
            assert any(asked in step.asks for step in variants), (name, asked)
        for said in turn.says:
            assert said in (*kinds()[by_id[name].records].needs, *by_id[name].must), (name, said)
        if turn.stays_hold:
            assert by_id[name].hold is not None, name
    assert set(wanted()) <= set(by_id)
    assert not set(wanted()) & set(turns()), "what is asked in turn does not wait as well"


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_the_holds_that_guard_a_life_stay(line: str, work: str) -> None:
    found = {s.hold for s in now(line, work).steps if s.hold is not None and s.phase != ANY_TIME}
    less = {7} if line == "hose" and work == "set" else set()
    assert found == STAY[work] - less


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_a_hold_that_stays_is_as_hard_to_pass_as_in_the_whole_walk(line: str, work: str) -> None:
    whole = load(line, work)
    for step in now(line, work).steps:
        if step.hold is not None:
            was = whole.step(step.id)
            held = (step.release, step.witness, step.same_person, step.refuted, step.checks)
            assert held == (was.release, was.witness, was.same_person, was.refuted, was.checks)


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_what_happens_at_any_time_is_as_in_the_whole_walk(line: str, work: str) -> None:
    whole = {s.id: s.hold for s in load(line, work).of_phase(ANY_TIME)}
    assert {s.id: s.hold for s in now(line, work).of_phase(ANY_TIME)} == whole


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_every_step_of_the_whole_walk_can_still_be_opened_with_all_it_asks(
    line: str, work: str
) -> None:
    whole = load(line, work)
    lean = now(line, work)
    assert [step.id for step in lean.steps] == [step.id for step in whole.steps]
    for step in lean.steps:
        assert sorted(step.asks) == sorted(whole.step(step.id).asks)
        assert set(step.must) <= set(whole.step(step.id).must)


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_it_is_walked_to_its_end_and_the_rest_is_on_the_list(line: str, work: str) -> None:
    log = Log()
    log.write("job", job_number="26-1", line=line, work=work, start=RECORD_NOW)
    walk = now(line, work)
    seen = []
    while (step := walk.stand(log.job).current) is not None:
        assert step.id not in seen, step.id
        seen.append(step.id)
        if step.page:
            log.write("done", step=step.id)
        else:
            finish(log, step)
    assert seen[-1] == "close.seal"
    assert [s.turn for s in walk.steps if s.id in seen] != []
    later = walk.stand(log.job).later
    assert later[0].id == wanted()[0] == "plan.job"
    assert not {s.id for s in later} & set(seen)


def test_a_step_from_the_list_leaves_it_once_it_says_what_the_office_asks() -> None:
    log = Log()
    walk = now("steel", "pull")
    assert "plan.well" in [s.id for s in walk.stand(log.job).office_asks]
    log.write("well", step="plan.well", well_depth=300.0)
    assert "plan.well" in [s.id for s in walk.stand(log.job).office_asks], "the casing is blank"
    write(log, load("steel", "pull").step("plan.well"))
    assert "plan.well" not in [s.id for s in walk.stand(log.job).office_asks]


def test_a_ticked_page_says_nothing_that_a_check_could_lean_on() -> None:
    log = Log()
    walk = now("hose", "pull")
    log.write("done", step="pull.drain")
    stand = walk.stand(log.job)
    assert not stand.states["pull.drain"].is_open
    assert log.job.last("drain") is None
    whole = load("hose", "pull").stand(log.job)
    assert whole.states["pull.drain"].is_open, "planned first, its figures are still asked"


def test_a_company_hold_point_stays_one_at_its_place(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(
        """
[[step]]
id = "acme.brake"
after = "ready.rig_level"
title = "Brake tried"
do = "Try the brake."
hold = 5
release = ["crew lead"]
source = "company rule"
""",
        encoding="utf-8",
    )
    walk = as_started(load("steel", "pull", tmp_path), RECORD_NOW)
    step = walk.step("acme.brake")
    assert (step.hold, step.waits) == (5, False)
    log = Log()
    assert step in walk.stand(log.job).ahead


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("start", ["", PLAN_FIRST])
def test_a_job_that_does_not_record_at_once_has_the_whole_walk(line: str, start: str) -> None:
    for work in WORKS:
        assert as_started(load(line, work), start) is load(line, work)
    assert as_started(load(line, "check"), RECORD_NOW) is load(line, "check")


def test_of_a_dead_pump_nothing_is_asked_that_needs_it_running() -> None:
    log = Log()
    running = {"test.running", "test.leads_rolled", "test.flow", "test.sand", "test.shut_off"}
    walk = load("steel", "pull")
    assert running <= {s.id for s in walk.stand(log.job).steps}
    log.write("meter", step="test.supply", volts_ab=240.0, pump_runs="no")
    assert not running & {s.id for s in walk.stand(log.job).steps}
    assert not conditions(log.job)["pump runs"].holds
    log.write("meter", step="test.supply", volts_ab=240.0, pump_runs="yes")
    assert running <= {s.id for s in walk.stand(log.job).steps}
