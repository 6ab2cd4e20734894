"""Small invented jobs for the checks, built from what a crew would type."""

from __future__ import annotations

import datetime as dt
from typing import Any

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job

_START = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))


def says(kind: str, **values: Any) -> dict[str, Any]:
    """An entry as `enter` takes it."""
    return {"kind": kind, "by": "QA", "values": values}


def entry(document: dict[str, Any], seq: int) -> Entry:
    """The entry number `seq` of a job."""
    draft = draft_from(document)
    time = _START + dt.timedelta(minutes=seq)
    return Entry(
        id=new_id(time),
        seq=seq,
        time=time,
        by=draft.by,
        device="d-test",
        kind=draft.kind,
        values=draft.values,
        note=draft.note,
        strikes=draft.strikes,
    )


def job_of(*documents: dict[str, Any]) -> Job:
    """The job that these entries make, in this order."""
    return Job(entry(document, seq) for seq, document in enumerate(documents, 1))


def record(job: Job, document: dict[str, Any]) -> Entry:
    """Add one entry at the end of a job."""
    made = entry(document, job.last_seq + 1)
    job.add(made)
    return made


HOSE = (
    says("job", job_number="H-1", line="hose", work="pull"),
    says(
        "well",
        datum="top of casing",
        deepest_level="240 ft",
        water_temperature="50 F",
        water_ph=7.2,
        surface_pressure="60 psi",
        shut_off_head="480 ft",
    ),
    says(
        "rig",
        hoist="hose reel",
        reel_pull=4000,
        lifting_sub_rating=4500,
        holding_rating=4000,
        dry_friction=300,
    ),
    says(
        "redirect",
        place=1,
        part="head roller",
        turn_angle=90,
        bend_radius=18,
        sheave_factor=1.05,
        pulley_rating=6000,
        anchor_rating=6000,
    ),
    says(
        "redirect",
        place=2,
        part="corner pulley",
        turn_angle=60,
        bend_radius=18,
        sheave_factor=1.05,
        pulley_rating=5000,
        anchor_rating=4000,
    ),
    says(
        "gauge",
        gauge_place="pulley pin",
        turn_angle=90,
        gauge_zero=30,
        gauge_capacity=5000,
        gauge_error=25,
    ),
    says("limit", stop_load=1600),
    says(
        "piece",
        place=1,
        piece="hose",
        piece_length=420,
        hose_bore=2,
        hose_swell="15 %",
        line_weight=0.80,
        hose_density=1.2,
        tension_rating=3500,
        fitting_rating=3200,
        pressure_rating=400,
        coldest="35 F",
        hottest="120 F",
        least_ph=5,
        most_ph=9,
    ),
    says("hose_sheet", least_bend=12),
    says(
        "piece", place=2, piece="check valve", piece_length=1, piece_weight=10, fitting_rating=4000
    ),
    says("cable", cable_weight=0.38),
    says("pump", pump_weight=128, pump_length=4, pump_flow=12),
    says("level", water_level=196.4, level_state="static"),
)

STEEL = (
    says("job", job_number="S-1", line="steel", work="pull"),
    says(
        "well",
        datum="top of casing",
        deepest_level=230,
        water_temperature="50 F",
        surface_pressure="55 psi",
        shut_off_head="480 ft",
    ),
    says(
        "rig",
        hoist="block and line",
        parts_of_line=2,
        sheave_factor=1.06,
        block_weight=95,
        drum_pull=3500,
        rope_breaking=13120,
        rope_design_factor=3.5,
        mast_rating=12000,
        hook_rating=8000,
        holding_rating=6000,
        lifting_sub_rating=5000,
        dry_friction=400,
    ),
    says("gauge", gauge_place="deadline", gauge_zero=48, gauge_capacity=4000, gauge_error=20),
    says("limit", stop_load=2600),
    says(
        "piece",
        place=1,
        piece="joint",
        nps="2",
        schedule="40",
        steel_grade="A",
        thread_design_factor=4,
        joint_count=18,
        joint_length=21,
    ),
    says(
        "piece", place=2, piece="check valve", piece_length=1, piece_weight=5, fitting_rating=3500
    ),
    says("cable", cable_weight=0.30),
    says("pump", pump_weight=104, pump_length=4, pump_flow=12),
    says("level", water_level=168, level_state="static"),
)


def without(documents: tuple[dict[str, Any], ...], kind: str, name: str) -> Job:
    """The job with one figure left out."""
    return job_of(
        *(
            d | {"values": {k: v for k, v in d["values"].items() if k != name}}
            if d["kind"] == kind
            else d
            for d in documents
        )
    )


def with_value(documents: tuple[dict[str, Any], ...], kind: str, name: str, value: Any) -> Job:
    """The job with one figure written otherwise in every entry of `kind` that has it."""
    return job_of(
        *(
            d | {"values": d["values"] | {name: value}}
            if d["kind"] == kind and name in d["values"]
            else d
            for d in documents
        )
    )
