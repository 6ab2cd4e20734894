"""A form starts with what is fixed, what is known, and the next number."""

from __future__ import annotations

from fieldbook.walk.form import starts_with
from fieldbook.walk.loading import load
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


def test_a_reading_starts_empty() -> None:
    log = Log()
    log.write("meter", discharge_pressure=45)

    assert {} == starts_with(PULL.step("ready.relieve"), log.job)
