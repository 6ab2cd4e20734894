"""The note of who has the book: it is whole or as it was, and one that is lost is asked about."""

from __future__ import annotations

import errno
import itertools
import os
from pathlib import Path

import pytest

from fieldbook.store.job.book import Book
from fieldbook.store.job.lock import Hold
from tests.store.conftest import note
from tests.store.forging import DEVICE, TIME
from tests.store.test_unacknowledged import HOLDER, killed, left_undone, said


@pytest.mark.parametrize("left", [b"", b"\0" * 1024, b"[]", b'{"told": 3}', b'{"told": nul'])
def test_a_note_that_cannot_be_read_is_named_and_the_last_line_asked_about(
    tmp_path: Path, left: bytes
) -> None:
    """As after a power cut, or on a disk that was full."""
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("before"))
    (tmp_path / HOLDER).write_bytes(left)
    moment = Hold(tmp_path, DEVICE)
    assert moment.take()
    moment.release()
    for _ in range(2):
        with Book.open(tmp_path, DEVICE) as book:
            assert book.doubtful == book.job.entries[-1]
            assert [p.file for p in book.reports] == [HOLDER]
            assert "it is lost which line was last told as saved" in str(book.reports[0])
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("goes on"))
    with Book.open(tmp_path, DEVICE) as book:
        assert book.doubtful is None
        assert book.reports == []
    assert said(tmp_path) == ["before", "goes on"]


class Ended(BaseException):
    """The program is ended by force here."""


@pytest.mark.parametrize("call", ["open", "write", "close", "unlink", "replace"])
def test_wherever_it_is_ended_while_the_note_is_made_what_was_told_is_not_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    left = left_undone(folder, "in doubt", tmp_path, monkeypatch)
    for place in range(1, 20):
        again = killed(left, tmp_path / f"at{place}")
        hold, calls = Hold(again, DEVICE), itertools.count(1)
        real = getattr(os, call)

        def ends(*given: object, **named: object) -> object:
            if next(calls) == place:  # noqa: B023 - called in this round only
                raise Ended
            return real(*given, **named)  # noqa: B023 - as above

        with monkeypatch.context() as patch:
            patch.setattr(os, call, ends)
            try:
                hold.take(TIME)
            except Ended:
                pass
            else:
                break
        with Book.open(killed(again, tmp_path / f"after{place}"), DEVICE) as book:
            assert book.doubtful is not None
    else:
        pytest.fail("it never ended")


def test_a_full_disk_keeps_the_note_that_was_there_and_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    left = left_undone(folder, "in doubt", tmp_path, monkeypatch)
    kept = (left / HOLDER).read_bytes()
    real = os.write

    def full(descriptor: int, raw: bytes) -> int:
        if bytes(raw).startswith(b'{"process"'):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(descriptor, raw)

    with monkeypatch.context() as patch:
        patch.setattr(os, "write", full)
        with Book.open(left, DEVICE) as book:
            assert book.doubtful is not None
            assert [p.file for p in book.reports] == [HOLDER]
            assert (left / HOLDER).read_bytes() == kept
        with Book.open(left, DEVICE) as book:
            book.record(note("goes on"))
            assert [p.file for p in book.reports] == [HOLDER]
    with Book.open(left, DEVICE) as book:
        assert book.doubtful is None
    assert list(left.glob(".*.next")) == []
