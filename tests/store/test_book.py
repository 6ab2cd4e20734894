"""A book records, holds, strikes and comes back as it was left."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from tinydb import where

from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import ReadOnly
from fieldbook.store.job.journal import NeverChanged
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.names import folder_name
from fieldbook.store.shelf.shelf import NoSuchJob, Shelf
from tests.store.conftest import Clock, note, opening


def words(book: Book) -> list[str]:
    return [entry.note for entry in book.job.entries if entry.kind == "note"]


def test_what_was_recorded_is_there_when_it_is_opened_again(
    book: Book, folder: Path, home: Home
) -> None:
    saved = [book.record(note(text)) for text in ("one", "two [/] \u20ac", "three")]
    book.close()

    with Book.open(folder, home.device_id()) as again:
        assert list(again.job.entries)[1:] == saved
        assert again.reports == []
        assert again.record(note("four")).seq == saved[-1].seq + 1


def test_the_journal_is_a_tinydb_that_only_grows(book: Book) -> None:
    book.record(note("one"))
    table = book.entries.entries

    assert len(table) == 2
    assert [row["note"] for row in table.search(where("kind") == "note")] == ["one"]
    every: list[Callable[[], object]] = [
        lambda: table.update({"note": "two"}),
        lambda: table.update_multiple([({"note": "two"}, where("kind") == "note")]),
        lambda: table.upsert({"note": "two"}, where("kind") == "note"),
        lambda: table.remove(where("kind") == "note"),
        lambda: book.entries.storage.write({}),
        table.truncate,
        book.entries.drop_tables,
        lambda: book.entries.drop_table("entries"),
    ]
    for refused in every:
        with pytest.raises(NeverChanged, match="cross it out instead"):
            refused()


def test_a_strike_leaves_the_entry_and_takes_it_out_of_the_job(book: Book) -> None:
    wrong = book.record(note("one"))
    strike = Draft("strike", "QA", {"reason": opening().values["job_number"]}, strikes=wrong.id)
    book.record(strike)

    assert not book.job.is_live(wrong)
    assert wrong in book.job.entries


def test_nonsense_is_refused_and_not_stored(book: Book, folder: Path) -> None:
    before = next(folder.glob("*.jsonl")).read_bytes()
    with pytest.raises(Refused):
        book.record(Draft("nonsense", "QA"))

    assert next(folder.glob("*.jsonl")).read_bytes() == before


def test_a_second_program_reads_and_says_who_holds_it(book: Book, folder: Path, home: Home) -> None:
    with Book.open(folder, home.device_id()) as second:
        assert second.holder is not None
        assert "process" in second.holder
        assert "since" in second.holder
        with pytest.raises(ReadOnly):
            second.record(note("x"))

        saved = book.record(note("by the first"))
        assert second.reread() == [saved]
        assert second.reread() == []


def test_another_process_is_kept_out_until_it_dies(folder: Path, home: Home) -> None:
    script = (
        "import sys, pathlib; from fieldbook.store.job.book import Book\n"
        "book = Book.open(pathlib.Path(sys.argv[1]), sys.argv[2]); print('open', flush=True)\n"
        "sys.stdin.read()"
    )
    holder = subprocess.Popen(
        [sys.executable, "-c", script, str(folder), home.device_id()],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    try:
        assert holder.stdout is not None
        assert holder.stdout.readline() == b"open\n"
        with Book.open(folder, home.device_id()) as kept_out:
            assert kept_out.holder is not None
            assert str(holder.pid) in kept_out.holder
    finally:
        holder.kill()
        holder.communicate()
    with Book.open(folder, home.device_id()) as free:
        assert free.holder is None


def test_two_devices_write_files_of_their_own_and_see_each_other(
    book: Book, folder: Path, clock: Clock
) -> None:
    with Book.open(folder, "d-office", clock=clock) as other:
        theirs = other.record(note("from the office"))
        assert book.reread() == [theirs]
        ours = book.record(note("from the cab"))
        assert ours.seq == theirs.seq + 1
        assert other.reread() == [ours]

    assert len(list(folder.glob("*.jsonl"))) == 2


def test_a_job_is_found_by_number_or_path(home: Home, folder: Path) -> None:
    shelf = Shelf(home)

    assert shelf.find("26-1") == folder
    assert shelf.find(folder) == folder
    for nothing in ("26-2", "", "..", "/", "\0", "x" * 300):
        with pytest.raises(NoSuchJob):
            shelf.find(nothing)


def test_a_number_is_on_the_shelf_once(home: Home, folder: Path) -> None:
    with pytest.raises(Refused, match="on the shelf already"):
        Shelf(home).create(opening())


@pytest.mark.parametrize("number", ["../../x", "a/b", "C:\\x", "..", ".", "\u202e1", "x" * 200])
def test_no_job_number_names_a_place_outside_the_shelf(home: Home, number: str) -> None:
    made = Shelf(home).create(opening(number))

    assert made.parent == home.jobs_folder
    assert Shelf(home).find(number) == made
    assert len(made.name) <= 60


def test_different_numbers_have_different_folders() -> None:
    numbers = ["1.2", "1_2", "1/2", "1 2", "12", "x" * 200, "x" * 201]

    assert len({folder_name(number) for number in numbers}) == len(numbers)


def test_the_shelf_lists_its_jobs(home: Home, folder: Path) -> None:
    (home.jobs_folder / "empty").mkdir()
    (home.jobs_folder / "stray.txt").write_text("x", encoding="utf-8")
    listing = Shelf(home).jobs()

    assert [(job.job_number, job.line, job.entries) for job in listing] == [("26-1", "steel", 1)]


def test_the_device_is_one_and_the_same(home: Home) -> None:
    assert home.device_id() == home.device_id()
    assert Home(home.path).device_id() == home.device_id()


def test_settings_come_back_and_a_spoiled_file_is_as_none(home: Home) -> None:
    settings = home.settings
    assert settings.units == "us"
    kept = type(settings)(initials='Q"A\n', units="metric", theme="day", safety_seen=True)
    home.keep(kept)

    assert home.settings.units == "metric"
    assert home.settings.initials == 'Q"A?'
    (home.path / "settings.toml").write_text("units = 3\n[", encoding="utf-8")
    assert home.settings == settings
