"""What sync tools and the office do with folders that both wrote: nothing is lost."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from fieldbook.store.gather.gather import gather
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, ids, joint, note, opening, wrote

needs_rsync = pytest.mark.skipif(shutil.which("rsync") is None, reason="rsync is not installed")


def rsync(source: Path, target: Path, *options: str) -> None:
    words = ["rsync", "-a", *options, "--exclude=.*", f"{source}/", f"{target}/"]
    subprocess.run(words, check=True)


@needs_rsync
def test_rsync_both_ways_of_two_folders_that_both_wrote_loses_nothing(
    cab: Path, office: Path, clock: Clock
) -> None:
    for round_ in range(3):
        wrote(cab, "d-cab", note(f"cab {round_}"), joint(round_ + 1), clock=clock)
        wrote(office, "d-office", note(f"office {round_}"), clock=clock)
        told = ids(cab) | ids(office)
        rsync(cab, office, "--append-verify")
        rsync(office, cab, "--append-verify")

        assert ids(cab) == ids(office) == told
        assert verify(cab).whole
        assert verify(office).whole
    with Book.open(cab, "d-cab") as one, Book.open(office, "d-office") as other:
        assert list(one.job.entries) == list(other.job.entries)
        assert len(one.job.entries) == 1 + 3 * 3


@needs_rsync
def test_rsync_into_a_folder_apart_and_then_gathered_loses_nothing(
    cab: Path, office: Path, tmp_path: Path, clock: Clock
) -> None:
    for round_ in range(3):
        wrote(cab, "d-cab", note(f"cab {round_}"), clock=clock)
        wrote(office, "d-office", note(f"office {round_}"), clock=clock)
        told = ids(cab) | ids(office)
        rsync(cab, tmp_path / "from cab")
        rsync(office, tmp_path / "from office")
        assert merge_job(tmp_path / "from cab", office).clean
        assert merge_job(tmp_path / "from office", cab).clean

        assert ids(cab) == ids(office) == told


@needs_rsync
def test_an_old_copy_put_over_a_log_that_went_on_is_told_and_nothing_is_lost_of_the_other(
    cab: Path, office: Path, clock: Clock
) -> None:
    wrote(cab, "d-cab", note("one"), clock=clock)
    merge_job(cab, office)
    stale = shutil.copytree(cab, cab.with_name("stale"))
    wrote(cab, "d-cab", note("two"), clock=clock)
    merge_job(cab, office)
    rsync(stale, cab)  # without --append-verify it takes "two" away from the cab
    wrote(cab, "d-cab", note("three"), clock=clock)
    report = merge_job(cab, office)

    assert any("both are kept" in clash for clash in report.clashes)
    assert {entry.note for entry in read_folder(office).entries()} >= {"one", "two", "three"}


def test_gathering_twice_changes_nothing(
    home: Home, folder: Path, tmp_path: Path, clock: Clock
) -> None:
    wrote(folder, home.device_id(), joint(1), clock=clock)
    second = Home(tmp_path / "second truck")
    Shelf(second).create(opening("26-2"), clock=clock)
    into = tmp_path / "the office"
    first = gather([home.path, second.path], into)
    there = {path: path.read_bytes() for path in into.rglob("*.jsonl")}
    again = gather([second.path, home.path, home.path], into)

    assert first.clean
    assert again.clean
    assert sorted(job.folder.name for job in first.jobs) == ["26-1", "26-2"]
    assert all(not job.new and not job.grown for job in again.jobs)
    assert {path: path.read_bytes() for path in into.rglob("*.jsonl")} == there
    assert ids(into / "jobs" / "26-1") == ids(folder)


def test_a_folder_that_cannot_be_read_stops_none_of_the_others(
    home: Home, folder: Path, tmp_path: Path
) -> None:
    junk = tmp_path / "stick" / "junk"
    junk.mkdir(parents=True)
    (junk / "d-x-0001.jsonl").write_bytes(b"\0" * 5000 + b"\n")
    gathering = gather([tmp_path / "stick", home.path], tmp_path / "the office")

    assert not gathering.clean
    assert [job.folder.name for job in gathering.jobs] == ["26-1"]
