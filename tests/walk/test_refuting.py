"""Every hold point is held against the figure that can refute it: one row each, 1 to 18."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.record.job import Job
from fieldbook.walk.barring import stopped
from fieldbook.walk.loading import load, own_steps
from fieldbook.walk.refutes import read_rule, rules
from fieldbook.walk.states import State
from fieldbook.walk.steps import HOLD_POINTS, BadWalk
from fieldbook.walk.walk import Walk
from fieldbook.walk.withheld import withheld
from fieldbook.watch.watcher import Watcher
from tests.walk.logs import Log, step, walk_of
from tests.watch.jobs import HOSE, STEEL, job_of, record, says

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
SPLICED = {"insulation": "0.2 Mohm"}

TABLE = (
    Row(1, "arrive.power_lines",
        one(at("arrival", "arrive.power_lines", line_clearance="8 ft", power_line_voltage="12.5 kV")),
        one(at("arrival", "arrive.power_lines", line_clearance="60 ft", power_line_voltage="12.5 kV")),
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
        "STOP: gauge", NEVER, "gauge"),
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


def test_there_is_a_row_for_every_hold_point() -> None:
    assert [row.hold for row in TABLE] == list(HOLD_POINTS)


@pytest.mark.parametrize("row", TABLE, ids=str)
def test_a_hold_is_held_against_the_figure_that_refutes_it(row: Row) -> None:
    walk, job = job_with(row, row.refuted_by)

    assert walk.step(row.step).hold == row.hold
    assert row.said in refused(walk, job, row.step, **row.yes)

    walk, job = job_with(row, row.allowed_by)
    assert row.said not in refused(walk, job, row.step, **row.yes)


@pytest.mark.parametrize("row", [row for row in TABLE if row.name], ids=str)
def test_who_passes_it_by_name_and_which_nobody_passes(row: Row) -> None:
    walk, job = job_with(row, row.refuted_by)
    record(job, at("check_passed", row.step, check=row.name, **WHY))

    still = row.said in refused(walk, job, row.step, **row.yes)
    assert still == (row.passed == NEVER)
    over = refused(walk, job, row.step, "passed_over", **WHY)
    assert (row.said in over) == (row.passed == NEVER)

    record(job, {**at("check_passed", row.step, check="something else", **WHY)})
    if row.refuted_by and row.step == row.refuted_by[0]["values"].get("step"):
        record(job, row.refuted_by[0])
        assert row.said in refused(walk, job, row.step, **row.yes), "a pass serves what it was of"


def test_the_lower_hold_gets_no_yes_while_the_gauge_says_stop() -> None:
    """HP7 at each joint: saving it is the yes, so a stop takes the form away."""
    walk = load("steel", "pull and set")

    assert stopped(walk.step("pull.joint"), ["gauge"])
    assert not stopped(walk.step("pull.joint"), [])


def test_a_setting_is_signed_by_two_different_people() -> None:
    row = TABLE[9]
    walk, job = job_with(row, row.allowed_by)

    assert "a second person" in refused(walk, job, row.step, witness="qa ")
    assert "a second person" not in refused(walk, job, row.step, witness="JB")


def test_the_lock_is_proved_dead_by_a_figure_and_by_no_reason() -> None:
    walk, job = job_with(TABLE[1], one(at("arrival", "test.lockout", reason="no meter")))

    assert "volts after lockout" in refused(walk, job, "test.lockout")
    assert "never passed over" in refused(walk, job, "test.lockout", "passed_over", **WHY)
    paper = {"written_by": "QA", "written_on": "2026-05-13"}
    assert refused(walk, job, "test.lockout", "passed_over", **WHY, **paper) == ""


@pytest.mark.parametrize("volts", ["1 V", "0", "0.9 V"])
def test_a_volt_is_what_a_meter_shows_on_dead_leads(volts: str) -> None:
    said = one(at("arrival", "test.lockout", lock_number="8", volts_after_lockout=volts))
    walk, job = job_with(TABLE[1], said)

    assert refused(walk, job, "test.lockout") == ""


def test_the_rule_of_the_place_says_what_may_be_left_and_never_more_than_drinking_water() -> None:
    said = at("chlorine", "start_up.flush", chlorine_residual="1 mg/L")
    walk, job = job_with(TABLE[14], (said,))
    assert "more than allowed" in refused(walk, job, "start_up.flush")

    record(job, at("chlorine", "start_up.flush", residual_allowed="2 mg/L"))
    assert "more than allowed" not in refused(walk, job, "start_up.flush")


def test_what_is_still_open_is_named_before_the_record_is_complete() -> None:
    walk, job = job_with(TABLE[17], one(at("signature", "close.sign", role="crew lead")))

    said = refused(walk, job, "close.record")
    assert said.startswith("Still open: ")
    record(job, at("check_passed", "close.record", check="steps still open", **WHY))
    assert refused(walk, job, "close.record") == ""


# --- after the yes --------------------------------------------------------------------------------


def dead(*said: dict[str, Any]) -> tuple[Walk, Job]:
    locked = at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V")
    yes = at("hold", "test.lockout", role="crew lead")
    return job_with(TABLE[1], (locked, yes, *said))


FED = (
    says("meter", volts_ab="240 V"),
    says("meter", amps_a="7 A"),
    says("arrival", volts_after_lockout="118 V"),
    at("meter", "ready.relieve", volts_ca="240 V"),
)


@pytest.mark.parametrize("fed", FED)
def test_volts_after_proved_dead_take_the_yes_back(fed: dict[str, Any]) -> None:
    walk, job = dead()
    assert walk.stand(job).states["test.lockout"] is State.DONE
    found = record(job, fed)

    stand = walk.stand(job)
    assert stand.states["test.lockout"] is State.HELD
    assert stand.taken_back["test.lockout"].entry == found
    assert "test.lockout" in [s.id for s in stand.holds_before(walk.step("pull.joint"))]
    assert "measure again" in refused(walk, job, "test.lockout")

    record(job, at("arrival", "test.lockout", lock_number="8", volts_after_lockout="0 V"))
    assert refused(walk, job, "test.lockout") == ""
    record(job, at("hold", "test.lockout", role="crew lead"))
    assert walk.stand(job).states["test.lockout"] is State.DONE


def test_volts_of_an_earlier_step_written_late_and_of_the_running_pump_take_nothing_back() -> None:
    walk, job = dead(at("meter", "test.supply", volts_ab="240 V"))
    assert walk.stand(job).states["test.lockout"] is State.DONE

    record(job, at("hold", "start_up.unlock", role="crew lead"))
    record(job, at("meter", "start_up.amps", volts_ab="240 V", amps_a="7 A"))
    assert walk.stand(job).states["test.lockout"] is State.DONE


def test_a_struck_figure_takes_nothing_back() -> None:
    walk, job = dead()
    found = record(job, FED[0])
    record(job, {**says("strike", reason="another well"), "strikes": found.id})

    assert walk.stand(job).states["test.lockout"] is State.DONE


def test_pressure_that_is_back_takes_the_yes_back_until_the_way_out_is_open() -> None:
    walk, job = job_with(TABLE[2], (*TABLE[2].allowed_by, at("hold", "ready.relieve", role="crew lead")))
    assert walk.stand(job).states["ready.relieve"] is State.DONE

    back = record(job, says("meter", discharge_pressure="40 psi"))
    assert walk.stand(job).taken_back["ready.relieve"].words.startswith("40 psi in the line")
    record(job, {**says("strike", reason="wrong gauge"), "strikes": back.id})
    record(job, at("hold", "start_up.open", role="crew lead"))
    record(job, at("meter", "start_up.flow", flow="10 gpm", discharge_pressure="50 psi"))
    assert walk.stand(job).states["ready.relieve"] is State.DONE


def test_a_sealed_record_is_not_opened_by_it() -> None:
    walk, job = dead(FED[0], {"kind": "seal", "by": "QA", "values": {}})

    assert walk.stand(job).taken_back == {}


# --- the rules as data ----------------------------------------------------------------------------


def test_every_rule_of_the_book_tells_its_source_and_is_of_a_hold_that_asks_for_it() -> None:
    asked: dict[int, set[str]] = {}
    for one_step in own_steps():
        asked.setdefault(one_step.hold or 0, set()).update(one_step.asks)
    for number, many in rules().items():
        assert number in HOLD_POINTS
        for rule in many:
            assert rule.source
            assert rule.figure in asked[number] or rule.kinds or not rule.figure, rule


BAD = (
    ({"figure": "volts", "say": "no"}, "no quantity"),
    ({"figure": "volts_ab", "say": "no", "over": "one V"}, "no bound"),
    ({"figure": "volts_ab", "say": "no", "over": "1 V", "under": "2 V"}, "more than one"),
    ({"figure": "volts_ab", "say": "no", "kinds": ["arrival"]}, "does not belong"),
    ({"figure": "volts_ab", "say": ""}, "is empty"),
    ({"figure": "volts_ab"}, "lacks 'say'"),
    ({"figure": "volts_ab", "say": "no", "passed": "by all"}, "not a key"),
    ({"figure": "volts_ab", "say": "no", "never": "yes"}, "wrong type"),
)


@pytest.mark.parametrize(("rule", "problem"), BAD)
def test_a_wrong_rule_is_refused_and_says_what_is_wrong(rule: dict[str, Any], problem: str) -> None:
    lines = "\n".join(f"{k} = {str(v).lower() if isinstance(v, bool) else repr(v)}"
                      for k, v in rule.items())  # fmt: skip
    text = step("test.dead", f"hold = 2\nrelease = ['tech']\n[[step.refuted]]\n{lines}")
    with pytest.raises(BadWalk, match=problem):
        walk_of(test=text)


def test_a_rule_of_a_step_adds_to_those_of_its_number() -> None:
    walk = walk_of(
        test=step("test.dead", "hold = 2\nrelease = ['tech']\nrecords = 'arrival'\n"
                  "asks = ['volts_after_lockout', 'weather']\n"
                  "[[step.refuted]]\nfigure = 'weather'\nwords = ['rain']\nsay = 'Wet leads'")
    )  # fmt: skip
    log = Log()
    log.write("arrival", step="test.dead", volts_after_lockout=0, weather="rain")
    assert refused(walk, log.job, "test.dead").startswith("Wet leads")
    log.write("arrival", step="test.dead", volts_after_lockout=240, weather="dry")
    assert refused(walk, log.job, "test.dead").startswith("240 V on the leads")


def test_a_share_of_the_bound_is_slack_and_no_more() -> None:
    assert read_rule({"figure": "footage", "say": "x", "slack": "2 percent"}).slack == "2 percent"
    near = at("pump_out", "pull.count", footage="412 ft")
    far = at("pump_out", "pull.count", footage="395 ft")
    for said, holds in ((near, False), (far, True)):
        row = Row(9, "pull.count", (), (), "", BY_NAME, line="hose",
                  before=one(says("prior", piece_length="420 ft")))  # fmt: skip
        walk, job = job_with(row, one(said))
        assert ("not the length on the last record" in refused(walk, job, "pull.count")) == holds
