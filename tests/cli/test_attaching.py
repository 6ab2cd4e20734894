"""`fieldbook attach`."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.store.log.verify import verify
from tests.app.scenes import job_in, put_job, scratch_home
from tests.watch.jobs import STEEL


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return put_job(scratch_home(tmp_path / "home"), STEEL)


def attach(tmp_path: Path, *more: str) -> int:
    return main(["--home", str(tmp_path / "home"), "attach", "S-1", *more])


def test_files_are_attached_each_with_its_entry(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    files = [tmp_path / "joint 3.jpg", tmp_path / "plate.jpg"]
    for path in files:
        path.write_bytes(path.name.encode())
    asked = [*map(str, files), "--by", "LM", "--note", "pits", "--part", "thread"]
    assert attach(tmp_path, *asked) == 0

    entries = job_in(folder).live("attachment")
    told = capsys.readouterr().out.splitlines()
    assert ["joint 3.jpg", "plate.jpg"] == [entry.text("file_title") for entry in entries]
    assert [f"{entry.text('file_hash')} {entry.text('file_title')}" for entry in entries] == [
        line.split(maxsplit=1)[1] for line in told
    ]
    assert {("LM", "pits", "thread")} == {(e.by, e.note, e.text("part")) for e in entries}
    assert verify(folder).whole


def test_none_is_taken_where_one_cannot_be(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = tmp_path / "good.jpg"
    good.write_bytes(b"good")
    assert attach(tmp_path, str(good), str(tmp_path / "gone.jpg"), "--by", "LM", "--note", "x") == 2
    assert "gone.jpg: there is no such file" in capsys.readouterr().err
    assert list(job_in(folder).live("attachment")) == []
    assert {path.suffix for path in folder.iterdir() if path.is_file()} <= {".jsonl", ".lock", ""}


def test_without_words_it_is_refused_and_says_so(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = tmp_path / "good.jpg"
    good.write_bytes(b"good")
    assert attach(tmp_path, str(good), "--by", "LM", "--note", " ") == 2
    assert "words are needed" in capsys.readouterr().err
    assert list(job_in(folder).live("attachment")) == []
