"""Random sequences of what crews do on two devices, against a plain model in memory."""

from __future__ import annotations

import datetime as dt
import itertools
import shutil
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.seal import broken_seals
from fieldbook.store.log.verify import verify
from tests.amount import amount
from tests.store.conftest import joint, note, opening
from tests.store.failing_disk import FailingDisk

DEVICES = ("d-cab", "d-tablet", "d-office")
devices = st.sampled_from(DEVICES)
CREW = ("AB", "CD")
START = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.UTC)


def strike_of(entry: Entry) -> Draft:
    return Draft("strike", "QA", {"reason": opening().values["job_number"]}, strikes=entry.id)


def correction_of(entry: Entry, words: str) -> Draft:
    return Draft("note", "QA", note=words, strikes=entry.id)


def handover(count: int) -> Draft:
    values = {"witness": CREW[1], "count_now": count}
    return draft_from({"kind": "handover", "by": CREW[0], "values": values})


def standing(entries: dict[str, Entry]) -> set[str]:
    """The ids that stand, worked out from scratch: the last word on an entry is said first."""
    stand: set[str] = set()
    struck: set[str] = set()
    for entry in sorted(entries.values(), key=lambda e: (e.seq, e.device, e.id), reverse=True):
        if entry.id not in struck:
            stand.add(entry.id)
            if entry.strikes is not None:
                struck.add(entry.strikes)
    return stand


class Crews(RuleBasedStateMachine):
    """Three devices, each with a folder of its own and a book on it.

    The model is, for each folder, the entries that it must hold; nothing else is kept of them.
    """

    def __init__(self) -> None:
        super().__init__()
        self.patch = pytest.MonkeyPatch()
        FailingDisk().install(self.patch)  # which fails at nothing here, and need not wait to sync
        self.root = Path(tempfile.mkdtemp(prefix="crews"))
        self.now = START
        self.books: dict[str, Book] = {}
        self.model: dict[str, dict[str, Entry]] = {device: {} for device in DEVICES}
        self.seals: dict[str, list[Entry]] = {device: [] for device in DEVICES}

    def teardown(self) -> None:
        for book in self.books.values():
            book.close()
        shutil.rmtree(self.root)
        self.patch.undo()

    def clock(self) -> dt.datetime:
        return self.now

    def folder(self, device: str) -> Path:
        return self.root / device

    def open(self, device: str) -> None:
        self.books[device] = Book.open(self.folder(device), device, clock=self.clock)
        assert self.books[device].holder is None

    def put(self, device: str, draft: Draft) -> Entry:
        known = self.model[device]
        entry = self.books[device].record(draft)
        assert entry.seq == max((e.seq for e in known.values()), default=0) + 1
        assert entry.id not in known
        assert entry.device == device
        known[entry.id] = entry
        return entry

    @initialize()
    def begin(self) -> None:
        first, *others = DEVICES
        self.folder(first).mkdir()
        self.open(first)
        self.put(first, opening())
        for device in others:
            merge_job(self.folder(first), self.folder(device))
            self.model[device] = dict(self.model[first])
            self.open(device)

    @rule(device=devices, words=st.text(min_size=1, max_size=60).filter(str.strip))
    def write(self, device: str, words: str) -> None:
        words = words.encode("utf-8", "replace").decode()
        assert self.put(device, note(words)).note == words

    @rule(device=devices, number=st.integers(1, 30), direction=st.sampled_from(["out", "in"]))
    def pull_or_set_a_joint(self, device: str, number: int, direction: str) -> None:
        self.put(device, joint(number, direction))

    @rule(device=devices, chosen=st.integers(0, 10_000), correct=st.booleans())
    def strike_or_correct(self, device: str, chosen: int, *, correct: bool) -> None:
        entries = sorted(self.model[device].values(), key=lambda entry: entry.id)
        wrong = entries[chosen % len(entries)]
        draft = correction_of(wrong, "instead") if correct else strike_of(wrong)
        assert self.put(device, draft).strikes == wrong.id

    @rule(device=devices, count=st.integers(0, 99))
    def hand_over(self, device: str, count: int) -> None:
        entry = self.put(device, handover(count))
        assert (entry.by, entry.text("witness")) == CREW

    @rule(device=devices)
    def seal(self, device: str) -> None:
        self.seals[device].append(self.put(device, Draft("seal", "QA")))

    @rule(minutes=st.integers(-600, 600))
    def the_clock_goes(self, minutes: int) -> None:
        self.now += dt.timedelta(minutes=minutes)

    @rule(giver=devices, taker=devices)
    def merge(self, giver: str, taker: str) -> None:
        report = merge_job(self.folder(giver), self.folder(taker))
        # The taker's own log is in use; the giver's copy of it has nothing new.
        in_use = {f"{taker}-0001.jsonl"}
        assert {problem.file for problem in report.problems if problem.damage} <= in_use
        known = self.model[taker]
        new = {key: entry for key, entry in self.model[giver].items() if key not in known}
        known |= new
        assert {entry.id for entry in self.books[taker].reread()} == new.keys()

    @rule(device=devices)
    def close_and_open(self, device: str) -> None:
        self.books[device].close()
        self.open(device)

    @rule(device=devices, cut=st.binary(min_size=1, max_size=50))
    def be_killed_while_writing(self, device: str, cut: bytes) -> None:
        self.books[device].close()
        own = sorted(self.folder(device).glob(f"{device}-????.jsonl"))
        if own:
            with own[-1].open("ab") as file:
                file.write(cut.replace(b"\n", b"?"))
        self.open(device)

    @precondition(lambda self: self.books)
    @invariant()
    def every_book_and_folder_is_as_the_model(self) -> None:
        for device, book in self.books.items():
            expected = sorted(self.model[device].values(), key=lambda e: (e.seq, e.device, e.id))
            assert list(book.job.entries) == expected
            live = {entry.id for entry in expected if book.job.is_live(entry)}
            assert live == standing(self.model[device])
            assert len(book.entries.entries) == len(expected)

    def check_disk(self) -> None:
        for device in DEVICES:
            folder = self.folder(device)
            found = {entry.id: entry for entry in read_folder(folder).entries()}
            assert found == self.model[device]
            assert verify(folder).whole, str(verify(folder))
            for seal in self.seals[device]:
                assert broken_seals(folder, seal) == []

    @rule()
    def look_at_the_disk(self) -> None:
        self.check_disk()

    @rule()
    def everything_comes_together(self) -> None:
        everything: dict[str, Entry] = {}
        for known in self.model.values():
            everything |= known
        for _ in range(2):
            for giver, taker in itertools.permutations(DEVICES, 2):
                self.merge(giver, taker)
        assert all(known == everything for known in self.model.values())
        jobs = [[entry.id for entry in book.job.entries] for book in self.books.values()]
        assert jobs[0] == jobs[1] == jobs[2]
        self.check_disk()


TestCrews = Crews.TestCase
TestCrews.settings = settings(
    max_examples=amount(20, whole=60), stateful_step_count=30, deadline=None
)
