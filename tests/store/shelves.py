"""Shelves of many small jobs, written quickly: nothing is synced, as nothing is cut off."""

from __future__ import annotations

import datetime as dt
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.unsynced import unsynced

FIRST = dt.datetime(2016, 1, 4, 8, 0, tzinfo=dt.UTC)
OWNERS = ("Sallow Farm", "Ketterby Orchards", "Quillmoor Dairy", "Town of Brackle", "M. Osgood")
CAUSES = ("hole in line", "cable chafe", "sand wear", "motor winding", "lightning")


def says(kind: str, note: str = "", **values: Any) -> Draft:
    return draft_from({"kind": kind, "by": "QA", "note": note, "values": values})


def many_jobs(home: Home, count: int, *, processes: int = 1) -> None:
    """Jobs of five owners on fifty wells, an hour apart, each with a pump, a level and a cause."""
    device = home.device_id()
    shares = [(home.path, device, range(at, count, processes)) for at in range(processes)]
    if processes == 1:
        _write(*shares[0])
        return
    with get_context("spawn").Pool(processes) as pool:
        pool.starmap(_write, shares)


def _write(path: Path, device: str, numbers: range) -> None:
    shelf = Shelf(Home(path))
    with unsynced():
        for number in numbers:
            time = FIRST + dt.timedelta(hours=number)
            drafts = _job(number)
            folder = shelf.create(drafts[0], clock=partial(_at, time))
            with Book.open(folder, device, clock=partial(_at, time)) as book:
                for draft in drafts[1:]:
                    book.record(draft)


def _at(time: dt.datetime) -> dt.datetime:
    return time


def _job(number: int) -> list[Draft]:
    owner, cause = OWNERS[number % 5], CAUSES[number % 7 % 5]
    well = number // 5 % 10 + 1
    return [
        says(
            "job",
            job_number=f"J-{number:05}",
            line="steel",
            work="pull",
            owner=owner,
            well_name=f"Well {well}",
            job_title=f"{owner}, well {well}",
        ),
        says("pump", pump_model=f"4 in, {12 + number % 6} stages"),
        says("level", water_level=f"{150 + number % 40} ft", level_state="static"),
        says("finding", part="cause", cause=cause, finding=f"seen on job {number}"),
        says("follow_up", note="look again", due="2026-05-15"),
    ]
