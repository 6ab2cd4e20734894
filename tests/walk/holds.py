"""One row a hold point, 1 to 18: the figure that refutes it, and the one that lets it go."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from fieldbook.quantities.admit import draft_from
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.walk import Walk
from fieldbook.walk.withheld import withheld
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, says

WHY = {"reason": "the gauge needle sticks", "relies_on": "the tap runs open"}
BY_NAME, NEVER = "by name", "never"


@dataclass(frozen=True)
class Row:
    """A hold point: what keeps it from its yes, and what lets it go."""

    hold: int
    step: str
    refuted_by: tuple[dict[str, Any], ...]
    allowed_by: tuple[dict[str, Any], ...]
    said: str
    passed: str
    name: str = ""
    line: str = "steel"
    before: tuple[dict[str, Any], ...] = ()
    yes: dict[str, Any] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.hold}-{self.step}"


def at(kind: str, name: str, **values: Any) -> dict[str, Any]:
    return says(kind, step=name, **values)


def one(document: dict[str, Any]) -> tuple[dict[str, Any], ...]:
    return (document,)


ZERO = at("gauge", "ready.gauge_zero", gauge_zero="48 lb")
LEVEL = says("level", water_level="140 ft", level_state="static")
DEPTHS = {"datum": "ground", "rack_count": 0, "depth_by_tally": "261 ft"}
LINE = {"power_line_voltage": "12.5 kV"}

TABLE = (
    Row(1, "arrive.power_lines",
        one(at("arrival", "arrive.power_lines", line_clearance="8 ft", **LINE)),
        one(at("arrival", "arrive.power_lines", line_clearance="60 ft", **LINE)),
        "power lines says stop", BY_NAME, "power lines"),
    Row(2, "test.lockout",
        one(at("arrival", "test.lockout", lock_number="8", volts_after_lockout="240 V")),
        one(at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V")),
        "240 V on the leads: not dead. Find the other feed, lock it out, measure again", NEVER,
        "volts after lockout"),
    Row(3, "ready.relieve",
        one(at("meter", "ready.relieve", discharge_pressure="60 psi")),
        one(at("meter", "ready.relieve", discharge_pressure="0 psi")),
        "60 psi in the line: not let go", BY_NAME, "discharge pressure"),
    Row(4, "ready.load_check",
        one(says("load", gauge_reading="2999 lb")), one(says("load", gauge_reading="900 lb")),
        "STOP: lift and gauge", NEVER, "gauge"),
    Row(5, "ready.rig_level",
        one(says("arrival", wind="40 mph")), one(says("arrival", wind="9 mph")),
        "wind says stop", BY_NAME, "wind", before=one(says("rig", wind_limit="30 mph"))),
    Row(6, "ready.first_lift",
        one(at("load", "ready.first_lift", gauge_reading="900 lb", after_wait="brake slipped")),
        one(at("load", "ready.first_lift", gauge_reading="900 lb", after_wait="held still")),
        "First lift: brake slipped. Set it down", BY_NAME, "after wait"),
    Row(7, "set.land",
        one(at("load", "set.land", gauge_reading="700 lb", held_by="hanger")),
        one(at("load", "set.land", gauge_reading="48 lb", held_by="hanger")),
        "The gauge still reads 700 lb, more than its zero", BY_NAME, "gauge reading", line="hose",
        before=one(ZERO)),
    Row(8, "pull.drain",
        one(at("drain", "pull.drain", drained_by="plug and bar", load_before="1150 lb",
               load_after="640 lb", air_drawn="no")),
        one(at("drain", "pull.drain", drained_by="plug and bar", load_before="1150 lb",
               load_after="640 lb", air_drawn="yes")),
        "No air drawn in at the top: not proved dry", BY_NAME, "air drawn", line="hose"),
    Row(9, "pull.count",
        one(at("pump_out", "pull.count", prior_count=18, rack_count=17)),
        one(at("pump_out", "pull.count", prior_count=18, rack_count=18)),
        "17 on the rack is not the count on the last record", BY_NAME, "rack count"),
    Row(10, "choose.setting",
        one(at("setting", "choose.setting", datum="ground", setting_depth="900 ft",
               submergence="40 ft", bottom_clearance="20 ft")),
        one(at("setting", "choose.setting", datum="ground", setting_depth="261 ft",
               submergence="40 ft", bottom_clearance="20 ft")),
        "900 ft is deeper than the well", BY_NAME, "setting depth",
        before=one(says("well", well_depth="300 ft")), yes={"witness": "JB"}),
    Row(11, "set.splice",
        one(at("meter", "set.splice", insulation="0.2 Mohm")),
        one(at("meter", "set.splice", insulation="900 Mohm")),
        "insulation says stop", BY_NAME, "insulation"),
    Row(12, "set.insulation_landed",
        one(at("meter", "set.insulation_landed", insulation="0.2 Mohm")),
        one(at("meter", "set.insulation_landed", insulation="900 Mohm")),
        "insulation says stop", BY_NAME, "insulation"),
    Row(13, "set.depth",
        one(at("depth", "set.depth", setting_depth="240 ft", **DEPTHS)),
        one(at("depth", "set.depth", setting_depth="261 ft", **DEPTHS)),
        "240 ft agreed is not the depth by the tally", BY_NAME, "setting depth"),
    Row(14, "start_up.open",
        one(at("load", "set.land", gauge_reading="900 lb", held_by="well seal")),
        one(at("load", "set.land", gauge_reading="50 lb", held_by="well seal")),
        "Landed, the gauge still read 900 lb, more than its zero", BY_NAME, "gauge reading",
        before=one(ZERO)),
    Row(15, "start_up.flush",
        one(at("chlorine", "start_up.flush", chlorine_residual="80 mg/L")),
        one(at("chlorine", "start_up.flush", chlorine_residual="0.1 mg/L")),
        "80 mg/L of chlorine left at the tap, more than allowed", BY_NAME, "chlorine residual"),
    Row(16, "start_up.sealed",
        one(at("line_test", "start_up.line_test", discharge_pressure="60 psi",
               test_minutes="15 min", pressure_loss="8 psi")),
        one(at("line_test", "start_up.line_test", discharge_pressure="60 psi",
               test_minutes="15 min", pressure_loss="1 psi")),
        "The line lost 8 psi under test: it leaks", BY_NAME, "pressure loss"),
    Row(17, "start_up.unlock",
        one({**at("hold", "test.lockout", role="crew lead"), "by": "AB"}),
        one({**at("hold", "test.lockout", role="crew lead"), "by": "QA"}),
        "only AB, who put it on, takes it off", NEVER,
        before=one(at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V"))),
    Row(18, "close.record", (), one(at("signature", "close.sign", role="crew lead")),
        "Nobody has signed", BY_NAME, "signature"),
)  # fmt: skip
MORE = (
    Row(9, "pull.count",
        one(at("pump_out", "pull.count", prior_count=2, rack_count=2)),
        one(at("pump_out", "pull.count", prior_count=3, rack_count=3)),
        "2 on the rack is not the joints recorded out", BY_NAME, "rack count",
        before=tuple(at("joint", "pull.joint", joint_number=n, joint_length="21 ft",
                        direction="out") for n in (1, 2, 3))),
    Row(13, "set.depth",
        one(at("depth", "set.depth", datum="ground", depth_by_counter="300 ft",
               setting_depth="318 ft")),
        one(at("depth", "set.depth", datum="ground", depth_by_counter="316 ft",
               setting_depth="318 ft")),
        "300 ft by the counter is not the depth agreed", BY_NAME, "depth by counter", line="hose"),
)  # fmt: skip
"""Further figures that refute a hold of `TABLE`."""


def job_with(row: Row, said: tuple[dict[str, Any], ...]) -> tuple[Walk, Job]:
    base = HOSE if row.line == "hose" else STEEL
    first = {**base[0], "values": base[0]["values"] | {"work": "pull and set"}}
    return load(row.line, "pull and set"), job_of(first, *base[1:], *row.before, *said)


def refused(walk: Walk, job: Job, name: str, kind: str = "hold", **more: Any) -> str:
    verdicts = {check.name: check.verdict.value for check in Watcher(job).look().checks}
    role = (*walk.step(name).release, "crew lead")[0]
    said = {"step": name, "role": role} | more
    draft = draft_from({"kind": kind, "by": "QA", "values": said})
    return "; ".join(withheld(draft, walk, walk.stand(job), job, verdicts))
