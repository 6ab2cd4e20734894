"""`fieldbook paper`: to a file or to the screen, for a job or for none."""

from __future__ import annotations

import html
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from tests.app.scenes import put_job, scratch_home
from tests.watch.jobs import STEEL


def test_a_form_of_a_job_is_written_to_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = scratch_home(tmp_path / "home")
    put_job(home, STEEL)
    out = tmp_path / "paper.html"
    assert main(["--home", str(home.path), "paper", "S-1", "--out", str(out)]) == 0
    assert capsys.readouterr().out.strip() == str(out)
    assert "STOP AT 1,290 lbf on the gauge (yours)" in html.unescape(
        out.read_text(encoding="utf-8")
    )


def test_an_empty_form_goes_to_the_screen(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["paper", "--line", "pvc", "--work", "set", "--text", "--joints", "3"]
    assert main(["--home", str(tmp_path), *asked]) == 0
    assert "BEFORE ANYTHING IS LIFTED" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ([], "give a job number, or --line and --work"),
        (["--line", "steel"], "give a job number, or --line and --work"),
        (["S-1", "--line", "steel"], "not both"),
        (["--line", "rope", "--work", "pull"], "'rope' is not one of: pvc, steel, hose"),
        (["--line", "pvc", "--work", "dig"], "'dig' is not one of"),
        (["--line", "pvc", "--work", "pull", "--joints", "0"], "from 1 to 200"),
        (["S-9"], "S-9"),
        (["--line", "pvc", "--work", "pull", "--out", "no/such/folder/x"], "cannot write"),
    ],
)
def test_what_cannot_be_is_said_in_a_line(
    asked: list[str], says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--home", str(tmp_path), "paper", *asked]) == 2
    told = capsys.readouterr().err
    assert says in told
    assert told.count("\n") == 1
