"""What is written down afterwards is a record of a yes, never a witnessed one."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from fieldbook.quantities.admit import draft_from, problems
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.from_paper import Paper, from_paper, is_afterwards, marked, paper_problems
from fieldbook.walk.states import StepState
from tests.walk.logs import Log, step, walk_of

NOW = dt.datetime(2026, 5, 14, 15, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
PAPER = {"written_by": "LM", "written_on": "2026-05-14"}
HOLDS = walk_of(
    pull=step("pull.check", "hold = 4\nrelease = ['crew lead']")
    + step("pull.joint", "hold = 7\nrecords = 'joint'\nrepeat = 'joints'\nadopts = true\n"
           "asks = ['joint_number', 'joint_length']\nfixed = { direction = 'out' }")
)  # fmt: skip


def draft(kind: str = "note", **values: Any) -> Draft:
    return draft_from({"kind": kind, "by": "QA", "values": values, "note": "words"})


@pytest.mark.parametrize(
    ("kind", "said", "word"),
    [
        ("note", PAPER, "afterwards"),
        ("hold", PAPER | {"step": "pull.check"}, "afterwards, hold not witnessed"),
        ("pump_out", PAPER, "afterwards, hold not witnessed"),
        (
            "hold",
            {"step": "pull.check", "recorded": "afterwards"},
            "afterwards, hold not witnessed",
        ),
        ("note", {}, ""),
        ("hold", {"step": "pull.check", "recorded": "as it happened"}, "as it happened"),
    ],
)
def test_what_has_a_paper_is_marked(kind: str, said: dict[str, str], word: str) -> None:
    made = marked(draft(kind, **said))

    assert word == (made.values["recorded"].text if "recorded" in made.values else "")
    assert is_afterwards(made) == word.startswith("afterwards")


def test_an_entry_from_paper_says_who_wrote_it_when_and_who_put_it_in() -> None:
    paper = Paper("LM", "2026-05-14", "QA")
    made = from_paper(Draft("hold", "LM"), paper, plain_value("09:05"))
    own = from_paper(Draft("note", "qa"), paper)

    assert {name: value.text for name, value in made.values.items()} == PAPER | {
        "written_at": "09:05",
        "entered_by": "QA",
        "recorded": "afterwards, hold not witnessed",
    }
    assert {"written_by", "written_on", "recorded"} == set(own.values)
    assert from_paper(Draft("strike", "QA"), paper) == Draft("strike", "QA")


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ({}, ""),
        (PAPER, ""),
        (PAPER | {"written_at": "14:59"}, ""),
        (PAPER | {"written_at": "15:01"}, "has not come yet"),
        (PAPER | {"written_on": "2026-05-15"}, "has not come yet"),
        ({"written_by": "LM"}, "day of the paper is needed"),
        ({"written_on": "2026-05-14"}, "who wrote the paper is needed"),
        ({"written_at": "9:05"}, "who wrote the paper is needed; the day of the paper is needed"),
        (PAPER | {"recorded": "as it happened"}, "not recorded as it happened"),
    ],
)
def test_what_a_paper_cannot_say(said: dict[str, str], says: str) -> None:
    found = "; ".join(paper_problems(draft(**said), NOW))

    assert says in found
    assert bool(says) == bool(found)


def test_no_paper_strikes_seals_or_attaches() -> None:
    assert "done now" in paper_problems(Draft("seal", "QA", draft(**PAPER).values), NOW)[0]
    assert Paper("LM", "2026-05-15", "QA").problems(NOW)
    assert not Paper("LM", "2026-05-13", "QA").problems(NOW)


def test_a_hold_from_paper_lets_the_walk_go_on_and_stays_shown_as_not_witnessed() -> None:
    log = Log()
    log.write("hold", step="pull.check", role="crew lead", **PAPER)
    stand = HOLDS.stand(log.job)
    assert StepState.NOT_WITNESSED is stand.states["pull.check"]
    assert not stand.states["pull.check"].is_open
    assert ["pull.check"] == [s.id for s in stand.not_witnessed]
    assert 1 == stand.unwitnessed

    log.write("hold", step="pull.check", role="crew lead")
    stand = HOLDS.stand(log.job)
    assert StepState.DONE is stand.states["pull.check"]
    assert (0, ()) == (stand.unwitnessed, stand.not_witnessed)


def test_a_hold_from_paper_by_somebody_who_may_not_releases_nothing() -> None:
    log = Log()
    log.write("hold", step="pull.check", role="helper", **PAPER)

    assert StepState.HELD is HOLDS.stand(log.job).states["pull.check"]
    assert 0 == HOLDS.stand(log.job).unwitnessed


def test_a_joint_from_paper_is_no_witnessed_yes_however_it_came_in() -> None:
    log = Log()
    log.write("hold", step="pull.check", role="crew lead")
    out: dict[str, Any] = {"direction": "out", "joint_length": 21}
    log.write("joint", joint_number=1, step="pull.joint", **out)
    log.write("joint", joint_number=2, **out, **PAPER)  # names no step, as a script writes it
    paper = log.write("joint", joint_number=3, step="pull.joint", recorded="afterwards", **out)
    assert 2 == HOLDS.stand(log.job).unwitnessed
    assert StepState.UNDER_WAY is HOLDS.stand(log.job).states["pull.joint"]

    log.write("done", step="pull.joint", **PAPER)
    assert StepState.NOT_WITNESSED is HOLDS.stand(log.job).states["pull.joint"]
    assert 2 == HOLDS.stand(log.job).unwitnessed
    log.strike(paper)
    assert 1 == HOLDS.stand(log.job).unwitnessed


def test_every_kind_that_a_step_makes_can_come_from_paper() -> None:
    paper = Paper("LM", "2026-05-14", "QA")
    for each in load("steel", "pull and set").steps:
        made = from_paper(Draft(each.records, "QA"), paper, plain_value("09:05"))
        foreign = [p for p in problems(made) if "belong" in p]
        assert foreign == []
