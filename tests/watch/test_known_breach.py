"""What is known is held against what is known, whatever else nobody wrote."""

from __future__ import annotations

import pytest

from calc.check import Verdict
from fieldbook.watch.watcher import Look, Watcher
from tests.watch.jobs import STEEL, job_of, says


def look(line: str, *documents: dict[str, object]) -> Look:
    job = says("job", job_number="X-1", line=line, work="pull")
    return Watcher(job_of(job, *documents)).look()


HOSE_320 = says("piece", place=1, piece="hose", piece_length=320, hose_bore=3)


@pytest.mark.parametrize(
    ("reading", "verdict"), [(5000, Verdict.STOP), (1501, Verdict.STOP), (1499, Verdict.UNKNOWN)]
)
def test_a_crews_own_stop_load_is_a_limit_by_itself(reading: int, verdict: Verdict) -> None:
    seen = look("steel", says("limit", stop_load=1500), says("load", gauge_reading=reading))

    assert seen.lift.check.verdict is verdict
    assert seen.readings.never is not None
    assert seen.readings.never.m_as("lbf") == pytest.approx(1500)
    assert "gauge place" in seen.readings.never_needs


@pytest.mark.parametrize(
    "more",
    [says("gauge", gauge_place="deadline"), says("rig", hoist="block and line", parts_of_line=4)],
)
def test_it_is_no_reading_of_a_gauge_that_may_show_a_part_of_the_load(
    more: dict[str, object],
) -> None:
    assert look("steel", says("limit", stop_load=1500), more).readings.never is None


def test_the_water_in_a_hose_is_a_least_of_what_hangs() -> None:
    """Hand calculation: 320 ft x 7.069 in2 / 144 x 62.43 lb/ft3 = 981 lbf, no level on record."""
    seen = look("hose", HOSE_320, says("limit", stop_load=900))

    assert seen.lift.chain.verdict is Verdict.STOP
    assert seen.lift.chain.demand is not None
    assert seen.lift.chain.demand.m_as("lbf") == pytest.approx(981, abs=1)
    assert "at least 981 lbf hangs" in seen.lift.check.note
    assert (
        look("hose", HOSE_320, says("limit", stop_load=990)).lift.chain.verdict is not Verdict.STOP
    )


def test_water_outside_and_hose_that_is_out_hold_up_no_column() -> None:
    """100 ft of column above the level, 98.1 lbf of it gone with 32 of 320 ft out."""
    level = says("well", datum="top of casing", deepest_level=100)
    seen = look("hose", HOSE_320, level, says("limit", stop_load=300))
    assert seen.lift.chain.demand is not None
    assert seen.lift.chain.demand.m_as("lbf") == pytest.approx(306.6, abs=0.5)
    out = says("footage", footage=300, direction="out")
    seen = look("hose", HOSE_320, out, says("limit", stop_load=60))
    assert seen.lift.chain.demand is not None
    assert seen.lift.chain.demand.m_as("lbf") == pytest.approx(61.3, abs=0.2)


def test_where_more_is_out_than_there_is_all_of_it_may_still_hang() -> None:
    whole = Watcher(job_of(*STEEL)).look().lift.loads
    beyond = [says("joint", direction="out", joint_number=n, joint_length=21) for n in range(1, 26)]
    found = Watcher(job_of(*STEEL, *beyond)).look().lift.loads

    assert whole is not None
    assert found is not None
    assert found.full == whole.full


def test_a_reading_to_stop_at_that_is_not_known_says_what_its_limit_lacks() -> None:
    base = [d for d in STEEL if d["kind"] not in ("limit", "cable")]
    seen = Watcher(job_of(*base)).look()

    assert seen.readings.never is None
    assert "cable weight" in seen.readings.never_needs
