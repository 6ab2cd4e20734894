"""A log of another job in a folder: it takes nothing over, and is named."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import ReadOnly
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, files, ids, note, opening, wrote
from tests.store.forging import entry, header, log_of, write_log

STRAY = "d-stray-0001.jsonl"


@pytest.fixture
def other(home: Home, folder: Path, clock: Clock) -> Path:
    """Another job of the shelf, far longer than the first, with a log of a device of its own."""
    made = Shelf(home).create(opening("26-2"), clock=clock)
    wrote(made, "d-stray", *[note(f"theirs {number}") for number in range(30)], clock=clock)
    return made


@pytest.fixture
def strayed(folder: Path, other: Path) -> Path:
    """The first job's folder, into which the larger log of the other was copied."""
    shutil.copy(other / STRAY, folder)
    return folder


def other_with_opening(folder: Path, other: Path) -> None:
    """The other job's first log, which opens it, under another name: as a stray copy is."""
    raw = next(path for path in other.glob("*-0001.jsonl") if path.name != STRAY).read_bytes()
    (folder / "d-copied-0001.jsonl").write_bytes(raw)


@pytest.mark.parametrize("with_opening", [False, True])
def test_the_folders_own_job_stays_and_is_written_and_the_stray_is_named(
    strayed: Path, other: Path, home: Home, clock: Clock, *, with_opening: bool
) -> None:
    if with_opening:
        other_with_opening(strayed, other)
    before = {name: raw for name, raw in files(strayed).items() if name == STRAY}
    shelf = {job.job_number: job for job in Shelf(home).jobs()}
    assert shelf.keys() == {"26-1", "26-2"}
    assert shelf["26-1"].entries == 1
    assert any(problem.file == STRAY for problem in shelf["26-1"].problems)

    [saved] = wrote(strayed, home.device_id(), note("ours"), clock=clock)
    with Book.open(strayed, home.device_id()) as again:
        assert [e.id for e in again.job.entries][1:] == [saved.id]
        assert any(p.file == STRAY and "another job" in p.words for p in again.reports)
    found = verify(strayed)
    assert not found.whole
    assert any(problem.file == STRAY for problem in found.problems)
    assert before.items() <= files(strayed).items()


def test_gathering_names_it_and_takes_the_folders_own(
    strayed: Path, other: Path, home: Home, tmp_path: Path
) -> None:
    office = tmp_path / "the office"
    told = gather([home.path], office)

    assert not told.clean
    assert STRAY in str(told)
    assert ids(office / "jobs" / "26-1") == ids(strayed)
    assert ids(office / "jobs" / "26-2") == ids(other)
    assert STRAY not in files(office / "jobs" / "26-1")
    again = gather([home.path], office)
    assert [(job.new, job.grown) for job in again.jobs] == [([], []), ([], [])]


def test_a_stray_in_the_offices_own_folder_leads_nothing_there(
    strayed: Path, other: Path, home: Home, tmp_path: Path
) -> None:
    truck = shutil.copytree(other, tmp_path / "truck" / "26-2")
    shutil.rmtree(other)
    gather([truck], home.path)

    assert ids(home.jobs_folder / "26-2") == ids(truck)
    assert len(ids(strayed)) == 1


def test_where_the_name_tells_neither_nothing_is_recorded_and_it_is_said(
    strayed: Path, other: Path, tmp_path: Path
) -> None:
    elsewhere = shutil.copytree(strayed, tmp_path / "copy of a stick")
    before = files(elsewhere)
    with Book.open(elsewhere, "d-cab") as book:
        assert "logs of 2 jobs are in this folder" in str(book.holder)
        assert STRAY in str(book.holder)
        with pytest.raises(ReadOnly, match="move those of the other job out"):
            book.record(note("x"))
    assert files(elsewhere) == before
    assert not verify(elsewhere).whole
    report = merge_job(other, elsewhere)
    assert not report.clean
    assert files(elsewhere) == before
    (elsewhere / STRAY).unlink()
    with Book.open(elsewhere, "d-cab") as book:
        assert book.record(note("goes on")).seq == 2


def test_two_jobs_of_one_number_in_one_folder_are_unclear(
    folder: Path, tmp_path: Path, clock: Clock
) -> None:
    """As a sync tool makes of two trucks that each opened a job of that number."""
    namesake = Shelf(Home(tmp_path / "second truck")).create(opening("26-1"), clock=clock)
    for path in namesake.glob("*.jsonl"):
        shutil.copy(path, folder)
    with Book.open(folder, "d-cab") as book:
        assert "logs of 2 jobs" in str(book.holder)


def test_a_namesakes_folder_is_known_by_the_piece_of_its_id(
    folder: Path, other: Path, home: Home, tmp_path: Path, clock: Clock
) -> None:
    second = Home(tmp_path / "second truck")
    namesake = Shelf(second).create(opening("26-1"), clock=clock)
    gather([second.path], home.path)
    [place] = [path for path in home.jobs_folder.iterdir() if path.name.startswith("26-1-")]
    shutil.copy(other / STRAY, place)

    assert ids(place) == ids(namesake)
    wrote(place, "d-cab", note("ours"), clock=clock)


def test_a_stray_is_kept_out_where_the_own_first_line_is_lost(folder: Path, other: Path) -> None:
    own = next(folder.glob("*.jsonl"))
    own.write_bytes(own.read_bytes().replace(b'"job":"', b'"job":"x', 1))
    opened = ids(folder)
    other_with_opening(folder, other)

    assert ids(folder) == opened
    with Book.open(folder, "d-cab") as book:
        saved = book.record(note("ours"))
    assert ids(folder) == opened | {saved.id}


def test_a_stray_that_comes_while_the_book_is_open_is_named_once(
    folder: Path, other: Path, home: Home
) -> None:
    with Book.open(folder, home.device_id()) as book:
        shutil.copy(other / STRAY, folder)
        for _ in range(2):
            assert book.reread() == []
        assert [problem.file for problem in book.reports] == [STRAY]
        assert book.record(note("ours")).seq == 2


def test_a_log_that_cannot_tell_its_job_is_given_to_none_of_two(tmp_path: Path) -> None:
    write_log(tmp_path, log_of(header(), entry(1)))
    theirs = log_of(header(device="d-a", job=entry(9)["id"]), entry(1, device="d-a"))
    write_log(tmp_path, theirs, device="d-a")
    write_log(tmp_path, log_of(header(device="d-b", job=""), entry(1, device="d-b")), device="d-b")
    found = read_folder(tmp_path)

    assert "d-b-0001.jsonl" not in found.logs
    assert any(p.file == "d-b-0001.jsonl" for p in found.findings())


@pytest.fixture
def alone(folder: Path, other: Path) -> Path:
    """The first job's folder, in which only a log of the other is left, under our name."""
    own = next(folder.glob("*-0001.jsonl"))
    theirs = next(path for path in other.glob("*-0001.jsonl") if path.name != STRAY)
    (folder / own.name.replace("-0001", "-0002")).write_bytes(theirs.read_bytes())
    own.unlink()
    return folder


def test_a_stranger_that_is_alone_is_refused_and_nothing_is_recorded(
    alone: Path, other: Path, home: Home, clock: Clock
) -> None:
    before = files(alone)
    with Book.open(alone, home.device_id(), clock=clock) as book:
        assert list(book.job.entries) == []
        assert "only a log of job 26-2 is in this folder" in str(book.holder)
        with pytest.raises(ReadOnly, match="move it into the folder 26-2"):
            book.record(note("x"))
    assert files(alone) == before
    assert not verify(alone).whole
    shelf = Shelf(home).jobs()
    assert sorted(job.job_number for job in shelf) == ["26-1", "26-2"]
    assert sum(job.entries for job in shelf if job.job_number == "26-1") == 0


def test_a_stranger_that_is_alone_leads_no_gathering_to_its_folder(
    alone: Path, other: Path, home: Home, tmp_path: Path, clock: Clock
) -> None:
    truck = shutil.copytree(other, tmp_path / "truck" / "26-2")
    [late] = wrote(truck, "d-late", note("late"), clock=clock)
    before = files(alone)
    gather([truck], home.path)

    assert files(alone) == before
    assert late.id in ids(other)


def test_a_copy_of_a_job_elsewhere_may_have_any_name(folder: Path, tmp_path: Path) -> None:
    copy = shutil.copytree(folder, tmp_path / "from the truck")
    with Book.open(copy, "d-cab") as book:
        assert book.record(note("goes on")).seq == 2


def test_a_job_that_got_another_number_is_still_its_folders(
    folder: Path, home: Home, clock: Clock
) -> None:
    wrote(folder, home.device_id(), opening("26-9"), clock=clock)
    assert len(wrote(folder, home.device_id(), note("goes on"), clock=clock)) == 1


@pytest.mark.parametrize("name", ["26-1 (copy)", "26-1 second", "26-1 - old"])
def test_words_behind_the_name_of_a_folder_do_not_make_its_job_a_stranger(
    home: Home, name: str
) -> None:
    folder = Shelf(home).create(opening("26-1"))
    renamed = folder.rename(folder.with_name(name))

    with Book.open(renamed, home.device_id()) as book:
        assert book.holder is None
        assert book.job.text("job", "job_number") == "26-1"
