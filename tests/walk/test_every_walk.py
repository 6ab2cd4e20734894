"""Every walk the book comes with is complete, and can be walked from its first step to its last."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.quantities.definition import definition
from fieldbook.quantities.initials import INITIALS
from fieldbook.quantities.kinds import kinds
from fieldbook.walk.definition.loading import load, own_steps
from fieldbook.walk.definition.steps import LINES, PHASES, WORKS, Step
from fieldbook.walk.states import StepState
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log

WALKS = [(line, work) for line in LINES for work in WORKS]

# A check visit lifts nothing: the well is opened and the switch is locked for the meter, no more.
HOLDS = {
    "check": {2, 16, 17, 18},
    "pull": {*range(1, 8), 9, 16, 17, 18},
    "set": {*range(1, 8), *range(10, 19)},
    "pull and set": {*range(1, 8), *range(9, 19)},
}


def typed(name: str) -> Any:
    """Something a crew could have typed for a quantity."""
    quantity = definition(name)
    if name in INITIALS:
        return "ZZ"
    if quantity.dimension == "choice":
        return quantity.choices[0]
    if quantity.is_words:
        words = {"yes or no": "yes", "date": "2026-05-14", "time of day": "9:05", "file": "0" * 64}
        return words.get(quantity.dimension, "words")
    low, high = quantity.plausible or (1.0, 1.0)
    return round(high) if quantity.dimension == "count" else (low + high) / 2


def write(log: Log, step: Step) -> None:
    """Fill in the form of a step: what it must have, and what its kind needs."""
    kind = kinds()[step.records]
    names = {*step.must, *kind.needs} - {"step", *step.fixed}
    values = {name: typed(name) for name in names}
    note = "words" if kind.needs_note else ""
    log.write(step.records, step=step.id, note=note, **values | dict(step.fixed))


def finish(log: Log, step: Step) -> None:
    """Do all that a step asks for."""
    if step.records != "done" or step.hold is None:
        write(log, step)
    if step.repeat:
        log.write("done", step=step.id)
    elif step.hold is not None:
        witness = {"witness": "JB"} if step.witness else {}
        log.write("hold", step=step.id, role=step.release[0], **witness)


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_every_hold_point_that_applies_is_there(line: str, work: str) -> None:
    """TRADE.md A0; HP8 is the plug of the riser hose."""
    wanted = HOLDS[work] | ({8} if line == "hose" and "pull" in work else set())
    found = {step.hold for step in load(line, work).steps if step.when != "string lost"}

    assert wanted == found - {None}


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", ["set", "pull and set"])
def test_a_lost_string_leaves_the_well_sealed_the_lock_off_and_the_record_whole(
    line: str, work: str
) -> None:
    log = Log()
    log.write("finding", part="string", finding="load gone", string_state="lost")
    holds = {hold.hold for hold in load(line, work).stand(log.job).open_holds}

    assert {16, 17, 18} <= holds
    assert not {10, 13, 14} & holds


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_the_phases_are_those_of_the_work(line: str, work: str) -> None:
    without = {
        "check": {"ready", "pull", "inspect", "choose", "set", "start_up"},
        "pull": {"choose", "set", "start_up"},
        "set": {"pull", "inspect"},
        "pull and set": set(),
    }

    assert [phase for phase in PHASES if phase not in without[work]] == list(
        load(line, work).phases
    )


def stuck(walk: Walk, log: Log) -> Step | None:
    """Do step after step until none is left; the step that does not finish, if one does not."""
    for _ in range(len(walk.steps) + 1):
        current = walk.stand(log.job).current
        if current is None:
            return None
        finish(log, current)
        if walk.stand(log.job).states[current.id] is not StepState.DONE:
            return current
    return walk.stand(log.job).current


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_every_step_can_be_done_and_the_walk_ends(line: str, work: str) -> None:
    walk = load(line, work)
    log = Log()

    assert stuck(walk, log) is None
    stand = walk.stand(log.job)
    assert all(progress.done == progress.total > 0 for progress in stand.progress)
    assert () == stand.open_holds == stand.passed_by_name


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_what_is_opened_any_time_can_be_written(line: str, work: str) -> None:
    for step in load(line, work).any_time:
        log = Log()
        write(log, step)
        assert log.job.last(step.records) is not None


@pytest.mark.parametrize(("line", "work"), WALKS)
def test_passing_everything_over_in_silence_leaves_every_hold_shut(line: str, work: str) -> None:
    walk = load(line, work)
    log = Log()
    for step in walk.steps:
        log.write("passed_over", step=step.id, reason="in a hurry")
        log.write("done", step=step.id)
    stand = walk.stand(log.job)
    holds = {step for step in stand.steps if step.hold is not None}

    assert holds == set(stand.open_holds)
    assert stand.current in holds


def test_what_differs_by_line_is_really_different() -> None:
    """The same step on another line says something else, or it would be one step."""
    variants: dict[str, list[Step]] = {}
    for step in own_steps():
        variants.setdefault(step.id, []).append(step)
    for name, steps in variants.items():
        texts = [(step.do, step.caution, step.asks, step.when, step.hold) for step in steps]
        assert len(set(texts)) == len(texts), name


def test_every_step_that_measures_in_the_rig_wakes_a_check() -> None:
    for step in own_steps():
        if step.records in ("joint", "footage", "load", "drain"):
            assert step.checks, step.id


def test_every_hold_has_a_caution_or_a_figure() -> None:
    for step in own_steps():
        if step.hold is not None and step.hold <= 8:
            assert step.caution is not None, step.id
