"""Steel pipe whose wall is no schedule's: weighed by its wall, rated by its maker alone."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.watch.state.drop_line import DropLine, Lacking, line_of
from fieldbook.watch.watcher import Look, Watcher
from tests.watch.jobs import STEEL, entry, job_of, says

ODD = {
    "place": 1,
    "piece": "joint",
    "pipe_outside": "2.375 in",
    "pipe_wall": "0.190 in",
    "joint_count": 18,
    "joint_length": 21,
    "coupling_weight": "1.5 lb",
    "tension_rating": 6000,
    "pressure_rating": 500,
}


def line(**values: Any) -> DropLine | Lacking:
    return line_of(entry(says("piece", **values), 1), "steel", None)


def look(**values: Any) -> Look:
    kept = [d for d in STEEL if d["values"].get("piece") != "joint"]
    return Watcher(job_of(*kept, says("piece", **values))).look()


def test_the_weight_by_hand() -> None:
    """Hand calculation: 10.68 x (2.375 - 0.190) x 0.190 = 4.434 lb/ft; bore 1.995 in, 3.126 in2."""
    found = line(**ODD)

    assert isinstance(found, DropLine)
    assert found.weight == pytest.approx(4.434, abs=0.001)
    assert found.bore_area.m_as("in**2") == pytest.approx(3.126, abs=0.001)
    assert "10.68" in found.sources[0]


def test_a_typed_weight_goes_before_it_and_its_couplings_count_all_the_same() -> None:
    found = line(**ODD, line_weight=5)
    without = line(**{n: v for n, v in ODD.items() if n != "coupling_weight"}, line_weight=5)

    assert isinstance(found, DropLine)
    assert found.weight == pytest.approx(5.0)
    assert without == Lacking(("coupling weight",))


def test_it_hangs_and_is_checked() -> None:
    lift = look(**ODD).lift

    assert lift.chain.verdict is Verdict.WITHIN
    assert any("no schedule" in each.check.governs for each in lift.links)
    assert look(**{**ODD, "tension_rating": 1500}).lift.check.verdict is Verdict.STOP


@pytest.mark.parametrize(
    ("gone", "named"),
    [
        ("pipe_outside", "pipe outside diameter"),
        ("pipe_wall", "wall of the pipe"),
        ("coupling_weight", "coupling weight"),
        ("tension_rating", "working tensile load"),
    ],
)
def test_each_figure_taken_away_is_named(gone: str, named: str) -> None:
    check = look(**{n: v for n, v in ODD.items() if n != gone}).lift.check

    assert check.verdict is Verdict.UNKNOWN
    assert any(named in lack for lack in check.missing)


def test_a_wall_measured_thin_has_no_rating_any_more() -> None:
    assert look(**ODD, least_wall="0.17 in").lift.chain.verdict is Verdict.WITHIN
    worn = look(**ODD, least_wall="0.15 in")
    assert worn.lift.check.verdict is Verdict.UNKNOWN
    assert any("on the wall measured" in lack for lack in worn.lift.check.missing)


def test_a_wall_that_leaves_no_bore_is_unknown() -> None:
    assert isinstance(line(**{**ODD, "pipe_wall": "1.2 in"}), Lacking)
