"""`fieldbook gear` on the invented library, on days that are given."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.samples import build_shelf
from fieldbook.store.shelf.home import Home


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("home")
    build_shelf(Home(path))
    return path


def told(home: Path, capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["--home", str(home), "gear", *arguments]) == 0
    return capsys.readouterr().out


def test_what_is_past_and_what_is_due_soon_are_named(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = told(home, capsys, "--on", "2026-05-15")

    assert "GEAR on 2026-05-15" in text
    assert "Past: Elevator and slips 2 in; Line gauge 2\n" in text
    assert "Due within 30 days: Wire rope 7 of derrick 1\n" in text
    assert "inspection was due 2026-04-14" in text
    assert "calibration due 2027-03-02, a year after the last" in text


def test_nothing_of_the_sample_gear_was_past_a_year_before(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = told(home, capsys, "--on", "2025-05-15")

    assert "Past: none" in text
    assert "retired" in text


def test_a_program_reads_the_same(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    document = json.loads(told(home, capsys, "--json", "--on", "2026-05-15"))
    by_id = {item["id"]: item for item in document["items"]}

    assert document["on"] == "2026-05-15"
    assert by_id["elevator-2in"]["stands"] == "past"
    assert by_id["elevator-2in"]["due"] == "2026-04-14"
    assert by_id["rope-7"]["stands"] == "soon"
    assert by_id["riser-hose-a-window"]["stands"] == "not written"
    assert by_id["hose-clamp-1"]["retired"] is True
    assert by_id["derrick-1"]["values"]["hook_rating"] == {
        "value": 8000.0,
        "unit": "lbf",
        "origin": "nameplate",
    }


def test_no_library_is_said_and_is_no_error(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "No gear is kept yet" in told(tmp_path, capsys)
    assert json.loads(told(tmp_path, capsys, "--json"))["items"] == []


def test_a_broken_file_is_named_with_item_and_key(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = Home(tmp_path).gear_folder
    folder.mkdir()
    text = '[[item]]\nid = "a"\ntitle = "A"\nkind = "rig"\norigin = "stated"\nsource = "s"\n'
    (folder / "a.toml").write_text(f"{text}[item.values]\nhook_rating = 9\n", encoding="utf-8")

    assert main(["--home", str(tmp_path), "gear"]) == 2
    assert "a.toml: a: hook_rating: has no unit" in capsys.readouterr().err


def test_what_a_broken_file_says_is_no_escape(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = Home(tmp_path).gear_folder
    folder.mkdir()
    (folder / "a.toml").write_text('"\\u001b[2J" = 1\n', encoding="utf-8")

    assert main(["--home", str(tmp_path), "gear"]) == 2
    told = capsys.readouterr().err
    assert "unknown key" in told
    assert "\x1b" not in told


@pytest.mark.parametrize("day", ["tomorrow", "2026-02-30", ""])
def test_a_day_that_is_none_is_refused(
    home: Path, capsys: pytest.CaptureFixture[str], day: str
) -> None:
    assert main(["--home", str(home), "gear", "--on", day]) == 2
    assert "a day such as 2026-05-14" in capsys.readouterr().err
