"""Where the book is, which device this is, and what it prefers."""

from __future__ import annotations

import socket
from dataclasses import replace
from pathlib import Path

import pytest

from fieldbook.store.shelf.home import VARIABLE, Home
from fieldbook.store.shelf.pointer import HomeGone, pointer_file
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import opening


def test_the_home_is_the_one_given_else_the_one_named_else_the_platforms(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv(VARIABLE, str(tmp_path / "named"))
    assert Home.find(tmp_path / "given").path == tmp_path / "given"
    assert Home.find(None).path == tmp_path / "named"

    monkeypatch.delenv(VARIABLE)
    _platform_in(tmp_path, monkeypatch)
    assert Home.find(None).path == tmp_path / "data" / "fieldbook"


def _platform_in(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    for kind in ("data", "config"):
        monkeypatch.setattr(
            f"platformdirs.user_{kind}_dir",
            lambda name, kind=kind, **_: str(path / kind / name),
        )


def test_a_chosen_folder_comes_after_what_is_named_and_before_the_platforms(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    _platform_in(tmp_path, monkeypatch)
    chosen = Home(tmp_path / "truck, 2 \u00e9")
    chosen.choose()

    assert Home.find(None) == chosen
    assert Home.find(tmp_path / "given").path == tmp_path / "given"
    monkeypatch.setenv(VARIABLE, str(tmp_path / "named"))
    assert Home.find(None).path == tmp_path / "named"
    assert not Home.may_be_chosen(None)


def test_the_platforms_folder_needs_no_pointer(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    _platform_in(tmp_path, monkeypatch)
    Home.find(None).choose()
    assert not pointer_file().exists()


@pytest.mark.parametrize("spoilt", [b"", b"jobs\n", b"/no/such/folder\n", b"/a\0b\n", b"\xff\xfe"])
def test_a_chosen_folder_that_is_not_there_is_named_and_never_begun_anew(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, spoilt: bytes
) -> None:
    _platform_in(tmp_path, monkeypatch)
    pointer_file().parent.mkdir(parents=True)
    pointer_file().write_bytes(spoilt)
    with pytest.raises(HomeGone, match=r"is not there.*--home"):
        Home.find(None)


def test_a_folder_that_cannot_be_written_is_not_chosen(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    _platform_in(tmp_path, monkeypatch)
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(OSError, match="file"):
        Home(tmp_path / "file" / "book").choose()
    assert not pointer_file().exists()


def test_a_home_that_is_copied_to_another_machine_is_another_device(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(socket, "gethostname", lambda: "cab-one.local")
    first = home.device_id()
    assert home.device_id() == first
    monkeypatch.setattr(socket, "gethostname", lambda: "Cab-One.lan")
    assert home.device_id() == first  # the same machine on another network
    monkeypatch.setattr(socket, "gethostname", lambda: "office")
    second = home.device_id()

    assert second != first
    assert home.device_id() == second


@pytest.mark.parametrize("kept", [b"", b"x", b"../../etc\n", b"\xff\xfe", b"d-ABCDEFGH here"])
def test_a_spoiled_device_file_gives_a_new_id(home: Home, kept: bytes) -> None:
    home.path.mkdir(parents=True)
    (home.path / "device").write_bytes(kept)
    made = home.device_id()

    assert made.startswith("d-")
    assert home.device_id() == made


def test_the_device_id_is_in_no_jobs_folder(home: Home) -> None:
    folder = Shelf(home).create(opening())

    assert not (folder / "device").exists()
    assert (home.path / "device").exists()


def test_settings_are_kept_whole_or_not_at_all(home: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    settings = replace(home.settings, initials="QA", units="metric")
    home.keep(settings)

    def fails(*_: object) -> None:
        raise OSError(28, "no space left")

    monkeypatch.setattr("fieldbook.store.log.disk.DISK.write", fails)
    with pytest.raises(OSError, match="no space"):
        home.keep(replace(settings, units="us"))
    assert home.settings == settings
    assert [path.name for path in home.path.iterdir()] == ["settings.toml"]
