"""Everything that is said of a job, asked for in this process: what no figure may break."""

from __future__ import annotations

import contextlib
import io
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.app.panels import big_figures, check_panel, limits_panel
from fieldbook.app.panels.well_drawing import well_of
from fieldbook.app.screens.lift_screen import _lines as lift_lines
from fieldbook.app.screens.load_path_text import chain
from fieldbook.app.screens.trace_plot import ticks
from fieldbook.app.shelf.job_status import job_status
from fieldbook.app.walk.position_text import whereabouts
from fieldbook.cli.printing import print_lift, print_watch
from fieldbook.office.export.everything import everything
from fieldbook.office.export.tables import TABLES, bill_table, events, table
from fieldbook.office.paper.lift_paper import lift_paper
from fieldbook.office.paper.paper import paper_form
from fieldbook.office.paper.paper_limits import limits_of
from fieldbook.office.paper.paper_page import paper_page
from fieldbook.office.paper.paper_text import paper_text
from fieldbook.office.sheet.context import SheetContext
from fieldbook.office.sheet.seal_status import SealStatus
from fieldbook.office.sheet.sheet import sheet
from fieldbook.walk.counts import counts
from fieldbook.walk.definition.loading import load
from fieldbook.watch.document import look_document
from fieldbook.watch.lift.trace import pull_trace, trace, trace_words
from fieldbook.watch.planner.candidates import candidates
from fieldbook.watch.planner.document import plan_document
from fieldbook.watch.planner.plan import Plan, plan
from fieldbook.watch.planner.words import cells, details, heading, supply_words
from fieldbook.watch.watcher import Look, Watcher

if TYPE_CHECKING:
    from fieldbook.record.job import Job
    from fieldbook.walk.walk import Walk

_LINES = ("pvc", "steel", "hose")


def walk_of(job: Job) -> Walk:
    """The walk that the job is on."""
    return load(job.text("job", "line"), job.text("job", "work"))


def watched(job: Job) -> Look:
    """`watch`, and every live check as JSON."""
    look = Watcher(job).look()
    look_document(look)
    with contextlib.redirect_stdout(io.StringIO()):
        print_watch(look)
    return look


def lifted(job: Job, look: Look) -> None:
    """`lift` in every case that can be asked for, on the terminal and on paper."""
    watcher = Watcher(job)
    asked = (look, watcher.look(drained=True), watcher.look(joints_out=1, drained=False))
    for each in asked:
        with contextlib.redirect_stdout(io.StringIO()):
            print_lift(each)
        lift_paper(job, each, printed="2026-05-14 12:00")


def shown(job: Job, look: Look) -> None:
    """What the panels of the walk, the lift screen, the trace and the shelf say."""
    stand = walk_of(job).stand(job)
    step = stand.current
    list(lift_lines(look, every=True))
    list(limits_panel._lifted(look, None, None))
    limits_panel._insulation(look, job, 31)
    if step is not None:
        list(check_panel._lines_of(look, job, step, short=False))
    for check in look.checks:
        check_panel._words(check)
        limits_panel._check(check, "", None)
    [row.text for row in chain(look.lift.links, read=look.readings.check, every=False)]
    big_figures._intake(job, look)
    big_figures._never(look)
    whereabouts(job, look, step)
    well_of(job, look, step)
    job_status(job)
    drawn = trace(job, look)
    trace_words(drawn, look.now)
    figures = [*drawn.full, *drawn.drained, *(lbf for _, lbf in drawn.read)]
    ticks(min(figures, default=0.0), max(figures, default=0.0))


def printed(job: Job, look: Look) -> None:
    """The form on paper, and the job file."""
    walk = walk_of(job)
    form = paper_form(
        walk, job, limits=limits_of(job, look), trace=trace(job, look), joints=None, metric=False
    )
    paper_text(form)
    paper_page(form)
    account = account_in_memory(job, look)
    sheet(account)
    everything(account, {})
    for name in TABLES:
        table(job, name)
    bill_table(job)
    events(job)


def account_in_memory(job: Job, look: Look) -> SheetContext:
    """What the job file is told from, without a folder."""
    walk = walk_of(job)
    return SheetContext(
        folder=Path(),
        job=job,
        walk=walk,
        stand=walk.stand(job),
        look=look,
        trace=trace(job, look),
        pull_trace=pull_trace(job, look),
        counts=counts(job),
        seal=SealStatus(),
    )


def planned(job: Job) -> Plan:
    """`plan` with all its words, for one candidate of each line: the job's own where it is one."""
    only = []
    for line in _LINES:
        mine = [each for each in candidates(job) if each.line == line]
        chosen = next((each for each in mine if each.hangs), mine[0] if mine else None)
        only += [chosen.name] if chosen is not None else []
    found = plan(job, only=only)
    plan_document(found)
    heading(found)
    for row in found.rows:
        cells(row)
        list(details(found, row))
    if found.supply is not None:
        list(supply_words(found.supply))
    return found
