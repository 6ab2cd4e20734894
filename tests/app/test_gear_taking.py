"""Which step an item belongs to, what its form asks, and what its entry says."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from fieldbook.app.dialogs.gear_taking import question, step_for, taken
from fieldbook.gear.item import Item
from fieldbook.gear.reading import read_items
from fieldbook.quantities.admit import problems
from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import parse
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import Step
from tests.watch.jobs import job_of, says

TODAY = dt.date(2026, 5, 14)


def item(kind: str, figures: str, dates: str = "") -> Item:
    head = f'[[item]]\nid = "a"\ntitle = "A"\nkind = "{kind}"\norigin = "maker\'s sheet"\n'
    (made,) = read_items(f'{head}source = "sheet"\n{dates}\n[item.values]\n{figures}'.encode(), "a")
    return made


PIPE = item("piece", 'piece = "joint"\nnps = "2"\nschedule = "80"\ntension_rating = "900 lbf"')
VALVE = item("piece", 'piece = "check valve"\nfitting_rating = "3500 lbf"')
REEL = item("rig", 'hoist = "hose reel"\nreel_pull = "4000 lbf"')
PIN = item("gauge", 'gauge_place = "hook"', "calibrated = 2025-05-13")


def walk_of(line: str) -> tuple[Job, tuple[Step, ...]]:
    job = job_of(says("job", job_number="1", line=line, work="pull"))
    return job, load(line, "pull").stand(job).steps


def typed(**texts: str) -> dict[str, Value]:
    return {name: parse(text, definition(name)) for name, text in texts.items()}


@pytest.mark.parametrize(
    ("made", "line", "step"),
    [
        (PIPE, "pvc", "plan.string"),
        (PIPE, "steel", "plan.string"),
        (VALVE, "pvc", "plan.fittings"),
        (REEL, "hose", "plan.rig"),
        (REEL, "steel", None),
        (PIN, "hose", "plan.gauge"),
        (item("hose_sheet", "least_ph = 5"), "pvc", None),
        (item("limit", 'stop_load = "900 lbf"'), "pvc", "plan.limit"),
        (item("cable", 'cable_weight = "0.3 lbf/ft"'), "steel", "plan.cable"),
        (item("pump", 'pump_weight = "90 lbf"'), "steel", "plan.pump_size"),
    ],
)
def test_an_item_finds_the_step_that_asks_for_it(made: Item, line: str, step: str | None) -> None:
    found = step_for(made, None, walk_of(line)[1])

    assert (found.id if found is not None else None) == step


def test_pipe_asks_how_many_joints_and_says_what_the_sheet_says() -> None:
    job, steps = walk_of("pvc")
    step = step_for(PIPE, None, steps)
    assert step is not None
    asked = question(PIPE, step, job, TODAY)

    assert asked.must == ("place", "joint_count", "joint_length")
    assert dict(asked.texts) == {
        "place": "1", "piece": "joint", "nps": "2", "schedule": "80", "tension_rating": "900 lbf",
    }  # fmt: skip
    answer = typed(place="1", joint_count="18", joint_length="20 ft", piece="joint", nps="2",
                   schedule="80", tension_rating="900 lbf")  # fmt: skip
    values, note = taken(PIPE, step, job, answer)
    assert problems(Draft("piece", "QA", values, note)) == []
    assert values["tension_rating"].origin is Origin.MAKER
    assert values["joint_count"].origin is Origin.STATED
    assert note == "from the library, sheet"


def test_a_step_that_adopts_nothing_is_named_in_the_entry() -> None:
    job, steps = walk_of("steel")
    step = step_for(VALVE, None, steps)
    assert step is not None
    assert not step.adopts
    values, _ = taken(VALVE, step, job, typed(place="2", piece="check valve"))

    assert values["step"].text == "plan.fittings"


def test_a_figure_that_was_cleared_is_not_taken_and_is_named() -> None:
    job, steps = walk_of("hose")
    step = step_for(REEL, None, steps)
    assert step is not None
    values, note = taken(REEL, step, job, typed(hoist="hose reel"))

    assert "reel_pull" not in values
    assert note.endswith("otherwise here: reel pull rating")


@pytest.mark.parametrize(
    ("dates", "state", "words"),
    [
        ("calibrated = 2025-05-13", "caution", "calibration was due 2026-05-13"),
        ("calibrated = 2025-05-14", "", "calibration due 2026-05-14"),
        ("", "unknown", "no due date written"),
    ],
)
def test_the_form_says_how_the_dates_stand(dates: str, state: str, words: str) -> None:
    job, steps = walk_of("steel")
    made = item("gauge", 'gauge_place = "hook"', dates)
    step = step_for(made, None, steps)
    assert step is not None
    asked = question(made, step, job, TODAY)

    assert asked.state == state
    assert words in asked.words


def test_every_kind_of_item_may_be_recorded_as_it_stands() -> None:
    examples: list[tuple[Item, dict[str, Any]]] = [
        (PIPE, {"place": "1", "piece": "joint"}),
        (item("redirect", 'pulley_rating = "900 lbf"'), {"place": "1"}),
        (item("limit", 'stop_load = "900 lbf"'), {"stop_load": "900 lbf"}),
        (PIN, {"gauge_place": "hook", "calibrated": "2025-05-13"}),
    ]
    for made, texts in examples:
        job, steps = walk_of("pvc")
        step = step_for(made, None, steps)
        assert step is not None
        values, note = taken(made, step, job, typed(**texts))
        assert problems(Draft(made.kind, "QA", values, note)) == []
        assert values["library_item"].text == "A"
