"""A job on a real disk, with a clock that ticks a minute at each look."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft
from fieldbook.store.book import Book
from fieldbook.store.home import Home
from fieldbook.store.shelf import Shelf

Clock = Callable[[], dt.datetime]


@pytest.fixture
def clock() -> Clock:
    start = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
    minutes = itertools.count()
    return lambda: start + dt.timedelta(minutes=next(minutes))


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path / "home")


def opening(number: str = "26-1") -> Draft:
    values = {"job_number": number, "line": "steel", "work": "pull"}
    return draft_from({"kind": "job", "by": "QA", "values": values})


def note(words: str) -> Draft:
    return draft_from({"kind": "note", "by": "QA", "note": words})


@pytest.fixture
def folder(home: Home, clock: Clock) -> Path:
    return Shelf(home).create(opening(), clock=clock)


@pytest.fixture
def book(folder: Path, home: Home, clock: Clock) -> Iterator[Book]:
    with Book.open(folder, home.device_id(), clock=clock) as opened:
        yield opened
