"""A power cut at every call to the disk, and every kind of rest it may leave: nothing is lost."""

from __future__ import annotations

import contextlib
import random
import shutil
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.amount import amount
from tests.store.conftest import note, opening
from tests.store.model_disk import ModelDisk, ProcessDied
from tests.store.unsynced import unsynced

RESTS = amount(3, whole=8)


@dataclass
class Told:
    """What the program said is saved, and what it may have been about to save."""

    in_truck: set[str] = field(default_factory=set)
    in_office: set[str] = field(default_factory=set)
    words: set[str] = field(default_factory=set)


def work(root: Path, told: Told, books: list[Book], name: str = "first") -> None:
    """A job begun, carried on, read again and brought to the office twice."""
    home = Home(root / "home")
    folder = home.jobs_folder / "26-1"
    if not folder.is_dir() or not any(read_folder(folder).entries()):
        Shelf(home).create(opening())
    told.in_truck |= {entry.id for entry in read_folder(folder).entries()}
    for round_ in ("a", "b"):
        book = Book.open(folder, home.device_id())
        books.append(book)
        told.in_truck |= {entry.id for entry in book.job.entries}
        for number in range(2):
            words = f"{name} {round_}{number}"
            told.words.add(words)
            told.in_truck.add(book.record(note(words)).id)
        book.close()
        merge_job(folder, root / "office" / "26-1")
        told.in_office |= told.in_truck


def let_go(books: list[Book]) -> None:
    """What the system does when a process dies: its locks and its files are free."""
    for book in books:
        book.close()


def check_rest(rest: Path, told: Told) -> None:
    for place, ids in (("home/jobs/26-1", told.in_truck), ("office/26-1", told.in_office)):
        folder = rest / place
        if not folder.is_dir():
            assert ids == set(), place
            continue
        found = {entry.id: entry for entry in read_folder(folder).entries()}
        assert ids <= found.keys(), place
        assert {entry.note for entry in found.values()} <= told.words | {""}
    folder = rest / "home/jobs/26-1"
    if folder.is_dir():
        with Book.open(folder, Home(rest / "home").device_id()) as book:
            saved = book.record(note("after the cut"))
        with Book.open(folder, "", write=False) as again:
            assert told.in_truck | {saved.id} <= {entry.id for entry in again.job.entries}


def open_only(root: Path, told: Told) -> None:
    """What a program that is started again shows as recorded must stay too."""
    folder = root / "home/jobs/26-1"
    if folder.is_dir() and any(read_folder(folder).entries()):
        with Book.open(folder, Home(root / "home").device_id()) as book:
            told.in_truck |= {entry.id for entry in book.job.entries}


def cut_at(call: int, root: Path, then: str) -> bool:
    """Die at a call, check what a power cut may leave; False when there is no such call."""
    told, books = Told(), list[Book]()
    real = root / "real"
    real.mkdir(parents=True)
    with pytest.MonkeyPatch.context() as patch:
        disk = ModelDisk(real, dies_at=call)
        disk.install(patch)
        try:
            work(real, told, books)
        except ProcessDied:
            pass
        else:
            return False
        let_go(books)
        disk.dies_at = None
        if then == "opened again":
            open_only(real, told)
        elif then == "worked on":
            work(real, told, books, "second")
        elif then == "died again":
            disk.dies_at = disk.calls + call
            with contextlib.suppress(ProcessDied):
                work(real, told, books, "second")
            let_go(books)
    for number in range(RESTS):
        rest = root / f"rest{number}"
        disk.after_a_cut(rest, random.Random(call * 1000 + number))
        with unsynced():  # no second cut comes
            check_rest(rest, told)
    shutil.rmtree(root)
    return True


@pytest.mark.parametrize("then", ["nothing", "opened again", "worked on", "died again"])
def test_a_cut_at_any_call_loses_nothing_that_was_told_saved(tmp_path: Path, then: str) -> None:
    call = 1
    while cut_at(call, tmp_path / f"call{call}", then):
        call += 1

    assert call > 60  # the work above does make that many calls


def test_the_model_does_lose_what_is_not_synced(tmp_path: Path) -> None:
    """The model itself can tell: without any sync, entries are lost."""
    told, books = Told(), list[Book]()
    with pytest.MonkeyPatch.context() as patch:
        disk = ModelDisk(tmp_path / "real")
        (tmp_path / "real").mkdir()
        disk.install(patch)
        patch.setattr("fieldbook.store.log.disk.DISK.sync", lambda _: None)
        work(tmp_path / "real", told, books)
    lost = 0
    for number in range(RESTS):
        rest = tmp_path / f"rest{number}"
        disk.after_a_cut(rest, random.Random(number))
        try:
            check_rest(rest, told)
        except (AssertionError, FileNotFoundError):
            lost += 1

    assert lost > 0
