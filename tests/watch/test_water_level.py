"""Which level the load is expected at: the well at rest, as the lifted string does not pump."""

from __future__ import annotations

from typing import Any

import pytest

from calc.drop_line.fill import Fill
from fieldbook.record.job import Job
from fieldbook.watch.document import look_document
from fieldbook.watch.lift.trace import pull_trace
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says

DRY = tuple(d for d in STEEL if d["kind"] != "level")
STATIC = says("level", water_level="168 ft", level_state="static", minutes_off=600)
PUMPED = says("level", water_level="208 ft", level_state="pumping", minutes_on=60)
RISING = says("level", water_level="180 ft", level_state="recovering")


def load(job: Job, fill: Fill = Fill.FULL) -> float:
    now = Watcher(job).look().now
    return float(now.load(now.level, fill).m_as("lbf"))


def words(job: Job) -> str:
    water = Watcher(job).look().now.outside
    return water.words if water is not None else ""


@pytest.mark.parametrize("after", [(PUMPED,), (PUMPED, RISING)])
def test_a_pumping_test_does_not_move_the_load_to_expect(after: tuple[dict[str, Any], ...]) -> None:
    job = job_of(*DRY, STATIC, *after)

    assert load(job) == load(job_of(*DRY, STATIC))
    assert words(job) == "water at 168.0 ft, static"


def test_a_later_static_level_is_taken() -> None:
    later = says("level", water_level="171 ft", level_state="static")

    assert words(job_of(*DRY, STATIC, PUMPED, later)) == "water at 171.0 ft, static"


def test_a_level_of_no_state_is_taken_as_static() -> None:
    job = job_of(*DRY, says("level", water_level="168 ft"), PUMPED)

    assert words(job) == "water at 168.0 ft, taken as static"


def test_without_a_static_level_the_newest_is_taken_and_it_is_said() -> None:
    """40 ft lower, by hand: the bore holds 3.356 sq in x 62.41 / 144 = 1.454 lb/ft of column more,
    the wall of 1.075 sq in loses 0.466 lb/ft of lift: 77 lbf, and the cable's own lift beside it.
    """
    job = job_of(*DRY, PUMPED)
    heavier = load(job) - load(job_of(*DRY, STATIC))

    assert 40 * (1.454 + 0.466) <= heavier <= 40 * (1.454 + 0.466 + 0.3)
    assert words(job) == "water at 208.0 ft, pumping: no static level is written"
    assert words(job_of(*DRY, PUMPED, RISING)).startswith("water at 180.0 ft, recovering")


def test_no_level_is_no_load_to_expect() -> None:
    look = Watcher(job_of(*DRY)).look()

    assert look.now.outside is None
    assert look_document(look)["gauge"]["expected_with"] is None


def test_the_document_says_which_level_it_is() -> None:
    look = Watcher(job_of(*DRY, STATIC, PUMPED)).look()

    assert look_document(look)["gauge"]["expected_with"] == {
        "level": {"value": 168.0, "unit": "ft"},
        "state": "static",
    }


def test_the_trace_of_the_pull_stands_at_the_level_at_rest_before_it() -> None:
    """What was pumped, before it or on the new string, moves no curve of the old one."""
    base = [d for d in HOSE if d["kind"] != "job"]
    both = says("job", job_number="H-1", line="hose", work="pull and set")

    def curve(*levels: dict[str, Any]) -> list[float]:
        job = job_of(both, *base, *levels)
        record(job, says("pump_out", footage=420))
        record(job, says("footage", direction="in", footage=100))
        record(job, says("level", water_level="300 ft", level_state="pumping"))
        drawn = pull_trace(job, Watcher(job).look())
        assert drawn is not None
        return list(drawn.full)

    lower = says("level", water_level="240 ft", level_state="pumping")
    assert curve(lower) == curve()
