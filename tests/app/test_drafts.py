"""A draft belongs to the job as it was when it was typed; what was saved is never half typed."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from fieldbook.app.walk.drafts import HalfTyped
from fieldbook.record.entry import Draft
from fieldbook.store.job import drafts as drafts_file
from fieldbook.store.job.book import Book
from fieldbook.store.job.drafts import TypedAt, keep_drafts, read_drafts
from fieldbook.store.log import disk
from fieldbook.store.log.writer import LogWriter
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL

AT = TypedAt(7, 7)
TYPED = {"pull.joint": {"joint_length": "20.98"}}


@pytest.fixture
def pull(home: Home) -> Path:
    """A steel pull that stands before its first joint."""
    return put_job(home, STEEL, before="pull.joint")


def state(job: Path, *, metric: bool = False, paper: bool = False) -> TypedAt:
    with Book.open(job, "", write=False) as book:
        return TypedAt(book.job.last_seq, len(book.job.entries), metric=metric, paper=paper)


def on_disk(home: Home, job: Path) -> Path:
    return home.path / "drafts" / f"{job.name}.json"


@pytest.mark.parametrize(
    "now",
    [
        AT._replace(seq=8, entries=8),
        AT._replace(seq=6, entries=6),
        AT._replace(entries=8),  # another device's, of a number long passed
        AT._replace(metric=True),
        AT._replace(paper=True),
    ],
)
def test_a_draft_that_was_typed_at_another_state_is_dropped(
    home: Home, tmp_path: Path, now: TypedAt
) -> None:
    job = tmp_path / "26-1"
    keep_drafts(home, job, AT, TYPED)

    assert read_drafts(home, job, AT) == TYPED
    assert read_drafts(home, job, now) == {}


@pytest.mark.parametrize(
    "spoiled",
    [
        b"",
        b"[1]",
        b'{"pull.joint": {"joint_length": "20.98"}}',  # as they were kept before
        b'{"typed_at": 3, "steps": {"pull.joint": {"joint_length": "20.98"}}}',
        b'{"typed_at": {}, "steps": {"pull.joint": {"joint_length": "20.98"}}}',
        b'{"typed_at": {"seq": 7, "entries": 7, "metric": false, "paper": false}, "steps": 3}',
        b'{"typed_at": {"seq": 7, "entries": 7, "metric": false, "paper": false}, "steps": {"":3}}',
        b"\xff\x00",
        b"[" * 100_000,
        b"9" * 5_000,
        b'{"typed_at": {"joint_length": "' + b"9" * 2_000_000 + b'"}}',
    ],
)
def test_drafts_that_are_damaged_are_nothing(home: Home, tmp_path: Path, spoiled: bytes) -> None:
    job = tmp_path / "26-1"
    keep_drafts(home, job, AT, TYPED)
    on_disk(home, job).write_bytes(spoiled)

    assert all(texts == {} for texts in read_drafts(home, job, AT).values())


async def test_an_escape_in_a_draft_is_shown_as_a_mark(home: Home, pull: Path) -> None:
    keep_drafts(home, pull, state(pull), {"pull.joint": {"joint_length": "20\x1b[2J"}})

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("20?[2J")


INSTANTS = {
    "before the entry is written": (LogWriter, "append", False),
    "once the entry is on disk": (LogWriter, "append", True),
    "before the draft is removed": (HalfTyped, "keep", False),
    "once the draft is removed": (HalfTyped, "keep", True),
}


@pytest.mark.parametrize("instant", INSTANTS.values(), ids=INSTANTS)
async def test_at_whatever_instant_it_is_killed_a_joint_is_saved_or_half_typed_and_never_both(
    home: Home, pull: Path, tmp_path: Path, instant: tuple[type, str, bool]
) -> None:
    where, call, after = instant
    aside = tmp_path / "as it was on disk"
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98")
        crew.app.screen.keep_draft()  # type: ignore[attr-defined] # as it is done every few seconds
        crew.app.keep_half_typed()
        assert "20.98" in on_disk(home, pull).read_text()
        real = getattr(where, call)

        def seen(*given: object, **named: object) -> object:
            if not after and not aside.exists():
                shutil.copytree(home.path, aside)
            made = real(*given, **named)
            if after and not aside.exists():
                shutil.copytree(home.path, aside)
            return made

        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(where, call, seen)
            await crew.press("enter", "enter")
        crew.sees("Joint 1 out saved")
        assert not on_disk(home, pull).exists()

    killed = Home(aside)
    job = killed.jobs_folder / pull.name
    with Book.open(job, "d-reader", write=False) as book:
        is_saved = bool(book.job.live("joint"))
    is_half_typed = "pull.joint" in read_drafts(killed, job, state(job))
    assert is_saved != is_half_typed
    assert is_saved == (call == "keep" or after)


async def test_what_is_half_typed_at_another_step_outlives_a_save(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "pageup")
        step = crew.app.screen._step.id  # type: ignore[attr-defined]
        await crew.press("pagedown")
        await crew.types("20.98")
        session = crew.app._session
        assert session is not None
        session.drafts[step] = {"reason": "half a word"}
        await crew.press("enter", "enter")
        crew.sees("Joint 1 out saved")
        assert read_drafts(home, pull, state(pull)) == {step: {"reason": "half a word"}}


async def test_another_devices_entry_drops_what_was_half_typed_before_it(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "f10")
    assert on_disk(home, pull).exists()
    with Book.open(pull, "d-other") as book:
        book.record(Draft("note", "RB", note="the other crew was here"))

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees_not("20.98")
        crew.app.keep_half_typed()
    assert not on_disk(home, pull).exists()


async def test_what_was_typed_from_paper_is_not_half_typed_as_it_happens(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "a")
        crew.sees("From paper or from memory")
        await crew.press("enter", "enter")
        crew.sees("FROM PAPER")
        await crew.types("20.98")
        await crew.press("f10")
    kept = json.loads(on_disk(home, pull).read_text())
    assert kept["typed_at"]["paper"] is True
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees_not("20.98")


def test_an_older_note_never_takes_the_place_of_a_newer(
    home: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The keys act, and save, while another thread is still writing what was noted before."""
    job = tmp_path / "26-1"
    half_typed = HalfTyped(home, job)
    half_typed.fit(AT)
    half_typed.drafts.update(TYPED)
    half_typed.note(AT)
    real = disk.write_whole

    def meanwhile(path: Path, raw: bytes) -> None:
        half_typed.drafts.clear()
        half_typed.note(AT._replace(seq=8, entries=8))
        real(path, raw)

    monkeypatch.setattr(drafts_file, "write_whole", meanwhile)
    half_typed.keep()
    half_typed.keep()

    assert not on_disk(home, job).exists()


async def test_what_a_released_hold_said_is_half_typed_no_more(home: Home) -> None:
    folder = put_job(home, HOSE, before="pull.onto_reel")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Held by")
        await crew.press("1", "enter")
        await crew.press("enter")
        crew.sees("Sign:")
        await crew.press("enter", "c", "enter", "enter")
        session = crew.app._session
        assert session is not None
        crew.sees(": signed")
        assert "pull.onto_reel" not in session.drafts
    assert not on_disk(home, folder).exists()


async def test_an_entry_that_nobody_was_told_of_is_named_on_opening_and_can_be_struck(
    home: Home, pull: Path
) -> None:
    device = home.device_id()
    with Book.open(pull, device) as book:
        told = book.record(Draft("note", "QA", note="before"))
        note = (pull / f".{device}.holder").read_bytes()
        book.record(Draft("note", "QA", note="nobody saw this one"))
    assert told.id.encode() in note
    # As a program leaves it that is killed once the line is written and before it is told.
    (pull / f".{device}.holder").write_bytes(note)

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("nobody saw this one", "nobody saw that it is saved", "x crosses it out")
        await crew.press("escape", "x", "3", "enter")
        crew.sees("crossed out")
    assert [entry.note for entry in crew.job(pull).live("note")] == ["before"]

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees_not("nobody saw that it is saved")
