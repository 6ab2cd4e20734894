"""A job that the shelf does not have comes into it whole, or not at all."""

from __future__ import annotations

import hashlib
import itertools
import os
import random
import shutil
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.record.entry import Draft
from fieldbook.store.gather.folder_scan import look_at
from fieldbook.store.gather.gather import Gathering, gather
from fieldbook.store.gather.whole_job import put_whole
from fieldbook.store.job.attachments import attach
from fieldbook.store.job.book import Book
from fieldbook.store.job.lock import Hold
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.names import UNFINISHED
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, files, ids, note, wrote
from tests.store.failing_disk import FailingDisk
from tests.store.model_disk import ModelDisk, ProcessDied

PHOTO = b"a photo"


@pytest.fixture
def truck(cab: Path, tmp_path: Path, clock: Clock) -> Path:
    """A truck with one job, of two devices and with a photo."""
    wrote(cab, "d-cab", note("one"), clock=clock)
    wrote(cab, "d-tablet", note("two"), clock=clock)
    (tmp_path / "photo").write_bytes(PHOTO)
    attach(cab, tmp_path / "photo")
    home = tmp_path / "truck"
    shutil.copytree(cab, home / "jobs" / "26-1")
    return home


def taken(home: Path) -> list[dict[str, bytes]]:
    """The files of every job on the shelf of a home."""
    return [files(folder) for folder in sorted((home / "jobs").iterdir())]


def is_sound(home: Path) -> bool:
    return not any(problem.damage for problem in verify(home).problems)


def gathered(truck: Path, into: Path) -> Gathering | None:
    """What gathering did, None where the process died."""
    try:
        return gather([truck], into)
    except (OSError, ProcessDied):
        return None


def test_all_of_it_comes_at_once(truck: Path, tmp_path: Path) -> None:
    report = gather([truck], tmp_path / "office")

    assert report.clean
    assert sorted(report.jobs[0].new) == sorted(taken(truck)[0])
    assert len(report.jobs[0].new) == 4
    assert taken(tmp_path / "office") == taken(truck)
    assert not (tmp_path / "office" / UNFINISHED).exists()


def test_killed_at_any_call_the_shelf_has_all_of_it_or_nothing(truck: Path, tmp_path: Path) -> None:
    seen = set()
    for call in itertools.count(1):
        into = tmp_path / f"at{call}"
        (into / "jobs").mkdir(parents=True)
        with pytest.MonkeyPatch.context() as patch:
            ModelDisk(into, dies_at=call).install(patch)
            if gathered(truck, into) is not None:
                break
        seen.add(len(taken(into)))
        assert taken(into) in ([], taken(truck))
        assert len(Shelf(Home(into)).jobs()) == len(taken(into))
        assert is_sound(into)
        assert gather([truck], into).clean
        assert taken(into) == taken(truck)
        assert not (into / UNFINISHED).exists()
    assert seen == {0, 1}
    assert call > 15


@pytest.mark.parametrize("with_photo", [True, False])
def test_after_a_power_cut_at_any_call_gathering_again_has_it(
    truck: Path, tmp_path: Path, *, with_photo: bool
) -> None:
    if not with_photo:  # of which the copying syncs the folder too
        (truck / "jobs" / "26-1" / hashlib.sha256(PHOTO).hexdigest()).unlink()
    told_gathered = 0
    for call, seed in itertools.product(range(1, 40), range(3)):
        into, after = tmp_path / f"at{call}-{seed}", tmp_path / f"after{call}-{seed}"
        (into / "jobs").mkdir(parents=True)
        (after / "jobs").mkdir(parents=True)
        with pytest.MonkeyPatch.context() as patch:
            disk = ModelDisk(into, dies_at=call)
            disk.install(patch)
            told = gathered(truck, into)
        disk.after_a_cut(after, random.Random(call * 100 + seed))
        assert taken(after) in ([], [{}], taken(truck))
        if told is not None:
            told_gathered += 1
            assert taken(after) == taken(truck)
        assert gather([truck], after).clean
        assert taken(after) == taken(truck)
    assert told_gathered


@pytest.mark.parametrize("lasting", [False, True])
def test_where_any_call_fails_it_is_told_or_taken(
    truck: Path, tmp_path: Path, *, lasting: bool
) -> None:
    for first in itertools.count(1):
        into = tmp_path / f"at{first}"
        (into / "jobs").mkdir(parents=True)
        disk = FailingDisk(range(first, first + (1000 if lasting else 1)).__contains__, 28)
        with pytest.MonkeyPatch.context() as patch:
            disk.install(patch)
            report = gathered(truck, into)
        if not disk.failed:
            break
        if report is not None and report.clean:
            assert taken(into) == taken(truck)
        assert is_sound(into)
        assert gather([truck], into).clean
        assert taken(into) == taken(truck)
    assert first > 15


def test_a_log_that_is_altered_after_the_look_is_read_again(truck: Path, tmp_path: Path) -> None:
    folder, place = truck / "jobs" / "26-1", tmp_path / "office" / "26-1"
    scratch = tmp_path / "office" / "scratch"
    scratch.mkdir(parents=True)
    look = look_at(folder)
    log = folder / "d-cab-0001.jsonl"
    log.write_bytes(log.read_bytes().replace(b"one", b"two"))

    assert put_whole(look, place, scratch) is None
    assert not place.exists()
    assert not list(scratch.iterdir())


def test_a_folder_that_came_there_meanwhile_is_left_as_it_is(
    truck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place, scratch = tmp_path / "office" / "26-1", tmp_path / "office" / "scratch"
    scratch.mkdir(parents=True)
    place.mkdir()
    (place / "other").write_bytes(b"")
    monkeypatch.setattr(Path, "exists", lambda _path: False)
    found = put_whole(look_at(truck / "jobs" / "26-1"), place, scratch)
    monkeypatch.undo()

    assert found is None
    assert [path.name for path in place.iterdir()] == ["other"]
    assert not list(scratch.iterdir())


def test_what_a_killed_gathering_left_is_neither_read_nor_kept(truck: Path, tmp_path: Path) -> None:
    office = tmp_path / "office"
    shutil.copytree(truck / "jobs", office / UNFINISHED)
    log = office / UNFINISHED / "26-1" / "d-cab-0001.jsonl"
    log.write_bytes(log.read_bytes()[:-9])

    assert is_sound(office)
    assert gather([office], tmp_path / "other").jobs == []
    assert gather([truck], office).clean
    assert not (office / UNFINISHED).exists()


def test_two_gatherings_at_once_are_refused(
    truck: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    office = tmp_path / "office"
    gather([truck], office)
    other = Hold(office, "gathering")
    assert other.take()
    assert main(["gather", str(truck), "--into", str(office)]) == 2
    assert "another gathering is at work there" in capsys.readouterr().err
    other.release()
    assert main(["gather", str(truck), "--into", str(office)]) == 0
    assert ids(office / "jobs" / "26-1") == ids(truck / "jobs" / "26-1")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs pipes")
def test_a_pipe_in_the_place_of_ours_is_named_and_the_rest_is_gathered(
    book: Book, folder: Path, tmp_path: Path
) -> None:
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(b"a pitted thread")
    attached = attach(folder, photo)
    name = attached.name
    book.record(Draft("attachment", "QA", attached.values(), note="joint 3"))
    gather([folder], tmp_path / "office")
    [ours] = (tmp_path / "office" / "jobs").iterdir()
    (ours / name).unlink()
    os.mkfifo(ours / name)
    later = book.record(note("and on"))
    told = gather([folder], tmp_path / "office")

    assert not told.clean
    assert f"{name}: {name} is a pipe" in str(told)
    assert later.id in ids(ours)
