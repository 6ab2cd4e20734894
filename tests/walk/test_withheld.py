"""A yes to a hold point is held against what the checks say at that moment."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.walk.withheld import failing_beside, fails, withheld
from tests.walk.logs import Log, step, walk_of

RELEASE = "release = ['crew lead']"
WALK = walk_of(
    choose=step("choose.setting", f"hold = 10\n{RELEASE}\nchecks = ['lift', 'pressure']"
                "\nrecords = 'setting'\nasks = ['datum', 'setting_depth']"),
    pull=step("pull.plain")
    + step("pull.lift", f"hold = 4\n{RELEASE}\nchecks = ['lift', 'gauge', 'pressure']")
    + step("pull.joint", "hold = 7\nrecords = 'joint'\nrepeat = 'joints'\n"
           "asks = ['joint_number', 'joint_length']\nfixed = { direction = 'out' }"),
    any_time=step("any_time.moved", f"hold = 5\n{RELEASE}\nwhen = 'rig moved'"),
)  # fmt: skip
WHY = {"reason": "no sheet for the hook", "relies_on": "stamp on its twin"}


def held(
    log: Log, verdicts: dict[str, str], kind: str = "hold", by: str = "QA", **more: Any
) -> str:
    said = {"step": "pull.lift", "role": "crew lead"} | more
    draft = draft_from({"kind": kind, "by": by, "values": said})
    return "; ".join(withheld(draft, WALK, WALK.stand(log.job), log.job, verdicts))


@pytest.mark.parametrize("verdict", ["within", "caution"])
def test_what_holds_is_released(verdict: str) -> None:
    assert held(Log(), {"lift": verdict, "gauge": verdict, "pressure": verdict}) == ""


@pytest.mark.parametrize("name", ["lift", "gauge"])
def test_a_stop_on_lift_or_gauge_is_never_passed(name: str) -> None:
    log = Log()
    log.write("check_passed", step="pull.lift", check="lift, gauge", **WHY)
    said = held(log, {name: "stop"}, **WHY)

    assert said.startswith(f"STOP: {name}")
    assert held(log, {name: "stop"}, "passed_over", **WHY) == said
    assert held(log, {name: "stop"}, step="choose.setting").startswith("STOP") == (name == "lift")


@pytest.mark.parametrize(
    ("name", "verdict"), [("lift", "unknown"), ("gauge", "unknown"), ("pressure", "stop")]
)
def test_what_is_in_doubt_is_passed_by_name_first(name: str, verdict: str) -> None:
    log = Log()
    refused = f"{name} says {verdict}: go ahead by name first"
    assert refused in held(log, {name: verdict})
    assert refused in held(log, {name: verdict}, **WHY)

    log.write("check_passed", by="ZZ", step="pull.lift", check=name, **WHY)
    assert refused in held(log, {name: verdict})
    log.write("check_passed", step="pull.lift", check="draining", **WHY)
    assert refused in held(log, {name: verdict})
    log.write("check_passed", step="choose.setting", check=name, **WHY)
    assert refused in held(log, {name: verdict})
    struck = log.write("check_passed", by="qa", step="pull.lift", check=f"draining, {name}", **WHY)
    assert held(log, {name: verdict}) == ""
    log.strike(struck)
    assert refused in held(log, {name: verdict})


def test_a_check_passed_serves_one_release() -> None:
    log = Log()
    log.write("check_passed", step="pull.lift", check="lift", **WHY)
    log.write("hold", step="pull.lift", role="crew lead")

    assert "lift says unknown" in held(log, {"lift": "unknown"})


def test_a_check_that_the_step_does_not_wake_is_not_asked() -> None:
    assert held(Log(), {"draining": "unknown", "hose window": "stop"}) == ""


@pytest.mark.parametrize("name", ["pull.plain", "pull.joint", "no.such_step"])
def test_there_is_no_yes_to_what_is_no_hold_point(name: str) -> None:
    assert "no hold" in held(Log(), {}, step=name)


def test_there_is_no_yes_before_it_is_asked_for() -> None:
    log = Log()
    assert "not asked for" in held(log, {}, step="any_time.moved")
    log.write("arrival", rig_moved="yes")
    assert held(log, {}, step="any_time.moved") == ""


def test_there_is_no_yes_before_its_figures() -> None:
    walk = walk_of(
        start_up=step("start_up.level", f"hold = 13\n{RELEASE}\nrecords = 'level'\n"
                      "asks = ['water_level']\nmust = ['water_level']\n")
    )  # fmt: skip
    log, said = Log(), {"step": "start_up.level", "role": "crew lead"}
    hold = draft_from({"kind": "hold", "by": "QA", "values": said})
    found = withheld(hold, walk, walk.stand(log.job), log.job, {})
    assert found == ["its figures come first: depth to water"]

    log.write("level", step="start_up.level", water_level=160)
    assert withheld(hold, walk, walk.stand(log.job), log.job, {}) == []


def test_who_gives_it_is_asked_too() -> None:
    assert held(Log(), {}, role="helper") == "this hold is signed by crew lead, not by helper"


def test_a_step_is_passed_over_and_everything_else_is_written_whatever_the_checks_say() -> None:
    doubt = {"lift": "unknown", "gauge": "unknown", "pressure": "stop"}

    assert held(Log(), doubt, "passed_over", **WHY) == ""
    assert held(Log(), {"lift": "stop"}, "passed_over", step="pull.plain", **WHY) == ""
    assert held(Log(), {"lift": "stop"}, "stop_noted", check="lift", **WHY) == ""


def test_a_reading_that_says_stop_is_no_yes_to_its_hold_until_somebody_passes_it_by_name() -> None:
    walk = walk_of(
        set=step("set.joint", f"hold = 7\n{RELEASE}\nrecords = 'joint'\nrepeat = 'joints'\n"
                 "asks = ['joint_number', 'joint_length']\n"
                 "must = ['joint_number', 'joint_length']\n"
                 "fixed = { direction = 'in' }\n")
        + step("set.insulation", f"hold = 12\n{RELEASE}\nrecords = 'meter'\nrepeat = 'as needed'\n"
               "asks = ['insulation']\nmust = ['insulation']\nchecks = ['insulation']\n"
               "beside = 'set.joint'\n")
    )  # fmt: skip
    log, joint = Log(), walk.step("set.joint")

    def waits(verdict: str) -> list[str]:
        now = walk.stand(log.job)
        return [s.id for s in failing_beside(joint, now, log.job, {"insulation": verdict})]

    log.write("meter", step="set.insulation", insulation=0.2)
    assert waits("stop") == ["set.insulation"]
    assert waits("caution") == waits("within") == []

    log.write("check_passed", step="set.insulation", check="insulation", **WHY)
    assert waits("stop") == []

    log.write("meter", step="set.insulation", insulation=0.1)
    assert waits("stop") == ["set.insulation"], "a pass serves the reading before it"


def test_a_stop_that_nobody_passes_is_told_by_the_bar_and_offers_no_pass_by_name() -> None:
    walk = walk_of(
        pull=step("pull.joint", f"hold = 7\n{RELEASE}\nrecords = 'joint'\nrepeat = 'joints'\n"
                  "asks = ['joint_number', 'joint_length']\nmust = ['joint_number']\n"
                  "checks = ['lift', 'gauge', 'pressure']\nfixed = { direction = 'out' }\n")
    )  # fmt: skip
    joint, job = walk.step("pull.joint"), Log().job
    assert not fails(joint, job, {"lift": "stop", "gauge": "stop", "pressure": "within"})
    assert fails(joint, job, {"gauge": "stop", "pressure": "stop"})
