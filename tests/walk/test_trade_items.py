"""No item of the job, from the first call to the closed file, is missing in the walk.

`trade_items.toml` lists the items of the trade by themselves; the walk is held to it.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import LINES, WORKS, Step
from tests.walk.logs import Log

_ITEMS: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "trade_items.toml").read_text(encoding="utf-8")
)["item"]
_CASES = [
    pytest.param(item, line, work, id=f"{item['what']}-{line}-{work}")
    for item in _ITEMS
    for line in item.get("lines", LINES)
    for work in item.get("works", WORKS)
]


def _steps(item: dict[str, Any], line: str, work: str) -> list[Step]:
    by_id = {step.id: step for step in load(line, work).steps}
    missing = [name for name in item["steps"] if name not in by_id]
    assert missing == []
    return [by_id[name] for name in item["steps"]]


@pytest.mark.parametrize(("item", "line", "work"), _CASES)
def test_the_walk_asks_and_says_what_the_trade_does(
    item: dict[str, Any], line: str, work: str
) -> None:
    steps = _steps(item, line, work)
    asked = {name for step in steps for name in (*step.asks, *step.fixed)}
    said = " ".join(
        f"{step.title} {step.do} {step.caution.text if step.caution else ''}" for step in steps
    ).lower()

    assert set(item.get("asks", ())) - asked == set()
    assert [words for words in item.get("says", ()) if words not in said] == []


def test_no_item_stands_without_something_to_hold_it_to() -> None:
    assert [item["what"] for item in _ITEMS if not (item.get("asks") or item.get("says"))] == []


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", WORKS)
def test_what_is_asked_first_is_what_the_later_steps_lean_on(line: str, work: str) -> None:
    order = [step.id for step in load(line, work).steps]

    def comes_before(first: str, then: str) -> None:
        if first in order and then in order:
            assert order.index(first) < order.index(then), f"{first} before {then}"

    comes_before("test.running", "test.lockout")
    comes_before("test.flow", "test.deepest_level")
    comes_before("test.lockout", "test.windings")
    comes_before("test.lockout", "ready.wires")
    comes_before("ready.load_check", "ready.first_lift")
    comes_before("any_time.lost_stop", "any_time.lost_what")
    comes_before("any_time.lost_what", "any_time.lost_secured")
    comes_before("choose.bottom", "choose.setting")
    comes_before("close.runs_again", "close.sample")
    comes_before("choose.setting", "set.load_check")
    comes_before("choose.setting", "choose.line_plan")
    comes_before("start_up.first_start", "start_up.chlorine")
    comes_before("start_up.hanger", "start_up.chlorine")
    comes_before("start_up.line_test", "start_up.chlorine")
    comes_before("start_up.chlorine", "start_up.contact")
    comes_before("start_up.chlorine", "start_up.flush")
    comes_before("start_up.open", "start_up.first_start")
    comes_before("start_up.unlock", "start_up.first_start")
    comes_before("start_up.flush", "start_up.sample")
    comes_before("close.sign", "close.record")
    assert order.index("arrive.right_well") < order.index("test.lockout")


@pytest.mark.parametrize("line", LINES)
def test_what_is_read_more_than_once_has_room_for_each_reading(line: str) -> None:
    """Levels while it draws down, amps at 15 minutes and at the end, leads at each place."""
    walk = load(line, "pull and set")

    for name in ("test.flow", "start_up.levels", "start_up.amps", "start_up.leads_rolled"):
        assert walk.step(name).repeat, name


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", WORKS)
def test_every_step_tells_its_source(line: str, work: str) -> None:
    for step in load(line, work).steps:
        assert step.source.strip(), step.id


def test_the_habit_of_depth_is_told_as_a_habit() -> None:
    told = [
        step
        for step in load("pvc", "pull and set").steps
        if step.caution is not None and "500 ft" in step.caution.text
    ]

    assert [step.id for step in told] == ["plan.string", "choose.string"]
    for step in told:
        assert step.caution is not None
        assert "never a rating" in step.caution.text
        assert "common practice" in step.source


@pytest.mark.parametrize("line", ["steel", "hose"])
def test_the_habit_of_depth_is_for_pvc_alone(line: str) -> None:
    said = [step.caution.text for step in load(line, "pull and set").steps if step.caution]

    assert not any("habit" in text for text in said)


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", ["pull", "set", "pull and set"])
def test_gear_of_another_line_is_not_spoken_of(line: str, work: str) -> None:
    foreign = {
        "pvc": ("reel", "drain plug", "elevator"),
        "steel": ("reel", "drain plug", "strap wrench"),
        "hose": ("joint by joint", "elevator", "pipe wrench", "pup"),
    }[line]
    for step in load(line, work).steps:
        if step.phase == "any_time":
            continue
        words = f"{step.title} {step.do} {step.caution.text if step.caution else ''}".lower()
        found = [word for word in foreign if f" {word}" in f" {words}"]
        assert found == [], f"{step.id}: {found}"


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", ["pull", "set", "pull and set"])
def test_what_can_kill_is_checked_where_it_is_released(line: str, work: str) -> None:
    """TRADE.md A0: HP1 leans on the power lines, HP4 and HP6 on the lift and the gauge."""
    leans = {1: {"power lines"}, 4: {"lift", "gauge"}, 6: {"lift", "gauge"}}
    for step in load(line, work).steps:
        assert leans.get(step.hold or 0, set()) <= set(step.checks), step.id


_PARTED = (
    "part the leads",
    "part them",
    "part the rest",
    "cut the splice",
    "swap two",
    "one place",
)


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", WORKS)
def test_no_wire_is_parted_or_moved_before_it_is_tagged_and_photographed(
    line: str, work: str
) -> None:
    """On every kind of job, and in the step itself or in one of its way to it that it names."""
    walk = load(line, work)
    parting = [s for s in walk.steps if any(words in s.do.lower() for words in _PARTED)]

    assert parting
    for step in parting:
        said = step.do.lower()
        by_way = walk.step("any_time.leads_moved").do.lower() if "say move leads" in said else said
        for word in ("tag", "photo"):
            assert word in by_way, step.id
            first = min(by_way.find(w) for w in _PARTED if w in by_way)
            assert by_way.find(word) < first, step.id


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", WORKS)
def test_leads_that_are_moved_ask_for_the_lock_and_a_dead_meter_again(line: str, work: str) -> None:
    walk, log = load(line, work), Log()
    lead_steps = ["any_time.lock_again", "any_time.leads_moved", "any_time.unlock_again"]
    asking = [s for s in walk.steps if "leads_to_move" in s.asks]
    assert asking
    log.write("meter", step=asking[-1].id, amps_a=7, leads_to_move="yes")
    stand = walk.stand(log.job)
    assert stand.current is not None
    assert stand.current.id == lead_steps[0]
    assert [s.id for s in stand.steps if s.when == "leads to move"] == lead_steps
    assert (stand.current.hold, walk.step(lead_steps[2]).hold) == (2, 17)

    dead: dict[str, Any] = {"lock_number": "8", "volts_after_lockout": 0}
    log.write("arrival", step=lead_steps[0], **dead)
    log.write("hold", step=lead_steps[0], role="tech")
    log.write("done", step=lead_steps[1])
    log.write("hold", by="ZZ", step=lead_steps[2], role="tech")
    assert walk.stand(log.job).current == walk.step(lead_steps[2]), "not by another"
    log.write("hold", step=lead_steps[2], role="tech")
    assert walk.stand(log.job).current not in [walk.step(name) for name in lead_steps]

    log.write("meter", step=asking[-1].id, amps_a=7, leads_to_move="yes")
    assert walk.stand(log.job).current == walk.step(lead_steps[0]), "at every change"
    log.write("meter", step=asking[-1].id, amps_a=7, leads_to_move="no")
    assert walk.stand(log.job).current not in [walk.step(name) for name in lead_steps]
