"""A reading against what was to be read when it was read, and what that does to the limit."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Look, Watcher
from tests.listen_sim.pulls import Pull, clean_pull
from tests.listen_sim.strings import LINES
from tests.watch.jobs import HOSE, STEEL, job_of, says


def look(job: Job) -> Look:
    return Watcher(job).look()


def read(reading: float, *before: dict[str, Any]) -> Look:
    return look(job_of(*STEEL, *before, says("load", gauge_reading=reading)))


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def joints(count: int, **values: Any) -> list[dict[str, Any]]:
    return [
        says("joint", direction="out", joint_number=n, joint_length=21, **values)
        for n in range(1, count + 1)
    ]


def test_a_reading_inside_the_band_is_within() -> None:
    for reading in (825, 900, 1000):
        seen = read(reading)
        assert seen.readings.check.verdict is Verdict.WITHIN
        assert seen.readings.off == ""


@pytest.mark.parametrize(
    ("reading", "off"),
    [(1100, "read 96 lbf over its band"), (700, "read 120 lbf under its band")],
)
def test_outside_the_band_it_is_a_caution_that_says_what_else_it_may_be(
    reading: float, off: str
) -> None:
    seen = read(reading)

    assert seen.readings.check.verdict is seen.lift.check.verdict is Verdict.CAUTION
    assert seen.readings.off == off
    assert f"read {reading:,} lbf, 820 to 1,004 lbf expected then; may be: " in (
        seen.readings.check.note
    )


@pytest.mark.parametrize("reading", [0, 48, 80, 450])
def test_its_zero_or_half_of_what_hangs_is_unknown(reading: float) -> None:
    """Zero 48, error 20; 866 to 956 by gauge and sheaves alone."""
    seen = read(reading)

    assert seen.readings.check.verdict is seen.lift.check.verdict is Verdict.UNKNOWN
    assert any("a reading that agrees" in lack for lack in seen.lift.check.missing)


def test_twice_the_band_is_unknown_where_no_limit_is_passed() -> None:
    """A hose of 1,030 to 1,281 lbf on the pin, zero 30; its links stand 3,000 lbf and more."""
    seen = look(
        job_of(*(d for d in HOSE if d["kind"] != "limit"), says("load", gauge_reading=2100))
    )

    assert seen.readings.never is not None
    assert lbf(seen.readings.never) > 2100
    assert seen.readings.check.verdict is seen.lift.check.verdict is Verdict.UNKNOWN


def test_the_reading_never_to_pass_falls_with_what_the_gauge_shows() -> None:
    """Four parts rove and one written: a quarter is read, and a quarter is the limit as read."""
    one = [
        d | {"values": d["values"] | {"parts_of_line": 1}} if d["kind"] == "rig" else d
        for d in STEEL
    ]
    whole = look(job_of(*one))
    expect = whole.readings.expect_full
    assert expect is not None
    quarter = 48 + (lbf(expect.low + expect.high) / 2 - 48) / 4
    seen = look(job_of(*one, says("load", gauge_reading=round(quarter))))

    assert seen.lift.check.verdict is Verdict.UNKNOWN
    assert "wrong parts of line" in seen.readings.check.note
    assert whole.readings.never is not None
    assert seen.readings.never is not None
    never = (lbf(seen.readings.never) - 48) / (lbf(whole.readings.never) - 48)
    assert never == pytest.approx(0.25, abs=0.03)


def test_a_gauge_that_shows_nothing_has_no_reading_never_to_pass() -> None:
    seen = read(48)

    assert seen.readings.never is None
    assert any("a reading that agrees" in lack for lack in seen.readings.never_needs)


@pytest.mark.parametrize("more", [{}, {"gauge_reading": 900}])
def test_more_joints_out_than_the_string_has_is_unknown_and_moves_no_limit_up(
    more: dict[str, Any],
) -> None:
    """18 joints hang; the threads of the string limit the pull, and no stop load is written."""
    base = [d for d in STEEL if d["kind"] != "limit"]
    before = look(job_of(*base))
    seen = look(job_of(*base, *joints(25, **more)))

    assert seen.lift.check.verdict is Verdict.UNKNOWN
    lack = "25 joints out, 18 in the string: one of the two is wrong"
    assert lack in seen.lift.check.missing
    assert before.lift.limit is not None
    assert seen.lift.limit is not None
    assert seen.lift.limit <= before.lift.limit
    assert seen.readings.expect_full is None
    assert seen.lift.loads == before.lift.loads, "all of it may still hang"


def test_more_joints_out_than_there_are_end_no_stop() -> None:
    over = [*STEEL, says("limit", stop_load=1500)]
    assert look(job_of(*over)).lift.check.verdict is Verdict.STOP

    assert look(job_of(*over, *joints(25))).lift.check.verdict is Verdict.STOP


def test_more_hose_out_than_there_is_is_unknown_past_what_a_counter_slips() -> None:
    def verdict(feet: float) -> Verdict:
        job = job_of(*HOSE, says("footage", direction="out", footage=feet))
        return look(job).lift.check.verdict

    assert verdict(425) is Verdict.WITHIN
    assert verdict(500) is Verdict.UNKNOWN


def test_a_case_beyond_the_string_is_unknown() -> None:
    assert Watcher(job_of(*STEEL)).look(joints_out=25).lift.check.verdict is Verdict.UNKNOWN


def test_a_reading_is_held_against_its_own_moment() -> None:
    """What came with joint 12, read before it was broken out, is of eleven joints out."""
    pulled = joints(11)
    then = look(job_of(*STEEL, *pulled)).readings.expect_full
    assert then is not None
    reading = round(lbf(then.low + then.high) / 2)
    last = says("joint", direction="out", joint_number=12, joint_length=21, gauge_reading=reading)
    seen = look(job_of(*STEEL, *pulled, last, *joints(16)[12:]))

    assert seen.readings.expect_full is not None
    assert lbf(seen.readings.expect_full.high) < reading
    assert seen.readings.check.verdict is Verdict.WITHIN
    assert seen.readings.off == ""


def test_without_a_level_a_reading_proves_nothing() -> None:
    base = [d for d in STEEL if d["kind"] != "level"]
    seen = look(job_of(*base, says("load", gauge_reading=900)))

    assert seen.lift.check.verdict is Verdict.UNKNOWN
    assert "depth to water" in seen.lift.check.missing


def test_a_string_held_in_slips_overnight_may_read_nothing() -> None:
    def held(**values: Any) -> Verdict:
        away = says("suspend", well_covered="yes", locks_on="yes", gauge_reading=48, **values)
        return look(job_of(*STEEL, says("load", gauge_reading=900), away)).lift.check.verdict

    assert held(held_by="slips") is Verdict.WITHIN


def test_what_the_old_string_read_says_nothing_of_the_one_that_goes_in() -> None:
    both = [says("job", job_number="S-1", line="steel", work="pull and set"), *STEEL[1:]]
    job = job_of(
        *both,
        *joints(18),
        says("pump_out", gauge_reading=60),
        says("joint", direction="in", joint_number=1, joint_length=21),
    )

    assert look(job).readings.read is None


@pytest.mark.parametrize("key", sorted(LINES))
def test_clean_pulls_are_as_expected(key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A coverage factor of 2 may leave one in twenty outside: JCGM 100:2008, 6.3.3, from memory."""
    seen: list[bool] = []

    def tell(pull: Pull) -> None:
        told = pull.watcher.look().readings
        # Where draining cannot be proved, a drained line goes on being a caution that says so.
        seen.append(bool(told.off) and "a line that is drained" not in told.check.note)

    monkeypatch.setattr(Pull, "tell", tell)
    for seed in range(4):
        clean_pull(LINES[key], seed)

    assert len(seen) > 60
    assert sum(seen) / len(seen) <= 0.05
