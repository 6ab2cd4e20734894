"""Files that belong to a job go where its logs go, and are what their name says."""

from __future__ import annotations

import datetime as dt
import errno
import hashlib
import os
import shutil
from pathlib import Path

import pytest

from fieldbook.quantities.admit import Refused
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job import attachments
from fieldbook.store.job.attachments import attach
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.verify import verify
from tests.store.conftest import note


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    path = tmp_path / "photo.jpg"
    path.write_bytes(b"a pitted thread")
    return path


def test_an_attachment_is_named_by_what_it_holds(folder: Path, photo: Path) -> None:
    name = attach(folder, photo).name

    assert name == hashlib.sha256(b"a pitted thread").hexdigest()
    assert (folder / name).read_bytes() == b"a pitted thread"
    assert attach(folder, photo).name == name


def test_attachments_come_along_when_a_job_is_gathered(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    name = attach(folder, photo).name
    book.record(note("with a photo"))
    office = tmp_path / "office"

    assert name in merge_job(folder, office).new
    assert merge_job(folder, office).new == []
    assert (office / name).read_bytes() == b"a pitted thread"


def test_an_attachment_that_is_not_what_its_name_says_is_not_taken(
    folder: Path, tmp_path: Path
) -> None:
    (folder / ("0" * 64)).write_bytes(b"something else")
    secret = tmp_path / "secret"
    secret.write_bytes(b"secret")
    (folder / hashlib.sha256(b"secret").hexdigest()).symlink_to(secret)
    report = merge_job(folder, tmp_path / "office")

    assert ["not what" in str(p) or "its name says" in str(p) for p in report.problems] == [True]
    assert [path.suffix for path in (tmp_path / "office").glob("[0-9d]*")] == [".jsonl"]


def test_a_huge_attachment_is_refused(
    folder: Path, photo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(attachments, "LARGEST", 4)
    with pytest.raises(ValueError, match="larger than"):
        attach(folder, photo)


def _attached(book: Book, folder: Path, photo: Path) -> str:
    attached = attach(folder, photo)
    book.record(Draft("attachment", "QA", attached.values(), note="joint 3"))
    return attached.name


def test_its_entry_says_what_it_was_called_how_large_and_of_when(
    book: Book, folder: Path, photo: Path
) -> None:
    written = dt.datetime(2026, 5, 14, 9, 5).astimezone()
    os.utime(photo, (written.timestamp(), written.timestamp()))
    _attached(book, folder, photo)
    entry = book.job.last("attachment")

    assert entry is not None
    assert entry.text("file_title") == "photo.jpg"
    assert entry.values["file_size"].number == len(b"a pitted thread")
    assert entry.text("file_time") == "2026-05-14 09:05"


def test_an_attachment_that_stands_is_whole(book: Book, folder: Path, photo: Path) -> None:
    _attached(book, folder, photo)

    assert verify(folder).whole
    assert verify(folder).problems == []


@pytest.mark.parametrize("harm", ["gone", "altered", "longer", "link", "folder"])
def test_verify_finds_an_attachment_that_is_not_what_it_was(
    book: Book, folder: Path, photo: Path, harm: str
) -> None:
    name = _attached(book, folder, photo)
    path = folder / name
    if harm == "altered":
        path.write_bytes(b"a sound thread!")
    elif harm == "longer":
        path.write_bytes(b"a pitted thread.")
    else:
        path.unlink()
    if harm == "link":
        path.symlink_to(photo)
    elif harm == "folder":
        path.mkdir()
    found = verify(folder)

    assert not found.whole
    (problem,) = found.problems
    assert problem.file == name
    assert ("photo.jpg" in problem.words) == (harm not in ("altered", "longer"))
    mended = attach(folder, photo).name if harm != "folder" else ""
    assert verify(folder).whole == (mended == name)


@pytest.mark.parametrize("harm", ["empty", "altered", "longer", "link", "cannot be read"])
@pytest.mark.parametrize("went_on", [False, True])
def test_gathering_mends_an_attachment_of_ours_from_the_good_copy(
    book: Book, folder: Path, photo: Path, tmp_path: Path, harm: str, *, went_on: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    name = _attached(book, folder, photo)
    gather([folder], tmp_path / "office")
    [ours] = (tmp_path / "office" / "jobs").iterdir()
    held = (ours / name).read_bytes()
    (ours / name).unlink()
    if harm == "link":
        (ours / name).symlink_to(tmp_path / "nothing")
    else:
        (ours / name).write_bytes(
            {"empty": b"", "altered": b"a sound thread!"}.get(harm, b"x" * 99)
        )
    if harm == "cannot be read":
        opened = Path.open

        def open_(path: Path, *args: object, **kwargs: object) -> object:
            if path == ours / name:
                raise OSError(errno.EIO, "Input/output error")
            return opened(path, *args, **kwargs)  # type: ignore[call-overload]

        monkeypatch.setattr(Path, "open", open_)
    if went_on:
        book.record(note("and on"))
    told = gather([folder], tmp_path / "office")

    monkeypatch.undo()
    assert told.clean
    assert f"{name}: was damaged here; it is whole again" in str(told)
    assert (ours / name).read_bytes() == held
    assert not (ours / name).is_symlink()
    assert verify(ours).whole
    assert "damaged" not in str(gather([folder], tmp_path / "office"))


def test_a_bad_copy_mends_nothing_and_is_told(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    name = _attached(book, folder, photo)
    gather([folder], tmp_path / "office")
    [ours] = (tmp_path / "office" / "jobs").iterdir()
    (folder / name).write_bytes(b"")
    good = (ours / name).read_bytes()
    assert gather([folder], tmp_path / "office").clean
    assert (ours / name).read_bytes() == good
    (ours / name).write_bytes(b"a sound thread!")
    told = gather([folder], tmp_path / "office")

    assert not told.clean
    assert f"{name}: it does not hold what its name says: not taken" in str(told)
    assert (ours / name).read_bytes() == b"a sound thread!"


def test_a_folder_by_the_name_of_an_attachment_is_told_and_the_logs_are_taken(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    gather([folder], tmp_path / "office")
    [ours] = (tmp_path / "office" / "jobs").iterdir()
    name = _attached(book, folder, photo)
    (ours / name).mkdir()
    told = gather([folder], tmp_path / "office")

    assert not told.clean
    assert f"{name}: a folder has its name here" in str(told)
    assert [job.grown for job in told.jobs] != [[]]


def test_an_attachment_of_a_struck_entry_is_still_looked_for(
    book: Book, folder: Path, photo: Path
) -> None:
    (folder / _attached(book, folder, photo)).unlink()
    entry = book.job.last("attachment")
    assert entry is not None
    why = {"reason": plain_value("wrong photo")}
    book.record(Draft("strike", "QA", why, strikes=entry.id))

    assert not verify(folder).whole


def test_a_copy_that_no_entry_names_is_told_and_is_no_damage(
    book: Book, folder: Path, photo: Path
) -> None:
    book.record(note("something"))
    attach(folder, photo)
    found = verify(folder)

    assert found.whole
    assert ["an attachment that no entry names"] == [problem.words for problem in found.problems]


def test_gathering_tells_of_an_attachment_that_has_not_come_along(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    name = _attached(book, folder, photo)
    kept = (folder / name).read_bytes()
    (folder / name).unlink()
    office = tmp_path / "office"
    report = merge_job(folder, office)
    assert not report.clean
    assert [(name, "is not here")] == [(p.file, p.words[-11:]) for p in report.problems]

    (folder / name).write_bytes(kept)
    assert merge_job(folder, office).clean
    assert (office / name).read_bytes() == kept


@pytest.mark.parametrize(
    "typed", ["../../secret", "0" * 63, "A" * 64, "/etc/passwd", "0" * 64 + "/x"]
)
def test_nothing_but_a_hash_ever_names_a_file_of_a_job(book: Book, typed: str) -> None:
    with pytest.raises(Refused, match="SHA-256"):
        book.record(Draft("attachment", "QA", {"file_hash": plain_value(typed)}, note="x"))


@pytest.mark.parametrize("what", ["missing", "folder", "pipe"])
def test_what_is_no_file_is_not_attached(folder: Path, tmp_path: Path, what: str) -> None:
    source = tmp_path / "source"
    if what == "folder":
        source.mkdir()
    elif what == "pipe":
        os.mkfifo(source)
    with pytest.raises(ValueError, match="file"):
        attach(folder, source)


def test_a_link_that_waits_under_the_name_of_a_file_is_not_written_through(
    folder: Path, photo: Path, tmp_path: Path
) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    victim = tmp_path / "victim"
    victim.write_bytes(b"theirs")
    (folder / hashlib.sha256(b"a pitted thread").hexdigest()).symlink_to(victim)
    path = folder / attach(folder, photo).name

    assert victim.read_bytes() == b"theirs"
    assert not path.is_symlink()
    assert path.read_bytes() == b"a pitted thread"


def test_the_office_gets_an_attachment_once_from_however_many_trucks(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    name = _attached(book, folder, photo)
    other = tmp_path / "other truck"
    shutil.copytree(folder, other, ignore=shutil.ignore_patterns("*.lock"))
    report = gather([folder, other], tmp_path / "office")
    (kept,) = (tmp_path / "office").rglob(name)

    assert report.clean
    assert verify(kept.parent).whole
    assert kept.read_bytes() == b"a pitted thread"


def test_a_copy_that_does_not_reach_the_disk_is_not_there(
    folder: Path, photo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "no room")

    folder.mkdir(parents=True, exist_ok=True)
    before = sorted(folder.iterdir())
    monkeypatch.setattr(DISK, "sync", full)
    with pytest.raises(OSError, match="no room"):
        attach(folder, photo)

    assert sorted(folder.iterdir()) == before
