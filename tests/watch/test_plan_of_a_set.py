"""A plan says the same of a line whatever the work is, also on a job that only sets."""

from __future__ import annotations

import re

import pytest

from fieldbook.record.job import Job
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.planner.words import cells, details
from fieldbook.watch.state.position import intake_depth, moment
from fieldbook.watch.state.string import string_record
from tests.watch.jobs import job_of, says, with_value
from tests.watch.plans import HOSE_PLAN, STEEL_PLAN

_ABOVE_GROUND = says("well", datum="ground", stick_up="1.8 ft")
"""The top of the string stands above the datum: an intake of no line at all was at -0.3 ft."""


def work(documents: tuple[dict[str, object], ...], what: str) -> Job:
    return with_value((*documents, _ABOVE_GROUND), "job", "work", what)


@pytest.mark.parametrize("documents", [STEEL_PLAN, HOSE_PLAN], ids=["steel", "hose"])
@pytest.mark.parametrize("what", ["set", "pull and set", "check"])
def test_each_line_goes_as_deep_on_every_work(
    documents: tuple[dict[str, object], ...], what: str
) -> None:
    asked = plan(work(documents, what))
    pulled = plan(work(documents, "pull"))

    assert [cells(row) for row in asked.rows] == [cells(row) for row in pulled.rows]
    assert [list(details(asked, row)) for row in asked.rows] == [
        list(details(pulled, row)) for row in pulled.rows
    ]


def test_the_deepest_of_a_set_is_a_depth() -> None:
    found = plan(work(STEEL_PLAN, "set"), only=["steel 2 sch 40"])

    (row,) = found.rows
    told = cells(row)
    assert int(told[1].replace(",", "")) > 300
    shown = " ".join([*told, *(words for _, words in details(found, row))])
    assert not re.search(r"-0(\.0+)?(?![.\d])", shown)


def test_no_intake_hangs_before_the_first_joint_is_in() -> None:
    job = job_of(*STEEL_PLAN, says("job", job_number="S-1", line="steel", work="set"))

    assert intake_depth(job, moment(job, string_record(job))) == (None, ("a string that hangs",))
