"""What proves a line drained, and what takes the proof away again."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Look, Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says

OVER = (*HOSE, says("limit", stop_load=700))
"""A full line is over the crew's stop load, a drained one is not."""


def drain(before: float, after: float, **more: Any) -> dict[str, Any]:
    said = {"drained_by": "plug and bar", "air_drawn": "yes"} | more
    return says("drain", load_before=before, load_after=after, **said)


def look(job: Job) -> Look:
    return Watcher(job).look()


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def test_a_proof_takes_the_stop_of_a_full_line_away() -> None:
    assert look(job_of(*OVER)).lift.check.verdict is Verdict.STOP
    seen = look(job_of(*OVER, drain(1165, 665)))

    assert seen.draining.proved
    assert seen.lift.check.verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (drain(1655, 1155), "before is no reading of a full line"),
        (drain(1165, 1155), "load fell 7 lbf"),
        (drain(1165, 30), "lost pump or a parted line"),
        (drain(1165, 1165 - 660), "lost pump or a parted line"),
        (drain(1165, 1165 - 155), "load fell 110 lbf"),
        (drain(1250, 755), "after is no reading of a drained line"),
        (drain(1165, 665, air_drawn="no"), "no air drawn in"),
        (
            says("drain", drained_by="plug and bar", load_before=1165, load_after=665),
            "air drawn in: blank",
        ),
    ],
)
def test_what_proves_nothing_takes_no_stop_away(entry: dict[str, Any], words: str) -> None:
    """The column is 354 lbf at the hook, 500 as read on the pin; pump and motor take off 110.

    A fall of 464 is that of a lost pump with the line drained, one of 110 with the line full.
    """
    seen = look(job_of(*OVER, entry))

    assert not seen.draining.proved
    assert words in seen.draining.words
    assert seen.lift.check.verdict is Verdict.STOP
    check = next(c for c in seen.checks if c.name == "draining")
    assert check.verdict is Verdict.UNKNOWN


def test_a_gauge_written_over_afterwards_proves_nothing_that_it_did_not_prove_then() -> None:
    coarse = [
        d | {"values": d["values"] | {"gauge_error": 120}} if d["kind"] == "gauge" else d
        for d in OVER
    ]
    job = job_of(*coarse, drain(1165, 665))
    assert not look(job).draining.proved
    record(job, says("gauge", gauge_error=25))
    assert not look(job).draining.proved
    record(job, drain(1165, 665))
    assert look(job).draining.proved, "drained again, and read with the gauge as it is"


def test_no_figures_prove_it_that_leave_after_in_the_band_of_a_full_line() -> None:
    base = look(job_of(*OVER)).readings
    assert base.expect_full is not None
    assert base.expect_drained is not None
    proved = 0
    for before in range(500, 1800, 100):
        for after in range(400, before, 90):
            if look(job_of(*OVER, drain(before, after))).draining.proved:
                proved += 1
                assert lbf(base.expect_drained.low) <= after <= lbf(base.expect_drained.high)
                assert after < lbf(base.expect_full.low) <= before
    assert proved > 0


def test_a_later_reading_of_a_full_line_takes_the_proof_away() -> None:
    job = job_of(*OVER, drain(1165, 665), says("load", gauge_reading=670))
    watcher = Watcher(job)
    assert watcher.look().draining.proved
    high = record(job, says("load", gauge_reading=1160))
    assert not watcher.look().draining.proved
    assert "1,160 lbf read since is of a full line" in watcher.look().draining.words
    # A lower one does not bring it back: that takes somebody who says what was wrong.
    record(job, says("load", gauge_reading=670))
    assert watcher.look().lift.check.verdict is Verdict.STOP
    record(job, says("strike", reason="hung on the roller") | {"strikes": high.id})
    assert watcher.look().draining.proved


def test_readings_of_a_drained_line_coming_out_leave_the_proof() -> None:
    job = job_of(*HOSE, drain(1165, 665))
    watcher = Watcher(job)
    for feet, reading in ((60, 610), (120, 550), (180, 490), (300, 330)):
        record(job, says("footage", direction="out", footage=feet, gauge_reading=reading))
        assert watcher.look().draining.proved, feet


def test_a_pump_as_heavy_as_the_column_leaves_draining_unproved() -> None:
    """354 lbf of column; 412 lb of pump and motor hang 354 lbf under water, at 14 % less."""
    heavy = [d for d in HOSE if d["kind"] != "pump"]
    job = job_of(*heavy, says("pump", pump_weight=412, pump_length=4))
    band = look(job).readings.expect_full
    assert band is not None
    full = (lbf(band.low) + lbf(band.high)) / 2.0
    record(job, drain(full, full - 500))

    assert "a lost pump, the line still full" in look(job).draining.words


def test_a_pump_lighter_than_the_error_leaves_draining_unproved() -> None:
    light = [d for d in HOSE if d["kind"] != "pump"]
    job = job_of(*light, says("pump", pump_weight=30, pump_length=4), drain(1050, 550))

    assert "with the pump lost" in look(job).draining.words


def test_below_an_upper_check_valve_a_parted_line_falls_as_draining_does() -> None:
    """9 joints, a check valve, 9 more: a break in the lower half leaves the upper column full."""
    joint = next(d for d in STEEL if d["kind"] == "piece")["values"] | {"joint_count": 9}
    valve = {
        "piece": "check valve", "piece_length": 1, "piece_weight": 5, "fitting_rating": 3500,
    }  # fmt: skip
    pieces = [
        says("piece", **values | {"place": place})
        for place, values in enumerate((joint, valve, joint, valve), 1)
    ]
    job = job_of(*(d for d in STEEL if d["kind"] != "piece"), *pieces)
    record(job, drain(920, 800, drained_by="weep hole"))

    assert "parted below the upper check valve" in look(job).draining.words
