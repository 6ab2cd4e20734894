"""The form on paper: every step and quantity of the walk, what the job says printed in."""

from __future__ import annotations

import html
import re
from typing import Any

import pytest

from fieldbook.office.paper.paper import PaperForm, paper_form
from fieldbook.office.paper.paper_limits import NO_LIMITS, limits_of
from fieldbook.office.paper.paper_page import paper_page
from fieldbook.office.paper.paper_text import paper_text
from fieldbook.quantities.definition import definition
from fieldbook.quantities.safety import SAFETY
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import LINES, WORKS
from fieldbook.watch.lift.trace import trace
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says

JOINT: dict[str, Any] = {"step": "pull.joint", "direction": "out", "joint_length": 20.98}


def empty(line: str, work: str, joints: int | None = None) -> PaperForm:
    return paper_form(
        load(line, work), Job(), limits=NO_LIMITS, trace=None, joints=joints, metric=False
    )


def filled(*more: dict[str, Any], joints: int | None = None, metric: bool = False) -> PaperForm:
    job = job_of(*STEEL, *more)
    look = Watcher(job).look()
    return paper_form(
        load("steel", "pull"),
        job,
        limits=limits_of(job, look),
        trace=trace(job, look),
        joints=joints,
        metric=metric,
    )


def words_of(page: str) -> str:
    """The text of a page, as a reader sees it."""
    body = page[page.index("<body") :]
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", body)).split())


def table_of(form: PaperForm, step: str) -> tuple[tuple[str, ...], ...]:
    (table,) = [t.table for _, tasks in form.parts for t in tasks if t.step.id == step]
    assert table is not None
    return table.rows


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("work", WORKS)
def test_an_empty_form_has_a_place_for_everything_that_the_walk_asks(line: str, work: str) -> None:
    form = empty(line, work)
    page = words_of(paper_page(form))
    text = " ".join(paper_text(form).split())
    for step in load(line, work).steps:
        for told in (page, text):
            assert step.title in told
            assert step.do in told
            for name in step.asks:
                assert definition(name).label in told, (step.id, name)
            if step.hold is not None:
                assert f"HOLD {step.hold}" in told
    for told in (page, text):
        assert all(words in told for words in SAFETY)
        assert "Stop at, on the gauge" in told
        assert "Weakest link" in told


def test_the_units_are_those_of_the_book() -> None:
    for form, unit in ((filled(), "Length, ft"), (filled(metric=True), "Length, m")):
        assert unit in words_of(paper_page(form))
        assert unit in paper_text(form)


def test_there_is_a_row_for_every_joint_that_is_said_or_in_the_string() -> None:
    assert len(table_of(filled(), "pull.joint")) == 18 + 2
    assert len(table_of(filled(joints=30), "pull.joint")) == 30 + 2
    assert len(table_of(empty("steel", "pull", joints=7), "pull.joint")) == 7 + 2
    assert len(table_of(empty("hose", "pull", joints=7), "pull.footage")) == 7 + 2
    assert [row[0] for row in table_of(filled(), "pull.joint")][:3] == ["1", "2", "3"]


def test_what_was_written_is_printed_in_and_the_rest_is_empty() -> None:
    form = filled(
        says("joint", **JOINT, joint_number=1, gauge_reading=900),
        says("joint", **JOINT, joint_number=2),
    )
    rows = table_of(form, "pull.joint")

    assert len(rows) == 18 + 2
    assert rows[0][:3] == ("1", "20.98 ft", "900 lbf")
    assert rows[0][-1] == "QA"
    assert rows[1][0] == "2"
    assert rows[2][:3] == ("3", "", "")
    assert rows[2][-2:] == ("", "")


def test_the_gauge_to_expect_stands_beside_each_joint_of_a_known_string() -> None:
    rows = table_of(filled(), "pull.joint")
    job = job_of(*STEEL)
    told = trace(job, Watcher(job).look())
    expected = [row[-4:-2] for row in rows]

    assert expected[0] == (f"{told.full[0]:,.0f}", f"{told.drained[0]:,.0f}")
    assert expected[17] == (f"{told.full[17]:,.0f}", f"{told.drained[17]:,.0f}")
    assert expected[18:] == [("", ""), ("", "")]
    full = [float(reading.replace(",", "")) for reading, _ in expected[:18]]
    assert full == sorted(full, reverse=True)


def test_limits_are_printed_or_said_to_be_unknown_with_what_is_missing() -> None:
    told = dict(filled().limits)
    assert told["Lift check"] == "OK TO LIFT"
    assert told["Stop at"] == "STOP AT 1,290 lbf on the gauge (yours)"
    assert "thread root" in told["Weakest link"]

    bare = job_of(*(document for document in STEEL if document["kind"] not in ("gauge", "rig")))
    told = dict(limits_of(bare, Watcher(bare).look()))
    assert told["Lift check"].startswith("CAN'T SAY: needs ")
    assert "Nothing is lifted on this" in told["Lift check"]
    assert told["Stop at"] == (
        "STOP AT 2,600 lbf on the gauge (yours); not checked: gauge place and 2 more"
    )
    assert told["Gauge should read, line full"] == "unknown"


def test_a_released_hold_says_who_and_an_open_one_has_a_place_for_initials() -> None:
    hold = says("hold", step="ready.rig_level", role="crew lead")
    before, after = (
        paper_text(form).partition("] Rig level and plumb")[2].partition("[")[0]
        for form in (filled(), filled(hold))
    )

    assert "HOLD 5, by crew lead:   initials ____" in before
    assert "HOLD 5 done: QA" in after
    assert "____" not in after


def test_text_of_people_is_text_on_the_page_and_on_a_plain_printer() -> None:
    nasty = '<script>alert("x")</script>\N{RIGHT-TO-LEFT OVERRIDE}\N{ESCAPE}[2J'
    form = filled(says("job", job_number="S-1", line="steel", work="pull", owner=nasty))
    page, text = paper_page(form), paper_text(form)

    assert "<script" not in page
    assert '<script>alert("x")</script>??[2J' in html.unescape(page)
    assert "\N{ESCAPE}" not in page + text
    assert text.isascii()


@pytest.mark.parametrize(("line", "work"), [("steel", "pull and set"), ("hose", "pull and set")])
def test_plain_text_keeps_to_the_width_of_paper(line: str, work: str) -> None:
    assert max(map(len, paper_text(empty(line, work)).splitlines())) <= 78


def test_the_page_fetches_and_runs_nothing() -> None:
    page = paper_page(filled())

    assert re.findall(r"\b(?:src|href)=|url\(", page) == []
    assert "<script" not in page
