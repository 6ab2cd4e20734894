"""What one entry costs: the same however long the log is, and little more than the disk itself.

Only ratios within one run count. They need a real disk: in memory a sync costs nothing.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest

from fieldbook.record.entry import Draft
from fieldbook.store.book import Book
from fieldbook.store.disk import DISK

pytestmark = pytest.mark.bench
LAST = 3_000
WINDOW = 200
DRAFT = Draft("note", "QA", note="joint 12, 20.98 ft, gauge 742 lbf, condition good, x" * 4)
TOP = Path(__file__).resolve().parents[2]


@pytest.fixture
def on_disk() -> Iterator[Path]:
    """A folder beside the program, on a disk and not in memory."""
    if sys.platform.startswith("linux"):
        words = ["stat", "--file-system", "--format=%T", str(TOP)]
        kind = subprocess.run(words, capture_output=True, text=True, check=True).stdout.strip()
        if kind in {"tmpfs", "ramfs"}:
            pytest.skip(f"{kind} is memory: a sync costs nothing there")
    with tempfile.TemporaryDirectory(dir=TOP, prefix=".bench-") as folder:
        yield Path(folder)


def recorded(book: Book) -> float:
    begin = perf_counter()
    book.record(DRAFT)
    return perf_counter() - begin


def appended(descriptor: int, raw: bytes) -> float:
    begin = perf_counter()
    os.write(descriptor, raw)
    DISK.sync(descriptor)
    return perf_counter() - begin


def grown_to(folder: Path, device: str, entries: int) -> Book:
    """A book that holds that many entries, written without waiting for the disk."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DISK, "sync", lambda _: None)
        book = Book.open(folder, device)
        for _ in range(entries):
            book.record(DRAFT)
    return book


def test_the_three_thousandth_entry_costs_what_the_tenth_does(on_disk: Path) -> None:
    """Both books are written by turns, so that a slow moment of the disk meets both."""
    folders = [on_disk / "short", on_disk / "long"]
    for folder in folders:
        folder.mkdir()
    short, long = grown_to(folders[0], "d-a", 10), grown_to(folders[1], "d-a", LAST)
    with short, long:
        pairs = [(recorded(short), recorded(long)) for _ in range(WINDOW)]
        assert len(long.job.entries) == LAST + WINDOW
    tenth, last = median(pair[0] for pair in pairs), median(pair[1] for pair in pairs)
    print(f"entry {LAST} costs {last / tenth:.2f} times entry 10 ({last * 1000:.2f} ms)")

    assert last <= 1.5 * tenth


def test_one_entry_costs_at_most_twice_a_bare_append_and_sync(on_disk: Path) -> None:
    with Book.open(on_disk, "d-a") as book:
        recorded(book)
        log = next(on_disk.glob("*.jsonl"))
        before = log.stat().st_size
        recorded(book)
        raw = bytes(log.stat().st_size - before)
        descriptor = os.open(on_disk / "bare", os.O_WRONLY | os.O_APPEND | os.O_CREAT)
        try:
            pairs = [(appended(descriptor, raw), recorded(book)) for _ in range(WINDOW)]
        finally:
            os.close(descriptor)
    bare, entry = median(pair[0] for pair in pairs), median(pair[1] for pair in pairs)
    print(f"an entry costs {entry / bare:.2f} times a bare append and sync ({bare * 1000:.2f} ms)")

    assert entry <= 2 * bare
