"""Whatever stands in a small file, or in its place: reading it ends, and one line says why."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from fieldbook.small_file import BadToml, NotPlain, open_plain, read_small, read_toml

BAD = {
    "a number of 5,000 digits": b"a = " + b"9" * 5_000,
    "a number of 400 digits": b"a = " + b"9" * 400,
    "a number just too large": b"a = 9223372036854775809",
    "a long number in base sixteen": b"a = 0x" + b"f" * 5_000,
    "brackets 100,000 deep": b"a = " + b"[" * 100_000 + b"]" * 100_000,
    "tables 100,000 deep": b"a = " + b"{b=" * 100_000 + b"1" + b"}" * 100_000,
    "dots 3,000 deep": b".".join([b"a"] * 3_000) + b" = 1",
    "a number deep within": b"a = [{b = [[{c = " + b"9" * 30 + b"}]]}]",
    "a day that is none": b"a = 2026-02-30",
    "not text": b"\xff\xfe",
    "not TOML": b"a = = 1",
}


@pytest.mark.parametrize("raw", BAD.values(), ids=BAD)
def test_toml_that_nothing_could_use_is_one_line(raw: bytes) -> None:
    with pytest.raises(BadToml) as found:
        read_toml(raw)

    assert str(found.value).startswith("not ")
    assert "\n" not in str(found.value)
    assert len(str(found.value)) < 200


def test_toml_that_is_right_is_read() -> None:
    raw = b'a = 9223372036854775807\nb = [1, {c = "x"}]\nd = 2026-05-14\ne = -1.5'

    assert read_toml(raw)["a"] == 2**63 - 1
    assert read_toml(raw)["b"] == [1, {"c": "x"}]


def special(folder: Path, what: str) -> Path:
    """Something else than a plain file."""
    path, elsewhere = folder / "odd", folder / "elsewhere"
    elsewhere.write_bytes(b"of somebody else")
    if what == "link":
        path.symlink_to(elsewhere)
    elif what == "pipe":
        os.mkfifo(path)
    elif what == "folder":
        path.mkdir()
    elif what == "socket":
        with socket.socket(socket.AF_UNIX) as bound:
            bound.bind(str(path))
    else:
        path.symlink_to("/dev/zero")
    return path


@pytest.mark.timeout(30)
@pytest.mark.parametrize("what", ["link", "pipe", "folder", "socket", "device"])
def test_what_is_no_plain_file_is_not_opened(tmp_path: Path, what: str) -> None:
    path = special(tmp_path, what)
    with pytest.raises(NotPlain, match="odd is a"):
        read_small(path, 100)

    if what == "link":
        assert read_small(path, 100, links=True) == b"of somebody else"
    else:
        with pytest.raises(NotPlain, match="odd is a"):
            read_small(path, 100, links=True)


@pytest.mark.timeout(30)
@pytest.mark.parametrize("what", ["link", "pipe"])
def test_what_takes_its_place_at_the_last_moment_is_not_opened_either(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    path = special(tmp_path, what)
    monkeypatch.setattr("fieldbook.small_file.refuse_special", lambda *_, **__: None)

    with pytest.raises(OSError, match=r"odd|symbolic"):
        open_plain(path)


def test_a_file_that_is_too_large_is_read_one_byte_further_than_it_may_be(tmp_path: Path) -> None:
    (tmp_path / "large").write_bytes(b"x" * 1000)

    assert len(read_small(tmp_path / "large", 10)) == 11
