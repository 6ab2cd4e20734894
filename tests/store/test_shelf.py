"""The shelf shows every job that is there, whatever state it is in."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, note, opening


def test_the_newest_saved_job_stands_first(home: Home, clock: Clock) -> None:
    shelf = Shelf(home)
    first = shelf.create(opening("26-1"), clock=clock)
    shelf.create(opening("26-2"), clock=clock)
    assert [job.job_number for job in shelf.jobs()] == ["26-2", "26-1"]

    with Book.open(first, home.device_id(), clock=clock) as book:
        book.record(note("later"))
        book.record(Draft("seal", "QA"))
    assert [(j.job_number, j.entries, j.sealed) for j in shelf.jobs()] == [
        ("26-1", 3, True),
        ("26-2", 1, False),
    ]


def test_a_job_is_only_opened_by_a_job_entry_that_says_enough(home: Home) -> None:
    with pytest.raises(Refused, match="kind 'job'"):
        Shelf(home).create(note("x"))
    with pytest.raises(Refused, match="needed"):
        Shelf(home).create(Draft("job", "QA"))

    assert not home.path.exists()


def test_a_start_that_was_cut_off_is_no_job_and_can_be_begun_again(home: Home) -> None:
    folder = Shelf(home).create(opening())
    log = next(folder.glob("*.jsonl"))
    whole = log.read_bytes()
    for cut in (0, 20, whole.index(b"\n") + 1, len(whole) - 1):
        log.write_bytes(whole[:cut])
        assert Shelf(home).jobs() == []
        Shelf(home).create(opening())
        assert [job.entries for job in Shelf(home).jobs()] == [1]
        assert [job.problems for job in Shelf(home).jobs()] == [()]


def test_a_damaged_job_stays_on_the_shelf_and_says_so(home: Home) -> None:
    folder = Shelf(home).create(opening())
    log = next(folder.glob("*.jsonl"))
    log.write_bytes(log.read_bytes().replace(b"steel", b"stael"))
    (listing,) = Shelf(home).jobs()

    assert listing.job_number == "26-1"
    assert listing.problems[0].damage
    with pytest.raises(Refused, match="on the shelf already"):
        Shelf(home).create(opening())


def test_a_job_that_cannot_be_read_stays_on_the_shelf_and_says_so(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = Shelf(home).create(opening())

    def fails(*_: object, **__: object) -> None:
        raise OSError(5, os.strerror(5))

    monkeypatch.setattr("fieldbook.store.shelf.shelving.Book.open", fails)
    (listing,) = Shelf(home).jobs()

    assert (listing.job_number, listing.entries) == (folder.name, 0)
    assert "cannot be read" in str(listing.problems[0])


def test_a_shelf_that_is_not_there_is_empty(tmp_path: Path) -> None:
    assert Shelf(Home(tmp_path / "nowhere")).jobs() == []


@pytest.mark.parametrize("number", ["CON", "con", "lpt1", "NUL"])
def test_no_folder_has_the_name_of_a_windows_device(home: Home, number: str) -> None:
    made = Shelf(home).create(opening(number))

    assert made.name == f"{number}_"
    assert Shelf(home).find(number) == made
