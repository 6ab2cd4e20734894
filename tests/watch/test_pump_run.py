"""What the tank gives, and how long the pump runs on it."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.quantities.convert import show
from fieldbook.record.job import Job
from fieldbook.watch.document import check_document
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, job_of, says

TANK = {"tank_size": 85, "precharge": 28, "cut_in": 30, "cut_out": 50, "least_run": 1}


def job(flow: float | None = 10, **tank: Any) -> Job:
    read = [says("meter", flow=flow)] if flow is not None else []
    return job_of(
        says("job", job_number="T-1", line="pvc", work="check"), *read, says("tank", **tank)
    )


def run(flow: float | None = 10, **tank: Any) -> Check:
    checks = Watcher(job(flow, **tank)).look().checks
    return next(check for check in checks if check.name == "pump run")


def test_a_tank_and_its_shortest_run() -> None:
    """Pelikan, National Driller: 85 gal, 28 psi, 30/50 gives 25.1 gal; at 10 gpm 2.51 min."""
    found = run(**TANK)

    assert found.verdict is Verdict.WITHIN
    assert found.allowable is not None
    assert found.allowable.m_as("min") == pytest.approx(2.51, abs=0.005)
    assert "gives 25.1 gal" in found.governs
    assert "every 10.0 min" in found.note
    assert check_document(found)["demand"] == {"value": 1.0, "unit": "min"}


def test_a_run_under_the_motors_least_is_a_stop() -> None:
    assert run(**{**TANK, "least_run": 3}).verdict is Verdict.STOP
    assert run(flow=30, **TANK).verdict is Verdict.STOP


def test_a_minute_is_no_rating() -> None:
    found = run(**{n: v for n, v in TANK.items() if n != "least_run"})

    assert found.verdict is Verdict.UNKNOWN
    assert found.missing == ("motor's least run",)
    assert "no rating" in found.governs


@pytest.mark.parametrize("name", TANK)
def test_each_figure_taken_away_is_named(name: str) -> None:
    found = run(**{n: v for n, v in TANK.items() if n != name})

    assert found.verdict is Verdict.UNKNOWN
    assert len(found.missing) == 1


def test_no_flow_is_named() -> None:
    for flow in (None, 0):
        found = run(flow, **TANK)
        assert found.verdict is Verdict.UNKNOWN
        assert found.missing == ("flow",)


def test_the_timed_run_rules_where_it_is_shorter() -> None:
    found = run(**TANK, cycle_minutes=0.5)

    assert found.verdict is Verdict.STOP
    assert "timed 0.5 min" in found.governs
    assert "has lost air" in found.note
    longer = run(**TANK, cycle_minutes=6)
    assert longer.allowable is not None
    assert show(longer.allowable, "min", 2) == "2.51 min"


@pytest.mark.parametrize(
    "wrong", [{"precharge": 31}, {"cut_out": 30}, {"cut_out": 20}, {"tank_size": 0}]
)
def test_figures_that_give_no_water_are_unknown(wrong: dict[str, float]) -> None:
    found = run(**{**TANK, **wrong})

    assert found.verdict is Verdict.UNKNOWN
    assert found.missing


def test_nothing_is_asked_before_there_is_a_tank_or_while_the_pump_is_out() -> None:
    out = job_of(*HOSE, says("tank", **TANK), says("footage", direction="out", footage=10))

    assert all(check.name != "pump run" for check in Watcher(out).look().checks)
    assert all(check.name != "pump run" for check in Watcher(job_of(*HOSE)).look().checks)


def test_the_most_that_was_measured_fills_the_tank_first() -> None:
    """A flow read beside a level counts like one at the meter: 25.1 gal at 30 gpm is 0.84 min."""
    more = job_of(
        says("job", job_number="T-1", line="pvc", work="check"),
        says("meter", flow=10),
        says("level", water_level=90, level_state="pumping", flow=30),
        says("tank", **TANK),
    )
    found = next(check for check in Watcher(more).look().checks if check.name == "pump run")

    assert found.verdict is Verdict.STOP
    assert found.allowable is not None
    assert found.allowable.m_as("min") == pytest.approx(0.837, abs=0.001)
