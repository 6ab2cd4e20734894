"""Pressure and pull in service: the worst still possible, from everything that was recorded."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, with_value, without

PSI_FT = 62.409 / 144.0  # water at 50 F
KNOWN = (says("well", shut_off_head=300), says("pump", pump_flow="10 gpm"))
STEEL_KNOWN = (*STEEL, *KNOWN)
HOSE_KNOWN = (*HOSE, says("hose_sheet", wave_speed="600 ft/s"), *KNOWN)


def check(job: Job, name: str = "pressure") -> Check:
    return next(check for check in Watcher(job).look().checks if check.name == name)


def psi(found: Check) -> float:
    assert found.demand is not None
    return found.demand.m_as("psi")


def lbf(found: Check) -> float:
    assert found.demand is not None
    return found.demand.m_as("lbf")


def test_surge_of_the_pumps_flow_stands_on_the_column_by_hand() -> None:
    """Hand calculation, 2 in steel, 10 gpm: 3.356 in2, 0.956 ft/s; Buried Pipe Design 4,432 ft/s.

    62.409 / 32.174 x 4,432 x 0.956 / 144 = 57.1 psi on 378 ft x 0.43340 + 55 psi = 218.8.
    """
    found = check(job_of(*STEEL_KNOWN))

    assert psi(found) == pytest.approx(218.8 + 57.1, abs=0.3)
    assert found.verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("kind", "name", "lacks"),
    [
        ("well", "shut_off_head", "shut-off head"),
        ("pump", "pump_flow", "flow of the pump (for surge)"),
        ("well", "surface_pressure", "pressure at the top"),
        ("level", "water_level", "static level"),
    ],
)
def test_what_could_be_worse_and_is_not_known_is_unknown_and_named(
    kind: str, name: str, lacks: str
) -> None:
    documents = tuple(d for d in STEEL_KNOWN if d["kind"] != kind or name != "water_level")
    job = job_of(*documents) if name == "water_level" else without(documents, kind, name)

    assert check(job).verdict is Verdict.UNKNOWN
    assert lacks in check(job).missing
    over = Job(job.entries)
    record(over, says("line_test", discharge_pressure=400, test_minutes=10, pressure_loss=0))
    assert check(over).verdict is Verdict.STOP, "a breach that is known stops all the same"


@pytest.mark.parametrize(
    ("said", "least"),
    [
        (says("curve_point", curve_flow=0, curve_head=700), 700 + 378 - 168),
        (says("meter", step="test.shut_off", discharge_pressure=230), 230 / PSI_FT + 378),
        (says("line_test", discharge_pressure=150, test_minutes=10, pressure_loss=0),
         150 / PSI_FT + 378 + 57.1 / PSI_FT),
        (says("tank", cut_out=90), 90 / PSI_FT + 378 + 57.1 / PSI_FT),
        (says("meter", discharge_pressure=120), 120 / PSI_FT + 378 + 57.1 / PSI_FT),
        (says("duty", duty_flow=20), 55 / PSI_FT + 378 + 2 * 57.1 / PSI_FT),
    ],
)  # fmt: skip
def test_each_way_of_knowing_a_higher_pressure_counts_by_hand(
    said: dict[str, Any], least: float
) -> None:
    """Hand calculation: head in ft at the foot, 378 ft down, x 0.43340 psi/ft."""
    assert psi(check(job_of(*STEEL_KNOWN, said))) >= least * PSI_FT - 0.5


def test_a_curve_that_begins_above_no_flow_is_a_least_and_no_knowledge() -> None:
    documents = tuple(d for d in STEEL_KNOWN if "shut_off_head" not in d["values"])
    job = job_of(*documents, says("curve_point", curve_flow=5, curve_head=900))

    assert check(job).verdict is Verdict.STOP
    job = job_of(*documents, says("curve_point", curve_flow=5, curve_head=300))
    assert "shut-off head" in check(job).missing


def test_a_pumping_level_takes_nothing_off_the_dead_head() -> None:
    """Hand calculation: 600 ft + 378 - 168 ft, whatever the pump had drawn the well down to."""
    job = with_value(STEEL_KNOWN, "well", "shut_off_head", 600)
    record(job, says("level", water_level=300, level_state="pumping"))

    assert psi(check(job)) == pytest.approx((600 + 378 - 168) * PSI_FT, abs=0.3)


def test_a_shut_off_test_is_head_over_the_water_it_was_drawn_down_to() -> None:
    """Hand calculation: 150 psi / 0.43340 + 210 ft drawn down = 556 ft; at rest + 378 - 168 ft."""
    documents = tuple(d for d in STEEL if d["kind"] not in {"level", "pump", "well"})
    job = job_of(
        *documents,
        says("well", datum="top of casing", deepest_level=230, surface_pressure="55 psi"),
        says("pump", pump_flow="1 gpm"),
        says("level", water_level=168, level_state="static"),
        says("level", water_level=210, level_state="pumping"),
        says("meter", step="test.shut_off", discharge_pressure=150),
    )

    assert psi(check(job)) == pytest.approx((150 / PSI_FT + 210 + 378 - 168) * PSI_FT, abs=0.3)
    assert check(job).missing == ("shut-off head",), "what was tested is a least"


def test_the_shut_off_head_of_the_pump_that_came_out_is_not_that_of_the_next() -> None:
    job = with_value(STEEL_KNOWN, "job", "work", "pull and set")
    record(job, says("pump", pump_model="Old 10"))
    assert "shut-off head" not in check(job).missing
    record(job, says("pump", pump_model="New 20", pump_weight=90, pump_length=4, pump_flow=12))
    assert "shut-off head" in check(job).missing
    record(job, says("well", shut_off_head=280))
    assert "shut-off head" not in check(job).missing


def test_the_wave_in_a_hose_is_no_faster_than_in_open_water() -> None:
    """Hand calculation: 10 gpm in 2 in, 3.1416 in2, is 1.0212 ft/s: x 63.6 psi is 64.9 at most.

    420 ft x 0.43340 + 60 = 242.0; 307 psi is under 400 whatever the hose is made of.
    """
    silent = job_of(*HOSE, *KNOWN)
    assert psi(check(silent)) == pytest.approx(242.0 + 64.9, abs=0.5)
    assert check(silent).verdict is Verdict.WITHIN

    weak = with_value((*HOSE, *KNOWN), "piece", "pressure_rating", 290)
    assert check(weak).verdict is Verdict.UNKNOWN
    assert any("pressure wave" in lack for lack in check(weak).missing)
    told = with_value(HOSE_KNOWN, "piece", "pressure_rating", 290)
    assert psi(check(told)) == pytest.approx(242.0 + 64.9 * 600 / 4720, abs=0.5)
    assert check(told).verdict is Verdict.CAUTION


# --- the pull in service --------------------------------------------------------------------------


def test_the_pull_in_service_of_a_hose_by_hand() -> None:
    """Hand calculation: 420 ft of 2.3 in bore (4.155 in2), well dry, 60 psi and 8.2 psi of surge.

    Hose 336, cable 159.6, column 420 x 4.155 / 144 x 62.409 = 756.3, valve 1 ft 10.4 and 1.8, pump
    128; 68.2 psi on the bore 283.5: 1,676 lbf at the upper fitting. Lifted, it is 300 less.
    """
    found = check(job_of(*HOSE_KNOWN), "pull in service")

    assert lbf(found) == pytest.approx(1676, abs=4)
    assert found.governs == "end fitting, upper end of hose"


def test_dead_head_pulls_with_the_water_where_the_pump_takes_it_by_hand() -> None:
    """Hand calculation, 2 in steel, 800 ft of shut-off head, the well drawn to the intake, 379 ft.

    The bore stands under 800 ft there: 800 x 0.43340 x 3.356 = 1,163.6 lbf. Pipe and cable 378 x
    3.98 and the valve 5.3; pump 104 less 14 %: 2,763 lbf. The mixed sum, a dry well with 800 + 379
    - 168 ft on the pump, is 3,084: 12 % too high.
    """
    job = with_value(STEEL_KNOWN, "well", "shut_off_head", 800)
    found = check(job, "pull in service")

    assert lbf(found) == pytest.approx(2763, abs=5)


def test_a_fitting_that_service_pulls_over_its_rating_is_a_stop() -> None:
    """1,676 lbf in service on a fitting of 1,600; lifted with 300 lbf of friction it is within."""
    job = with_value(HOSE_KNOWN, "piece", "fitting_rating", 1600)
    look = Watcher(job).look()

    assert check(job, "pull in service").verdict is Verdict.STOP
    assert look.verdict is Verdict.STOP
    assert look.lift.served is not None
    assert look.lift.served.verdict is Verdict.STOP
    # It hangs already: to lift it is the way out, and no stop keeps it in the well.
    assert look.lift.check.verdict is not Verdict.WITHIN
    assert "in service over its limit" in look.lift.check.note


def test_a_string_that_service_would_pull_apart_is_not_set() -> None:
    job = with_value(HOSE_KNOWN, "piece", "fitting_rating", 1600)
    to_set = with_value(
        tuple({"kind": e.kind, "by": "QA", "values": {n: v.text for n, v in e.values.items()}}
              for e in job.entries),
        "job", "work", "set",
    )  # fmt: skip
    look = Watcher(to_set).look()

    assert look.lift.check.verdict is Verdict.STOP
    assert look.lift.check in look.stops


@pytest.mark.parametrize("name", ["shut_off_head", "pump_flow"])
@pytest.mark.parametrize("work", ["pull", "set"])
def test_a_lift_is_not_within_where_what_it_carries_in_service_is_not_known(
    name: str, work: str
) -> None:
    kind = "pump" if name == "pump_flow" else "well"
    entries = without(HOSE_KNOWN, kind, name).entries
    documents = tuple(
        {"kind": e.kind, "by": "QA", "values": {n: v.text for n, v in e.values.items()}}
        for e in entries
    )
    known = Watcher(with_value(HOSE_KNOWN, "job", "work", work)).look().lift.check
    found = Watcher(with_value(documents, "job", "work", work)).look().lift.check

    assert known.verdict is Verdict.WITHIN
    assert found.verdict is Verdict.CAUTION
    assert "in service unknown: needs" in found.note


@pytest.mark.parametrize("name", ["shut_off_head", "surface_pressure", "pump_flow"])
def test_the_pull_is_never_within_where_the_pressure_is_not_known(name: str) -> None:
    kind = "pump" if name == "pump_flow" else "well"

    found = check(without(STEEL_KNOWN, kind, name), "pull in service")
    assert found.verdict is Verdict.UNKNOWN


def test_a_measured_flow_is_a_least_and_a_curve_down_to_no_head_says_the_most() -> None:
    documents = [d for d in STEEL_KNOWN if "pump_flow" not in d["values"]]
    measured = job_of(*documents, says("meter", flow="12 gpm"))
    assert "flow of the pump (for surge)" in check(measured).missing
    assert check(measured).verdict is Verdict.UNKNOWN

    record(measured, says("curve_point", curve_flow="20 gpm", curve_head="300 ft"))
    assert "flow of the pump (for surge)" in check(measured).missing
    record(measured, says("curve_point", curve_flow="38 gpm", curve_head="0 ft"))
    assert "flow of the pump (for surge)" not in check(measured).missing
    assert psi(check(measured)) == pytest.approx(218.8 + 3.8 * 57.1, abs=0.8)


def test_of_a_pump_that_nobody_named_what_was_read_before_counts_too() -> None:
    """Nobody can say that it is another: what is worse of both counts, and nothing is known."""

    def pressed(model: str) -> Job:
        job = with_value(STEEL_KNOWN, "job", "work", "pull and set")
        record(job, says("pump", pump_model="Old 10"))
        record(job, says("meter", flow="60 gpm"))
        record(job, says("pump_out"))
        named = {"pump_model": model} if model else {}
        record(job, says("pump", pump_weight=104, pump_length=4, pump_flow="10 gpm", **named))
        return job

    other, unnamed = (check(pressed(model)) for model in ("New 20", ""))
    assert psi(unnamed) > psi(other) + 50
    assert "shut-off head" in unnamed.missing
