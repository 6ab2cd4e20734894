"""Whole jobs, from an empty shelf to the seal, walked in the app with keys and nothing else."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from fieldbook.office.samples import sample_lines, sample_names
from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft, Entry, Value
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.walk.definition.steps import LINES
from tests.amount import amount
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.hands import Clock, Hands
from tests.app.idle import unpainted

SMALL_ONES = {"26-163-pvc", "26-166-pvc"}
WALKED = amount(["26-127-steel", "26-131-hose", "26-166-pvc"], whole=sample_names())
"""One of each drop line, one of them on the small screen; in the long run every sample."""


def meant(value: Value) -> object:
    """A word, or a number in its unit, however it was typed."""
    return value.text if value.number is None else (value.number, value.unit)


def said(entry: Entry | Draft) -> tuple[Any, ...]:
    """What an entry says, figures as numbers in their unit, without when and where."""
    values = {name: meant(value) for name, value in entry.values.items()}
    return entry.kind, entry.by, values, entry.note if entry.kind != "seal" else ""


def test_one_of_each_line_is_walked() -> None:
    openings = [next(sample_lines(name)) for name in WALKED]
    for opening in openings:
        del opening["at"]

    assert {draft_from(opening).values["line"].text for opening in openings} == set(LINES)


@pytest.mark.long
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", WALKED)
async def test_a_whole_job_is_walked_by_keys(home: Home, name: str) -> None:
    lines = list(sample_lines(name, complete=True))
    times = [dt.datetime.fromisoformat(line.pop("at")) for line in lines]
    drafts = [draft_from(line) for line in lines]
    clock = Clock(times[0])
    size = SMALL if name in SMALL_ONES else LARGE
    async with at_the_keys(home, size, clock=clock.read) as crew:
        hands = Hands(crew)
        with unpainted():
            await hands.open_new(drafts[0])
            for time, draft in zip(times, drafts, strict=True):
                clock.time = time
                await hands.make(draft)
                crew.sees()  # what comes next can be drawn
        await crew.settle()
        crew.sees("Every step is done")
        folder = Shelf(home).find(drafts[0].values["job_number"].text)
        job = crew.job(folder)

    walked = [said(entry) for entry in job.entries if entry.kind != "job"]
    assert walked == [said(draft) for draft in drafts if draft.kind != "job"]
    for draft in drafts:
        if draft.kind == "job":
            for quantity, value in draft.values.items():
                kept = job.value("job", quantity)
                assert quantity == "step" or (kept is not None and meant(kept) == meant(value))
