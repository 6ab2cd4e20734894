"""Jobs on a scratch shelf, brought to the step that a test begins at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home, Settings
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import Step
from tests.store.unsynced import unsynced

_START = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
_SETTLED: dict[tuple[str, str], list[Draft]] = {}


def ticking(day: dt.date = dt.date(2026, 5, 14)) -> Iterator[dt.datetime]:
    """A clock that goes on by a minute each time it is read, from the morning of a day."""
    now = dt.datetime.combine(day, _START.timetz())
    while True:
        yield now
        now += dt.timedelta(minutes=1)


def scratch_home(path: Path, *, initials: str = "QA") -> Home:
    """A home whose first start is over."""
    home = Home(path)
    home.keep(Settings(initials=initials, safety_seen=True))
    return home


def put_job(
    home: Home, documents: Iterable[dict[str, Any]], *, before: str = "", day: str = ""
) -> Path:
    """Record `documents` as a job, then everything that the walk asks for before a step."""
    clock = ticking(dt.date.fromisoformat(day) if day else _START.date())
    said = list(documents)
    opening, *rest = [draft_from(document) for document in said]
    with unsynced():
        folder = Shelf(home).create(opening, clock=lambda: next(clock))
        with Book.open(folder, home.device_id(), clock=lambda: next(clock)) as book:
            for draft in rest:
                book.record(draft)
            if before:
                _walk_to(book, before, repr(said))
    return folder


def _walk_to(book: Book, target: str, said: str) -> None:
    """Settle the steps before `target`; which these are is found out once for what was said."""
    settled = _SETTLED.get((said, target))
    if settled is not None:
        for draft in settled:
            book.record(draft)
        return
    settled = []
    walk = load(book.job.text("job", "line"), book.job.text("job", "work"))
    while (step := walk.stand(book.job).current) is not None and step.id != target:
        settled.append(draft_from(_settled(step)))
        book.record(settled[-1])
    assert step is not None, f"the walk has no {target} ahead"
    _SETTLED[said, target] = settled


def _settled(step: Step) -> dict[str, Any]:
    """An entry that settles a step without its figures."""
    said = {"step": step.id, "reason": "as on the sheet of the last crew"}
    if step.hold is not None:
        said["relies_on"] = "the crew lead was there"
    return {"kind": "passed_over", "by": "QA", "values": said}


def job_in(folder: Path) -> Job:
    """The job as it is on disk."""
    with Book.open(folder, "", write=False) as book:
        return book.job
