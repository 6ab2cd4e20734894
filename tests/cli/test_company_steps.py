"""A wrong file of a company's steps: left out at the rig and said, refused for a sheet."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.store.shelf.home import Home
from tests.app.scenes import put_job, scratch_home
from tests.walk.logs import step
from tests.watch.jobs import STEEL

WRONG = "own.toml: acme.hold: hue: unknown key"


@pytest.fixture
def home(tmp_path: Path) -> Home:
    home = scratch_home(tmp_path / "home")
    read = {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}
    put_job(home, [*STEEL, read], before="ready.load_check")
    (home.path / "steps").mkdir()
    text = step("acme.hold", "after = 'arrive.crew'\nhue = 1")
    (home.path / "steps" / "own.toml").write_text(text, encoding="utf-8")
    return home


def test_a_hold_of_the_book_is_taken_and_the_file_named(
    home: Home, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    hold = {"kind": "hold", "by": "QA", "values": {"step": "ready.load_check", "role": "tech"}}
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(json.dumps(hold).encode())))
    assert main(["--home", str(home.path), "enter", "S-1"]) == 0
    told = capsys.readouterr()
    assert "saved" in json.loads(told.out)
    assert WRONG in told.err
    assert "NOT asked, hold points of its own too" in told.err


def test_paper_says_what_is_not_on_it(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    for of in (["S-1"], ["S-1", "--text"], ["--line", "steel", "--work", "pull"]):
        assert main(["--home", str(home.path), "paper", *of]) == 0
        assert WRONG in " ".join(capsys.readouterr().out.split())


def test_a_sheet_of_fewer_steps_than_were_asked_is_not_written(
    home: Home, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "file"
    assert main(["--home", str(home.path), "jobfile", "S-1", "--out", str(out)]) == 2
    assert WRONG in capsys.readouterr().err
    assert not out.exists()
