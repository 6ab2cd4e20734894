"""Where a device goes on writing, what it leaves alone, and what it makes of odd neighbours."""

from __future__ import annotations

import errno
import json
from pathlib import Path

import pytest

from fieldbook.record.entry import Draft
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import NotSaved
from fieldbook.store.log import logfile
from fieldbook.store.log import writer as writing
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.line import LONGEST
from fieldbook.store.log.logfile import MOST_NUMBER
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.seal import broken_seals, sealed_heads
from fieldbook.store.log.verify import verify
from tests.store.conftest import Clock, note
from tests.store.forging import DEVICE, entry, forged, hash_of, header, log_of, write_log


def fails(*_: object) -> None:
    raise OSError(errno.EIO, "broken")


def test_a_seal_names_the_last_line_of_every_file_that_was_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("one"))
        draft = note("two")
        with monkeypatch.context() as patch:
            patch.setattr(DISK, "sync", fails)
            with pytest.raises(NotSaved):
                book.record(draft)
        book.record(draft)
        before = {path.name: path.read_bytes() for path in tmp_path.glob("*.jsonl")}
        seal = book.record(Draft("seal", "QA", note="all done"))

    assert len(before) == 2
    last = {name: hash_of(raw.splitlines()[-1]) for name, raw in before.items()}
    assert sealed_heads(seal) == last
    assert seal.note.startswith("all done\n")


def test_a_line_rewritten_with_a_right_checksum_breaks_the_seal(tmp_path: Path) -> None:
    """The lines after it, the one that the seal names too, are just as they were."""
    with Book.open(tmp_path, DEVICE) as book:
        for words in ("742 lbf", "760 lbf"):
            book.record(note(words))
        seal = book.record(Draft("seal", "QA"))
    path = tmp_path / f"{DEVICE}-0001.jsonl"
    assert broken_seals(tmp_path, seal) == []
    lines = path.read_bytes().splitlines()
    body = json.loads(lines[1])["entry"] | {"note": "142 lbf"}
    lines[1] = forged(2, hash_of(lines[0]), "entry", body)
    path.write_bytes(b"\n".join(lines) + b"\n")

    assert "142 lbf" in [e.note for _, e in read_log(path).entries]
    assert broken_seals(tmp_path, seal) == [path.name]


def test_a_file_of_its_name_but_of_another_job_is_passed_over(folder: Path) -> None:
    with Book.open(folder, "d-other") as book:
        kept = [*book.job.entries, *(book.record(note(f"{number}")) for number in range(3))]
    stray = write_log(folder, log_of(header(), entry(1)))
    before = stray.read_bytes()
    with Book.open(folder, DEVICE) as book:
        saved = book.record(note("ours"))

    assert stray.read_bytes() == before
    with Book.open(folder, DEVICE) as again:
        assert list(again.job.entries) == [*kept, saved]


def damaged(folder: Path, number: int) -> bytes:
    """A log of ours that can be gone on from no more."""
    raw = log_of(header(file=number), entry(number)).replace(b"entry", b"entri")
    return write_log(folder, raw, number=number).read_bytes()


def test_after_the_last_number_a_device_goes_on_with_the_first_that_is_free(
    tmp_path: Path,
) -> None:
    last = damaged(tmp_path, MOST_NUMBER)
    saved = []
    for session in range(3):
        with Book.open(tmp_path, DEVICE) as book:
            saved += [book.record(note(f"{session} {number}")) for number in range(2)]
        if session == 1:  # as after a damage, so that the next must begin yet another file
            damaged(tmp_path, 2)
    names = {path.name for path in tmp_path.glob("*.jsonl")}

    assert names == {f"{DEVICE}-{number:04d}.jsonl" for number in (1, 2, 3, MOST_NUMBER)}
    assert (tmp_path / f"{DEVICE}-{MOST_NUMBER}.jsonl").read_bytes() == last
    with Book.open(tmp_path, DEVICE) as again:
        assert list(again.job.entries) == saved
        assert again.record(note("and on")).seq == len(saved) + 1


def test_when_there_are_no_names_left_it_is_not_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(writing, "MOST_NUMBER", 3)
    for number in range(1, 4):
        damaged(tmp_path, number)
    with Book.open(tmp_path, DEVICE) as book, pytest.raises(NotSaved, match="log files"):
        book.record(note("x"))


def test_a_log_that_has_grown_large_is_gone_on_from_in_a_next_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that no log of ours is ever larger than is read."""
    bound = 4000
    for module in (writing, logfile):
        monkeypatch.setattr(module, "LARGEST_LOG", bound)
    monkeypatch.setattr(writing, "LONGEST", 600)
    with Book.open(tmp_path, DEVICE) as book:
        saved = [book.record(note(f"entry {number} {'x' * 200}")) for number in range(40)]
        heads = book.heads()
    sizes = [path.stat().st_size for path in tmp_path.glob("*.jsonl")]

    assert len(sizes) == len(heads) > 3
    assert max(sizes) <= bound
    with Book.open(tmp_path, DEVICE) as again:
        assert list(again.job.entries) == saved
        assert again.reports == []
        assert again.record(note("and on")).seq == 41


def test_a_device_never_goes_on_in_a_twin(tmp_path: Path) -> None:
    write_log(tmp_path, log_of(header(), entry(1)))
    twin = tmp_path / f"{DEVICE}-0001~0123456789ab.jsonl"
    twin.write_bytes(log_of(header(), entry(2)))
    before = twin.read_bytes()
    with Book.open(tmp_path, DEVICE) as book:
        book.record(note("goes on"))
        assert len(book.job.entries) == 3

    assert twin.read_bytes() == before
    assert len(read_log(tmp_path / f"{DEVICE}-0001.jsonl").entries) == 2


def test_an_endless_unfinished_line_is_damage_and_not_a_torn_one(tmp_path: Path) -> None:
    path = write_log(tmp_path, log_of(header(), entry(1)) + b"x" * (3 * LONGEST))
    found = read_log(path)

    assert (found.damaged, found.torn) == (True, b"")
    assert [problem.line for problem in found.findings] == [3]


def test_a_line_that_names_another_before_it_is_told(tmp_path: Path) -> None:
    lines = log_of(header(), entry(1)).splitlines()
    wrong = forged(3, hash_of(b"another"), "entry", entry(2))
    right = forged(4, hash_of(wrong), "entry", entry(3))
    found = read_log(write_log(tmp_path, b"\n".join([*lines, wrong, right]) + b"\n"))

    assert [problem.line for problem in found.findings] == [3]
    assert found.chained == 2
    assert len(found.entries) == 3


def test_after_a_spoiled_line_the_next_is_not_blamed(tmp_path: Path) -> None:
    raw = log_of(header(), entry(1), entry(2), entry(3)).replace(b"entry 2", b"entry 4")
    found = read_log(write_log(tmp_path, raw))

    assert [problem.line for problem in found.findings] == [3]
    assert found.chained == 2


def test_a_newer_log_is_told_once_and_neither_read_nor_copied(tmp_path: Path) -> None:
    truck = tmp_path / "truck"
    newer = write_log(truck, log_of(header(version=2), {"new": 1}, {"new": 2}))
    found = verify(newer)
    report = merge_job(truck, tmp_path / "office")

    assert [problem.line for problem in found.problems] == [1]
    assert not report.clean
    assert list((tmp_path / "office").glob("*.jsonl")) == []


def test_a_job_id_that_is_none_of_ours_is_not_carried_on(tmp_path: Path) -> None:
    write_log(
        tmp_path,
        log_of(header(job="x" * (LONGEST - 280)), entry(1).copy()).replace(b"entry 1", b"E"),
    )
    with Book.open(tmp_path, DEVICE) as book:
        saved = book.record(note("goes on"))
    with Book.open(tmp_path, DEVICE) as again:
        assert saved in again.job.entries
        assert {problem.file for problem in again.reports} == {f"{DEVICE}-0001.jsonl"}


def test_a_log_that_was_put_back_to_an_older_copy_takes_nothing_from_the_reader(
    tmp_path: Path,
) -> None:
    one, two = entry(1), entry(2)
    path, older = write_log(tmp_path, log_of(header(), one, two)), log_of(header(), one)
    with Book.open(tmp_path, "d-office") as book:
        path.write_bytes(older)
        assert book.reread() == []
        assert len(book.job.entries) == 2
        added = forged(3, hash_of(older.splitlines()[-1]), "entry", entry(7))
        path.write_bytes(older + added + b"\n" + b'{"n":4')
        assert [e.note for e in book.reread()] == ["entry 7"]


def test_what_is_tried_again_is_the_same_entry(
    book: Book, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    draft = note("once")
    with monkeypatch.context() as patch:
        patch.setattr(DISK, "sync", fails)
        for _ in range(2):
            with pytest.raises(NotSaved):
                book.record(draft)
    tried = clock()
    first = book.record(draft)
    second = book.record(draft)

    assert first.time < tried < second.time
    assert first.id != second.id  # said twice on purpose, it is there twice
