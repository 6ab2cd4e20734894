"""A plan never says that all is well while the lift of what hangs is a stop."""

from __future__ import annotations

import pytest

from calc.check import Verdict
from fieldbook.watch.planner.document import plan_document
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.planner.words import heading
from tests.watch.attempt_jobs import BASES
from tests.watch.jobs import job_of, record, says


@pytest.mark.parametrize("line", BASES)
def test_a_gauge_over_its_limit_stands_first_in_the_plan(line: str) -> None:
    job = job_of(*BASES[line], says("setting", datum="top of casing", setting_depth="300 ft"))
    assert plan(job).stopped is None
    record(job, says("load", gauge_reading=2900))
    found = plan(job)
    own = [row for row in found.rows if row.candidate.hangs]

    assert found.stopped is not None
    assert [row.verdict for row in own] == [Verdict.STOP]
    assert next(iter(heading(found)))[0] == "The lift now"
    assert plan_document(found)["lift_now"]["verdict"] == "stop"
