"""The readings to expect next, the pull that is left, and the travel that uses it up."""

from __future__ import annotations

from typing import Any

import pytest

from calc.drop_line.fill import Fill
from fieldbook.watch.gauge.next_reading import Ahead
from fieldbook.watch.lift.trace import trace
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, without


def coming(job_documents: tuple[dict[str, Any], ...], *more: dict[str, Any]) -> Ahead:
    return Watcher(job_of(*job_documents, *more)).look().readings.ahead


def test_the_next_reading_is_that_of_the_next_joint_or_mark() -> None:
    job = job_of(*STEEL)
    watcher = Watcher(job)
    ahead = watcher.look().readings.ahead
    then = watcher.look(joints_out=1).readings

    assert ahead.at == "1 joint out"
    assert (ahead.full, ahead.drained) == (then.expect_full, then.expect_drained)
    hose = coming(HOSE, says("footage", direction="out", footage=130))
    assert hose.at == "150 ft of hose out"
    assert coming(HOSE, says("footage", direction="out", footage=150)).at == "200 ft of hose out"


def test_going_in_the_next_is_counted_in() -> None:
    """One of 18 joints is in; of 420 ft of hose 120, and then 405: no mark is left, but the end."""
    steel = coming(STEEL, says("joint", direction="in", joint_number=1, joint_length=21))
    assert steel.at == "2 joints in"
    two_in = Watcher(job_of(*STEEL)).look(joints_out=16).readings
    assert (steel.full, steel.drained) == (two_in.expect_full, two_in.expect_drained)

    for feet, mark in ((120, "150"), (150, "200"), (405, "420")):
        hose = coming(HOSE, says("footage", direction="in", footage=feet))
        assert hose.at == f"{mark} ft of hose in"
    assert coming(HOSE, says("footage", direction="in", footage=420)).at == ""


def test_before_anything_hangs_the_first_joint_is_next_and_there_is_nothing_to_pull() -> None:
    planned = job_of(says("job", job_number="S-1", line="steel", work="set"), *STEEL[1:])
    ahead = Watcher(planned).look().readings.ahead
    one_in = Watcher(planned).look(joints_out=17).readings

    assert ahead.at == "1 joint in"
    assert (ahead.full, ahead.drained) == (one_in.expect_full, one_in.expect_drained)
    assert (ahead.overpull, ahead.travel) == (None, None)


def test_only_the_reading_to_expect_is_told() -> None:
    """A full line until it is proved drained; a string that goes in holds no column."""
    full = coming(STEEL)
    assert full.lines()[0].startswith("next, 1 joint out: ")
    assert full.lines()[0].endswith(" lbf full")
    drained = Watcher(job_of(*STEEL)).look(drained=True).readings.ahead
    assert drained.lines()[0].endswith(" lbf drained")
    going_in = coming(STEEL, says("joint", direction="in", joint_number=1, joint_length=21))
    assert going_in.lines()[0].endswith(" lbf drained")


def test_the_pull_that_is_left_says_what_it_is_counted_from() -> None:
    look = Watcher(job_of(*STEEL)).look()
    assert look.readings.never is not None
    assert look.readings.expect_full is not None
    most, never = (q.m_as("lbf") for q in (look.readings.expect_full.high, look.readings.never))

    words = f"{never - most:,.0f} left on the gauge over {most:,.0f}"
    assert any(words in line for line in look.readings.ahead.lines())


def test_at_the_end_of_the_string_nothing_is_next() -> None:
    out = [
        says("joint", direction="out", joint_number=n, joint_length=21) for n in range(1, 18)
    ]  # fmt: skip

    assert coming(STEEL, *out).at == ""


def test_overpull_is_the_limit_less_what_hangs_now() -> None:
    """The crew's stop is 2,600 lbf; 18 joints hang full with the water at 168 ft."""
    look = Watcher(job_of(*STEEL)).look()
    load = look.now.load(look.now.level, Fill.FULL).m_as("lbf")
    ahead = look.readings.ahead
    assert look.readings.never is not None
    assert look.readings.expect_full is not None
    assert ahead.overpull is not None
    assert ahead.overpull_reading is not None

    assert ahead.overpull.m_as("lbf") == pytest.approx(2600 - load)
    assert ahead.overpull_reading.m_as("lbf") == pytest.approx(
        (look.readings.never - look.readings.expect_full.high).m_as("lbf")
    )


def test_steel_reaches_its_limit_within_an_inch_or_so() -> None:
    """A E / L of 378 ft of 2 in schedule 40: 1.075 in2 x 30e6 psi / 4,536 in = 7,107 lbf an inch.

    Hand calculation; the metal area is that of ASME B36.10M.
    """
    ahead = coming(STEEL)
    assert ahead.overpull is not None
    assert ahead.travel is not None

    assert ahead.travel.m_as("in") == pytest.approx(ahead.overpull.m_as("lbf") / 7107, rel=0.003)
    assert "stop by hand" in ahead.warning
    assert any("stop by hand" in line for line in ahead.lines())


def test_a_shorter_string_is_stiffer() -> None:
    """Half the length, half the travel for each lbf: mechanics."""

    def per_lbf(joints: int) -> float:
        ahead = Watcher(job_of(*STEEL)).look(joints_out=joints).readings.ahead
        assert ahead.overpull is not None
        assert ahead.travel is not None
        return float(ahead.travel.m_as("in") / ahead.overpull.m_as("lbf"))

    assert per_lbf(9) == pytest.approx(per_lbf(0) / 2)


def test_hose_gives_no_travel_without_its_stretch() -> None:
    assert coming(HOSE).travel is None
    assert coming(HOSE).warning == ""


def test_without_limit_or_level_nothing_is_left_to_say() -> None:
    no_level = job_of(*(d for d in STEEL if d["kind"] != "level"))
    assert Watcher(no_level).look().readings.ahead == Ahead()
    no_gauge = Watcher(without(STEEL, "gauge", "gauge_zero")).look().readings.ahead
    assert (no_gauge.full, no_gauge.overpull_reading) == (None, None)
    assert no_gauge.overpull is not None


def test_the_trace_carries_it() -> None:
    job = job_of(*STEEL)
    record(job, says("load", gauge_reading=900))
    look = Watcher(job).look()
    drawn = trace(job, look)

    assert drawn.ahead == look.readings.ahead
