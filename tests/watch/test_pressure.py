"""Standing pressure, dead-head and the hose's window on whole jobs."""

from __future__ import annotations

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, with_value, without


def check(job: Job, name: str) -> Check:
    return next(check for check in Watcher(job).look().checks if check.name == name)


def test_a_pump_at_500_ft_with_a_60_psi_tank_stands_at_about_276_psi() -> None:
    """Common practice, no published source: 43.3 psi for each 100 ft, and the tank's 60."""
    still = tuple(document for document in HOSE if document["kind"] != "pump")
    job = with_value(still, "piece", "piece_length", 500)
    record(job, says("well", deepest_level=240, shut_off_head="260 ft"))
    pressure = check(job, "pressure")

    assert pressure.demand is not None
    assert pressure.demand.m_as("psi") == pytest.approx(276.5, abs=1.0)


def test_dead_head_rules_where_it_is_more_than_the_standing_column() -> None:
    """(500 ft shut-off + 420 - 196.4 ft of submergence) x 0.4334 psi/ft = 313.6 psi."""
    still = tuple(document for document in HOSE if document["kind"] != "pump")
    job = job_of(*still, says("well", shut_off_head=500))

    demand = check(job, "pressure").demand
    assert demand is not None
    assert demand.m_as("psi") == pytest.approx(313.6, abs=0.3)


def test_steel_is_held_against_barlow_on_the_wall_under_the_thread() -> None:
    """2 (30,000/4) (0.875 x 0.154 - 0.0696) / 2.375 = 411.5 psi, a hand calculation."""
    allowable = check(job_of(*STEEL), "pressure").allowable

    assert allowable is not None
    assert allowable.m_as("psi") == pytest.approx(411.5, abs=0.5)


@pytest.mark.parametrize(
    ("documents", "kind", "name"),
    [
        (HOSE, "well", "surface_pressure"),
        (HOSE, "piece", "pressure_rating"),
        (STEEL, "piece", "steel_grade"),
    ],
)
def test_a_missing_rating_or_pressure_is_unknown(
    documents: tuple[dict[str, object], ...], kind: str, name: str
) -> None:
    assert check(without(documents, kind, name), "pressure").verdict is Verdict.UNKNOWN


def test_over_the_working_pressure_is_a_stop() -> None:
    job = with_value(HOSE, "piece", "pressure_rating", 200)

    assert check(job, "pressure").verdict is Verdict.STOP


def test_threaded_pvc_takes_half_the_rating_and_the_water_takes_more() -> None:
    """ASTM D1785: 2 in Sch 80 is 400 psi, threaded 200; at 100 F 0.62 of it (Machinery's Hb 31)."""
    pvc = (
        says("job", job_number="P-1", line="pvc", work="pull"),
        says("well", water_temperature="100 F", surface_pressure=50),
        says("piece", place=1, piece="joint", nps="2", schedule="80", joint_count=10,
             joint_length=20),
        says("cable", cable_weight=0.2),
        says("pump", pump_weight=60, pump_length=3),
    )  # fmt: skip
    pressure = check(job_of(*pvc), "pressure")

    assert pressure.allowable is not None
    assert pressure.allowable.m_as("psi") == pytest.approx(124.0)
    assert pressure.verdict is Verdict.STOP
    # Nobody publishes what a threaded PVC joint may hang, so the lift stays unknown.
    assert check(job_of(*pvc), "lift").verdict is Verdict.UNKNOWN
    assert any("working tensile load" in lack for lack in check(job_of(*pvc), "lift").missing)


@pytest.mark.parametrize(
    ("name", "value", "verdict"),
    [
        ("water_ph", 7.2, Verdict.WITHIN),
        ("water_ph", 4.4, Verdict.STOP),
        ("water_ph", 9.6, Verdict.STOP),
        ("water_temperature", "55 C", Verdict.STOP),
        ("water_temperature", "1 C", Verdict.STOP),
    ],
)
def test_water_outside_the_hose_s_window_is_a_stop(
    name: str, value: object, verdict: Verdict
) -> None:
    assert check(with_value(HOSE, "well", name, value), "hose window").verdict is verdict


def test_an_unmeasured_ph_leaves_the_window_unknown() -> None:
    window = check(without(HOSE, "well", "water_ph"), "hose window")

    assert window.verdict is Verdict.UNKNOWN
    assert "water pH" in window.missing


def test_the_window_may_stand_on_the_hoses_sheet() -> None:
    job = without(HOSE, "piece", "least_ph")
    assert check(job, "hose window").verdict is Verdict.UNKNOWN

    record(job, says("hose_sheet", least_ph=6.5))
    assert check(job, "hose window").verdict is Verdict.WITHIN

    record(job, says("hose_sheet", least_ph=7.5))
    assert check(job, "hose window").verdict is Verdict.STOP


@pytest.mark.parametrize(
    ("radius", "verdict", "governs"),
    [
        ("18 in", Verdict.WITHIN, "temperature, pH, bends"),
        ("457.2 mm", Verdict.WITHIN, "temperature, pH, bends"),
        ("17 in", Verdict.STOP, "bend of 17 in at corner pulley is under the hose's 18 in"),
    ],
)
def test_no_bend_is_under_the_smallest_of_the_hoses_sheet(
    radius: str, verdict: Verdict, governs: str
) -> None:
    job = job_of(
        *(
            d | {"values": d["values"] | {"bend_radius": radius if place == 2 else 24}}
            if d["kind"] == "redirect" and (place := d["values"]["place"])
            else d
            for d in HOSE
        ),
        says("hose_sheet", least_bend=18),
    )
    window = check(job, "hose window")
    assert (window.verdict, window.governs) == (verdict, governs)

    record(job, says("redirect", place=3, part="corner pulley", bend_radius=30))
    assert check(job, "hose window").verdict is verdict, "another of the same name hides none"


def test_a_bend_that_nobody_measured_is_named_and_one_without_the_sheet_is_unknown() -> None:
    unread = check(without(HOSE, "redirect", "bend_radius"), "hose window")
    assert unread.verdict is Verdict.UNKNOWN
    assert unread.missing == ("bend radius at head roller", "bend radius at corner pulley")

    job = without(HOSE, "hose_sheet", "least_bend")
    assert check(job, "hose window").verdict is Verdict.UNKNOWN
    assert "smallest bend of the hose" in check(job, "hose window").missing


def test_pipe_has_no_hose_window() -> None:
    assert all(c.name != "hose window" for c in Watcher(job_of(*STEEL)).look().checks)
