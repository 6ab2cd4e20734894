"""A place that cannot be read is named, the rest is taken, and nothing ends in a traceback."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.store.gather.gather import gather
from fieldbook.store.job.book import Book
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, ids, note, opening, wrote

NOBODY = 65534
Closed = Callable[[Path], None]


@pytest.fixture
def closed(monkeypatch: pytest.MonkeyPatch) -> Closed:
    """Closes a folder or a file to this program, whoever runs the test."""
    shut: list[str] = []
    scan, opened, listed = os.scandir, Path.open, os.listdir

    def check(path: object) -> None:
        if not isinstance(path, int) and os.fspath(path) in shut:  # type: ignore[call-overload]
            raise PermissionError(13, "Permission denied", str(path))

    def scandir(path: object = ".") -> object:
        check(path)
        return scan(path)  # type: ignore[call-overload]

    def listdir(path: object = ".") -> list[str]:
        check(path)
        return listed(path)  # type: ignore[call-overload,no-any-return]

    def open_(path: Path, *args: object, **kwargs: object) -> object:
        check(path)
        return opened(path, *args, **kwargs)  # type: ignore[call-overload]

    monkeypatch.setattr(os, "scandir", scandir)
    monkeypatch.setattr(os, "listdir", listdir)
    monkeypatch.setattr(Path, "open", open_)
    return lambda path: shut.append(str(path))


@pytest.fixture
def second(home: Home, folder: Path, clock: Clock) -> Path:
    """Another job beside the first, two folders down."""
    made = Shelf(home).create(opening("26-2"), clock=clock)
    place = home.jobs_folder / "older" / "2026"
    place.mkdir(parents=True)
    return Path(shutil.move(made, place))


def test_gathering_names_a_folder_that_cannot_be_read(
    home: Home, folder: Path, second: Path, closed: Closed, tmp_path: Path
) -> None:
    closed(second.parents[1])
    told = gather([home.path], tmp_path / "office")

    assert not told.clean
    assert "jobs/older: cannot be read: Permission denied" in str(told)
    assert [job.folder.name for job in told.jobs] == ["26-1"]


def test_gathering_names_a_jobs_folder_that_cannot_be_read(
    home: Home, second: Path, closed: Closed, tmp_path: Path
) -> None:
    closed(second)
    told = gather([home.path], tmp_path / "office")

    assert not told.clean
    assert "26-2: cannot be read" in str(told)
    assert [job.folder.name for job in told.jobs] == ["26-1"]


def test_gathering_names_a_log_that_cannot_be_read_and_takes_the_others_of_its_job(
    home: Home, folder: Path, closed: Closed, tmp_path: Path, clock: Clock
) -> None:
    wrote(folder, "d-gauge", note("one"), clock=clock)
    closed(folder / "d-gauge-0001.jsonl")
    told = gather([home.path], tmp_path / "office")

    assert not told.clean
    assert "d-gauge-0001.jsonl: cannot be read: Permission denied" in str(told)
    assert len(ids(tmp_path / "office" / "jobs" / "26-1")) == 1


def test_gathering_names_an_attachment_that_cannot_be_read_and_takes_the_logs(
    home: Home, folder: Path, closed: Closed, tmp_path: Path, clock: Clock
) -> None:
    photo = folder / ("0" * 64)
    photo.write_bytes(b"x")
    closed(photo)
    told = gather([home.path], tmp_path / "office")

    assert not told.clean
    assert f"{photo.name}: cannot be read" in str(told)
    assert len(ids(tmp_path / "office" / "jobs" / "26-1")) == 1
    found = verify(folder)
    assert not found.whole
    assert f"{photo.name}: cannot be read" in str(found)


def test_a_folder_of_ours_that_cannot_be_read_is_named_and_stops_no_other_job(
    home: Home, folder: Path, second: Path, closed: Closed, tmp_path: Path
) -> None:
    office = tmp_path / "office"
    gather([home.path], office)
    closed(office / "jobs" / "26-1")
    told = gather([home.path], office)

    assert not told.clean
    assert "26-1: cannot be read" in str(told)
    assert [job.folder.name for job in told.jobs] == ["26-2"]


@pytest.mark.parametrize("name", ["older", "older/2026", "26-1", "26-1/d-gauge-0001.jsonl"])
def test_verify_names_what_cannot_be_read_and_checks_the_rest(
    home: Home, folder: Path, second: Path, closed: Closed, name: str, clock: Clock
) -> None:
    wrote(folder, "d-gauge", note("one"), clock=clock)
    whole = verify(home.jobs_folder)
    assert whole.whole
    closed(home.jobs_folder / name)
    found = verify(home.jobs_folder)

    assert not found.whole
    assert f"{name}: cannot be read: Permission denied" in str(found)
    assert 0 < len(found.logs) < len(whole.logs)


def test_verify_of_a_file_that_cannot_be_read_says_so(folder: Path, closed: Closed) -> None:
    log = next(folder.glob("*.jsonl"))
    closed(log)

    assert not verify(log).whole
    assert f"{log.name}: cannot be read" in str(verify(log))


def test_a_folder_whose_only_log_is_a_link_is_named(tmp_path: Path, folder: Path) -> None:
    stick = tmp_path / "stick" / "26-1"
    stick.mkdir(parents=True)
    (stick / "d-x-0001.jsonl").symlink_to(next(folder.glob("*.jsonl")))
    told = gather([stick.parent], tmp_path / "office")

    assert not told.clean
    assert "d-x-0001.jsonl: not a plain file" in str(told)


def test_a_book_with_a_log_that_cannot_be_read_is_not_opened_as_if_it_were_whole(
    folder: Path, closed: Closed, clock: Clock
) -> None:
    wrote(folder, "d-gauge", note("one"), clock=clock)
    closed(folder / "d-gauge-0001.jsonl")
    with pytest.raises(PermissionError):
        Book.open(folder, "d-cab")


def test_the_shelf_that_cannot_be_read_is_not_shown_as_empty(
    home: Home, folder: Path, closed: Closed
) -> None:
    closed(home.jobs_folder)
    with pytest.raises(PermissionError):
        Shelf(home).jobs()
    assert Shelf(Home(home.path / "new")).jobs() == []


@pytest.fixture
def open_place() -> Iterator[Path]:
    """A folder that every user may go into, as those of a test run are not."""
    with tempfile.TemporaryDirectory() as made:
        Path(made).chmod(0o755)
        yield Path(made)


@pytest.mark.skipif(
    not hasattr(os, "seteuid") or os.geteuid() != 0, reason="another user is needed"
)
def test_another_user_is_told_what_he_may_not_read(
    open_place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the real permissions of a real user, by the commands themselves."""
    truck, office = Home(open_place / "truck"), open_place / "office"
    for number in ("26-1", "26-2"):
        Shelf(truck).create(opening(number))
    office.mkdir()
    os.chown(office, NOBODY, NOBODY)
    told = []
    commands = (["verify", str(truck.path)], ["gather", str(truck.path), "--into", str(office)])
    for words in commands:  # once by who may, for whatever a command loads as it goes
        main([*words[:-1], str(open_place / "first")] if "--into" in words else words)
    for path in (truck.path, *truck.path.rglob("*")):  # else all of it is its owner's alone
        path.chmod(0o755 if path.is_dir() else 0o644)
    (truck.jobs_folder / "26-2").chmod(0o700)
    capsys.readouterr()
    os.seteuid(NOBODY)
    try:
        told = [(main(words), capsys.readouterr().out) for words in commands]
    finally:
        os.seteuid(0)

    assert [code for code, _ in told] == [1, 1]
    assert all("26-2: cannot be read: Permission denied" in words for _, words in told)
    assert [path.name for path in (office / "jobs").iterdir()] == ["26-1"]


@pytest.mark.parametrize("words", [["jobs"], ["find", "26"], ["wells"], ["due"]], ids=str)
def test_a_command_over_all_jobs_names_the_one_it_cannot_read(
    home: Home, second: Path, closed: Closed, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    unreadable = Path(shutil.move(second, home.jobs_folder))
    closed(unreadable)

    assert main(["--home", str(home.path), *words]) == 1
    assert "26-2: cannot be read (Permission denied)" in capsys.readouterr().err
    closed(home.jobs_folder)
    assert main(["--home", str(home.path), *words]) == 2
    assert "cannot read the shelf" in capsys.readouterr().err


def test_a_job_folder_that_is_a_link_is_named_and_not_left_out_in_silence(
    folder: Path, tmp_path: Path
) -> None:
    (tmp_path / "stick" / "x").mkdir(parents=True)
    (tmp_path / "stick" / "x" / "26-1").symlink_to(folder)
    found = gather([tmp_path / "stick"], tmp_path / "the office")
    assert not found.clean
    assert "x/26-1: cannot be read: a link to a folder" in str(found)
    assert "a link to a folder" in str(verify(tmp_path / "stick"))
    assert not verify(tmp_path / "stick").whole
