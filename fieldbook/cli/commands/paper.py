"""`fieldbook paper`: the walk on paper, for the day the laptop dies."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.opening import load_walk, read_job, walk_of
from fieldbook.cli.streams import say
from fieldbook.gear.emergency import load_numbers
from fieldbook.gear.item import BadGear
from fieldbook.office.paper.paper import paper_form
from fieldbook.office.paper.paper_limits import NO_LIMITS, limits_of
from fieldbook.office.paper.paper_page import paper_page
from fieldbook.office.paper.paper_text import paper_text
from fieldbook.record.job import Job
from fieldbook.store.log.disk import write_whole
from fieldbook.watch.lift.trace import trace
from fieldbook.watch.watcher import Watcher

if TYPE_CHECKING:
    import argparse

    from fieldbook.office.paper.paper import PaperForm

_MOST_JOINTS = 200


def paper(given: argparse.Namespace) -> int:
    """Write the form of a job, or an empty one of a line and a work."""
    if given.joints is not None and not 0 < given.joints <= _MOST_JOINTS:
        raise CannotGoOn(f"--joints takes a number from 1 to {_MOST_JOINTS}")
    form = _of_job(given) if given.job is not None else _empty(given)
    _look_at_numbers(given)
    text = paper_text(form) if given.text else paper_page(form)
    if given.out is None:
        sys.stdout.flush()
        sys.stdout.buffer.write(text.encode("utf-8"))  # as the page says of itself
        return 0
    try:
        write_whole(given.out, text.encode("utf-8"))
    except OSError as error:
        raise CannotGoOn(f"cannot write {given.out}: {error.strerror or error}") from error
    print(given.out)
    return 0


def _of_job(given: argparse.Namespace) -> PaperForm:
    if given.line or given.work:
        raise CannotGoOn("give a job, or --line and --work, not both")
    job = read_job(given, given.job)
    look = Watcher(job).look()
    return paper_form(
        load_walk(given, job),
        job,
        limits=limits_of(job, look),
        trace=trace(job, look),
        joints=given.joints,
        metric=_metric(given),
    )


def _empty(given: argparse.Namespace) -> PaperForm:
    if not (given.line and given.work):
        raise CannotGoOn("give a job number, or --line and --work")
    return paper_form(
        walk_of(given, given.line, given.work),
        Job(),
        limits=NO_LIMITS,
        trace=None,
        joints=given.joints,
        metric=_metric(given),
    )


def _look_at_numbers(given: argparse.Namespace) -> None:
    """Tell of numbers that the emergency card, which goes with the form, could not show either."""
    try:
        load_numbers(home_of(given).emergency_file)
    except BadGear as problem:
        say(f"{problem}; the emergency card shows none of the company's numbers")


def _metric(given: argparse.Namespace) -> bool:
    return home_of(given).settings.units == "metric"
