"""The string that is to go in, summed against the depth that was chosen.

All hand calculations; what is allowed, 1 ft and on hose 1 %, is common practice, no published
source.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import job_of, record, says

# 12 joints of 20.94 ft, a valve of 0.6, the intake 1.4 below the discharge face, and all of it
# hangs 1.5 ft above ground: 251.28 + 0.6 + 1.4 - 1.5 = 251.78 ft.
_JOB = says("job", job_number="T-1", line="steel", work="set")
_WELL = says("well", datum="ground", stick_up=1.5, head_kind="well seal", well_depth=300)
_PUMP = says("pump", pump_length=3.7, intake_below=1.4)
_JOINTS = says("piece", place=1, piece="joint", nps="2", schedule="40", joint_count=12,
               joint_length=20.94)  # fmt: skip
_VALVE = says("piece", place=3, piece="check valve", piece_length=0.6, piece_weight=5)
_DESCRIBED = (_JOB, _WELL, _PUMP, _JOINTS, _VALVE)


def planned(depth: float, *more: dict[str, Any], datum: str = "ground") -> Job:
    return job_of(*_DESCRIBED, *more, says("setting", datum=datum, setting_depth=depth))


def found(job: Job) -> Check | None:
    return next((c for c in Watcher(job).look().checks if c.name == "tally plan"), None)


def the(job: Job) -> Check:
    check = found(job)
    assert check is not None
    return check


def test_a_string_that_hits_its_depth_is_within() -> None:
    check = the(planned(251.8))

    assert check.verdict is Verdict.WITHIN
    assert check.governs == "intake at 251.8 ft as listed, 251.8 chosen"


@pytest.mark.parametrize(
    ("depth", "note"),
    [
        (258.0, "6.2 ft too high: a pup of 6.2 ft, or another depth"),
        (272.0, "20.2 ft too high: 1 joint more, or another depth"),
        (300.0, "48.2 ft too high: 2 joints more, a pup of 6.3 ft, or another depth"),
        (248.0, "3.8 ft too deep: leave out 1 joint, a pup of 17.2 ft, or another depth"),
        (230.5, "21.3 ft too deep: leave out 1 joint, or another depth"),
    ],
)
def test_what_is_off_says_by_which_joint_and_pup_the_depth_is_hit(depth: float, note: str) -> None:
    check = the(planned(depth))

    assert check.verdict is Verdict.CAUTION
    assert check.note == note


def test_the_pup_that_it_asks_for_hits_the_depth() -> None:
    pup = says("piece", place=2, piece="pup", nps="2", schedule="40", piece_length=6.2)

    assert the(planned(258.0, pup)).verdict is Verdict.WITHIN


def test_the_rack_as_measured_takes_the_place_of_the_list() -> None:
    """20 ft joints that were listed as 20.94 leave the intake 11.3 ft higher."""
    rack = [says("rack", joint_number=n, joint_length=20.0) for n in range(1, 13)]
    some, all_of_it = planned(251.8, *rack[:7]), planned(251.8, *rack)

    assert "as listed, 7 of 12 measured" in the(some).governs
    assert the(some).verdict is Verdict.WITHIN
    assert the(all_of_it).governs == "intake at 240.5 ft by the rack, 251.8 chosen"
    assert the(all_of_it).note.startswith("11.3 ft too high: a pup of 11.3 ft")


@pytest.mark.parametrize("pup_is_chalked", [False, True])
def test_a_pup_counts_once_whether_it_lay_on_the_rack_or_not(pup_is_chalked: bool) -> None:
    pup = says("piece", place=2, piece="pup", nps="2", schedule="40", piece_length=6.2)
    rack = [says("rack", joint_number=n, joint_length=20.94) for n in range(1, 13)]
    if pup_is_chalked:
        rack.append(says("rack", joint_number=13, joint_length=6.2))

    assert the(planned(258.0, pup, *rack)).governs == "intake at 258.0 ft by the rack, 258.0 chosen"


def test_the_depth_is_brought_to_the_datum_of_the_well() -> None:
    assert the(planned(253.3, datum="top of casing")).verdict is Verdict.WITHIN
    assert the(planned(251.8, datum="top of casing")).verdict is Verdict.CAUTION


@pytest.mark.parametrize(
    ("left_out", "lacks"),
    [(_WELL, "datum"), (_PUMP, "intake below"), (_JOINTS, "length of every joint and pup")],
)
def test_what_is_not_known_is_named(left_out: dict[str, Any], lacks: str) -> None:
    documents = [d for d in _DESCRIBED if d is not left_out]
    check = the(job_of(*documents, says("setting", datum="ground", setting_depth=251.8)))

    assert check.verdict is Verdict.UNKNOWN
    assert any(lacks in missing for missing in check.missing)


def test_hose_is_summed_as_listed_and_given_one_percent() -> None:
    hose = says("piece", place=1, piece="hose", piece_length=270, hose_bore="2 in")
    job = [says("job", job_number="T-2", line="hose", work="set"), _WELL, _PUMP, hose, _VALVE]

    near, far = (
        the(job_of(*job, says("setting", datum="ground", setting_depth=depth)))
        for depth in (272.5, 280.0)
    )
    assert near.verdict is Verdict.WITHIN
    assert far.note == "9.5 ft too high: other hose, or another depth"


def test_nothing_is_said_before_a_depth_is_chosen_or_once_the_string_goes_in() -> None:
    assert found(job_of(*_DESCRIBED)) is None
    job = planned(251.8)
    record(job, says("joint", direction="in", joint_number=1, joint_length=20.94))
    assert found(job) is None
