"""(d): every figure that a step asks is read by a check, or said to be for the record alone."""

from __future__ import annotations

from functools import cache

from fieldbook.office.samples import sample_names
from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import LINES, WORKS
from fieldbook.walk.withheld import withheld
from fieldbook.watch.watcher import Watcher
from tests.proof.changed import MOMENTS, at_moment
from tests.proof.reading import Read, noting
from tests.proof.surfaces import planned, walk_of
from tests.watch.attempts import attempts, documents_of
from tests.watch.jobs import job_of


@cache
def asked() -> frozenset[str]:
    """Every number that any step of any walk asks."""
    steps = (step for line in LINES for work in WORKS for step in load(line, work).steps)
    names = (name for step in steps for name in step.asks)
    return frozenset(name for name in names if not definition(name).is_words)


@cache
def read() -> frozenset[str]:
    """Every number that a check, the planner or the rule of the holds reads, in any job we have."""
    found: Read = set()
    for name in sample_names():
        for moment in MOMENTS:
            judge(noting(at_moment(name, moment), found))
        planned(noting(at_moment(name, "whole"), found))
    for attempt in attempts():
        if attempt.item in (1, 2, 5, 6, 11):
            judge(noting(job_of(*documents_of(attempt)).entries, found))
    return frozenset(name for _, name in found if not definition(name).is_words)


def judge(job: Job) -> None:
    """Ask every check, and every hold point of the walk for its yes."""
    look = Watcher(job).look()
    assert look.telling
    walk = walk_of(job)
    stand = walk.stand(job)
    verdicts = {check.name: check.verdict.value for check in look.checks}
    for step in walk.steps:
        if step.hold is not None:
            yes = next((e for e in job.live("hold") if e.text("step") == step.id), None)
            values = yes.values if yes is not None else {}
            draft = Draft("hold", "QA", dict(values) | {"step": plain_value(step.id)})
            withheld(draft, walk, stand, job, verdicts)


def test_every_figure_that_a_step_asks_is_read_or_is_for_the_record_alone() -> None:
    unread = {name for name in asked() - read() if not definition(name).record}

    assert unread == set()


def test_nothing_is_for_the_record_alone_that_a_check_reads_or_no_step_asks() -> None:
    kept = {each.name for each in definitions().values() if each.record}

    assert kept & read() == set()
    assert kept - asked() == set()
    assert all(len(definition(name).record.split()) > 1 for name in kept)
