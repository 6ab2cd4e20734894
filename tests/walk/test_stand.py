"""Where a job stands follows from its live entries, and a hold is never passed in silence."""

from __future__ import annotations

import itertools

import pytest

from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.states import StepState
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log, step, walk_of

PLAIN = walk_of(pull=step("pull.a") + step("pull.b") + step("pull.c"))
HOLD = walk_of(
    pull=step("pull.a")
    + step("pull.held", "hold = 5\nrelease = ['crew lead', 'tech']")
    + step("pull.b")
)
MEASURED = walk_of(
    ready=step(
        "ready.relieve",
        "records = 'meter'\nasks = ['discharge_pressure', 'flow']\nmust = ['discharge_pressure']\n"
        "hold = 3\nrelease = ['crew lead']",
    )
)
JOINTS = walk_of(
    pull=step(
        "pull.joint",
        "records = 'joint'\nasks = ['joint_number', 'joint_length']\nhold = 7\n"
        "repeat = 'joints'\nfixed = { direction = 'out' }\nadopts = true",
    )
    + step(
        "pull.test",
        "records = 'meter'\nasks = ['insulation']\nrepeat = 'as needed'\n"
        "beside = 'pull.joint'\nevery = 3",
    )
    + step("pull.after")
)


def now(walk: Walk, log: Log) -> str | None:
    current = walk.stand(log.job).current
    return current.id if current is not None else None


def joint(log: Log, number: int, **more: str) -> None:
    log.write(
        "joint", step="pull.joint", direction="out", joint_number=number, joint_length=21, **more
    )


def test_the_first_step_that_is_open_is_the_one_to_do() -> None:
    log = Log()
    stand = PLAIN.stand(log.job)

    assert stand.current is PLAIN.step("pull.a")
    assert stand.following is PLAIN.step("pull.b")
    assert {"pull.a": "to do", "pull.b": "to do", "pull.c": "to do"} == dict(stand.states)
    log.write("done", step="pull.a")
    assert "pull.b" == now(PLAIN, log)


def test_a_step_done_out_of_turn_is_done_and_the_turn_stays() -> None:
    """Going back, or ahead, is always possible; the stand says where the job really is."""
    log = Log()
    log.write("done", step="pull.c")

    assert "pull.a" == now(PLAIN, log)
    assert StepState.DONE is PLAIN.stand(log.job).states["pull.c"]
    log.write("done", step="pull.a")
    log.write("done", step="pull.b")
    stand = PLAIN.stand(log.job)
    assert (None, None, "") == (stand.current, stand.following, stand.phase)


def test_passing_over_says_so_and_doing_it_later_does_it() -> None:
    log = Log()
    log.write("passed_over", step="pull.a", reason="no tools")

    assert StepState.PASSED_OVER is PLAIN.stand(log.job).states["pull.a"]
    assert "pull.b" == now(PLAIN, log)
    log.write("done", step="pull.a")
    assert StepState.DONE is PLAIN.stand(log.job).states["pull.a"]


def test_striking_what_did_a_step_opens_it_again() -> None:
    log = Log()
    done = log.write("done", step="pull.a")
    log.write("done", step="pull.b")
    strike = log.strike(done)

    assert "pull.a" == now(PLAIN, log)
    log.strike(strike)
    assert "pull.c" == now(PLAIN, log)


def test_an_entry_for_another_step_or_of_another_kind_does_not_count() -> None:
    log = Log()
    log.write("done", step="pull.nothing")
    log.write("note", step="pull.a", note="looked at it")
    log.write("meter", step="pull.a", flow=3)

    assert "pull.a" == now(PLAIN, log)


@pytest.mark.parametrize(
    ("kind", "values"),
    [
        ("done", {}),
        ("hold", {}),
        ("hold", {"role": "helper"}),
        ("hold", {"role": "owner"}),
        ("passed_over", {"reason": "in a hurry"}),
    ],
)
def test_a_hold_stays_shut_without_its_role_and_what_is_relied_on(
    kind: str, values: dict[str, str]
) -> None:
    log = Log()
    log.write("done", step="pull.a")
    log.write(kind, step="pull.held", **values)
    stand = HOLD.stand(log.job)

    assert StepState.HELD is stand.states["pull.held"]
    assert "pull.held" == now(HOLD, log)
    assert (HOLD.step("pull.held"),) == stand.open_holds
    assert () == stand.passed_by_name


@pytest.mark.parametrize("role", ["crew lead", "tech"])
def test_a_role_that_may_releases_a_hold(role: str) -> None:
    log = Log()
    log.write("hold", step="pull.held", role=role)
    stand = HOLD.stand(log.job)

    assert StepState.DONE is stand.states["pull.held"]
    assert () == stand.open_holds


def test_the_holds_before_a_step_are_named() -> None:
    log = Log()
    held, after = HOLD.step("pull.held"), HOLD.step("pull.b")

    assert (held,) == HOLD.stand(log.job).holds_before(after)
    assert () == HOLD.stand(log.job).holds_before(HOLD.step("pull.a"))
    assert () == HOLD.stand(log.job).holds_before(held)
    log.write("hold", step=held.id, role="tech")
    assert () == HOLD.stand(log.job).holds_before(after)


def test_a_hold_passed_by_name_is_shown_as_that() -> None:
    log = Log()
    log.write("passed_over", step="pull.held", reason="no gauge", relies_on="maker's chart")
    stand = HOLD.stand(log.job)

    assert StepState.PASSED_BY_NAME is stand.states["pull.held"]
    assert (HOLD.step("pull.held"),) == stand.passed_by_name
    assert () == stand.open_holds


def test_striking_a_release_shuts_the_hold_again() -> None:
    log = Log()
    released = log.write("hold", step="pull.held", role="tech")
    log.strike(released)

    assert StepState.HELD is HOLD.stand(log.job).states["pull.held"]


def test_a_hold_with_figures_needs_the_figures_and_the_yes() -> None:
    log = Log()
    held = "ready.relieve"
    log.write("hold", step=held, role="crew lead")
    assert StepState.HELD is MEASURED.stand(log.job).states[held]

    log.write("meter", step=held, flow=3)
    log.write("hold", step=held, role="crew lead")
    assert StepState.HELD is MEASURED.stand(log.job).states[held]

    log.write("meter", step=held, discharge_pressure=0)
    assert StepState.HELD is MEASURED.stand(log.job).states[held]

    log.write("hold", step=held, role="crew lead")
    assert StepState.DONE is MEASURED.stand(log.job).states[held]


def test_a_yes_given_before_the_figures_were_written_anew_is_no_yes() -> None:
    log = Log()
    held = "ready.relieve"
    wrong = log.write("meter", step=held, discharge_pressure=0)
    log.write("hold", step=held, role="crew lead")
    log.write("meter", step=held, discharge_pressure=45, strikes=wrong.id)

    assert StepState.HELD is MEASURED.stand(log.job).states[held]


def test_a_figure_that_must_be_may_be_missing_for_a_reason_that_is_written() -> None:
    walk = walk_of(
        test=step("test.amps", "records = 'meter'\nasks = ['amps_a', 'flow']\nmust = ['amps_a']")
    )
    log = Log()
    log.write("meter", step="test.amps", flow=3)
    assert StepState.UNDER_WAY is walk.stand(log.job).states["test.amps"]

    log.write("meter", step="test.amps", reason="meter broken")
    assert StepState.DONE is walk.stand(log.job).states["test.amps"]


def test_a_second_person_is_not_the_first() -> None:
    walk = walk_of(
        choose=step("choose.depth", "hold = 10\nrelease = ['crew lead']\nwitness = true")
    )
    log = Log()
    for witness in ("", "QA", " qa "):
        values = {"witness": witness} if witness.strip() else {}
        log.write("hold", step="choose.depth", role="crew lead", **values)
        assert StepState.HELD is walk.stand(log.job).states["choose.depth"]

    log.write("hold", step="choose.depth", role="crew lead", witness="JB")
    assert StepState.DONE is walk.stand(log.job).states["choose.depth"]


def test_a_lock_comes_off_by_the_hand_that_put_it_on() -> None:
    lock = "hold = 2\nrelease = ['crew lead', 'tech']"
    walk = walk_of(
        test=step("test.lockout", lock),
        close=step("close.unlock", "hold = 17\nrelease = ['crew lead', 'tech']\n"
                   "same_person = 'test.lockout'"),
    )  # fmt: skip
    log = Log()
    log.write("hold", by="AB", step="test.lockout", role="tech")
    log.write("hold", by="CD", step="close.unlock", role="tech")
    assert StepState.HELD is walk.stand(log.job).states["close.unlock"]

    taken_over = log.write("hold", by="CD", step="test.lockout", role="tech")
    assert StepState.DONE is walk.stand(log.job).states["close.unlock"]

    log.strike(taken_over)
    log.write("hold", by="ab", step="close.unlock", role="tech")
    assert StepState.DONE is walk.stand(log.job).states["close.unlock"]


def test_joints_repeat_until_they_are_said_to_be_done() -> None:
    log = Log()
    assert StepState.HELD is JOINTS.stand(log.job).states["pull.joint"]
    for number in (1, 2):
        joint(log, number)
        assert StepState.UNDER_WAY is JOINTS.stand(log.job).states["pull.joint"]

    done = log.write("done", step="pull.joint")
    assert StepState.DONE is JOINTS.stand(log.job).states["pull.joint"]
    log.strike(done)
    assert "pull.joint" == now(JOINTS, log)


def test_no_joint_no_yes() -> None:
    """The hold of every joint is the joint itself, so that none were saved finishes nothing."""
    log = Log()
    log.write("done", step="pull.joint")

    assert StepState.HELD is JOINTS.stand(log.job).states["pull.joint"]


def test_joints_written_afterwards_are_counted_as_not_witnessed() -> None:
    log = Log()
    joint(log, 1, recorded="as it happened")
    joint(log, 2, recorded="afterwards, hold not witnessed")
    joint(log, 3, recorded="afterwards, hold not witnessed")
    joint(log, 4)

    assert 2 == JOINTS.stand(log.job).unwitnessed


def test_a_joint_that_names_no_step_counts_for_the_step_that_adopts_it() -> None:
    log = Log()
    log.write("joint", direction="in", joint_number=1, joint_length=21)
    assert StepState.HELD is JOINTS.stand(log.job).states["pull.joint"]

    log.write("joint", direction="out", joint_number=1, joint_length=21)
    assert StepState.UNDER_WAY is JOINTS.stand(log.job).states["pull.joint"]


def test_a_step_beside_another_is_asked_for_once_that_one_is_done() -> None:
    log = Log()
    joint(log, 1)
    assert "pull.joint" == now(JOINTS, log)
    assert ["pull.test"] == [b.step.id for b in JOINTS.stand(log.job).beside]

    log.write("done", step="pull.joint")
    assert "pull.test" == now(JOINTS, log)
    assert () == JOINTS.stand(log.job).beside
    log.write("done", step="pull.test")
    assert "pull.after" == now(JOINTS, log)


def test_a_step_beside_another_is_due_after_so_many_joints() -> None:
    log = Log()
    due = []
    for number in range(1, 7):
        joint(log, number)
        due.append(JOINTS.stand(log.job).beside[0].due)
        if number == 4:
            log.write("meter", step="pull.test", insulation=20)

    assert [False, False, True, True, False, False] == due
    joint(log, 7)
    assert JOINTS.stand(log.job).beside[0].due


def test_a_step_beside_the_reel_is_due_after_so_many_feet_in_any_unit() -> None:
    walk = load("hose", "set")
    log = Log()
    for each in walk.steps[: walk.steps.index(walk.step("set.footage"))]:
        log.write("passed_over", step=each.id, reason="test", relies_on="test")
    due = []
    for counter in ("40 ft", "99 ft", "31 m", "60 m"):
        log.write("footage", step="set.footage", direction="in", footage=counter)
        beside = {b.step.id: b.due for b in walk.stand(log.job).beside}
        due.append(beside["set.insulation"])
        if counter == "31 m":
            log.write("meter", step="set.insulation", insulation=20)

    assert [False, False, True, False] == due
    log.write("footage", step="set.footage", direction="in", footage="62 m")
    assert {b.step.id: b.due for b in walk.stand(log.job).beside}["set.insulation"]


def test_progress_counts_what_is_done_or_passed_phase_by_phase() -> None:
    walk = walk_of(pull=step("pull.a") + step("pull.b"), close=step("close.a"))
    log = Log()
    log.write("done", step="pull.a")
    log.write("passed_over", step="close.a", reason="not here")
    progress = walk.stand(log.job).progress

    assert [("pull", "Pull", 1, 2), ("close", "Close", 1, 1)] == [
        (p.phase, p.label, p.done, p.total) for p in progress
    ]
    assert "pull" == walk.stand(log.job).phase


def test_the_stand_is_the_same_in_whatever_order_the_entries_arrive() -> None:
    log = Log()
    log.write("done", step="pull.a")
    done = log.write("done", step="pull.b")
    log.strike(done)
    log.write("passed_over", step="pull.b", reason="later")
    expected = PLAIN.stand(log.job)

    for order in itertools.permutations(log.job.entries):
        assert expected == PLAIN.stand(Job(order))
