"""The trace runs through the readings that a look expects, and holds what was read where it was."""

from __future__ import annotations

import pytest

from fieldbook.record.job import Job
from fieldbook.watch.lift.trace import Trace, trace
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, without


def traced(job: Job) -> Trace:
    return trace(job, Watcher(job).look())


def test_the_curve_of_a_pipe_string_lies_within_what_is_expected_at_each_joint() -> None:
    job = job_of(*STEEL)
    watcher = Watcher(job)
    drawn = traced(job)

    assert drawn.axis == "joints out"
    assert list(drawn.at) == [float(n) for n in range(19)]
    for joints, full, drained in zip(drawn.at, drawn.full, drawn.drained, strict=True):
        told = watcher.look(joints_out=int(joints)).readings
        assert told.expect_full is not None
        assert told.expect_drained is not None
        assert told.expect_full.low.m_as("lbf") < full < told.expect_full.high.m_as("lbf")
        assert told.expect_drained.low.m_as("lbf") < drained < told.expect_drained.high.m_as("lbf")


def test_the_curve_of_a_hose_goes_by_feet() -> None:
    """At 0 out the reading is 30 + 1.4142 x the hook load, without friction."""
    drawn = traced(job_of(*HOSE))

    assert drawn.axis == "ft of hose out"
    assert (drawn.at[0], drawn.at[-1]) == (0.0, 420.0)
    # 196.4 ft to water: 43.6 ft more hose is buoyed, and that much less water hangs, than at 240.
    assert drawn.full[0] == pytest.approx(30 + 1.41421 * 793.8, abs=3.0)


def test_a_joint_is_read_before_it_is_out_and_a_mark_where_it_stands() -> None:
    steel = job_of(
        *STEEL,
        says("joint", direction="out", joint_number=1, joint_length=21, gauge_reading=900),
        says("joint", direction="out", joint_number=2, joint_length=21, gauge_reading=860),
    )
    hose = job_of(
        *HOSE,
        says("load", gauge_reading=1150),
        says("footage", direction="out", footage=100, gauge_reading=880),
        says("footage", direction="out", footage=200, gauge_reading=610),
    )

    assert list(traced(steel).read) == [(0.0, 900.0), (1.0, 860.0)]
    assert list(traced(hose).read) == [(0.0, 1150.0), (100.0, 880.0), (200.0, 610.0)]


def test_a_struck_reading_is_not_drawn() -> None:
    job = job_of(*HOSE)
    wrong = record(job, says("load", gauge_reading=115))
    record(job, says("strike", reason="slip of the finger") | {"strikes": wrong.id})

    assert list(traced(job).read) == []


def test_without_zero_or_level_there_is_no_curve_and_what_is_missing_is_named() -> None:
    drawn = traced(without(HOSE, "gauge", "gauge_zero"))
    assert (list(drawn.at), "gauge zero" in drawn.missing) == ([], True)
    no_level = job_of(*(d for d in HOSE if d["kind"] != "level"))
    assert "depth to water" in traced(no_level).missing
