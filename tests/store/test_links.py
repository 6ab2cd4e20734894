"""What ties the files of a job together, and what is told when a tie is broken."""

from __future__ import annotations

import datetime as dt
import errno
from pathlib import Path

import pytest

from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import NotSaved
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log import line, logfile, upgrades
from fieldbook.store.log import reader as reading
from fieldbook.store.log import writer as writing
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.verify import verify
from tests.store.conftest import note
from tests.store.forging import DEVICE, NO_LINE, entry, forged, hash_of, header, log_of, write_log


def notes(folder: Path) -> list[str]:
    with Book.open(folder, "", write=False) as book:
        return [e.note for e in book.job.entries]


def spoil(path: Path, where: bytes) -> None:
    raw = path.read_bytes()
    at = raw.index(where)
    path.write_bytes(raw[:at] + bytes([raw[at] ^ 1]) + raw[at + 1 :])


@pytest.mark.parametrize("end", [b"\n", b"\x0b"])
def test_a_spoiled_last_line_is_damage_and_is_never_cut_off(tmp_path: Path, end: bytes) -> None:
    """It was told saved, so it is not taken for a line that was never finished."""
    raw = log_of(header(), entry(1), entry(2))
    if end == b"\n":
        raw = raw.replace(b"entry 2", b"entry 3")
    path = write_log(tmp_path, raw[:-1] + end)
    before = path.read_bytes()
    with Book.open(tmp_path, DEVICE) as book:
        assert [(p.line, p.damage) for p in book.reports] == [(3, True)]
        book.record(note("goes on"))

    assert path.read_bytes() == before
    assert notes(tmp_path) == ["entry 1", "goes on"]
    assert not verify(tmp_path).whole


def test_a_torn_line_is_set_aside_and_the_report_names_where(tmp_path: Path) -> None:
    whole = log_of(header(), entry(1))
    path = write_log(tmp_path, whole + b'{"n":3,"pre')
    with Book.open(tmp_path, "", write=False) as reader:
        assert [p.damage for p in reader.reports] == [False]
    with Book.open(tmp_path, DEVICE) as book:
        aside = next(tmp_path.glob("*.torn-*"))
        assert [aside.name in str(problem) for problem in book.reports] == [True]
        assert [problem.damage for problem in book.reports] == [False]

    assert aside.read_bytes() == b'{"n":3,"pre'
    assert path.read_bytes() == whole
    assert verify(tmp_path).whole


def test_a_log_whose_first_line_is_lost_stays_with_its_job(tmp_path: Path) -> None:
    """The job's id is lost on the truck, not at the office: the two are still brought together."""
    truck, home = tmp_path / "truck", tmp_path / "home"
    path = write_log(truck, log_of(header(), entry(1)))
    assert gather([truck], home).clean
    spoil(path, b'"job"')
    with Book.open(truck, DEVICE) as book:
        saved = book.record(note("after the damage"))
    gathered = gather([truck], home)

    folders = list((home / "jobs").iterdir())
    assert len(folders) == 1
    with Book.open(folders[0], "", write=False) as office:
        assert {"entry 1", saved.note} == {e.note for e in office.job.entries}
    assert not gathered.clean
    assert gather([truck], home).jobs[0].new == []


def test_a_file_that_is_missing_is_told(tmp_path: Path) -> None:
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
    first = tmp_path / f"{DEVICE}-0001.jsonl"
    spoil(first, b"one")
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("two"))
    first.unlink()
    found = verify(tmp_path)

    assert not found.whole
    assert "0001.jsonl', which is missing" in str(found)
    assert notes(tmp_path) == ["two"]


def test_a_file_that_was_put_in_the_place_of_another_is_told(tmp_path: Path) -> None:
    head = log_of(header(), entry(1))
    write_log(tmp_path, head)
    after = {"file": f"{DEVICE}-0001.jsonl", "hash": hash_of(head.splitlines()[-1])}
    write_log(tmp_path, log_of(header(file=2, after=after), entry(2)), number=2)
    assert verify(tmp_path).whole

    write_log(tmp_path, log_of(header(), entry(1, note="another")))
    assert "no longer there" in str(verify(tmp_path))


def test_a_line_whose_saving_failed_is_not_counted_when_it_stayed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The crew was told NOT SAVED and wrote something else: the first is not there as well."""
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        with monkeypatch.context() as patch:

            def fails(*_: object) -> None:
                raise OSError(errno.EIO, "broken")

            patch.setattr(DISK, "sync", fails)
            patch.setattr(DISK, "truncate", fails)
            with pytest.raises(NotSaved, match="broken"):
                book.record(note("twoo"))
        book.record(note("two"))

    assert b"twoo" in (tmp_path / f"{DEVICE}-0001.jsonl").read_bytes()
    assert notes(tmp_path) == ["one", "two"]
    merge_job(tmp_path, tmp_path / "office")
    assert notes(tmp_path / "office") == ["one", "two"]


def test_after_a_failed_sync_a_fresh_file_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        before = (tmp_path / f"{DEVICE}-0001.jsonl").read_bytes()
        draft = note("two")
        with monkeypatch.context() as patch:
            real, calls = DISK.sync, []

            def fails_once(descriptor: int) -> None:
                calls.append(descriptor)
                if len(calls) == 1:
                    raise OSError(errno.EIO, "broken")
                real(descriptor)

            patch.setattr(DISK, "sync", fails_once)
            with pytest.raises(NotSaved):
                book.record(draft)
            book.record(draft)

    assert (tmp_path / f"{DEVICE}-0001.jsonl").read_bytes() == before
    after = read_folder(tmp_path).logs[f"{DEVICE}-0002.jsonl"].after
    assert after == (f"{DEVICE}-0001.jsonl", hash_of(before.splitlines()[-1]))
    assert notes(tmp_path) == ["one", "two"]
    assert verify(tmp_path).whole


def test_another_program_that_changes_the_file_is_noticed(tmp_path: Path) -> None:
    path = tmp_path / f"{DEVICE}-0001.jsonl"
    draft = note("two")
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        copy = path.read_bytes()
        path.unlink()
        path.write_bytes(copy)  # as a sync tool does
        with pytest.raises(NotSaved, match="another program"):
            book.record(draft)
        book.record(draft)
        book.record(note("three"))

    assert path.read_bytes() == copy
    assert notes(tmp_path) == ["one", "two", "three"]
    assert verify(tmp_path).whole


def test_a_line_that_another_program_is_writing_is_read_when_it_is_whole(tmp_path: Path) -> None:
    raw = log_of(header(), entry(1), entry(2))
    whole = len(log_of(header(), entry(1)))
    path = write_log(tmp_path, raw[:whole])
    with Book.open(tmp_path, "d-other") as book:
        for cut in (whole + 5, len(raw) - 1):
            path.write_bytes(raw[:cut])
            assert book.reread() == []
        path.write_bytes(raw)
        assert [e.note for e in book.reread()] == ["entry 2"]
        assert book.reports == []


def test_a_clock_that_goes_back_is_noted_and_the_order_kept(tmp_path: Path) -> None:
    times = iter([dt.datetime(2026, 5, 14, 8, minute, tzinfo=dt.UTC) for minute in (30, 10, 40)])
    with Book.open(tmp_path, DEVICE, clock=lambda: next(times)) as book:
        for words in ("one", "two", "three"):
            book.record(note(words))
        live = [str(problem) for problem in book.reports]
    with Book.open(tmp_path, DEVICE, write=False) as again:
        assert [str(problem) for problem in again.reports] == live
        assert [e.note for e in again.job.entries] == ["one", "two", "three"]
    assert len(live) == 1
    assert "went back from 2026-05-14 08:30:00 at entry 1" in live[0]


def test_a_log_of_an_older_format_is_read_and_gone_on_from(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Made up: format 0 called the kind of an entry its type."""
    old = entry(1)
    old["type"] = old.pop("kind")
    path = write_log(tmp_path, log_of(header(version=0), old))
    before = path.read_bytes()
    assert "format 0" in str(verify(tmp_path))

    monkeypatch.setitem(upgrades.UPGRADES, 0, lambda e: {"kind": e.pop("type"), **e})
    assert verify(tmp_path).whole
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("in the new format"))

    assert path.read_bytes() == before
    assert notes(tmp_path) == ["entry 1", "in the new format"]
    newest = read_folder(tmp_path).logs[f"{DEVICE}-0002.jsonl"]
    assert newest.version == line.VERSION
    assert newest.after == (path.name, hash_of(before.splitlines()[-1]))


def test_this_format_is_refused_by_none_but_an_older_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_log(tmp_path, log_of(header(), entry(1)))
    for module in (line, logfile, reading, writing):
        monkeypatch.setattr(module, "VERSION", 0)
    with Book.open(tmp_path, DEVICE) as book:
        assert "newer fieldbook" in str(book.holder)
        assert "format 1" in str(book.reports[0])


def test_lines_that_cannot_follow_one_another_are_told(tmp_path: Path) -> None:
    head = forged(1, NO_LINE, "head", header())
    late = forged(7, hash_of(head), "entry", entry(1))
    path = write_log(tmp_path, head + b"\n" + late + b"\n")

    assert [p.line for p in verify(path).problems] == [2]
    assert len(verify(path).logs[0].entries) == 1
