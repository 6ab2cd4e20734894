"""(c): what contradicts an earlier entry ends no stop; a strike, or a name, does.

A thing that was changed, or was measured again, contradicts nothing: another rig, another stop
load, a reading taken later. What is here cannot be true beside what was written before.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Watcher
from tests.watch.attempt_jobs import BASES
from tests.watch.jobs import entry, job_of, record, says

RANK = {Verdict.WITHIN: 0, Verdict.CAUTION: 1, Verdict.UNKNOWN: 2, Verdict.STOP: 3}
Said = list[dict[str, Any]]


@dataclass(frozen=True)
class Stopped:
    """A stop, or what nobody can know, and what would talk it away.

    Attributes:
        check: The check that says so.
        line: The job it is on.
        put: What that job says otherwise.
        found: The entries that make it; the last one is struck to end it.
        against: Words -> the entries that contradict them.
    """

    check: str
    line: str
    put: dict[str, Any]
    found: Said
    against: dict[str, Said]


def drained(before: float, after: float, air: str) -> dict[str, Any]:
    return says("drain", drained_by="plug and bar", load_before=before, load_after=after,
                air_drawn=air)  # fmt: skip


WORN = says("piece", place=1, piece="joint", nps="2", schedule="40", steel_grade="A",
            thread_design_factor=4, joint_count=18, joint_length=21)  # fmt: skip
HELD_FULL = {
    "a drain that ends where a full line reads": [drained(1900, 1150, "yes")],
    "a drain without air": [drained(1150, 650, "no")],
    "a drain in which the load rose": [drained(650, 1150, "yes")],
    "a drain that the next reading denies": [
        drained(1150, 650, "yes"), says("load", gauge_reading=1150)
    ],
    "a drain denied, and told again": [
        drained(1150, 650, "yes"), says("load", gauge_reading=1150), drained(1150, 650, "no")
    ],
}  # fmt: skip
STOPPED = {
    "hose over its fitting": Stopped("lift", "hose", {"fitting_rating": 900}, [], HELD_FULL),
    "a reading over the reading never to pass": Stopped(
        "gauge",
        "steel",
        {},
        [says("load", gauge_reading=1400)],
        {
            "another zero of the same gauge": [says("gauge", gauge_zero=700)],
            "another place of the same gauge": [says("gauge", gauge_place="hook")],
            "a smaller error of the same gauge": [says("gauge", gauge_error=1)],
            "a larger capacity of the same gauge": [says("gauge", gauge_capacity=9000)],
            "more parts of line": [says("rig", parts_of_line=4)],
            "fewer parts of line": [says("rig", parts_of_line=1)],
            "another sheave factor": [says("rig", sheave_factor=1.0)],
            "a lighter block": [says("rig", block_weight=5)],
            "another zero and another gauge": [
                says("gauge", gauge_zero=700),
                says("gauge", gauge_name="B", gauge_place="hook", gauge_zero=0, gauge_error=1),
            ],
            "another zero, told in two": [
                says("gauge", gauge_zero=300),
                says("gauge", gauge_zero=700),
            ],
            "a note that it was wrong": [says("note") | {"note": "the gauge was wrong"}],
            "a hand-over": [says("handover", witness="ZZ")],
            "a draining that drains nothing": [says("drain", drained_by="joint by joint")],
        },
    ),
    "a gauge at the end of its scale": Stopped(
        "gauge",
        "steel",
        {"stop_load": 9000, "gauge_capacity": 900},
        [says("load", gauge_reading=900)],
        {
            "a larger capacity of the same gauge": [says("gauge", gauge_capacity=9000)],
            "another gauge": [
                says(
                    "gauge",
                    gauge_name="B",
                    gauge_place="hook",
                    gauge_zero=0,
                    gauge_error=20,
                    gauge_capacity=9000,
                )
            ],
        },
    ),
    "water deeper than the deepest that was said": Stopped(
        "lift",
        "hose",
        {"fitting_rating": 1400},
        [says("level", water_level="400 ft", level_state="static")],
        {
            "a deepest level above what was read": [says("well", deepest_level="200 ft")],
            "a static level": [says("level", water_level="190 ft", level_state="static")],
        },
    ),
    "a line test over what the line stands": Stopped(
        "pressure",
        "pvc",
        {},
        [says("line_test", discharge_pressure="200 psi", test_minutes=15, pressure_loss=0)],
        {
            "a lower test": [
                says("line_test", discharge_pressure="50 psi", test_minutes=15, pressure_loss=0)
            ],
            "a lower pressure at the top": [says("well", surface_pressure="20 psi")],
            "a lower cut-out": [
                says("tank", cut_out="30 psi", cut_in="20 psi", precharge="18 psi")
            ],
        },
    ),
    "a pump that gives too much at no flow": Stopped(
        "pressure",
        "pvc",
        {},
        [says("curve_point", curve_flow=0, curve_head="700 ft")],
        {
            "a lower shut-off head": [says("well", shut_off_head="200 ft")],
            "another point at no flow": [says("curve_point", curve_flow=0, curve_head="200 ft")],
        },
    ),
    "a joint worn through the thread": Stopped(
        "lift",
        "steel",
        {},
        [says("finding", part="joint", finding="thin", joint_number=3, least_wall="0.075 in")],
        {
            "a finding of a good wall": [
                says("finding", part="joint", finding="good", joint_number=3, least_wall="0.150 in")
            ],
            "the same joints listed again": [WORN],
            "joints listed with a good wall": [
                WORN | {"values": WORN["values"] | {"least_wall": "0.154 in"}}
            ],
            "joints listed with a rating": [
                WORN | {"values": WORN["values"] | {"tension_rating": 9000}}
            ],
        },
    ),
    "a string that parted": Stopped(
        "lift",
        "steel",
        {},
        [says("finding", part="string", finding="parted", string_state="lost")],
        {
            "a reading of the whole string": [says("load", gauge_reading=910)],
            "a joint that came out": [
                says("joint", direction="out", joint_number=1, joint_length=21, gauge_reading=910)
            ],
        },
    ),
}
CASES = [(stop, words) for stop, each in STOPPED.items() for words in each.against]


def before(stop: Stopped) -> Job:
    documents = [
        d | {"values": {k: stop.put.get(k, v) for k, v in d["values"].items()}}
        for d in BASES[stop.line]
    ]
    return job_of(*documents, *stop.found)


def verdict(stop: Stopped, job: Job) -> Verdict:
    return next(c.verdict for c in Watcher(job).look().checks if c.name == stop.check)


@pytest.mark.parametrize("name", STOPPED)
def test_it_is_a_stop_or_unknown_before_anything_contradicts_it(name: str) -> None:
    stop = STOPPED[name]
    assert RANK[verdict(stop, before(stop))] >= RANK[Verdict.UNKNOWN]


@pytest.mark.parametrize(("name", "words"), CASES)
def test_what_contradicts_it_ends_no_stop(name: str, words: str) -> None:
    stop = STOPPED[name]
    job = before(stop)
    was = verdict(stop, job)
    for document in stop.against[words]:
        record(job, document)

    assert RANK[verdict(stop, job)] >= RANK[was]


@pytest.mark.parametrize("name", [name for name, stop in STOPPED.items() if stop.found])
def test_a_strike_ends_it(name: str) -> None:
    stop = STOPPED[name]
    job = before(stop)
    was = verdict(stop, job)
    last: Entry = job.entries[-1]
    job.add(entry(says("strike", reason="typed wrong") | {"strikes": last.id}, job.last_seq + 1))

    assert RANK[verdict(stop, job)] < RANK[was]
