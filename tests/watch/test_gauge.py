"""What the gauge says, what it should say, and the reading never to pass."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.record.job import Job
from fieldbook.walk.definition.steps import CHECKS
from fieldbook.watch.gauge.readings import Readings
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, with_value, without


def told(job: Job) -> Readings:
    return Watcher(job).look().readings


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def test_a_gauge_on_two_parts_reads_half() -> None:
    """5,000 means 10,000 lbf: common practice, no published source; here without friction."""
    job = job_of(
        *(d for d in STEEL if d["kind"] != "gauge"),
        says("gauge", gauge_place="deadline", gauge_zero=0, gauge_error=0, gauge_capacity=9000),
        says("rig", sheave_factor=1.0),
        says("load", gauge_reading=5000),
    )

    band = told(job).hook_load
    assert band is not None
    assert (lbf(band.low), lbf(band.high)) == (10000, 10000)


def test_a_deadline_gauge_reads_low_while_hoisting_so_never_is_taken_from_that() -> None:
    """N = 2, K 1.06: the dead line carries 1 / (1 + K) = 0.48544 of the load; error 20, zero 48."""
    readings = told(job_of(*STEEL))

    assert readings.never is not None
    assert lbf(readings.never) == pytest.approx(48 + 2600 * 0.48544 - 20, abs=0.5)
    assert readings.never_of == "crew's stop load"


@pytest.mark.parametrize("name", ["gauge_place", "gauge_zero", "gauge_error"])
def test_a_gauge_that_cannot_be_read_is_unknown(name: str) -> None:
    job = without(STEEL, "gauge", name)
    record(job, says("load", gauge_reading=900))
    readings = told(job)

    assert readings.check.verdict is Verdict.UNKNOWN
    assert readings.never is None
    assert readings.expect_full is None
    assert any(name.removeprefix("gauge_")[:4] in lack for lack in readings.check.missing)


def test_the_reading_never_to_pass_needs_a_limit_and_a_gauge_but_nothing_read() -> None:
    """The zero alone is missing here; with nothing read the check of the reading lacks that too."""
    no_zero = told(without(STEEL, "gauge", "gauge_zero"))
    assert no_zero.check.missing == ("gauge zero", "a gauge reading")
    assert no_zero.never_needs == ("gauge zero",)

    no_pump = told(without(STEEL, "pump", "pump_weight"))
    assert "a gauge reading" in no_pump.check.missing
    assert no_pump.never_needs == ("pump and motor weight",)
    assert told(job_of(*STEEL)).never_needs == ()


def test_unknown_parts_of_line_make_the_gauge_unknown() -> None:
    job = without(STEEL, "rig", "parts_of_line")
    record(job, says("load", gauge_reading=900))

    assert told(job).check.verdict is Verdict.UNKNOWN
    assert "parts of line" in told(job).check.missing


def test_a_reading_over_the_limit_is_a_stop_until_a_lower_one_is_read() -> None:
    job = job_of(*HOSE, says("load", gauge_reading=2400))

    assert told(job).check.verdict is Verdict.STOP
    record(job, says("load", gauge_reading=1150))
    assert told(job).check.verdict is Verdict.WITHIN


def test_near_the_limit_is_a_caution() -> None:
    never = told(job_of(*HOSE)).never
    assert never is not None
    job = job_of(*HOSE, says("load", gauge_reading=round(0.85 * lbf(never))))

    assert told(job).check.verdict is Verdict.CAUTION


def test_a_gauge_at_its_capacity_is_a_stop() -> None:
    job = with_value(HOSE, "gauge", "gauge_capacity", 2000)
    record(job, says("load", gauge_reading=2000))

    assert told(job).check.verdict is Verdict.STOP
    assert "at its stop" in told(job).check.governs


def test_the_expected_reading_falls_with_the_hose_that_is_out() -> None:
    job = job_of(*HOSE)
    watcher = Watcher(job)
    highest = []
    for feet in (0, 100, 200, 300, 400):
        record(job, says("footage", direction="out", footage=feet))
        band = watcher.look().readings.expect_drained
        assert band is not None
        highest.append(lbf(band.high))

    assert highest == sorted(highest, reverse=True)
    assert highest[0] > 2 * highest[-1]


def test_a_mark_on_the_hose_corrects_the_counter() -> None:
    """The counter runs 8 % short; the mark at the datum says 100 ft and the count goes on."""
    job = job_of(
        *HOSE,
        says("footage", direction="out", footage=92, mark=100),
        says("footage", direction="out", footage=138),
    )
    now = Watcher(job).look().now

    assert now.footage_out is not None
    assert now.footage_out.m_as("ft") == pytest.approx(146)


def drained(before: float, after: float) -> dict[str, Any]:
    return says(
        "drain", drained_by="plug and bar", load_before=before, load_after=after, air_drawn="yes"
    )


def test_draining_is_proved_by_the_fall_of_the_load() -> None:
    """196.4 ft of 2.3 in water is 353.7 lbf; on a 90 degree pin the reading falls 1.414 times."""
    job = job_of(*HOSE, drained(1170, 1170 - 353.7 * 1.41421))
    look = Watcher(job).look()

    assert look.draining.proved
    assert look.draining.fall is not None
    assert lbf(look.draining.fall) == pytest.approx(353.7, abs=0.5)
    assert look.lift.loads is not None
    assert look.lift.loads.worst == look.lift.loads.drained


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (drained(1170, 1160), "not proved"),
        (drained(1170, 900), "not proved"),
        (says("drain", drained_by="plug and bar"), "not read before and after"),
        (says("drain", drained_by="joint by joint", load_before=1170, load_after=600), "joint by"),
    ],
)
def test_until_draining_is_proved_the_line_counts_as_full(
    entry: dict[str, Any], words: str
) -> None:
    look = Watcher(job_of(*HOSE, entry)).look()

    assert not look.draining.proved
    assert words in look.draining.words
    assert look.lift.loads is not None
    assert look.lift.loads.worst == look.lift.loads.full


def test_draining_is_a_check_of_its_own_once_it_was_tried() -> None:
    def verdict(*more: dict[str, Any]) -> Verdict | None:
        checks = Watcher(job_of(*HOSE, *more)).look().checks
        return next((check.verdict for check in checks if check.name == "draining"), None)

    assert verdict() is None
    assert verdict(says("drain", drained_by="joint by joint")) is None
    assert verdict(drained(1170, 1160)) is Verdict.UNKNOWN
    assert verdict(drained(1170, 670)) is Verdict.WITHIN
    assert verdict(drained(1170, 670), says("pump_out")) is None


@pytest.mark.parametrize("error", [300, 130])
def test_a_fall_within_the_gauge_s_error_proves_nothing(error: float) -> None:
    """500 lbf of reading: at 130 each way two readings may show half of it for nothing."""
    job = with_value(HOSE, "gauge", "gauge_error", error)
    record(job, drained(1170, 670))

    assert "cannot be proved by load" in Watcher(job).look().draining.words


def test_hose_taken_in_after_draining_does_not_undo_the_proof() -> None:
    job = job_of(*HOSE, drained(1170, 670), says("footage", direction="out", footage=390))

    assert Watcher(job).look().draining.proved


def test_a_struck_drain_is_no_proof() -> None:
    job = job_of(*HOSE)
    entry = record(job, drained(1170, 670))
    strike = says("strike", reason="wrong well") | {"strikes": entry.id}
    record(job, strike)

    assert Watcher(job).look().draining.words == "not drained yet"


def test_every_check_that_a_step_may_wake_is_one_that_the_watch_makes() -> None:
    """A hold that names a check nobody makes would be released on nothing."""
    meter = says("meter", volts_ab=230, amps_a=9, ohms_ab=2, insulation=24)
    jobs = (
        job_of(*HOSE, drained(1170, 670), says("arrival", line_clearance=60, wind=9)),
        job_of(*HOSE, says("depth", datum="top of casing"), says("cable", cable_size="8"), meter),
        job_of(
            *HOSE,
            says("footage", direction="in", footage=10),
            says("tank", precharge=38),
            says("chlorine", chlorine_dose=60),
            says("level", water_level=230, level_state="pumping", flow=20, air_line_depth=300),
        ),
        job_of(
            says("job", job_number="T-1", line="steel", work="set"),
            says("setting", datum="ground", setting_depth=250),
        ),
    )
    made = {check.name for job in jobs for check in Watcher(job).look().checks}

    assert made == set(CHECKS)


def test_another_gauge_from_the_library_needs_a_zero_of_its_own() -> None:
    pin = {"gauge_place": "hook", "gauge_capacity": 5000, "gauge_error": 10}
    job = job_of(*STEEL, says("gauge", gauge_name="Line 1"))
    assert "gauge zero" not in Watcher(job).look().readings.check.missing

    record(job, says("gauge", library_item="Pin 3", **pin))
    assert "gauge zero" in Watcher(job).look().readings.check.missing
    record(job, says("gauge", gauge_zero=5))
    assert "gauge zero" not in Watcher(job).look().readings.check.missing


def test_the_same_gauge_taken_again_keeps_its_zero() -> None:
    job = job_of(*STEEL, says("gauge", library_item="Line 1 of derrick", gauge_name="Line 1"))
    record(job, says("gauge", library_item="Line 1", calibrated="2026-05-01"))

    assert "gauge zero" not in Watcher(job).look().readings.check.missing


def test_where_nothing_may_be_read_it_is_a_stop() -> None:
    """N = 2: a stop load of 20 lbf shows 10 of it; the zero of 48 and the error of 60 leave -2."""
    base = with_value(STEEL, "limit", "stop_load", 20)
    record(base, says("gauge", gauge_error=60))
    for reading in (None, 0, 900):
        if reading is not None:
            record(base, says("load", gauge_reading=reading))
        found = told(base)
        assert found.never is not None
        assert lbf(found.never) < 0
        assert found.check.verdict is Verdict.STOP
    assert "nothing may hang" in told(base).check.governs


def test_a_gauge_that_is_described_after_it_was_read_is_taken_as_described() -> None:
    """A crew may read first and describe the gauge afterwards: nothing is written over by that."""
    base = [d for d in STEEL if d["kind"] != "gauge"]
    gauge = next(d for d in STEEL if d["kind"] == "gauge")
    job = job_of(*base, says("load", gauge_reading=900))
    assert told(job).check.verdict is Verdict.UNKNOWN
    record(job, gauge)
    assert told(job).check.verdict is Verdict.WITHIN


def test_the_next_reading_is_of_the_gauge_as_it_is_then() -> None:
    job = job_of(*STEEL, says("load", gauge_reading=1400))
    record(job, says("gauge", gauge_zero=548))
    assert told(job).check.verdict is Verdict.STOP
    assert "as gauge and rig were when it was read" in told(job).check.note
    record(job, says("load", gauge_reading=1400))
    assert told(job).check.verdict is Verdict.WITHIN
