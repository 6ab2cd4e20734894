"""A folder that others may write: what they put in the place of our files is left alone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.office.export.jobfile import write_jobfile
from fieldbook.small_file import NotPlain
from fieldbook.store.job.book import Book
from fieldbook.store.job.drafts import TypedAt, keep_drafts, read_drafts
from fieldbook.store.log.disk import DISK, write_whole
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.writer import set_aside
from fieldbook.store.shelf.home import Home, Settings
from fieldbook.store.shelf.index import Index
from fieldbook.store.shelf.pointer import HomeGone, chosen_folder, pointer_file, remember
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import note, opening
from tests.store.forging import DEVICE, entry, header, log_of, write_log

pytestmark = [
    pytest.mark.timeout(60),
    pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs links and pipes"),
]
PRECIOUS = b"of somebody else"


class Trap:
    """What somebody puts in the place of a file, and the file that it leads to."""

    def __init__(self, folder: Path, kind: str) -> None:
        self.kind = kind
        self._victim = folder / "victim"
        self._victim.write_bytes(PRECIOUS)

    def set(self, place: Path) -> None:
        place.parent.mkdir(parents=True, exist_ok=True)
        place.unlink(missing_ok=True)
        if self.kind == "link":
            place.symlink_to(self._victim)
        elif self.kind == "dangling":
            place.symlink_to(self._victim.with_name("not there yet"))
        elif self.kind == "pipe":
            os.mkfifo(place)
        else:
            place.symlink_to("/dev/null")

    def check(self) -> None:
        assert self._victim.read_bytes() == PRECIOUS
        assert not self._victim.with_name("not there yet").exists()


@pytest.fixture(params=["link", "dangling", "pipe", "device"])
def trap(request: pytest.FixtureRequest, tmp_path: Path) -> Trap:
    (tmp_path / "other").mkdir()
    return Trap(tmp_path / "other", request.param)


def test_the_holder_note_is_left_alone_and_named_and_entries_are_taken(
    tmp_path: Path, trap: Trap
) -> None:
    trap.set(tmp_path / f".{DEVICE}.holder")
    with Book.open(tmp_path, DEVICE) as book:
        assert book.holder is None
        assert [p.file for p in book.reports] == [f".{DEVICE}.holder"]
        assert "no plain file" in str(book.reports[0])
        saved = book.record(note("goes on"))
        with Book.open(tmp_path, DEVICE) as second:
            assert second.holder == "held by another program; close it there first"
    with Book.open(tmp_path, DEVICE) as again:
        assert saved in again.job.entries

    trap.check()
    assert os.path.lexists(tmp_path / f".{DEVICE}.holder")


def test_a_lock_that_is_no_file_is_not_followed_and_the_book_opens_to_be_read(
    tmp_path: Path, trap: Trap
) -> None:
    trap.set(tmp_path / f".{DEVICE}.lock")
    with Book.open(tmp_path, DEVICE) as book:
        assert book.holder is not None
        assert list(book.job.entries) == []

    trap.check()


def test_a_file_written_whole_goes_nowhere_else(tmp_path: Path, trap: Trap) -> None:
    place = tmp_path / "settings.toml"
    trap.set(place)
    with pytest.raises(NotPlain, match=r"settings\.toml is a"):
        write_whole(place, b"ours")
    trap.check()

    trap.set(tmp_path / f".next.toml.{os.getpid()}.next")  # where it is written first
    write_whole(tmp_path / "next.toml", b"ours")
    assert (tmp_path / "next.toml").read_bytes() == b"ours"
    assert not (tmp_path / "next.toml").is_symlink()
    trap.check()


def test_a_log_is_not_appended_to_what_took_its_place(tmp_path: Path, trap: Trap) -> None:
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        trap.set(tmp_path / f"{DEVICE}-0002.jsonl")
        (tmp_path / f"{DEVICE}-0001.jsonl").rename(tmp_path / "away")
        trap.set(tmp_path / f"{DEVICE}-0001.jsonl")
        draft = note("two")
        with pytest.raises(OSError, match="moved or changed"):
            book.record(draft)
        book.record(draft)

    trap.check()
    with pytest.raises(OSError, match="no plain file"):
        DISK.open_append(tmp_path / f"{DEVICE}-0001.jsonl", new=False)
    (written,) = [p for p in tmp_path.glob("*.jsonl") if p.is_file() and not p.is_symlink()]
    assert [e.note for _, e in read_log(written).entries] == ["two"]


def test_a_log_that_became_a_link_to_itself_is_not_said_to_be_saved(tmp_path: Path) -> None:
    """It would not be read again: a link is no log."""
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        log = tmp_path / f"{DEVICE}-0001.jsonl"
        log.rename(tmp_path / "away")
        log.symlink_to(tmp_path / "away")
        with pytest.raises(OSError, match="moved or changed"):
            book.record(note("two"))


def test_a_torn_tail_is_not_set_aside_in_another_file(tmp_path: Path, trap: Trap) -> None:
    log = read_log(write_log(tmp_path, log_of(header(), entry(1)) + b'{"n":3,"pre'))
    place = set_aside(log)
    place.unlink()
    trap.set(place)
    with pytest.raises(NotPlain):
        set_aside(log)

    trap.check()


def test_the_index_is_neither_read_from_nor_written_to_another_file(
    tmp_path: Path, trap: Trap
) -> None:
    trap.set(tmp_path / "index" / "jobs.jsonl")
    trap.set(tmp_path / "index" / "newest.jsonl")
    index = Index(tmp_path / "index", tmp_path / "jobs")
    (tmp_path / "jobs" / "26-1").mkdir(parents=True)
    (tmp_path / "jobs" / "26-1" / "d-1-0001.jsonl").touch()
    assert index.newest() == ([], 0)
    index.refresh(lambda folder: {"folder": folder.name, "number": "26-1"})

    assert [s["folder"] for s in index.documents()] == ["26-1"]
    trap.check()


def test_drafts_are_not_read_from_another_file(tmp_path: Path, trap: Trap) -> None:
    home = Home(tmp_path)
    trap.set(tmp_path / "drafts" / "26-1.json")

    assert not read_drafts(home, tmp_path / "jobs" / "26-1", TypedAt(1, 1))
    trap.check()


def test_what_is_the_devices_own_is_not_read_from_or_written_to_another_file(
    tmp_path: Path, trap: Trap
) -> None:
    home = Home(tmp_path)
    trap.set(tmp_path / "device")
    with pytest.raises(NotPlain, match="device is a"):
        home.device_id()
    trap.set(tmp_path / "settings.toml")
    assert home.settings == Settings()
    with pytest.raises(NotPlain, match=r"settings\.toml is a"):
        home.keep(Settings(initials="QA"))

    trap.check()


def test_the_pointer_is_not_written_through(
    tmp_path: Path, trap: Trap, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("XDG_CONFIG_HOME", "HOME"):
        monkeypatch.setenv(name, str(tmp_path / "config"))
    if not pointer_file().is_relative_to(tmp_path):
        pytest.skip("settings are kept elsewhere here")
    trap.set(pointer_file())
    with pytest.raises(NotPlain, match="home is a"):
        remember(tmp_path)
    if trap.kind != "dangling":
        with pytest.raises(HomeGone):
            chosen_folder()

    trap.check()


def test_a_job_file_goes_nowhere_else(tmp_path: Path, trap: Trap) -> None:
    out = tmp_path / "out"
    job = tmp_path / "jobs" / "26-1"
    job.mkdir(parents=True)
    with Book.open(job, DEVICE) as book:
        book.record(opening())
        write_jobfile(book, out)
        names = sorted(path.name for path in out.iterdir() if path.is_file())
        for name in names:
            trap.set(out / f".{name}.next")
        write_jobfile(book, out)
        trap.check()
        trap.set(out / "customer.html")
        with pytest.raises(NotPlain, match=r"customer\.html is a"):
            write_jobfile(book, out)

    trap.check()


def test_files_of_a_job_file_do_not_go_through_a_linked_folder(tmp_path: Path) -> None:
    out, other = tmp_path / "out", tmp_path / "other"
    job = tmp_path / "jobs" / "26-1"
    for folder in (out, other, job):
        folder.mkdir(parents=True)
    kept = other / "0123456789abcdef_photo.jpg"
    kept.write_bytes(PRECIOUS)
    (out / "sheet_files").symlink_to(other)
    with Book.open(job, DEVICE) as book:
        book.record(opening())
        with pytest.raises(OSError, match="sheet_files is a link"):
            write_jobfile(book, out)

    assert kept.read_bytes() == PRECIOUS


def test_an_export_is_not_written_where_a_link_leads(tmp_path: Path, trap: Trap) -> None:
    pytest.importorskip("sqlalchemy")
    trap.set(tmp_path / "fieldbook.sqlite")
    words = [sys.executable, "-m", "fieldbook", "--home", str(tmp_path), "export"]
    done = subprocess.run(words, capture_output=True, text=True, check=False)

    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].startswith("fieldbook: cannot export: fieldbook.sqlite is")
    assert "Traceback" not in done.stderr
    trap.check()


def test_a_linked_folder_of_the_index_or_of_drafts_is_neither_read_nor_written(
    tmp_path: Path,
) -> None:
    home, elsewhere = Home(tmp_path / "home"), tmp_path / "elsewhere"
    job = Shelf(home).create(opening())
    sound = Shelf(home)
    sound.refresh()
    at = TypedAt(1, 1)
    keep_drafts(home, job, at, {"step": {"note": "half"}})
    (home.path / "index").rename(elsewhere)
    (home.path / "drafts").rename(tmp_path / "typed")
    before = {
        path: path.read_bytes() for path in [*elsewhere.iterdir(), *(tmp_path / "typed").iterdir()]
    }
    (home.path / "index").symlink_to(elsewhere)
    (home.path / "drafts").symlink_to(tmp_path / "typed")

    assert Shelf(home).newest() == ([], 0)
    assert [listing.job_number for listing in Shelf(home).jobs()] == ["26-1"]
    assert not read_drafts(home, job, at)
    for typed in ({"step": {"note": "other"}}, {}):
        with pytest.raises(NotPlain, match="drafts is a link"):
            keep_drafts(home, job, at, typed)
    assert {path: path.read_bytes() for path in before} == before
    assert not {*elsewhere.iterdir(), *(tmp_path / "typed").iterdir()} - before.keys()
