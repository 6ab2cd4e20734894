"""A job on a real disk, with a clock that ticks a minute at each look."""

from __future__ import annotations

import datetime as dt
import itertools
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf

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


@pytest.fixture
def cab(tmp_path: Path, folder: Path) -> Path:
    """The job as the cab has it."""
    return shutil.copytree(folder, tmp_path / "cab")


@pytest.fixture
def office(tmp_path: Path, folder: Path) -> Path:
    """The job as the office has it: the same so far."""
    return shutil.copytree(folder, tmp_path / "office")


def wrote(folder: Path, device: str, *drafts: Draft, clock: Clock) -> list[Entry]:
    with Book.open(folder, device, clock=clock) as book:
        assert book.holder is None
        return [book.record(draft) for draft in drafts]


def ids(folder: Path) -> set[str]:
    return {entry.id for entry in read_folder(folder).entries()}


def files(folder: Path) -> dict[str, bytes]:
    """Name and bytes of every file that is not a lock."""
    return {
        path.name: path.read_bytes() for path in folder.iterdir() if not path.name.startswith(".")
    }


def joint(number: int, direction: str = "out") -> Draft:
    values = {"direction": direction, "joint_number": number, "joint_length": "21 ft"}
    return draft_from({"kind": "joint", "by": "QA", "values": values})
