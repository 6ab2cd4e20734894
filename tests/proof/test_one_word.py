"""(e): the verdict of a lift and the reading never to pass are the same wherever they stand."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from contextlib import redirect_stdout
from typing import Any

import pytest

from calc.check import Verdict, worst
from fieldbook.app.panels import big_figures, limits_panel
from fieldbook.cli.printing import print_lift, print_watch
from fieldbook.office.paper.lift_paper import lift_paper
from fieldbook.office.paper.paper_limits import limits_of
from fieldbook.office.samples import sample_names
from fieldbook.quantities.convert import show
from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.watch.document import look_document
from fieldbook.watch.lift.answer import lift_answer
from fieldbook.watch.lift.trace import trace, trace_words
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.planner.trial import LIFTED, PATH, PRESSURE
from fieldbook.watch.state.position import intake_depth
from fieldbook.watch.watcher import Look, Watcher
from tests.proof.changed import MOMENTS, at_moment, entry_of, value_of
from tests.verdict_words import code_of
from tests.watch.attempt_jobs import BASES
from tests.watch.jobs import job_of, record, says

CARD_HEAD = r"LIFT CARD.*\n.*\n"
READ = {"as it stands": None, "nothing": 0.0, "little": 60.0, "much": 9e4}
"""What is read of the gauge besides, lbf."""


def jobs(name: str) -> Iterator[tuple[str, Job]]:
    """A sample at every moment, as it stands and with one more reading."""
    for moment in MOMENTS:
        entries = at_moment(name, moment)
        for words, reading in READ.items():
            more: tuple[Entry, ...] = ()
            if reading is not None:
                said = {"gauge_reading": value_of("gauge_reading", reading)}
                more = (entry_of(entries, "load", said),)
            yield f"{moment}, {words}", Job((*entries, *more))


def text_of(tell: object, look: Look) -> str:
    out = io.StringIO()
    with redirect_stdout(out):
        tell(look)  # type: ignore[operator]
    return out.getvalue()


def found(pattern: str, text: str) -> str:
    match = re.search(pattern, text, re.MULTILINE)
    assert match is not None, f"{pattern!r} is not in:\n{text}"
    return match.group(1).lower()


def lift_words(job: Job, look: Look) -> dict[str, str]:
    """Where the verdict of the lift stands -> the word there."""
    document = look_document(look)
    paper = dict(limits_of(job, look))
    words = {
        "lift": code_of(text_of(print_lift, look)),
        "watch": code_of(text_of(print_watch, look), "^lift +"),
        "card": code_of(lift_paper(job, look, printed="today"), CARD_HEAD),
        "paper": code_of(paper["Lift check"]),
        "json": next(c["verdict"] for c in document["checks"] if c["name"] == "lift"),
        "holds": next(c.verdict.value for c in look.checks if c.name == "lift"),
    }
    if look.now.has_load:
        panel = "\n".join(str(line.text) for line in limits_panel._lift(look, None))
        words["walk"] = code_of(panel, r"(?:LIFT|load .*) (?=OK|caution|STOP|can't say)")
    return words


def never_words(job: Job, look: Look) -> dict[str, str]:
    """Where the reading never to pass stands -> the figure there, in whole lbf; "?" for none."""
    figure = r"(?:([\d,]+) lbf|unknown|can't say)"
    paper = dict(limits_of(job, look)).get("Stop at", "")
    screen = lift_answer(look).stop_at
    told = {
        "card": (r"STOP AT:? +" + figure, lift_paper(job, look, printed="today")),
        "paper": (f"STOP AT:? +(?:{figure})", paper),
        "screen": (f"STOP AT:? +(?:{figure})", screen),
        "lift": (f"stop at:? +(?:{figure})", text_of(print_lift, look)),
    }
    words = {}
    for where, (pattern, text) in told.items():
        if where in ("card", "paper", "screen") and not look.now.has_load:
            continue
        match = re.search(pattern, text, re.MULTILINE | re.IGNORECASE)
        assert match is not None, f"{where}: {pattern!r} is not in:\n{text}"
        words[where] = (match.group(1) or "?").replace(",", "")
    document = look_document(look)["gauge"]["never"]
    words["json"] = f"{document['value']:.0f}" if document is not None else "?"
    drawn = trace(job, look)
    words["trace"] = f"{drawn.never:.0f}" if drawn.never is not None else "?"
    if look.now.has_load:
        words["glance"] = big_figures._never(look).figure.replace(",", "")
        if not drawn.missing:
            match = re.search(r"stop at ([\d,]+)", trace_words(drawn, look.now))
            words["trace in words"] = match.group(1).replace(",", "") if match else "?"
    return words


@pytest.mark.parametrize("name", sample_names())
def test_the_verdict_of_a_lift_is_one_word_and_the_worst(name: str) -> None:
    for moment, job in jobs(name):
        look = Watcher(job).look()
        words = lift_words(job, look)
        gauge = next(check for check in look.checks if check.name == "gauge")
        links = [link.check for link in look.lift.links]

        assert len(set(words.values())) == 1, (moment, words)
        assert worst([*links, gauge, look.lift.check]).value == words["lift"], moment


@pytest.mark.parametrize("name", sample_names())
def test_the_reading_never_to_pass_is_one_figure(name: str) -> None:
    for moment, job in jobs(name):
        words = never_words(job, Watcher(job).look())

        assert len(set(words.values())) == 1, (moment, words)


WORSE: dict[str, list[dict[str, Any]]] = {
    "as written": [],
    "weak fitting": [says("piece", place=2, piece="check valve", piece_length=1, piece_weight=10,
                          fitting_rating=700)],
    "weak holding": [says("rig", holding_rating=900)],
    "no mast": [says("rig", mast_rating=1500, reel_pull=700)],
    "strong pump": [says("well", shut_off_head="900 ft")],
    "surface pressure": [says("well", surface_pressure="240 psi")],
    "heavy pump": [says("pump", pump_weight=900)],
}  # fmt: skip


@pytest.mark.parametrize("worse", WORSE)
@pytest.mark.parametrize("line", BASES)
def test_the_plan_of_what_hangs_says_what_the_checks_say(line: str, worse: str) -> None:
    more = [d for d in WORSE[worse] if d["kind"] != "piece"]
    weak = [d for d in WORSE[worse] if d["kind"] == "piece"]
    base = [d for d in BASES[line] if not (weak and d["values"].get("piece") == "check valve")]
    job = job_of(*base, *weak, *more)
    look = Watcher(job).look(drained=False)
    depth, _ = intake_depth(job, look.now)
    assert depth is not None
    record(job, says("setting", datum="top of casing", setting_depth=show(depth, "ft", 3)))
    rows = [row for row in plan(job).rows if row.candidate.hangs]
    assert len(rows) == 1
    assert rows[0].at is not None
    limits = rows[0].at.trial.limits
    links = worst([link.check for link in look.lift.links])
    pressure = next(check for check in look.checks if check.name == "pressure")

    assert worst([limits[LIFTED], limits[PATH]]) is links
    assert limits[PRESSURE].verdict is pressure.verdict
    assert rows[0].verdict is not Verdict.WITHIN or look.lift.check.verdict is Verdict.WITHIN
