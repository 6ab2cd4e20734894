"""A job of which a log is there and not read: nothing is begun anew beside it."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import ReadOnly
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.logfile import LARGEST_LOG
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, ids, note, wrote

CANNOT = "is not read"


def too_large(log: Path) -> None:
    os.truncate(log, LARGEST_LOG + 1)


def linked(log: Path) -> None:
    away = log.with_name("away")
    log.rename(away)
    log.symlink_to(away)


def a_folder(log: Path) -> None:
    log.unlink()
    log.mkdir()


@pytest.mark.parametrize("spoil", [too_large, linked, a_folder])
@pytest.mark.parametrize("with_another", [False, True])
def test_while_an_own_log_is_not_read_nothing_is_recorded(
    folder: Path, home: Home, clock: Clock, tmp_path: Path, spoil: object, *, with_another: bool
) -> None:
    own = next(folder.glob("*-0001.jsonl"))
    if with_another:
        wrote(folder, "d-cab", note("theirs"), clock=clock)
    job_id = read_folder(folder).job_id
    kept = shutil.copy(own, tmp_path / "kept")
    assert callable(spoil)
    spoil(own)
    names = {path.name for path in folder.glob("*.jsonl")}
    with Book.open(folder, home.device_id(), clock=clock) as book:
        assert own.name in str(book.holder)
        assert CANNOT in str(book.holder)
        with pytest.raises(ReadOnly, match=CANNOT):
            book.record(note("x"))
    assert {path.name for path in folder.glob("*.jsonl")} == names

    if own.is_dir():
        own.rmdir()
    own.unlink(missing_ok=True)
    shutil.copy(kept, own)
    [saved] = wrote(folder, home.device_id(), note("goes on"), clock=clock)
    assert saved.id in ids(folder)
    assert read_folder(folder).job_id == job_id


def test_where_only_anothers_log_is_there_and_not_read_no_job_is_begun(
    folder: Path, clock: Clock
) -> None:
    linked(next(folder.glob("*-0001.jsonl")))
    with Book.open(folder, "d-cab", clock=clock) as book:
        assert CANNOT in str(book.holder)
    assert list(folder.glob("d-cab-*")) == []


def test_anothers_log_that_is_not_read_stops_nobody_where_the_job_is_known(
    folder: Path, home: Home, clock: Clock
) -> None:
    (folder / "d-cab-0001.jsonl").symlink_to(folder / "nowhere")
    [saved] = wrote(folder, home.device_id(), note("ours"), clock=clock)
    assert saved.seq == 2


def test_the_shelf_says_that_such_a_job_cannot_be_read(folder: Path, home: Home) -> None:
    too_large(next(folder.glob("*-0001.jsonl")))
    shelf = Shelf(home)
    [job] = shelf.jobs()
    assert job.job_number == "26-1"
    assert any("larger than" in problem.words for problem in job.problems)
    assert [bool(summary.get("passing")) for summary in shelf.index.documents()] == [True]
