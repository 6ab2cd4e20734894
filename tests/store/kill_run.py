"""A program that records as fast as it can, killed at random instants, over and over."""

from __future__ import annotations

import multiprocessing
import random
import time
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path

from fieldbook.record.entry import Draft, Entry
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.verify import verify

DEVICE = "d-cab"
KILLS_PER_JOB = 25
_OPEN = "open"
# One process imports the book and each program is forked from it, which makes many kills quick.
_CONTEXT = multiprocessing.get_context("forkserver")
_CONTEXT.set_forkserver_preload(["tests.store.kill_run"])


@dataclass
class Figures:
    """What the kills came to.

    Attributes:
        kills: Programs killed.
        told: Entries that a program said were saved.
        untold: Entries that were on disk in full when the kill came before the word of it.
        torn: Kills that left an unfinished line.
        lost: Entries that were told saved and are not there.
    """

    kills: int = 0
    told: int = 0
    untold: int = 0
    torn: int = 0
    lost: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        return (
            f"{self.kills} kills, {self.told} entries told saved, {self.untold} saved but not yet"
            f" told, {self.torn} unfinished lines set aside, entries lost: {len(self.lost)}"
        )


def words(run: int, number: int) -> str:
    """What a run writes in an entry, short or long, so that it can be checked in full."""
    return f"{run} {number} " + "\u20ac" * random.Random(f"{run} {number}").choice([3, 400, 3900])


def record_for_ever(folder: Path, office: Path, run: int, told: Connection) -> None:
    """What the program does: it records, says so, and now and then copies to the office."""
    with Book.open(folder, DEVICE) as book:
        told.send(_OPEN)
        number = 0
        while True:
            entry = book.record(Draft("note", "QA", note=words(run, number)))
            told.send(entry.id)
            number += 1
            if number % 4 == 0:
                merge_job(folder, office)


def kill_often(root: Path, kills: int, seed: int) -> Figures:
    """Kill the program that often, and check the job and the office's copy after each.

    Raises:
        AssertionError: Something is half there, twice there or damaged.
    """
    chance, figures = random.Random(seed), Figures()
    for first in range(0, kills, KILLS_PER_JOB):
        folder, told = root / f"job{first}" / "truck", set[str]()
        folder.mkdir(parents=True)
        for run in range(first, min(first + KILLS_PER_JOB, kills)):
            new = _killed_once(folder, run, chance)
            told |= new
            figures.kills += 1
            figures.told += len(new)
            _check(folder, told, figures)
        figures.untold += sum(1 for _ in read_folder(folder).entries()) - len(told)
        figures.torn += len(list(folder.glob("*.torn-*")))
    return figures


def _killed_once(folder: Path, run: int, chance: random.Random) -> set[str]:
    """Start the program, kill it some time after some entry, and return what it had told."""
    ours, theirs = _CONTEXT.Pipe(duplex=False)
    office = folder.with_name("office")
    program = _CONTEXT.Process(target=record_for_ever, args=(folder, office, run, theirs))
    program.start()
    theirs.close()
    heard: list[str] = []
    if chance.random() < 0.2:  # while it opens the book
        time.sleep(chance.uniform(0, 0.02))
    else:  # at any instant within an entry or two
        began = time.monotonic()
        heard += [_hear(ours) for _ in range(chance.randrange(1, 7))]
        one = (time.monotonic() - began) / len(heard)
        time.sleep(chance.uniform(0, 2 * min(one, 0.02)))
    program.kill()
    program.join()
    while ours.poll():
        try:
            heard.append(ours.recv())
        except (EOFError, OSError):
            break
    ours.close()
    program.close()
    return set(heard) - {_OPEN}


def _hear(ours: Connection) -> str:
    assert ours.poll(60), "the program says nothing"
    return str(ours.recv())


def _check(folder: Path, told: set[str], figures: Figures) -> None:
    for place in (folder, folder.with_name("office")):
        if place.is_dir():
            found = verify(place)
            assert not [problem for problem in found.problems if problem.damage], str(found)
            _check_words(read_folder(place).entries())
    there = {entry.id for entry in read_folder(folder).entries()}
    figures.lost += sorted(told - there)


def _check_words(entries: Iterable[Entry]) -> None:
    notes = Counter(entry.note for entry in entries)
    for note, times in notes.items():
        run, number, _ = note.split(" ")
        assert note == words(int(run), int(number)), "half an entry"
        assert times == 1, "an entry is there twice"
