"""The index says what the jobs' logs say, or is made again from them."""

from __future__ import annotations

import datetime as dt
import json
import os
import random
import shutil
import zlib
from pathlib import Path

import pytest

from fieldbook.office.samples import build_shelf
from fieldbook.record.entry import Draft
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import DISK
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.index import FIRST_PAGE
from fieldbook.store.shelf.query import Wanted
from fieldbook.store.shelf.shelf import INDEX, Listing, Shelf
from fieldbook.store.shelf.summary_shape import is_summary
from tests.store.conftest import note
from tests.store.failing_disk import CALLS, FailingDisk
from tests.store.shelves import many_jobs, says
from tests.store.unsynced import unsynced

COUNT = 12


@pytest.fixture
def stocked(home: Home) -> Home:
    many_jobs(home, COUNT)
    return home


def counting(home: Home) -> tuple[list[Listing], int]:
    """The shelf, and how many of its jobs were read from their logs."""
    read = []

    def is_unchanged(job: Job) -> str:
        read.append(job)
        return "somewhere"

    return Shelf(home).jobs(status_of=is_unchanged), len(read)


def numbers(home: Home, wanted: Wanted) -> list[str]:
    shelf = Shelf(home)
    shelf.refresh()
    return [summary["number"] for summary in shelf.find_jobs(wanted)]


def test_only_what_changed_is_read_again(stocked: Home) -> None:
    first, read = counting(stocked)
    assert read == COUNT
    assert counting(stocked) == (first, 0)

    with Book.open(first[-1].folder, stocked.device_id()) as book:
        book.record(note("once more"))
    again, read = counting(stocked)
    assert read == 1
    assert (again[0].job_number, again[0].entries) == (first[-1].job_number, first[-1].entries + 1)

    shutil.rmtree(again[3].folder)
    assert counting(stocked) == ([*again[:3], *again[4:]], 0)


def test_another_company_folder_has_every_job_say_anew_where_it_stands(stocked: Home) -> None:
    def at(words: str, basis: str) -> set[str]:
        listings = Shelf(stocked).jobs(status_of=lambda _: words, basis=basis)
        return {listing.status for listing in listings}

    assert at("a", "one") == {"a"}
    assert at("b", "one") == {"a"}
    assert at("b", "two") == {"b"}
    assert {job.status for job in Shelf(stocked).jobs()} == {"b"}


def test_the_first_page_is_told_without_a_look_at_the_jobs(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert Shelf(home).newest() == ([], 0)
    many_jobs(home, FIRST_PAGE + 3)
    whole = Shelf(home).jobs()

    def fails(*_: object) -> None:
        raise AssertionError("a folder was looked into")

    monkeypatch.setattr("os.scandir", fails)
    assert Shelf(home).newest() == (whole[:FIRST_PAGE], len(whole))


@pytest.mark.parametrize("spoil", ["cut", "flip", "empty", "other", "gone", "newer", "folder"])
def test_a_damaged_index_is_made_again(stocked: Home, spoil: str) -> None:
    whole, _ = counting(stocked)
    chance = random.Random(spoil)
    for path in (stocked.path / INDEX).iterdir():
        raw = bytearray(path.read_bytes())
        if spoil == "cut":
            del raw[chance.randrange(len(raw)) :]
        elif spoil == "flip":
            for _ in range(5):
                raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
        elif spoil == "other":
            raw[:] = b'{"_default": {}}\n\xff\x00' + b"[" * 9000
        elif spoil == "newer":
            first = b'{"version":99,"jobs":1}'
            raw[: raw.index(b"\n")] = b"%08x %s" % (zlib.crc32(first), first)
        path.unlink()
        if spoil == "folder":
            path.mkdir()
        elif spoil != "gone":
            path.write_bytes(b"" if spoil == "empty" else raw)

    newest, _ = Shelf(stocked).newest()
    assert all(listing in whole for listing in newest)
    assert counting(stocked)[0] == whole
    assert counting(stocked) == (whole, COUNT if spoil == "folder" else 0)


def test_every_flipped_bit_is_found(stocked: Home) -> None:
    whole, _ = counting(stocked)
    path = stocked.path / INDEX / "jobs.jsonl"
    raw, chance = path.read_bytes(), random.Random(7)
    for _ in range(60):
        flipped = bytearray(raw)
        flipped[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        listings, read = counting(stocked)
        assert listings == whole
        assert read > 0


@pytest.mark.parametrize("call", CALLS)
def test_an_index_that_cannot_be_kept_changes_nothing_that_is_told(
    stocked: Home, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    whole, _ = counting(stocked)
    with Book.open(whole[0].folder, stocked.device_id()) as book:
        book.record(note("more"))
    expected = Shelf(stocked).jobs()[0].entries
    shutil.rmtree(stocked.path / INDEX)
    disk = FailingDisk(error=28)
    disk._fails = lambda _: disk.made[-1] == call
    with monkeypatch.context() as patch:
        disk.install(patch)
        patch.setattr(DISK, "make_folder", lambda path: path.mkdir(exist_ok=True))
        listings, read = counting(stocked)
        assert (len(listings), listings[0].entries, read) == (COUNT, expected, COUNT)
        assert counting(stocked)[0] == listings
    assert counting(stocked)[0] == listings
    assert counting(stocked) == (listings, 0)


def test_a_read_only_home_is_shown_all_the_same(
    stocked: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise OSError(30, os.strerror(30))

    monkeypatch.setattr("fieldbook.store.shelf.index.make_folders", fails)
    assert [len(counting(stocked)[0]), counting(stocked)[1]] == [COUNT, COUNT]
    assert not (stocked.path / INDEX).exists()


def test_a_job_that_could_not_be_read_is_read_again_next_time(
    stocked: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise OSError(5, os.strerror(5))

    with monkeypatch.context() as patch:
        patch.setattr("fieldbook.store.shelf.shelving.Book.open", fails)
        assert all(listing.problems for listing in Shelf(stocked).jobs())
    assert not any(listing.problems for listing in Shelf(stocked).jobs())


def test_jobs_are_found_by_what_people_remember(stocked: Home) -> None:
    with Book.open(Shelf(stocked).find("J-00003"), stocked.device_id()) as book:
        book.record(says("job", job_number="J-00003", line="steel", work="pull", well_id="K-0417"))
        book.record(says("finding", part="hose", finding="Ärger [b]mit[/b] Sand"))

    assert numbers(stocked, Wanted(owner="sallow")) == ["J-00010", "J-00005", "J-00000"]
    assert numbers(stocked, Wanted(well="k-04")) == ["J-00003"]
    assert numbers(stocked, Wanted(well="WELL 2", owner="dairy")) == ["J-00007"]
    assert numbers(stocked, Wanted(pump="16 stages")) == ["J-00010", "J-00004"]
    assert numbers(stocked, Wanted(finding="cable CHAFE", owner="sallow")) == []
    assert numbers(stocked, Wanted(finding="seen on job 11")) == ["J-00011"]
    assert numbers(stocked, Wanted(words=("ärger", "osgood"))) == []
    assert numbers(stocked, Wanted(words=("ÄRGER", "brackle"))) == ["J-00003"]
    assert numbers(stocked, Wanted(since=dt.date(2026, 1, 1))) == ["J-00003"]
    assert len(numbers(stocked, Wanted(since=dt.date(2016, 1, 4)))) == COUNT
    assert len(numbers(stocked, Wanted())) == COUNT


def test_what_is_struck_is_not_found(stocked: Home) -> None:
    with Book.open(Shelf(stocked).find("J-00011"), stocked.device_id()) as book:
        (finding,) = book.job.live("finding")
        reason = says("note", "x", reason="wrong").values
        book.record(Draft("strike", "QA", reason, "", finding.id))

    assert numbers(stocked, Wanted(words=("seen on job 11",))) == []


def test_a_big_reading_is_kept_in_between_and_told(
    stocked: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("fieldbook.store.shelf.index._KEEP_EVERY", 5)
    told: list[tuple[int, int]] = []

    def stop(done: int, of: int) -> None:
        told.append((done, of))
        if done == 7:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        Shelf(stocked).refresh(on_progress=stop)
    assert told == [(done, COUNT) for done in range(8)]
    seen: list[tuple[int, int]] = []
    Shelf(stocked).refresh(on_progress=lambda done, of: seen.append((done, of)))
    assert seen[-1] == (COUNT - 5, COUNT - 5)


def test_an_older_index_is_no_reason_to_make_a_home(tmp_path: Path) -> None:
    Shelf(Home(tmp_path / "nowhere")).refresh()

    assert not (tmp_path / "nowhere").exists()


WRONG = {
    "no name": {"number": None},
    "a list for words": {"owner": []},
    "no time": {"saved": "yesterday"},
    "a time without its zone": {"saved": "2026-05-14T08:00:00"},
    "no number": {"at": "soon"},
    "no count": {"entries": None},
    "problems of another kind": {"problems": [{"file": 1}]},
    "history without a time": {"history": [{"kind": "level"}]},
    "a day that is none": {"history": [{"kind": "prior", "time": "", "set_on": "x"}]},
    "a debt without its day": {"waits": [{"id": "x"}]},
    "counts that are none": {"seen": {"pipe_condition": {"pitted": "twice"}}},
    "another place": {"folder": "../elsewhere"},
    "nested too deep": {"history": "DEEP"},
}


@pytest.mark.parametrize("wrong", WRONG.values(), ids=WRONG)
def test_a_line_of_sound_checksum_and_wrong_shape_is_made_anew(
    stocked: Home, wrong: dict[str, object]
) -> None:
    first, _ = counting(stocked)
    for name in ("jobs.jsonl", "newest.jsonl"):
        path = stocked.path / INDEX / name
        lines = path.read_bytes().splitlines()
        document = json.loads(lines[3].partition(b" ")[2]) | wrong
        raw = json.dumps(document, separators=(",", ":")).encode("ascii")
        raw = raw.replace(b'"DEEP"', b"[" * 50_000 + b"]" * 50_000)
        lines[3] = b"%08x %s" % (zlib.crc32(raw), raw)
        path.write_bytes(b"\n".join(lines) + b"\n")

    assert len(Shelf(stocked).newest()[0]) == COUNT - 1
    assert counting(stocked) == (first, 1)
    assert counting(stocked) == (first, 0)


def test_every_summary_that_is_made_is_of_the_shape_that_is_read(tmp_path: Path) -> None:
    home = Home(tmp_path)
    with unsynced():
        build_shelf(home, complete=True)
    shelf = Shelf(home)
    shelf.refresh()

    assert all(is_summary(summary) for summary in shelf.index.documents())
    assert len(Shelf(home).newest()[0]) == len(shelf.index.documents())


@pytest.mark.parametrize(
    "head", [{"version": "0", "jobs": COUNT}, {"version": None, "jobs": COUNT}, {"jobs": COUNT}]
)
def test_an_index_of_another_version_is_not_read(stocked: Home, head: dict[str, object]) -> None:
    first, _ = counting(stocked)
    for name in ("jobs.jsonl", "newest.jsonl"):
        path = stocked.path / INDEX / name
        lines = path.read_bytes().splitlines()
        raw = json.dumps(json.loads(lines[0].partition(b" ")[2]) | {"version": None} | head)
        lines[0] = b"%08x %s" % (zlib.crc32(raw.encode("ascii")), raw.encode("ascii"))
        path.write_bytes(b"\n".join(lines) + b"\n")

    assert Shelf(stocked).newest()[0] == []
    assert counting(stocked) == (first, COUNT)
