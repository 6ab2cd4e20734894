"""A new log file is in its folder for good before an entry in it is acknowledged."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.store.log.disk import DISK
from fieldbook.store.log.writer import LogWriter
from tests.store.failing_disk import FailingDisk


def test_the_folder_is_synced_between_a_new_files_header_and_its_first_entry(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    disk = FailingDisk()
    disk.install(monkeypatch)
    writer = LogWriter(tmp_path, "d-cab", "j-1")
    writer.append({"words": "first"})
    first = disk.made[disk.made.index("open_append") :]
    writer.append({"words": "second"})
    second = disk.made[disk.made.index("open_append") + len(first) :]
    writer.close()

    assert first == ["open_append", "write", "sync", "sync_folder", "write", "sync"]
    assert second == ["write", "sync"]


def test_a_file_whose_folder_was_not_synced_is_left_for_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    writer = LogWriter(tmp_path, "d-cab", "j-1")
    writer.settle()
    with monkeypatch.context() as patch:
        patch.setattr(DISK, "sync_folder", refused)
        with pytest.raises(OSError, match="no sync"):
            writer.append({"words": "first"})
    writer.append({"words": "second"})
    writer.close()

    held = {path.name: path.read_bytes() for path in tmp_path.glob("*.jsonl")}
    assert sorted(held) == ["d-cab-0002.jsonl"]  # the first has no entry and is taken away
    assert b"second" in held["d-cab-0002.jsonl"]


def refused(_folder: Path) -> None:
    raise OSError("no sync")
