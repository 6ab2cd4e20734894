"""A log that is far too large is named; it fills no memory, and everything else is taken."""

from __future__ import annotations

import resource
import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.record.ids import new_id
from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.log import logfile
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, ids, note, opening, wrote
from tests.store.forging import JOB, TIME, entry, header, log_of

STRAY = "d-zz-0001.jsonl"
SPARSE = 64 * 2**30
MEMORY = 800 * 2**20


def sparse(path: Path, size: int = SPARSE, job: str = JOB) -> Path:
    with path.open("wb") as file:
        file.write(log_of(header(device="d-zz", job=job), entry(1, device="d-zz")))
        file.truncate(size)
    return path


def dense(path: Path, size: int) -> Path:
    with path.open("wb") as file:
        for _ in range(size // 2**20):
            file.write(b"x" * 2**20)
    return path


@pytest.fixture
def jobs(home: Home, clock: Clock) -> Home:
    for number in ("26-1", "26-2", "26-3"):
        Shelf(home).create(opening(number), clock=clock)
    return home


@pytest.mark.parametrize("fill", [sparse, dense], ids=["sparse", "dense"])
def test_a_log_too_large_is_named_and_all_else_is_taken(
    jobs: Home, tmp_path: Path, fill: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert callable(fill)
    monkeypatch.setattr(logfile, "LARGEST_LOG", 8 * 2**20)
    fill(jobs.jobs_folder / "26-1" / STRAY, 16 * 2**20)
    told = gather([jobs.path], tmp_path / "office")

    assert not told.clean
    assert f"{STRAY}: larger than 8 MB" in str(told)
    assert [job.folder.name for job in told.jobs] == ["26-1", "26-2", "26-3"]
    for number in ("26-1", "26-2", "26-3"):
        assert ids(tmp_path / "office" / "jobs" / number) == ids(jobs.jobs_folder / number)
    assert not (tmp_path / "office" / "jobs" / "26-1" / STRAY).exists()


def test_a_job_of_which_every_log_is_too_large_stays_on_the_shelf_and_is_named(
    jobs: Home, tmp_path: Path
) -> None:
    for path in (jobs.jobs_folder / "26-1").glob("*.jsonl"):
        path.unlink()
    sparse(jobs.jobs_folder / "26-1" / STRAY)
    told = gather([jobs.path], tmp_path / "office")

    assert not told.clean
    assert f"{STRAY}: larger than 64 MB" in str(told)
    shelf = {job.folder.name: job for job in Shelf(jobs).jobs()}
    assert shelf.keys() == {"26-1", "26-2", "26-3"}
    assert [problem.file for problem in shelf["26-1"].problems] == [STRAY]
    assert Shelf(jobs).find("26-1") == jobs.jobs_folder / "26-1"


@pytest.mark.parametrize("path", ["26-1", f"26-1/{STRAY}", "."])
def test_verify_names_a_log_too_large(jobs: Home, path: str) -> None:
    sparse(jobs.jobs_folder / "26-1" / STRAY)
    found = verify(jobs.jobs_folder / path)

    assert not found.whole
    assert f"{STRAY}: larger than 64 MB" in str(found)


def test_a_job_with_a_log_too_large_is_opened_and_written(jobs: Home, clock: Clock) -> None:
    folder = jobs.jobs_folder / "26-1"
    sparse(folder / STRAY)
    wrote(folder, jobs.device_id(), note("goes on"), clock=clock)
    with Book.open(folder, jobs.device_id()) as book:
        assert [problem.file for problem in book.reports] == [STRAY]
        assert book.reread() == []


def test_what_is_too_large_in_our_own_folder_is_named_and_not_compared(
    jobs: Home, tmp_path: Path, clock: Clock
) -> None:
    office = tmp_path / "office"
    gather([jobs.path], office)
    ours, theirs = office / "jobs" / "26-1", jobs.jobs_folder / "26-1"
    wrote(theirs, "d-zz", note("one"), clock=clock)
    wrote(theirs, "d-other", note("two"), clock=clock)
    sparse(ours / STRAY)
    report = merge_job(theirs, ours)

    assert not report.clean
    assert any(problem.file == STRAY for problem in report.problems)
    assert report.new == ["d-other-0001.jsonl"]


def test_a_huge_line_within_a_log_is_named_and_the_lines_around_it_are_read(
    jobs: Home, tmp_path: Path, clock: Clock
) -> None:
    folder = jobs.jobs_folder / "26-1"
    log = next(folder.glob("*.jsonl"))
    with log.open("ab") as file:
        file.truncate(40 * 2**20)
    wrote(folder, "d-other", note("goes on"), clock=clock)
    told = gather([jobs.path], tmp_path / "office")

    assert not told.clean
    assert ids(tmp_path / "office" / "jobs" / "26-1") == ids(folder)
    assert len(ids(folder)) == 2


def test_an_attachment_too_large_is_told_without_reading_it(jobs: Home) -> None:
    folder = jobs.jobs_folder / "26-1"
    with (folder / ("0" * 64)).open("wb") as file:
        file.truncate(SPARSE)

    assert "larger than 64 MB, which no attachment is" in str(verify(folder))


@pytest.mark.skipif(sys.platform != "linux", reason="the limit on memory is Linux's")
def test_the_commands_do_with_little_memory(jobs: Home, tmp_path: Path) -> None:
    """With sparse files of every kind about, a process of little memory gathers and verifies."""
    first = jobs.jobs_folder / "26-1"
    sparse(first / STRAY)
    for number in range(3):  # as large as is read, each of another job
        folder = jobs.jobs_folder / f"27-{number}"
        folder.mkdir()
        sparse(folder / STRAY, logfile.LARGEST_LOG, job=new_id(TIME))
    office = tmp_path / "office"
    for words in (["gather", str(jobs.path), "--into", str(office)], ["verify", str(first)]):
        done = subprocess.run(
            [sys.executable, "-m", "fieldbook", *words],
            capture_output=True, text=True, check=False,
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY)),
        )  # fmt: skip
        assert done.returncode == 1, done.stderr
        assert f"{STRAY}: larger than 64 MB" in done.stdout
        assert "MemoryError" not in done.stderr
    assert sum(1 for _ in (office / "jobs").iterdir()) == 6


def test_a_job_that_memory_cannot_hold_is_named_and_the_rest_is_taken(
    jobs: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    opened = Path.open

    def open_(path: Path, *args: object, **kwargs: object) -> object:
        if path.parent.name == "26-2" and path.suffix == ".jsonl" and "office" not in path.parts:
            raise MemoryError
        return opened(path, *args, **kwargs)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", open_)
    assert main(["gather", str(jobs.path), "--into", str(tmp_path / "office")]) == 1
    told = capsys.readouterr().out
    assert "26-2" in told
    assert "memory" in told
    there = {path.name for path in (tmp_path / "office" / "jobs").iterdir()}
    assert there == {"26-1", "26-3"}
    assert main(["verify", str(jobs.path)]) == 1
