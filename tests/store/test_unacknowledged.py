"""A line that was written and that nobody was told of: it is named, and never stands twice."""

from __future__ import annotations

import errno
import itertools
import os
import shutil
from pathlib import Path

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Entry
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import NotSaved
from fieldbook.store.job.lock import Hold
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.verify import verify
from tests.store.conftest import note
from tests.store.failing_disk import FailingDisk
from tests.store.forging import DEVICE

HOLDER = f".{DEVICE}.holder"


def fails(*_: object) -> None:
    raise OSError(errno.EIO, os.strerror(errno.EIO))


def killed(folder: Path, after: Path) -> Path:
    """The folder as a program leaves it that is ended by force now: as it is, and unlocked."""
    shutil.copytree(folder, after)
    return after


def said(folder: Path) -> list[str]:
    with Book.open(folder, "d-reader", write=False) as book:
        return [entry.note for entry in book.job.entries]


def left_undone(folder: Path, words: str, tmp_path: Path, patch: pytest.MonkeyPatch) -> Path:
    """A line written where nothing can be synced, taken back or begun, and the program killed."""
    with Book.open(folder, DEVICE) as book:
        book.record(note("before"))
        with patch.context() as broken:
            broken.setattr(DISK, "sync", fails)
            broken.setattr(DISK, "truncate", fails)
            broken.setattr(DISK, "sync_folder", fails)
            with pytest.raises(NotSaved):
                book.record(note(words))
            return killed(folder, tmp_path / "killed")


def test_a_line_that_could_not_be_taken_back_is_disowned_at_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The program is killed before the next entry: what it told as not saved does not count."""
    folder = tmp_path / "job"
    folder.mkdir()
    with Book.open(folder, DEVICE) as book:
        book.record(note("before"))
        syncs = itertools.count(1)
        with monkeypatch.context() as broken:
            real = DISK.sync
            broken.setattr(DISK, "sync", lambda d: fails() if next(syncs) == 1 else real(d))
            broken.setattr(DISK, "truncate", fails)
            with pytest.raises(NotSaved):
                book.record(note("not saved"))
        left = killed(folder, tmp_path / "killed")
    assert b"not saved" in (left / f"{DEVICE}-0001.jsonl").read_bytes()
    with Book.open(left, DEVICE) as book:
        assert book.doubtful is None
        assert [entry.note for entry in book.job.entries] == ["before"]
        book.record(note("not saved"))

    assert said(left) == ["before", "not saved"]
    assert verify(left).whole


def test_where_nothing_can_be_written_the_line_is_named_and_sent_again_stands_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    left = left_undone(folder, "sent twice", tmp_path, monkeypatch)
    assert said(left) == ["before", "sent twice"]
    with Book.open(left, DEVICE) as book:
        doubtful = book.doubtful
        assert doubtful is not None
        assert doubtful.note == "sent twice"
        assert book.record(note("sent twice")) == doubtful
        assert book.doubtful is None
        book.record(note("sent twice"))  # told as saved by now, so said again it is there again

    assert said(left) == ["before", "sent twice", "sent twice"]
    with Book.open(left, DEVICE) as again:
        assert again.doubtful is None


def test_it_is_asked_about_until_somebody_records_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    left = left_undone(folder, "in doubt", tmp_path, monkeypatch)
    for _ in range(2):
        with Book.open(left, DEVICE) as book:
            assert book.doubtful
    moment = Hold(left, DEVICE)  # as a gathering holds it
    assert moment.take()
    assert moment.who() == "another program"
    moment.release()
    with Book.open(left, DEVICE) as book:
        doubtful = book.doubtful
        assert doubtful is not None
        struck = {"kind": "strike", "by": "QA", "values": {"reason": "did not happen"}}
        book.record(draft_from(struck | {"strikes": doubtful.id}))
        assert book.doubtful is None
        assert [entry.note for entry in book.job.live("note")] == ["before"]
    with Book.open(left, DEVICE) as book:
        assert book.doubtful is None


def test_it_is_not_told_as_saved_before_it_is_sure_to_stay(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    left = left_undone(folder, "in doubt", tmp_path, monkeypatch)
    with monkeypatch.context() as broken:
        broken.setattr(DISK, "sync", fails)
        with Book.open(left, DEVICE) as book:
            with pytest.raises(NotSaved):
                book.record(note("in doubt"))
            assert book.doubtful is not None
    with Book.open(left, DEVICE) as book:
        assert book.record(note("in doubt")).note == "in doubt"

    assert said(left) == ["before", "in doubt"]


def test_a_program_that_ends_well_but_could_not_disown_a_line_leaves_it_in_doubt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    with Book.open(folder, DEVICE) as book:
        book.record(note("before"))
        broken = monkeypatch
        broken.setattr(DISK, "sync", fails)
        broken.setattr(DISK, "truncate", fails)
        with pytest.raises(NotSaved):
            book.record(note("in doubt"))
    monkeypatch.undo()

    with Book.open(folder, DEVICE) as again:
        assert again.doubtful is not None
        assert again.record(note("in doubt")) == again.job.entries[-1]
    assert said(folder) == ["before", "in doubt"]


def test_one_that_ends_well_and_has_a_disk_again_disowns_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    with Book.open(folder, DEVICE) as book:
        book.record(note("before"))
        with monkeypatch.context() as broken:
            broken.setattr(DISK, "sync", fails)
            broken.setattr(DISK, "truncate", fails)
            with pytest.raises(NotSaved):
                book.record(note("not saved"))

    assert said(folder) == ["before"]
    with Book.open(folder, DEVICE) as again:
        assert again.doubtful is None


def test_whatever_was_told_as_saved_is_never_in_doubt(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    told: list[Entry] = []
    for number in range(4):
        with Book.open(folder, DEVICE) as book:
            assert book.doubtful is None
            told += [book.record(note(f"{number} {n}")) for n in range(number)]
            left = killed(folder, tmp_path / f"killed{number}")
        with Book.open(left, DEVICE) as book:
            assert book.doubtful is None
            assert list(book.job.entries) == told


def test_a_note_of_an_earlier_fieldbook_raises_no_doubt(tmp_path: Path) -> None:
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("before"))
    (tmp_path / HOLDER).write_bytes(b'{"process": 3}')
    with Book.open(tmp_path, DEVICE) as book:
        assert book.doubtful is None


def test_at_any_failing_call_a_kill_and_the_same_again_stand_once(tmp_path: Path) -> None:
    """Each call fails from then on, and the program is killed when it says not saved."""
    doubts = disowned = 0
    for first in itertools.count(1):
        folder = tmp_path / f"at{first}"
        folder.mkdir()
        with Book.open(folder, DEVICE) as book:
            book.record(note("before"))
            disk = FailingDisk(range(first, 1000).__contains__, errno.EIO)
            with pytest.MonkeyPatch.context() as patch:
                disk.install(patch)
                try:
                    book.record(note("once"))
                except NotSaved:
                    pass
                else:
                    break
                left = killed(folder, tmp_path / f"killed{first}")
        with Book.open(left, DEVICE) as again:
            doubts += again.doubtful is not None
            disowned += again.doubtful is None
            again.record(note("once"))
        assert said(left) == ["before", "once"], first
        assert verify(left).whole

    assert doubts
    assert disowned


def test_a_hold_for_a_moment_leaves_no_note_of_its_own(tmp_path: Path) -> None:
    hold = Hold(tmp_path, DEVICE)
    assert hold.take()
    assert hold.who() == "another program"
    hold.release()

    assert [path.name for path in tmp_path.glob("*.holder")] == []
