"""While a string is set it fills to the water outside, and holds no column above it."""

from __future__ import annotations

from fieldbook.watch.lift.trace import pull_trace, trace, trace_words
from fieldbook.watch.text import out_words
from fieldbook.watch.watcher import Watcher
from tests.office.sampled import sample_job
from tests.watch.jobs import record, says


def test_a_string_that_goes_in_is_expected_without_a_column_above_the_water() -> None:
    job = sample_job("26-142-steel", upto="set.depth")
    look = Watcher(job).look()

    assert look.draining.going_in
    assert look.draining.leaves_empty
    assert not look.draining.proved
    assert "draining" not in {check.name for check in look.checks}
    drained = look.readings.expect_drained
    assert drained is not None
    assert look.readings.read is not None
    assert drained.low <= look.readings.read <= drained.high


def test_what_goes_in_is_counted_in() -> None:
    job = sample_job("26-142-steel", upto="set.depth")

    assert out_words(Watcher(job).look().now) == "12 of 12 joints in"


def test_the_lift_check_goes_on_answering_for_the_full_line() -> None:
    look = Watcher(sample_job("26-142-steel", upto="set.depth")).look()

    assert look.lift.loads is not None
    assert look.lift.loads.worst == look.lift.loads.full


def test_once_the_pump_has_run_the_line_is_full() -> None:
    job = sample_job("26-142-steel", upto="set.depth")
    record(job, says("meter", amps_a="9.8 A"))

    draining = Watcher(job).look().draining
    assert not draining.leaves_empty
    assert "the pump has run" in draining.words


def test_the_trace_of_a_set_holds_no_reading_of_the_pull() -> None:
    job = sample_job("26-142-steel", upto="set.depth")
    joints = [entry for entry in job.live("joint") if entry.text("direction") == "in"]
    seen = trace(job, Watcher(job).look())

    assert len(seen.read) == len(joints) == 12
    assert [into for into, _ in seen.read] == [float(n) for n in range(1, 13)]


def test_the_trace_of_a_set_runs_over_what_is_in() -> None:
    """Rising from the pump alone to all 12 joints; the readings lie along it."""
    job = sample_job("26-142-steel", upto="set.depth")
    seen = trace(job, Watcher(job).look())

    assert seen.axis == "joints in"
    assert list(seen.at) == [float(n) for n in range(13)]
    assert list(seen.full) == sorted(seen.full)
    for into, read in seen.read:
        assert abs(read - seen.drained[int(into)]) < 25, into


def test_the_pump_alone_is_read_with_nothing_in() -> None:
    job = sample_job("26-166-pvc", upto="set.joint")
    look = Watcher(job).look()
    assert look.now.planned
    record(job, says("load", gauge_reading=48))

    assert trace(job, Watcher(job).look()).read[-1] == (0.0, 48.0)


def test_with_the_pump_out_no_limit_is_told_and_no_line_across() -> None:
    job = sample_job("26-127-steel")
    look = Watcher(job).look()
    assert not look.now.has_load

    words = trace_words(trace(job, look), look.now)
    assert words.startswith("Pump out, nothing hangs; last read ")
    assert "limit" not in words
    assert "across" not in words


def test_the_trace_of_the_pull_is_read_before_each_joint_is_broken_out() -> None:
    job = sample_job("26-142-steel", upto="pull.cable")
    outs = [out for out, _ in trace(job, Watcher(job).look()).read]

    assert outs[-11:] == [float(n) for n in range(11)]


def test_the_pull_keeps_a_trace_of_its_own() -> None:
    job = sample_job("26-142-steel")
    look = Watcher(job).look()
    pulled = pull_trace(job, look)
    assert pulled is not None

    assert pulled.read[-11:-1] != trace(job, look).read[:10]
    assert pulled.at[-1] == 11.0
    assert [out for out, _ in pulled.read][-11:] == [float(n) for n in range(11)]
    for (out, read), full in zip(pulled.read[-11:], pulled.full, strict=False):
        assert abs(read - full) < 25, out


def test_a_job_that_only_pulls_has_one_trace() -> None:
    job = sample_job("26-127-steel")

    assert pull_trace(job, Watcher(job).look()) is None
