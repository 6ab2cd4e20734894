"""Forms of the plan on a well that earlier jobs remember."""

from __future__ import annotations

from fieldbook.record.memory import Memory, remember
from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.recall import recalled
from tests.office.sampled import sample_job
from tests.walk.logs import Log


def memory() -> Memory:
    found = remember([sample_job("26-114-pvc")])
    assert found is not None
    return found


def begun(work: str = "pull and set") -> Log:
    log = Log()
    log.write("job", job_number="27-001", line="pvc", work=work, step="plan.job")
    return log


def starts(log: Log, step: str, work: str = "pull and set") -> dict[str, str]:
    found = recalled(load("pvc", work).step(step), log.job, memory())
    return {name: value.text for name, value in found.items()}


def test_the_last_record_stands_in_its_form() -> None:
    found = starts(begun(), "plan.prior")

    assert found["set_on"] == "2026-05-14"
    assert found["prior_count"] == "13"


def test_pieces_come_one_after_the_other_and_then_no_more() -> None:
    log = begun()
    assert starts(log, "plan.string")["joint_count"] == "13"
    assert starts(log, "plan.fittings")["piece"] == "check valve"

    log.write("piece", place=1, piece="joint", joint_count=13, joint_length="20.03 ft")
    log.write("piece", place=2, piece="check valve", piece_length="0.4 ft")
    assert starts(log, "plan.string") == {}
    assert starts(log, "plan.fittings")["piece"] == "torque arrestor"

    log.write("piece", place=3, piece="torque arrestor", piece_length="0.1 ft")
    assert starts(log, "plan.fittings") == {}


def test_the_place_of_a_piece_is_counted_and_not_remembered() -> None:
    assert "place" not in starts(begun(), "plan.string")


def test_what_the_job_says_already_is_not_filled_in_over_it() -> None:
    log = begun()
    log.write("pump", pump_model="another", step="plan.pump")

    found = starts(log, "plan.pump")
    assert "pump_model" not in found
    assert found["pump_serial"] == "A-40417"


def test_a_new_string_is_never_filled_in_where_the_job_only_sets_one() -> None:
    assert starts(begun("set"), "plan.string", "set") == {}


def test_nothing_but_the_plan_is_filled_in() -> None:
    walk = load("pvc", "pull and set")
    steps = [step for step in walk.steps if step.phase != "plan"]

    assert steps
    assert not any(recalled(step, begun().job, memory()) for step in steps)


def test_without_a_memory_nothing_is_filled_in() -> None:
    step = load("pvc", "pull and set").step("plan.prior")
    assert recalled(step, begun().job, None) == {}
