"""A form starts with what is fixed, what is known, and the next number."""

from __future__ import annotations

from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.form import starts_with
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log

PULL = load("steel", "pull and set")


def test_a_joint_starts_with_its_way_and_the_next_number() -> None:
    log = Log()
    for number in (1, 2, 4):
        log.write("joint", direction="out", joint_number=number, joint_length=21)
    out = starts_with(PULL.step("pull.joint"), log.job)
    into = starts_with(PULL.step("set.joint"), log.job)

    assert ("out", 5) == (out["direction"].text, out["joint_number"].number)
    assert ("in", 1) == (into["direction"].text, into["joint_number"].number)


def _place(walk: Walk, step_id: str, log: Log) -> float | None:
    return starts_with(walk.step(step_id), log.job)["place"].number


def test_a_string_to_set_is_counted_from_its_own_first_length() -> None:
    hose = load("hose", "pull and set")
    log = Log()
    log.write("job", job_number="26-9", line="hose", work="pull and set")
    log.write("piece", piece="hose", place=1, piece_length="300 ft")
    log.write("piece", piece="drain sub", place=2, piece_length="0.8 ft")
    log.write("piece", piece="check valve", place=3, piece_length="0.7 ft")
    assert 4 == _place(hose, "plan.string", log)

    log.write("pump_out", footage="300 ft")
    assert 1 == _place(hose, "choose.string", log), "it takes the place of all lengths found"
    assert 2 == _place(hose, "choose.fittings", log), "after the hose, which goes back as it came"

    log.write("piece", piece="hose", place=1, piece_length="150 ft")
    assert 2 == _place(hose, "choose.string", log)
    log.write("piece", piece="hose", place=2, piece_length="120 ft")
    assert 3 == _place(hose, "choose.fittings", log)


def test_what_a_finding_is_about_is_not_counted_on() -> None:
    log = Log()
    log.write("finding", part="cable", finding="nick", joint_number=4)

    assert "joint_number" not in starts_with(PULL.step("pull.cable"), log.job)


def test_a_known_fact_is_the_last_that_was_said_and_stands() -> None:
    log = Log()
    log.write("well", datum="ground")
    log.strike(log.write("well", datum="top of casing"))

    assert "ground" == starts_with(PULL.step("set.depth"), log.job)["datum"].text
    assert "datum" not in starts_with(PULL.step("set.depth"), Log().job)


def test_the_duty_that_the_planner_asked_for_stands_where_the_pump_is_chosen() -> None:
    log = Log()
    log.write("duty", duty_flow="12 gpm", pumping_level="85 ft")

    said = starts_with(load("steel", "set").step("choose.duty"), log.job)
    assert {"duty_flow": "12 gpm", "pumping_level": "85 ft"} == {n: v.text for n, v in said.items()}


def test_a_reading_starts_empty() -> None:
    log = Log()
    log.write("meter", discharge_pressure=45)

    assert {} == starts_with(PULL.step("ready.relieve"), log.job)
