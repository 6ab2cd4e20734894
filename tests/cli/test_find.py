"""`fieldbook find` answers from the shelf as it is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.store.shelf.home import Home
from tests.store.shelves import many_jobs


@pytest.fixture
def home(tmp_path: Path) -> Path:
    many_jobs(Home(tmp_path / "home"), 12)
    return tmp_path / "home"


def found(capsys: pytest.CaptureFixture[str], home: Path, *arguments: str) -> list[str]:
    assert main(["find", *arguments, "--json", "--home", str(home)]) == 0
    return [document["job"] for document in json.loads(capsys.readouterr().out)]


def test_words_and_parts_narrow_it_down(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert len(found(capsys, home)) == 12
    assert found(capsys, home, "SALLOW", "well 3") == ["J-00010"]
    assert found(capsys, home, "--owner", "osgood", "--well", "1") == ["J-00004"]
    assert found(capsys, home, "--pump", "12 stages") == ["J-00006", "J-00000"]
    assert found(capsys, home, "--finding", "cable chafe") == ["J-00008", "J-00006", "J-00001"]
    assert found(capsys, home, "--since", "2016-01-05") == []
    assert len(found(capsys, home, "--since", "2016-01-04")) == 12


def test_a_table_for_people(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "brackle", "--home", str(home)]) == 0
    head, *rows = capsys.readouterr().out.splitlines()
    assert head.split() == ["JOB", "TITLE", "LINE", "WORK", "SAVED"]
    assert [row.split()[0] for row in rows] == ["J-00008", "J-00003"]
    assert main(["find", "nobody", "--home", str(home)]) == 0
    assert capsys.readouterr().out == "No job is as wanted.\n"


def test_a_day_that_is_none_is_refused(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", "--since", "May", "--home", str(home)]) == 2
    assert capsys.readouterr().err == "fieldbook: May is no day; write it as 2026-05-14\n"
