"""Files that belong to a job go where its logs go, and are what their name says."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from fieldbook.store import attachments
from fieldbook.store.attachments import attach
from fieldbook.store.book import Book
from fieldbook.store.merge import merge_job
from tests.store.conftest import note


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    path = tmp_path / "photo.jpg"
    path.write_bytes(b"a pitted thread")
    return path


def test_an_attachment_is_named_by_what_it_holds(folder: Path, photo: Path) -> None:
    name = attach(folder, photo)

    assert name == hashlib.sha256(b"a pitted thread").hexdigest()
    assert (folder / name).read_bytes() == b"a pitted thread"
    assert attach(folder, photo) == name


def test_attachments_come_along_when_a_job_is_gathered(
    book: Book, folder: Path, photo: Path, tmp_path: Path
) -> None:
    name = attach(folder, photo)
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
