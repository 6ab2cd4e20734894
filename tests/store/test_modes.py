"""What the book makes is for its owner alone, unless the company shares it with the group."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.samples import build_job, build_shelf
from fieldbook.store.job.book import Book
from fieldbook.store.job.drafts import TypedAt, keep_drafts
from fieldbook.store.log.disk import DISK
from fieldbook.store.shelf.home import Home

pytestmark = pytest.mark.skipif(os.name == "nt", reason="modes have no effect there")


@pytest.fixture(autouse=True)
def _umask(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(DISK, "shared", False)
    before = os.umask(0)  # so that nothing but the book decides
    yield
    os.umask(before)


def modes(folder: Path) -> dict[str, int]:
    """Path below `folder` -> its mode, of everything that is made there, and of itself."""
    return {
        str(path.relative_to(folder)): stat.S_IMODE(path.lstat().st_mode)
        for path in (folder, *folder.rglob("*"))
    }


def a_book_in_use(home: Home, tmp_path: Path) -> None:
    """A shelf, drafts, an index, an attachment, a job file, a gathering, a paper."""
    given = ["--home", str(home.path)]
    folder = build_job(home, "26-127-steel")
    keep_drafts(home, folder, TypedAt(1, 1), {"pull.joint": {"joint_length": "20"}})
    home.keep(home.settings)
    photo = tmp_path / "photo.txt"
    photo.write_text("the well head", encoding="utf-8")
    out = home.path / "out"
    for command in (
        ["attach", str(folder), str(photo), "--by", "QA", "--note", "n"],
        ["jobs"],
        ["jobfile", str(folder), "--out", str(out / "job")],
        ["paper", str(folder), "--out", str(out / "paper.html")],
        ["gather", str(home.path / "jobs"), "--into", str(out / "office")],
    ):
        assert main([*given, *command]) == 0


def test_everything_that_is_made_is_for_its_owner_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = Home(tmp_path / "home")
    a_book_in_use(home, tmp_path)
    build_shelf(Home(tmp_path / "home" / "demo"))

    assert {name: mode for name, mode in modes(home.path).items() if mode & 0o077} == {}
    made = modes(home.path)
    assert {"drafts", "jobs", "out/job/customer.html", "out/office/jobs"} <= set(made)
    assert any(name.endswith(".lock") for name in made)


def test_who_holds_the_book_is_nobody_elses_to_read(tmp_path: Path) -> None:
    home = Home(tmp_path / "home")
    folder = build_job(home, "26-127-steel")
    with Book.open(folder, home.device_id()):
        assert {name: mode for name, mode in modes(folder).items() if mode & 0o077} == {}


def test_a_database_is_for_its_owner_alone(tmp_path: Path) -> None:
    pytest.importorskip("sqlalchemy", reason="the extra sql is not installed")
    home = Home(tmp_path / "home")
    build_job(home, "26-127-steel")

    assert main(["--home", str(home.path), "export"]) == 0
    assert modes(home.path)["fieldbook.sqlite"] == 0o600


def test_what_is_fetched_from_an_address_is_for_its_owner_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("fsspec", reason="the extra remote is not installed")
    from fieldbook.office.export.remote import Distant  # noqa: PLC0415 - an extra

    build_job(Home(tmp_path / "truck"), "26-127-steel")
    into = tmp_path / "scratch" / "from-0"
    Distant((tmp_path / "truck").as_uri()).fetch(into, lambda _done, _of: None)

    assert len(modes(into)) > 2
    assert {name: mode for name, mode in modes(into.parent).items() if mode & 0o077} == {}


def test_a_company_shares_its_book_with_the_group(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = Home(tmp_path / "home")
    home.path.mkdir(0o770)
    (home.path / "settings.toml").write_text("shared = true\n", encoding="utf-8")
    assert main(["--home", str(home.path), "jobs"]) == 0
    a_book_in_use(home, tmp_path)

    made = {
        n: m for n, m in modes(home.path).items() if not n.startswith(("out/office", "settings"))
    }
    assert {m for n, m in made.items() if (home.path / n).is_dir()} == {0o770}
    assert {m for n, m in made.items() if not (home.path / n).is_dir()} == {0o660}
    assert home.settings.shared
    office = {n: m for n, m in modes(home.path / "out" / "office").items() if m & 0o077}
    assert office == {}  # another home, which says nothing of a group


def test_a_folder_that_is_there_keeps_its_mode_and_a_stricter_umask_counts(tmp_path: Path) -> None:
    os.umask(0o277)
    home = Home(tmp_path / "home")
    home.path.mkdir(0o777)
    home.path.chmod(0o755)
    home.device_id()

    assert modes(home.path)["."] == 0o755
    assert modes(home.path)["device"] == 0o400
