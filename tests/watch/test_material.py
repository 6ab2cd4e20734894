"""What pipe may carry: the least of sheet, thread and worn wall, at the water's temperature."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.record.memory import remember
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, record, says, with_value, without

PVC = (
    says("job", job_number="P-1", line="pvc", work="pull"),
    says("well", datum="top of casing", water_temperature="60 F", surface_pressure=40,
         shut_off_head=150, deepest_level=100),
    says("piece", place=1, piece="joint", nps="2", schedule="80", joint_count=6, joint_length=20,
         tension_rating=1500, pressure_rating=250),
    says("cable", cable_weight=0.2),
    says("pump", pump_weight=60, pump_length=3, pump_flow="5 gpm"),
    says("level", water_level=60, level_state="static"),
)  # fmt: skip


def check(job: Job, name: str) -> Check:
    return next(check for check in Watcher(job).look().checks if check.name == name)


def thread(job: Job) -> tuple[float | None, tuple[str, ...]]:
    """What the weakest joint may carry, lbf, and what the string lacks to be rated."""
    record_ = Watcher(job).look().now.record
    rated = [p.allowable_lbf for p in record_.pieces if p.kind == "joint" and p.allowable_lbf]
    lacks = tuple(lack for lacks in record_.unrated.values() for lack in lacks)
    return min(rated, default=None), lacks


# --- the least governs ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "wall", "lbf"),
    [
        # Hand calculation, 2 in schedule 40, grade A, factor 4: E1 - h = 2.2267 in; bore 2.375 less
        # two walls. On 0.1348 in (A53) 0.4125 in2, on 0.110 in 0.2465 in2; x 7,500 psi.
        (9000, None, 3093),
        (2000, None, 2000),
        (9000, "0.11 in", 1851),
        (1000, "0.11 in", 1000),
    ],
)
def test_of_sheet_thread_and_thin_wall_the_least_governs(
    typed: float, wall: str | None, lbf: float
) -> None:
    more: dict[str, Any] = {"tension_rating": typed} | ({"least_wall": wall} if wall else {})
    job = job_of(
        *(d | {"values": d["values"] | more} if d["values"].get("piece") == "joint" else d
          for d in STEEL)
    )  # fmt: skip

    assert thread(job)[0] == pytest.approx(lbf, abs=2)


def test_a_wall_that_leaves_no_metal_under_the_thread_carries_nothing() -> None:
    """2 in NPT is cut 0.070 in deep: a wall of 0.06 in has nothing below it."""
    job = job_of(
        *(d | {"values": d["values"] | {"least_wall": "0.06 in"}}
          if d["values"].get("piece") == "joint" else d for d in STEEL)
    )  # fmt: skip

    assert check(job, "lift").verdict is Verdict.STOP
    assert check(job, "pressure").verdict is Verdict.STOP


@pytest.mark.parametrize("name", ["steel_grade", "thread_design_factor"])
def test_a_typed_rating_stands_in_for_no_thread(name: str) -> None:
    job = job_of(
        *(d | {"values": {k: v for k, v in d["values"].items() if k != name}
               | {"tension_rating": 9000, "pressure_rating": 900}}
          if d["values"].get("piece") == "joint" else d for d in STEEL)
    )  # fmt: skip

    assert check(job, "lift").verdict is Verdict.UNKNOWN
    assert check(job, "pressure").verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("kind", "name", "of"),
    [("piece", "thread_design_factor", "thread design factor of 2 or more"),
     ("rig", "rope_design_factor", "Rope design factor of 3.5 or more")],
)  # fmt: skip
def test_a_design_factor_of_one_passes_nothing(kind: str, name: str, of: str) -> None:
    lift = check(with_value(STEEL, kind, name, 1), "lift")

    assert lift.verdict is Verdict.UNKNOWN
    assert any(lack.startswith(of) for lack in lift.missing)
    # What it would allow is held against the floor: over that is a stop, known or not.
    assert thread(with_value(STEEL, "piece", "thread_design_factor", 1))[0] == pytest.approx(
        6187, abs=5
    )


# --- PVC ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("degrees", "share"),
    # Machinery's Handbook 31st ed. Table 14; the same shares of 2,000 psi as allowable working
    # stress in Engineering ToolBox, PVC expansion loops: 2,000, 1,240, 440 psi at 73, 100, 140 F.
    [("50 F", 1.0), ("73 F", 1.0), ("100 F", 0.62), ("140 F", 0.22)],
)
def test_typed_ratings_of_pvc_are_derated(degrees: str, share: float) -> None:
    job = with_value(PVC, "well", "water_temperature", degrees)

    assert thread(job)[0] == pytest.approx(1500 * share)
    allowed = check(job, "pressure").allowable
    assert allowed is not None
    # The sheet's 250 psi is over the 200 that ASTM D1785 leaves the threaded pipe.
    assert allowed.m_as("psi") == pytest.approx(200 * share)


def test_water_past_the_end_of_the_derating_table_is_no_better_than_at_its_end() -> None:
    """PVC has no rating above 140 F; what it keeps there, 0.22, is the most that it may be."""
    job = with_value(PVC, "well", "water_temperature", "145 F")

    assert thread(job)[0] == pytest.approx(1500 * 0.22)
    assert check(job, "lift").verdict is Verdict.UNKNOWN
    assert any("140" in lack for lack in thread(job)[1])


def test_the_warmest_reading_counts() -> None:
    job = job_of(*PVC, says("meter", water_temperature="100 F"))
    record(job, says("meter", water_temperature="70 F"))

    assert thread(job)[0] == pytest.approx(930)


def test_pvc_in_water_of_no_known_temperature_is_unknown() -> None:
    job = without(PVC, "well", "water_temperature")

    assert "water temperature" in thread(job)[1]
    assert check(job, "pressure").verdict is Verdict.UNKNOWN


def test_threaded_schedule_40_does_not_pass_on_typed_ratings() -> None:
    """ASTM D1785 (from memory), two trade pages: schedule 40 has no rating when threaded."""
    job = with_value(PVC, "piece", "schedule", "40")

    for name in ("lift", "pressure"):
        found = check(job, name)
        assert found.verdict is Verdict.UNKNOWN
        assert any("no rating when threaded (ASTM D1785)" in lack for lack in found.missing)
    weak = with_value(
        tuple({"kind": e.kind, "by": "QA", "values": {n: v.text for n, v in e.values.items()}}
              for e in job.entries),
        "piece", "pressure_rating", 50,
    )  # fmt: skip
    assert check(weak, "pressure").verdict is Verdict.STOP


# --- thin walls and joints set aside --------------------------------------------------------------


def _pulled() -> Job:
    job = with_value(STEEL, "job", "work", "pull and set")
    record(job, says("finding", part="drop pipe", joint_number=9, least_wall="0.11 in",
                     finding="pits"))  # fmt: skip
    return job


def test_a_thin_wall_weakens_its_own_joint_where_it_hangs() -> None:
    job = _pulled()
    found = Watcher(job).look().now.record.pieces
    rated = {p.name: p.allowable_lbf for p in found}

    assert rated["joint 9"] == pytest.approx(1851, abs=2)
    assert rated["joint 8"] == pytest.approx(3093, abs=2)


def _set_again(job: Job, **said: Any) -> Entry:
    return record(job, says("piece", place=1, piece="joint", nps="2", schedule="40",
                            steel_grade="A", thread_design_factor=4, joint_length=21,
                            **said))  # fmt: skip


def test_the_same_string_planned_again_has_the_same_thin_joint() -> None:
    job = _pulled()
    record(job, says("pump_out"))
    assert thread(job)[0] == pytest.approx(1851, abs=2)

    _set_again(job, joint_count=18)
    assert thread(job)[0] == pytest.approx(1851, abs=2)


def test_a_joint_set_aside_may_be_in_a_string_that_counts_as_many_again() -> None:
    job = _pulled()
    record(job, says("pump_out"))
    record(job, says("finding", part="joint to replace", joint_number=9, finding="scrap"))
    assert thread(job)[1] == ("which joints are new (set aside: 9)",) * 18

    whole = _set_again(job, joint_count=18)
    assert thread(job)[0] == pytest.approx(1851, abs=2)
    assert "which joints are new (set aside: 9)" in check(job, "lift").missing

    record(job, says("strike", reason="17 of them") | {"strikes": whole.id})
    _set_again(job, joint_count=17)
    _set_again(job, joint_count=1, pipe_from="new")
    assert thread(job)[0] == pytest.approx(3093, abs=2)
    assert thread(job)[1] == ()


def test_new_pipe_has_no_wall_that_was_found_thin() -> None:
    job = _pulled()
    record(job, says("pump_out"))
    _set_again(job, joint_count=18, pipe_from="new")

    assert thread(job)[0] == pytest.approx(3093, abs=2)


def test_the_next_job_on_the_well_is_offered_the_thin_wall() -> None:
    job = _pulled()
    record(job, says("pump_out"))
    _set_again(job, joint_count=18)
    record(job, says("joint", direction="in", joint_number=1, joint_length=21))
    memory = remember([job])

    assert memory is not None
    assert memory.lengths[0].text("least_wall") == "0.11 in"
