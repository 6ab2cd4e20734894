"""A shelf of 2,000 jobs, or of 10,000 in the long run, beside one of 10, in one run.

The program itself is opened in a terminal; FIELDBOOK_SHELF sets another size.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest

from fieldbook.app.shelf.job_status import basis, job_status
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.query import Wanted
from fieldbook.store.shelf.shelf import INDEX, Shelf
from tests.amount import amount
from tests.app.scenes import scratch_home
from tests.store.shelves import many_jobs
from tests.whole.terminal import Terminal

pytestmark = [pytest.mark.bench, pytest.mark.timeout(900)]
FEW, MANY = 10, int(os.environ.get("FIELDBOOK_SHELF", amount("2000", whole="10000")))
# The aim is 1.5 for both. Opening was measured at 0.92 to 1.25; an echo in the find field, while
# the shelf is read to its end behind, at 0.9 to 1.6.
MOST_TO_OPEN, MOST_TO_ECHO = 1.9, 2.5
MOST_TO_LOOK, MOST_TO_FIND = 0.2, 0.02
ROUNDS, KEYS = 7, "sallow farm"


@pytest.fixture(scope="module")
def shelves(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Home]:
    """Two homes that have been opened before, so that each has an index."""
    homes = {n: scratch_home(tmp_path_factory.mktemp(f"shelf{n}") / "home") for n in (FEW, MANY)}
    for count, home in homes.items():
        many_jobs(home, count, processes=2)
        Shelf(home).refresh(status_of=job_status, basis=basis(None))
    return homes


def newest(terminal: Terminal, count: int) -> None:
    terminal.see(f"J-{count - 1:05}", "The job")


def seconds_to_open(home: Path, count: int) -> float:
    with Terminal(home=home) as terminal:
        start = perf_counter()
        newest(terminal, count)
        return perf_counter() - start


def seconds_to_echo(home: Path, count: int) -> list[float]:
    """From each key in the field to the screen that shows it, the shelf being read behind."""
    spans = []
    with Terminal(home=home, columns=120, rows=36) as terminal:
        newest(terminal, count)
        terminal.press("/")
        terminal.see("owner, well, pump")
        for at in range(len(KEYS)):
            start = perf_counter()
            terminal.type(KEYS[at])
            terminal.see(f"  {KEYS[: at + 1]}".rstrip())
            spans.append(perf_counter() - start)
    return spans


def test_it_opens_as_quickly(shelves: dict[int, Home]) -> None:
    spans: dict[int, list[float]] = {FEW: [], MANY: []}
    for _ in range(ROUNDS):
        for count, home in shelves.items():
            spans[count].append(seconds_to_open(home.path, count))
    ratio = median(spans[MANY]) / median(spans[FEW])
    print(f"\nto the newest jobs on the screen, {MANY} jobs / {FEW}: {ratio:.2f}")
    assert ratio <= MOST_TO_OPEN


def test_typing_into_the_find_field_is_as_quick(shelves: dict[int, Home]) -> None:
    spans: dict[int, list[float]] = {FEW: [], MANY: []}
    for _ in range(3):
        for count, home in shelves.items():
            spans[count] += seconds_to_echo(home.path, count)
    ratio = median(spans[MANY]) / median(spans[FEW])
    print(f"\na key to its echo while finding, {MANY} jobs / {FEW}: {ratio:.2f}")
    assert ratio <= MOST_TO_ECHO


def test_a_look_at_what_changed_costs_little_beside_reading_it_all(
    shelves: dict[int, Home],
) -> None:
    home = shelves[MANY]
    shelf = Shelf(home)
    look, find = timed(shelf.refresh), timed(lambda: shelf.find_jobs(Wanted(("sallow", "chafe"))))
    (home.path / INDEX / "jobs.jsonl").unlink()
    whole = timed(Shelf(home).refresh)
    print(
        f"\n{MANY} jobs: a look {look / whole:.3f}, a find {find / whole:.4f} of reading them all"
    )
    assert look <= MOST_TO_LOOK * whole
    assert find <= MOST_TO_FIND * whole


def timed(work: Callable[[], object]) -> float:
    start = perf_counter()
    work()
    return perf_counter() - start
