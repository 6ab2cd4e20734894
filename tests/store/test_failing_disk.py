"""Every call to the disk fails, once or from then on: the entry stays in hand and is saved once."""

from __future__ import annotations

import errno
import itertools
import os
import random
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fieldbook.record.entry import Draft, Entry
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import NotSaved, ReadOnly
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.line import decode
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.amount import amount
from tests.store.conftest import note, opening
from tests.store.failing_disk import CALLS, FailingDisk

ERRORS = (errno.ENOSPC, errno.EIO, errno.EROFS)
DEVICE = "d-cab"
RUNS = amount(100, whole=400)
TORN = b'{"n":4,"prev":"'


@pytest.fixture
def begun(tmp_path: Path) -> Path:
    """A job with two entries, and a line that a killed program did not finish."""
    folder = tmp_path / "begun"
    folder.mkdir()
    with Book.open(folder, DEVICE) as book:
        book.record(opening())
        book.record(note("before"))
    with (folder / f"{DEVICE}-0001.jsonl").open("ab") as file:
        file.write(TORN)
    return folder


def saved(book: Book, draft: Draft, disk: FailingDisk) -> Entry:
    """Record until it is saved, the disk mended after the second time it is not."""
    for time in range(3):
        known = list(book.job.entries)
        disk.mended = disk.mended or time == 2
        try:
            return book.record(draft)
        except NotSaved as problem:
            check_in_hand(problem, draft, book, known)
    pytest.fail("not saved on a disk that is well again")


def check_in_hand(problem: NotSaved, draft: Draft, book: Book, known: list[Entry]) -> None:
    assert problem.draft is draft
    assert isinstance(problem.__cause__, OSError)
    assert str(problem) == problem.__cause__.strerror
    assert list(book.job.entries) == known
    assert len(book.entries.entries) == len(known)


def at_random(chance: random.Random, share: float) -> Callable[[int], bool]:
    return lambda _: chance.random() < share


def session(folder: Path, disk: FailingDisk) -> dict[str, Entry]:
    """Two openings of the book with two notes each; what was told saved, by its words."""
    told = {}
    with pytest.MonkeyPatch.context() as patch:
        disk.install(patch)
        for round_ in "ab":
            with Book.open(folder, DEVICE) as book:
                assert book.holder is None
                for number in range(2):
                    words = f"{round_}{number}"
                    told[words] = saved(book, note(words), disk)
    return told


def check(folder: Path, told: dict[str, Entry]) -> None:
    assert verify(folder).whole, str(verify(folder))
    with Book.open(folder, DEVICE, write=False) as again:
        found = [entry for entry in again.job.entries if entry.note not in ("", "before")]
        assert found == sorted(told.values(), key=lambda entry: entry.order)
        assert len(again.job.entries) == len(told) + 2
    assert [path.read_bytes() for path in folder.glob("*.torn-*")][:1] in ([TORN], [])


@pytest.mark.parametrize("error", ERRORS, ids=errno.errorcode.get)
@pytest.mark.parametrize("lasting", [False, True], ids=["once", "from then on"])
def test_any_call_may_fail_and_the_entry_is_saved_once(
    begun: Path, tmp_path: Path, error: int, *, lasting: bool
) -> None:
    failed = set()
    for first in itertools.count(1):
        folder = tmp_path / f"at{first}"
        shutil.copytree(begun, folder)
        last = first + 1000 if lasting else first
        disk = FailingDisk(range(first, last + 1).__contains__, error)
        check(folder, session(folder, disk))
        if not disk.failed:
            break
        failed |= set(disk.failed)

    # A good file is only removed after a failure, so only a lasting one can meet that call too.
    assert failed >= set(CALLS) - (set() if lasting else {"remove"})


def test_trying_again_tries_the_very_same_entry(begun: Path) -> None:
    disk = FailingDisk()
    draft = note("once")
    with Book.open(begun, DEVICE) as book, pytest.MonkeyPatch.context() as patch:
        disk.install(patch)
        patch.setattr(DISK, "sync", disk_error)
        patch.setattr(DISK, "truncate", disk_error)
        with pytest.raises(NotSaved):
            book.record(draft)
        disk.install(patch)
        entry = book.record(draft)
    lines = [line for path in begun.glob("*.jsonl") for line in path.read_bytes().splitlines()]
    tries = [decode(line).body for line in lines if b'"once"' in line]

    assert [body["id"] for body in tries] == [entry.id, entry.id]
    check(begun, {"once": entry})


def disk_error(*_: object) -> None:
    raise OSError(errno.EIO, os.strerror(errno.EIO))


def test_calls_that_fail_at_random_lose_and_double_nothing(begun: Path, tmp_path: Path) -> None:
    faults = 0
    for run in range(RUNS):
        folder = tmp_path / f"run{run}"
        shutil.copytree(begun, folder)
        chance = random.Random(run)
        share = chance.choice([0.1, 0.3, 0.6])
        disk = FailingDisk(at_random(chance, share), chance.choice(ERRORS))
        check(folder, session(folder, disk))
        faults += len(disk.failed)
        shutil.rmtree(folder)

    assert faults > 2.5 * RUNS


def test_a_job_whose_first_entry_is_not_saved_can_be_begun_again(tmp_path: Path) -> None:
    for first, error in itertools.product(range(1, 12), ERRORS):
        home = Home(tmp_path / f"{first} {error}")
        home.device_id()
        disk = FailingDisk(range(first, 1000).__contains__, error)
        with pytest.MonkeyPatch.context() as patch:
            disk.install(patch)
            try:
                Shelf(home).create(opening())
            except OSError:
                disk.mended = True
                Shelf(home).create(opening())
        with Book.open(Shelf(home).find("26-1"), "", write=False) as book:
            assert [entry.kind for entry in book.job.entries] == ["job"]


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Callable[[str], None]]:
    """A real file system of 64 KB in `tmp_path / "small"`, and what mounts it anew."""
    place = tmp_path / "small"
    place.mkdir()
    if not sys.platform.startswith("linux") or os.geteuid() != 0:
        pytest.skip("mounting a small tmpfs needs Linux and root")

    def mount(options: str) -> None:
        words = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(place)]
        done = subprocess.run(words, capture_output=True, text=True, check=False)
        if done.returncode:
            pytest.skip(f"a tmpfs cannot be mounted here: {done.stderr.strip()}")

    mount("size=64k")
    yield mount
    subprocess.run(["umount", str(place)], check=True)


def test_a_full_disk_says_not_saved_and_goes_on_when_there_is_room(
    small_disk: Callable[[str], None], tmp_path: Path
) -> None:
    folder = tmp_path / "small" / "job"
    folder.mkdir()
    ballast = tmp_path / "small" / "ballast"
    ballast.write_bytes(bytes(24 * 1024))
    told = []
    with Book.open(folder, DEVICE) as book:
        with pytest.raises(NotSaved, match=os.strerror(errno.ENOSPC)) as full:  # noqa: PT012 - it fills
            while True:
                told += [book.record(note("x" * 500))]
        assert len(told) > 10
        with pytest.raises(NotSaved):
            book.record(full.value.draft)
        ballast.unlink()
        told.append(book.record(full.value.draft))
        told.append(book.record(note("after")))
    assert verify(folder).whole
    with Book.open(folder, DEVICE) as again:
        assert list(again.job.entries) == told


def test_a_job_on_a_read_only_disk_is_read_and_says_so(
    small_disk: Callable[[str], None], tmp_path: Path
) -> None:
    folder = tmp_path / "small" / "job"
    folder.mkdir()
    with Book.open(folder, DEVICE) as book:
        kept = book.record(note("before"))
    small_disk("remount,ro")
    draft = note("later")
    with Book.open(folder, DEVICE) as book:
        assert book.holder is not None
        assert "cannot be written" in book.holder
        with pytest.raises(ReadOnly, match="cannot be written") as refused:
            book.record(draft)
        assert refused.value.draft is draft
        assert list(book.job.entries) == [kept]


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere"
)
def test_a_folder_that_may_not_be_written_is_read_and_says_so(begun: Path) -> None:
    begun.chmod(0o500)
    try:
        with Book.open(begun, "d-other") as book:
            assert book.holder is not None
            with pytest.raises(ReadOnly):
                book.record(note("x"))
    finally:
        begun.chmod(0o700)


def test_a_folder_that_is_gone_says_not_saved_until_it_is_back(begun: Path) -> None:
    away = begun.with_name("away")
    draft = note("while it was away")
    with Book.open(begun, DEVICE) as book:
        first = book.record(note("with it there"))
        begun.rename(away)
        for _ in range(2):
            with pytest.raises(NotSaved) as gone:
                book.record(draft)
            assert gone.value.draft is draft
        away.rename(begun)
        told = [first, book.record(draft), book.record(note("and on"))]
    with Book.open(begun, DEVICE) as again:
        assert list(again.job.entries)[2:] == told
    assert verify(begun).whole


def test_a_folder_that_was_removed_says_not_saved(begun: Path) -> None:
    with Book.open(begun, DEVICE) as book:
        shutil.rmtree(begun)
        for _ in range(3):
            with pytest.raises(NotSaved):
                book.record(note("x"))
        assert len(book.job.entries) == 2
