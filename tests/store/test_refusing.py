"""What could not be read back is refused before anything is written."""

from __future__ import annotations

import datetime as dt
import errno
from pathlib import Path

import pytest

from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.store.job.book import Book
from fieldbook.store.job.lock import Hold
from fieldbook.store.log import line
from fieldbook.store.log.disk import DISK
from tests.store.conftest import note


@pytest.mark.parametrize(
    "draft",
    [
        Draft("note", "QA", note="half a pair \ud83d"),
        Draft("note", "Q\udc80", note="x"),
        Draft("load", "QA", {"gauge_reading": Value("5", float("nan"), "lbf")}),
        Draft("load", "QA", {"gauge_reading": Value("\ud800", 5.0, "lbf")}),
        Draft("strike", "QA", {"reason": Value("x")}, strikes="not an id"),
    ],
)
def test_what_cannot_be_read_back_is_refused(book: Book, draft: Draft) -> None:
    before = {path: path.read_bytes() for path in book.folder.glob("*.jsonl")}
    with pytest.raises(Refused):
        book.record(draft)

    assert {path: path.read_bytes() for path in book.folder.glob("*.jsonl")} == before
    assert book.record(note("fine")).note == "fine"


def test_a_line_longer_than_is_read_is_refused(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(line, "LONGEST", 600)
    with pytest.raises(Refused, match="more than fits"):
        book.record(note("x" * 600))
    assert book.record(note("fine")).note == "fine"


def test_the_longest_entry_there_can_be_is_taken_and_read_back(book: Book, folder: Path) -> None:
    saved = book.record(Draft("note", "Q" * 4, note="\U0001f9f0" * 4000))
    book.close()
    with Book.open(folder, "", write=False) as again:
        assert again.job.get(saved.id) == saved
        assert again.reports == []


def test_every_origin_and_any_number_comes_back_as_it_was(book: Book, folder: Path) -> None:
    drafts = [
        Draft("load", "QA", {"gauge_reading": Value("x", number, "lbf", origin)})
        for origin in Origin
        for number in (0.1, 742.0, 1e-9, 5)
    ]
    saved = [book.record(draft) for draft in drafts]
    book.close()
    with Book.open(folder, "", write=False) as again:
        assert list(again.job.entries)[1:] == saved


def test_a_file_system_that_cannot_lock_or_sync_a_folder_is_told_or_borne(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_such_call(*_: object) -> None:
        raise OSError(errno.EINVAL, "no such call")

    monkeypatch.setattr("os.fsync", no_such_call)
    DISK.sync_folder(folder)  # a folder that cannot be synced is as good as it gets
    monkeypatch.undo()

    def cannot(*_: object, **__: object) -> None:
        raise NotImplementedError

    monkeypatch.setattr("filelock.FileLock.acquire", cannot)
    with pytest.raises(OSError, match="cannot lock"):
        Hold(folder, "d-x").take(dt.datetime.now(dt.UTC))
    with Book.open(folder, "d-x") as read_only:
        assert "cannot lock" in str(read_only.holder)


@pytest.mark.parametrize("left", [b"", b"[", b"[1]", b'{"process":1}', b"\xff" * 9000])
def test_a_spoiled_note_of_the_holder_is_borne(book: Book, left: bytes) -> None:
    next(book.folder.glob(".*.holder")).write_bytes(left)
    with Book.open(book.folder, book.device) as second:
        assert second.holder == "held by another program; close it there first"
