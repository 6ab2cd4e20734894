"""Nothing typed is lost, nothing saved is doubled, and the book opens where it was left."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Any

import pytest

from fieldbook.app.walk import entry as walk_entry
from fieldbook.app.walk.step_form import record_form
from fieldbook.office.sheet.inside import is_inside
from fieldbook.record.entry import Entry
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import Disk
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL


@pytest.fixture
def pull(home: Home) -> Path:
    """A steel pull that stands before its first joint."""
    return put_job(home, STEEL, before="pull.joint")


class FullDisk:
    """A disk that can be made full."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.full = False
        write = Disk.write

        def write_unless_full(disk: Disk, descriptor: int, raw: bytes) -> None:
            if self.full:
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
            write(disk, descriptor, raw)

        monkeypatch.setattr(Disk, "write", write_unless_full)


@pytest.mark.parametrize("key", ["enter", "="])
async def test_what_cannot_be_saved_stays_in_the_form_until_it_is(
    home: Home, pull: Path, monkeypatch: pytest.MonkeyPatch, key: str
) -> None:
    disk = FullDisk(monkeypatch)
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        disk.full = True
        if key == "enter":
            await crew.types("20.5", "enter")
        await crew.press(key)
        crew.sees("NOT SAVED", "No space left on device", "is kept", "OUT 1 of 18")
        await crew.press(key)
        crew.sees("NOT SAVED")
        disk.full = False
        await crew.press(key)
        crew.sees("Joint 2 out saved", "OUT 2 of 18")
        crew.sees_not("NOT SAVED")

    length = "20.5" if key == "enter" else "20.98"
    assert [j.text("joint_length") for j in crew.joints(pull)] == ["20.98", length]


async def test_a_run_that_the_disk_stops_half_way_goes_on_where_it_stopped(
    home: Home, pull: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    disk = FullDisk(monkeypatch)

    def fills_up(*told: Any) -> Entry | None:
        made = record_form(*told)
        disk.full = made is not None and made.text("joint_number") == "2"
        return made

    monkeypatch.setattr(walk_entry, "record_form", fills_up)
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("4 at 21.0", "enter", "enter")
        crew.sees("NOT SAVED", "2 at 21.0")
        disk.full = False
        await crew.press("enter")
        crew.sees("Joint 4 out saved", "OUT 4 of 18")
        crew.sees_not("NOT SAVED")

    assert [j.text("joint_number") for j in crew.joints(pull)] == ["1", "2", "3", "4"]
    assert {j.text("recorded") for j in crew.joints(pull)} == {"afterwards, hold not witnessed"}


async def test_a_dialog_keeps_its_words_until_they_are_saved(
    home: Home, pull: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    disk = FullDisk(monkeypatch)
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "n")
        disk.full = True
        await crew.types("mud on the casing", "enter")
        crew.sees("For the customer")
        await crew.press("y", "enter")
        crew.sees("NOT SAVED", "mud on the casing")
        disk.full = False
        await crew.press("enter", "enter")
        crew.sees("note saved")

    (note,) = crew.job(pull).live("note")
    assert (note.note, note.text("for_customer")) == ("mud on the casing", "yes")
    assert not is_inside(note)


async def test_a_note_that_nobody_marked_stays_inside(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "n")
        await crew.types("owner pays late", "enter", "enter")
        crew.sees("note saved")

    (note,) = crew.job(pull).live("note")
    assert note.note == "owner pays late"
    assert is_inside(note)


async def test_half_typed_values_outlive_other_steps_screens_the_shelf_and_a_resize(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.9")
        await crew.pilot.resize_terminal(120, 36)
        await crew.settle()
        crew.sees("20.9")
        await crew.types("8", "escape", "v", "escape", "l", "escape")
        crew.sees("20.98")
        await crew.press("pageup")
        crew.sees_not("20.98")
        await crew.press("pagedown")
        crew.sees("20.98")
        await crew.press("escape", "q")
        crew.sees("the shelf")
        await crew.press("enter")
        crew.sees("20.98")
        await crew.press("enter", "down", "up", "enter", "enter")

    assert [j.text("joint_length") for j in crew.joints(pull)] == ["20.98"]


async def test_a_number_that_nobody_typed_is_no_draft(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        await crew.press("pageup", "escape", "x", "3", "enter", "pagedown")
        await crew.types("20.5", "enter", "enter")

    assert [j.text("joint_number") for j in crew.joints(pull)] == ["1"]


async def test_the_book_opens_where_it_was_left(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter", "enter")
        await crew.press("=", "=")
        await crew.press("f10")
    async with at_the_keys(home) as crew:
        crew.sees("3 of 18 joints out; Pull: Joint out")
        await crew.press("enter")
        crew.sees("OUT 3 of 18 joints", "Joint *        4")
        await crew.press("=")

    assert [j.text("joint_number") for j in crew.joints(pull)] == ["1", "2", "3", "4"]


async def test_a_second_program_reads_and_says_who_holds_the_book(home: Home, pull: Path) -> None:
    with Book.open(pull, home.device_id()):
        async with at_the_keys(home) as crew:
            await crew.press("enter")
            crew.sees("READ ONLY", "process")
            await crew.types("20.98", "enter", "enter")
            crew.sees("NOT SAVED", "20.98")

    assert crew.joints(pull) == []


async def test_something_needed_is_left_out_only_for_a_reason(home: Home) -> None:
    folder = put_job(home, STEEL, before="plan.well")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("The well", "Well depth *")
        await crew.types("420", "enter", "enter")
        crew.sees("fill in, ? if nobody knows")
        await crew.press("enter")
        crew.sees("No figure? Say why")
        await crew.press("3", "enter")
        crew.sees("saved")

    said = crew.job(folder).live("well")[-1]
    assert said.text("well_depth") == "420"
    assert said.text("reason") == "cannot be reached"


async def test_where_one_more_is_asked_for_and_there_is_none_no_reason_is_recorded(
    home: Home,
) -> None:
    folder = put_job(home, HOSE, before="plan.redirect")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Roller and pulleys", "Piece no. from top * 3")
        for text in ("head roller", "90", "18", "1.05", "3000", "3000"):
            await crew.types(text, "enter")
        crew.sees("Piece no. from top * 4")
        await crew.press("enter")
        crew.sees("no more of them: Esc, then d")
        await crew.press("enter")
        crew.sees_not("No figure? Say why")
        await crew.press("escape", "d")
        crew.sees("Roller and pulleys: done")

    assert len(crew.job(folder).live("redirect")) == 3


async def test_enter_on_an_empty_line_goes_to_the_next_that_is_needed(home: Home) -> None:
    folder = put_job(home, HOSE, before="pull.drain")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "enter")
        crew.sees_not("needed")
        await crew.types("1150", "enter")
        await crew.types("640", "enter")
        await crew.press("y", "enter", "enter")
        crew.sees("Sign: ")

    drain = crew.job(folder).live("drain")[-1]
    assert (drain.text("load_before"), drain.text("plug_size")) == ("1150", "")


async def test_one_fact_of_the_card_is_changed_without_writing_the_others_again(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "c")
        rows = [row.words for row in crew.app.screen._rows]  # type: ignore[attr-defined]
        at = next(n for n, row in enumerate(rows) if row.strip().startswith("Drum pull"))
        await crew.press(*["down"] * at, "enter")
        crew.sees("3500")
        step = crew.app.screen._step  # type: ignore[attr-defined]
        line = crew.app.screen.query_one("#field-drum_pull")
        line.text = "4200"  # type: ignore[attr-defined]
        line.focus_field()  # type: ignore[attr-defined]
        await crew.press(*["enter"] * len(step.asks))

    newest = crew.job(pull).live("rig")[-1]
    assert set(newest.values) == {"drum_pull", "hoist", "step"}, "the form's fixed word goes along"
    assert newest.text("drum_pull") == "4200"


async def test_half_typed_values_outlive_the_program_and_record_nothing(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.9", "f10")
    assert crew.joints(pull) == []

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("20.9", "OUT 0 of 18")
        await crew.types("20.98", "enter", "enter")  # the cursor is in it, and typing replaces it
    assert [j.text("joint_length") for j in crew.joints(pull)] == ["20.98"]

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("OUT 1 of 18")
        crew.sees_not("20.98  ")


async def test_a_note_begins_with_its_words_and_then_asks_who_may_read_them(home: Home) -> None:
    folder = put_job(home, STEEL, before="close.next_time")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("yard gate sticks", "enter")
        await crew.press("n", "enter")

    note = crew.job(folder).live("note")[-1]
    assert (note.note, note.text("for_customer")) == ("yard gate sticks", "no")


async def test_after_a_crash_the_cursor_is_in_the_half_typed_gauge_and_typing_replaces_it(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21", "enter")
        await crew.types("1250", "f10")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("1150", "enter", "enter")
    assert [j.text("gauge_reading") for j in crew.joints(pull)] == ["1150"]


async def test_a_reading_past_the_end_of_the_gauge_is_refused_however_sure(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21", "enter")
        await crew.types("12501650", "enter", "enter", "enter", "enter")
        crew.sees("the gauge ends at 4000 lbf")
        assert crew.joints(pull) == []
