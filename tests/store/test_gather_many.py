"""Gathering many jobs: told how far, stopped at any moment, both sides whole."""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pexpect
import pytest

from fieldbook.cli import main
from fieldbook.store.gather.folder_scan import FolderScan
from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import MergeReport
from fieldbook.store.gather.whole_job import put_whole
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.names import UNFINISHED
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import ids, note
from tests.store.shelves import many_jobs

ROOT = Path(__file__).parents[2]
COUNT = 30
PATIENCE = 120


class Stopped(BaseException):
    pass


@pytest.fixture
def truck(tmp_path: Path) -> Path:
    many_jobs(Home(tmp_path / "truck"), COUNT)
    return tmp_path / "truck"


def contents(home: Path) -> dict[str, bytes]:
    return {str(p.relative_to(home)): p.read_bytes() for p in home.rglob("*.jsonl")}


def logs(home: Path) -> dict[str, bytes]:
    return {name: raw for name, raw in contents(home).items() if name.startswith("jobs/")}


def test_it_tells_how_many_are_on_disk(truck: Path, tmp_path: Path) -> None:
    into = tmp_path / "office"
    told: list[tuple[int, int]] = []

    def tell(done: int, of: int) -> None:
        told.append((done, of))
        assert sum(1 for _ in (into / "jobs").rglob("*.jsonl")) >= done

    assert gather([truck], into, on_progress=tell).clean
    assert told[0] == (0, COUNT)
    assert told[-1] == (COUNT, COUNT)
    assert sorted(told) == told
    assert logs(into) == logs(truck)


def test_a_job_is_told_once_the_shelf_that_names_it_is_on_disk(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf = tmp_path / "office" / "jobs"
    named: set[str] = set()
    syncs: list[Path] = []
    sync = DISK.sync_folder

    def note_names(folder: Path) -> None:
        names = {log.parent.name for log in folder.glob("*/*.jsonl")}  # before, not after
        sync(folder)
        if folder == shelf:
            named.update(names)
            syncs.append(folder)

    def tell(done: int, _of: int) -> None:
        assert len(named) >= done

    monkeypatch.setattr(DISK, "sync_folder", note_names)
    gather([truck], shelf.parent, on_progress=tell)
    assert len(named) == COUNT
    assert len(syncs) < COUNT / 4


def test_no_job_is_told_gathered_where_the_shelf_cannot_be_synced(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf, sync = tmp_path / "office" / "jobs", DISK.sync_folder

    def fail(folder: Path) -> None:
        if folder == shelf:
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        sync(folder)

    with monkeypatch.context() as patch:
        patch.setattr(DISK, "sync_folder", fail)
        gathering = gather([truck], shelf.parent)
    assert gathering.jobs == []
    assert [problem.file for problem in gathering.problems] == sorted(
        folder.name for folder in (truck / "jobs").iterdir()
    )
    assert all("cannot be gathered" in problem.words for problem in gathering.problems)
    again = gather([truck], shelf.parent)
    assert again.clean
    assert len(again.jobs) == COUNT


def test_the_report_is_in_order_however_long_a_job_takes(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    later_is_done = threading.Event()

    def put(look: FolderScan, place: Path, scratch: Path) -> MergeReport | None:
        if place.name == "J-00000":
            assert later_is_done.wait(PATIENCE)
        report = put_whole(look, place, scratch)
        if place.name == "J-00005":
            later_is_done.set()
        return report

    monkeypatch.setattr("fieldbook.store.gather.gather.put_whole", put)
    names = [job.folder.name for job in gather([truck], tmp_path / "office").jobs]
    assert names == sorted(folder.name for folder in (truck / "jobs").iterdir())


def test_an_error_that_nobody_foresaw_is_not_lost(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def put(look: FolderScan, place: Path, scratch: Path) -> MergeReport | None:
        if place.name == "J-00005":
            raise ZeroDivisionError
        return put_whole(look, place, scratch)

    into = tmp_path / "office"
    with monkeypatch.context() as patch:
        patch.setattr("fieldbook.store.gather.gather.put_whole", put)
        with pytest.raises(ZeroDivisionError):
            gather([truck], into)
    assert logs(into).items() <= logs(truck).items()
    assert gather([truck], into).clean
    assert sorted(logs(into).values()) == sorted(logs(truck).values())


@pytest.mark.parametrize("at", [0, 1, 7, 15, COUNT])
def test_stopped_anywhere_both_sides_are_whole_and_it_goes_on(
    truck: Path, tmp_path: Path, at: int
) -> None:
    into, before = tmp_path / "office", contents(truck)

    def stop(done: int, of: int) -> None:
        if done >= at:
            raise Stopped

    with contextlib.suppress(Stopped):
        gather([truck], into, on_progress=stop)
    there = logs(into)
    assert contents(truck) == before
    assert len(there) >= at
    assert there.items() <= logs(truck).items()
    assert not [*into.rglob(".*.next"), *into.rglob(UNFINISHED)]
    assert gather([truck], into).clean
    assert logs(into) == logs(truck)


def test_ctrl_c_in_the_program_leaves_both_sides_whole(truck: Path, tmp_path: Path) -> None:
    into, before = tmp_path / "office", contents(truck)
    many = tmp_path / "many"
    for number in range(60):  # so many that it is not through before the signal comes
        shutil.copytree(truck / "jobs", many / f"truck {number}" / "jobs")
    words = [sys.executable, "-m", "fieldbook", "gather", str(many), "--into", str(into)]
    with subprocess.Popen(words, cwd=ROOT, stderr=subprocess.PIPE, text=True) as program:
        assert program.stderr is not None
        first = program.stderr.readline()
        program.send_signal(signal.SIGINT)
        rest = program.stderr.read()
    assert first.startswith("gathered: ")
    assert program.returncode == 1
    assert "both sides are whole" in rest
    assert contents(truck) == before
    assert verify(into / "jobs").whole
    assert logs(into).items() <= logs(truck).items()


def test_one_job_on_several_trucks_is_merged_one_after_the_other(
    truck: Path, tmp_path: Path
) -> None:
    trucks = [truck]
    for name in ("d-one", "d-two", "d-three"):
        other = shutil.copytree(truck, tmp_path / name)
        for folder in list((other / "jobs").iterdir())[:3]:
            with Book.open(folder, name) as book:
                book.record(note(f"by {name}"))
        trucks.append(other)
    into = tmp_path / "office"
    assert gather(trucks, into).clean
    for folder in (into / "jobs").iterdir():
        assert ids(folder) == set().union(*(ids(t / "jobs" / folder.name) for t in trucks))
    assert len(list((into / "jobs").iterdir())) == COUNT


def test_two_jobs_of_one_number_in_one_gathering_get_a_folder_each(tmp_path: Path) -> None:
    for name in ("one", "two"):
        many_jobs(Home(tmp_path / name), 3)
    into = tmp_path / "office"
    assert gather([tmp_path / "one", tmp_path / "two"], into).clean
    assert len(list((into / "jobs").iterdir())) == 6
    assert len(Shelf(Home(into)).jobs()) == 6
    again = gather([tmp_path / "two", tmp_path / "one"], into)
    assert all(not job.new and not job.grown for job in again.jobs)


def test_a_folder_of_a_job_that_was_stopped_before_its_log_is_that_jobs(
    truck: Path, tmp_path: Path
) -> None:
    into = tmp_path / "office"
    (into / "jobs" / "J-00003").mkdir(parents=True)
    assert gather([truck], into).clean
    assert logs(into).keys() == logs(truck).keys()


def test_a_folder_that_cannot_be_made_is_told(truck: Path, tmp_path: Path) -> None:
    into = tmp_path / "office"
    (into / "jobs").mkdir(parents=True)
    (into / "jobs" / "J-00003").write_bytes(b"in the way")
    (into / "jobs" / "J-00004").mkdir()
    gathering = gather([truck], into)
    assert len(gathering.jobs) + len(gathering.problems) == COUNT
    assert len(logs(into)) == COUNT


def test_without_a_terminal_lines_tell_how_far(
    truck: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["gather", str(truck), "--into", str(tmp_path / "office")]) == 0
    lines = capsys.readouterr().err.splitlines()
    assert lines[-1] == f"gathered: {COUNT} of {COUNT}"
    assert 2 < len(lines) <= 21
    (tmp_path / "file").write_bytes(b"")
    assert main(["gather", str(truck), "--into", str(tmp_path / "file")]) == 2
    assert os.linesep not in capsys.readouterr().err.strip()


def test_on_a_terminal_a_bar_tells_how_far(truck: Path, tmp_path: Path) -> None:
    words = ["-m", "fieldbook", "gather", str(truck), "--into", str(tmp_path / "office")]
    terminal = pexpect.spawn(sys.executable, words, cwd=str(ROOT), encoding="utf-8", timeout=60)
    terminal.expect(f"{COUNT}/{COUNT}")
    terminal.expect(pexpect.EOF)
    terminal.close()

    assert terminal.exitstatus == 0
    assert logs(tmp_path / "office") == logs(truck)


def test_a_first_look_at_many_jobs_tells_how_far(
    truck: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("fieldbook.cli.opening._MANY", COUNT)
    assert main(["jobs", "--home", str(truck)]) == 0
    assert capsys.readouterr().err.splitlines()[-1] == f"read: {COUNT} of {COUNT}"
    assert main(["jobs", "--home", str(truck)]) == 0
    assert capsys.readouterr().err == ""
