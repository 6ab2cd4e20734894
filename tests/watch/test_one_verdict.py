"""One verdict of a lift: the worst of computed and read, the same word wherever it stands."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.lift.verdict import is_read, lift_verdict
from fieldbook.watch.text import shortened
from fieldbook.watch.watcher import Look, Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, says, with_value, without


def look(job: Job) -> Look:
    return Watcher(job).look()


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def check(name: str, verdict: Verdict, share: float | None = 0.5) -> Check:
    return Check(name, verdict, share=share, governs=f"of {name}")


@pytest.mark.parametrize("computed", list(Verdict))
@pytest.mark.parametrize("read", list(Verdict))
def test_the_verdict_is_the_worst_of_both(computed: Verdict, read: Verdict) -> None:
    rank = [Verdict.WITHIN, Verdict.CAUTION, Verdict.UNKNOWN, Verdict.STOP]
    found = lift_verdict(check("lift", computed), check("gauge", read))

    assert found.name == "lift"
    assert found.verdict is max(computed, read, key=rank.index)
    by_the_gauge = read is not Verdict.WITHIN and rank.index(read) >= rank.index(computed)
    assert is_read(found) is by_the_gauge, "what was read is named first"


def test_a_gauge_that_says_nothing_names_no_link() -> None:
    silent = check("gauge", Verdict.UNKNOWN, share=None)
    found = lift_verdict(check("lift", Verdict.UNKNOWN), silent)

    assert found.governs == "of lift"


def test_a_reading_over_the_limit_stops_the_lift_everywhere() -> None:
    seen = look(job_of(*HOSE, says("load", gauge_reading=2400)))

    assert seen.lift.chain.verdict is Verdict.WITHIN
    assert seen.lift.check.verdict is Verdict.STOP
    assert seen.lift.check.governs.startswith("gauge 2,400 lbf of ")
    assert [c.name for c in seen.stops] == ["gauge", "lift"]
    assert [c.name for c in seen.stopped_by] == ["gauge"]
    assert seen.checks[0] is seen.lift.check


def test_the_case_that_is_asked_for_hides_no_reading() -> None:
    """A reading is of where the string stands, and no other case makes it better."""
    for reading in (2400, 30):
        watcher = Watcher(job_of(*HOSE, says("load", gauge_reading=reading)))
        status = watcher.look().lift.check.verdict
        for drained in (True, False):
            assert watcher.look(drained=drained).lift.check.verdict is status


def test_a_load_over_the_crew_s_own_stop_is_a_stop_whatever_the_links_may_carry() -> None:
    """The string weighs 1,771 lbf by the lift check; a stop load of 1,500 lbf was typed."""
    seen = look(with_value(STEEL, "limit", "stop_load", 1500))

    assert seen.lift.loads is not None
    assert lbf(seen.lift.loads.worst) > 1500
    assert seen.lift.chain.verdict is Verdict.STOP
    assert seen.lift.chain.governs == "crew's stop load"


def test_a_reading_over_the_crew_s_stop_is_a_stop_though_the_string_is_not_known() -> None:
    """Deadline of two parts, K 1.06, zero 48: 2,600 lbf of stop load is 1,290 lbf of reading."""
    seen = look(job_of(*(d for d in STEEL if d["kind"] not in ("pump", "cable"))))
    assert seen.readings.never is not None
    assert lbf(seen.readings.never) == pytest.approx(48 + 2600 * 0.48544 - 20, abs=0.5)
    assert "pump and motor weight" in seen.readings.never_needs

    bare = tuple(d for d in STEEL if d["kind"] not in ("pump", "cable"))
    assert look(job_of(*bare, says("load", gauge_reading=1200))).lift.check.verdict is (
        Verdict.UNKNOWN
    )
    assert look(job_of(*bare, says("load", gauge_reading=1350))).lift.check.verdict is Verdict.STOP


@pytest.mark.parametrize("name", ["gauge_zero", "gauge_place", "gauge_error"])
def test_a_reading_over_the_crew_s_stop_is_a_stop_though_the_gauge_is_not_known(name: str) -> None:
    documents = without(STEEL, "gauge", name)
    assert look(documents).lift.check.verdict is Verdict.UNKNOWN
    base = tuple(
        d | {"values": {k: v for k, v in d["values"].items() if k != name}}
        if d["kind"] == "gauge"
        else d
        for d in STEEL
    )
    assert look(job_of(*base, says("load", gauge_reading=2700))).lift.check.verdict is Verdict.STOP


def test_what_is_known_of_the_string_may_be_over_a_limit_already() -> None:
    """18 joints of 2 in pipe are 1,388 lb of steel; 87 % of it hangs wholly under water.

    The line may be full: 230 ft x 3.356 in2 / 144 x 62.4 = 334 lbf stand above the deepest level.
    """
    base = tuple(d for d in STEEL if d["kind"] != "pump")
    assert look(job_of(*base)).lift.check.verdict is Verdict.UNKNOWN
    seen = look(job_of(*base, says("limit", stop_load=900)))

    assert seen.lift.chain.verdict is Verdict.STOP
    assert seen.lift.chain.demand is not None
    known = 1388 * 0.873 + 0.3 * 379 * 0.7 + 334
    assert lbf(seen.lift.chain.demand) == pytest.approx(known, rel=0.01)
    weak = look(job_of(*base, says("rig", hook_rating=1000)))
    assert weak.lift.chain.verdict is Verdict.STOP
    assert weak.lift.chain.governs == "hook"


def test_a_gauge_at_its_stop_is_a_stop_though_its_zero_is_not_known() -> None:
    job = job_of(
        *(d for d in STEEL if d["kind"] not in ("gauge", "limit")),
        says("gauge", gauge_place="deadline", gauge_capacity=1000),
        says("load", gauge_reading=1000),
    )

    assert look(job).lift.check.verdict is Verdict.STOP


def test_a_gauge_without_a_capacity_is_unknown() -> None:
    """It may stand at the end of its scale, and nobody could tell."""
    job = without(STEEL, "gauge", "gauge_capacity")

    assert look(job).readings.check.verdict is Verdict.UNKNOWN
    assert "gauge capacity" in look(job).lift.check.missing
    assert look(job).readings.expect_full is not None


@pytest.mark.parametrize(
    ("name", "room", "shown"),
    [
        ("thread root, joint 13", 29, "thread root, joint 13"),
        ("least of rating and thread root, joint 13", 29, "least of rating an., joint 13"),
        ("anchor of the corner pulley at the gate", 20, "anchor of the corne."),
    ],
)
def test_a_name_is_cut_before_its_number(name: str, room: int, shown: str) -> None:
    assert shortened(name, room) == shown
    assert len(shown) <= room
