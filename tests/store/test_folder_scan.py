"""Looking at folders in other processes tells what looking here tells, whatever becomes of them."""

from __future__ import annotations

import contextlib
import multiprocessing
import shutil
from pathlib import Path

import pytest

from fieldbook.store.gather import parallel_scan as looking
from fieldbook.store.gather.folder_scan import FolderScan, look_at
from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.placement import job_folders
from fieldbook.store.shelf.home import Home
from tests.store.shelves import many_jobs

COUNT = 40
PATIENCE = 120


def found(truck: Path) -> list[Path]:
    unread: list[OSError] = []
    folders = list(job_folders(truck, unread.append))
    assert unread == []
    return folders


@pytest.fixture
def truck(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(looking, "_MANY", 1)
    monkeypatch.setattr(looking, "_cores", lambda: 2)
    many_jobs(Home(tmp_path / "truck"), COUNT)
    return tmp_path / "truck"


def test_other_processes_tell_the_same_in_the_same_order(truck: Path) -> None:
    folders = found(truck)
    gone = truck / "jobs" / "gone"
    told = list(looking.looks([*folders, gone], COUNT + 1))

    assert [folder for folder, _ in told] == [*folders, gone]
    assert [look for _, look in told[:-1]] == [look_at(folder) for folder in folders]
    assert isinstance(told[-1][1], FileNotFoundError)
    assert multiprocessing.active_children() == []


def test_what_a_process_that_died_did_not_answer_is_done_here(truck: Path) -> None:
    folders = found(truck)
    told = []
    with contextlib.ExitStack() as stack:
        pipes = [stack.enter_context(looking._process()) for _ in range(2)]
        assert all(pipe.poll(PATIENCE) for pipe in pipes), "a process did not come up"
        for number, (_, look) in enumerate(looking._spread(iter(folders), pipes)):
            if number == 0:
                for process in multiprocessing.active_children():
                    process.kill()
            told.append(look)
    assert told == [look_at(folder) for folder in folders]


def test_folders_are_looked_at_here_while_no_process_is_up(
    truck: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(looking, "_answer", id)  # which ends at once
    folders = found(truck)
    told = [look for _, look in looking.looks(folders, COUNT)]
    assert told == [look_at(folder) for folder in folders]
    assert multiprocessing.active_children() == []


def test_a_log_that_is_no_longer_what_was_looked_at_is_read_again(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def spoiled_meanwhile(folder: Path) -> FolderScan:
        look = look_at(folder)
        if folder.name == "J-00003":
            (log,) = folder.glob("*.jsonl")
            raw = bytearray(log.read_bytes())
            raw[len(raw) // 2] ^= 1
            log.write_bytes(raw)
        return look

    monkeypatch.setattr(looking, "_cores", lambda: 1)
    monkeypatch.setattr(looking, "look_at", spoiled_meanwhile)
    gathering = gather([truck], tmp_path / "office")
    troubled = {job.folder.name for job in gathering.jobs if not job.clean}
    assert troubled == {"J-00003"}


def test_a_damaged_job_is_told_however_it_was_looked_at(truck: Path, tmp_path: Path) -> None:
    (log,) = (truck / "jobs" / "J-00007").glob("*.jsonl")
    raw = bytearray(log.read_bytes())
    raw[len(raw) // 2] ^= 1
    log.write_bytes(raw)
    there = gather([truck], tmp_path / "office")
    again = gather([truck], tmp_path / "office")
    here = gather([shutil.copytree(truck, tmp_path / "copy")], tmp_path / "second")

    words = [[str(p) for job in told.jobs for p in job.problems] for told in (there, again, here)]
    assert words[0] == words[1] == words[2]
    assert any("damaged" in problem for problem in words[0])
    assert not any(told.clean for told in (there, again, here))
