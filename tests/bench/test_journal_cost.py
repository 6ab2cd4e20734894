"""What one entry costs: the same however long the log is, and little more than the disk itself.

Only ratios within one run count. They need a real disk: in memory a sync costs nothing.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest

from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import DISK

pytestmark = pytest.mark.bench
LAST = 3_000
WINDOW = 200
ROUNDS = 6
MOST_PASSES = 10.0
"""Times the line of an entry is taken apart, put together and hashed: 4.4 was measured."""
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


def passed(line: bytes) -> float:
    begin = perf_counter()
    sha256(json.dumps(json.loads(line)).encode()).hexdigest()
    return perf_counter() - begin


def grown_to(folder: Path, device: str, entries: int) -> Book:
    """A book that holds that many entries, written without waiting for the disk."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DISK, "sync", lambda _: None)
        book = Book.open(folder, device)
        for _ in range(entries):
            book.record(DRAFT)
    return book


def ratio(first: Callable[[], float], second: Callable[[], float], most: float) -> float:
    """How many times `first` the `second` takes, by the medians of a round.

    The two take turns, and turns at beginning, so that a slow moment of the disk meets both. What
    else the machine does can only drive the two apart, so the best round counts, and there are no
    more of them once one is as good as it must be.
    """
    rounds: list[float] = []
    while len(rounds) < ROUNDS and min(rounds, default=most + 1) > most:
        times: list[tuple[float, float]] = []
        for number in range(WINDOW):
            if number % 2:
                later = second()
                times.append((first(), later))
            else:
                times.append((first(), second()))
        rounds.append(median(time[1] for time in times) / median(time[0] for time in times))
    return min(rounds)


def test_the_three_thousandth_entry_costs_what_the_tenth_does(on_disk: Path) -> None:
    folders = [on_disk / "short", on_disk / "long"]
    for folder in folders:
        folder.mkdir()
    with grown_to(folders[0], "d-a", 10) as short, grown_to(folders[1], "d-a", LAST) as long:
        found = ratio(lambda: recorded(short), lambda: recorded(long), 1.5)
        assert len(long.job.entries) > LAST + WINDOW - 1
    print(f"entry {LAST} costs {found:.2f} times entry 10")

    assert found <= 1.5


def test_one_entry_is_one_append_and_one_sync(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls: list[str] = []
    with Book.open(on_disk, "d-a") as book:
        book.record(DRAFT)
        for name in ("write", "sync", "sync_folder"):
            real = getattr(DISK, name)

            def counted(*given: object, name: str = name, real: Callable[..., None] = real) -> None:
                calls.append(name)
                real(*given)

            monkeypatch.setattr(DISK, name, counted)
        book.record(DRAFT)

    assert calls == ["write", "sync"]


def test_the_rest_of_an_entrys_cost_is_little_beside_its_own_line(on_disk: Path) -> None:
    """Without the disk, whose speed is its own: the work of the book beside that of a line."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DISK, "sync", lambda _: None)
        with Book.open(on_disk, "d-a") as book:
            recorded(book)
            line = next(on_disk.glob("*.jsonl")).read_bytes().splitlines()[-1]
            found = ratio(lambda: passed(line), lambda: recorded(book), MOST_PASSES / 2)
    print(f"an entry costs {found:.1f} times a pass over its line, the sync aside")

    assert found <= MOST_PASSES
