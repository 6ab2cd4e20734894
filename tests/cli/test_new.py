"""`fieldbook new` and `demo --into`: a job, and a sample book, without the app."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.office.samples import sample_names
from fieldbook.store.job.book import Book
from tests.cli.cards import card
from tests.watch.plans import STEEL_PLAN


def folder_of(home: Path, number: str) -> Path:
    return home / "jobs" / number


def test_a_job_from_flags_is_on_the_shelf_and_takes_entries(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["new", "26-300", "--by", "RK", "--line", "steel", "--work", "pull and set"]
    words += ["--start", "record now", "--owner", "A. Sample", "--title", "yard well"]
    assert main(["--home", str(tmp_path), *words]) == 0
    assert str(folder_of(tmp_path, "26-300")) in capsys.readouterr().out
    with Book.open(folder_of(tmp_path, "26-300"), "", write=False) as book:
        (opening,) = book.job.live("job")
        said = {name: value.text for name, value in opening.values.items()}
    assert opening.by == "RK"
    assert said == {
        "job_number": "26-300", "line": "steel", "work": "pull and set", "start": "record now",
        "owner": "A. Sample", "job_title": "yard well",
    }  # fmt: skip


def test_a_job_from_a_card_has_what_the_card_says(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = card(STEEL_PLAN, tmp_path / "plan.toml")
    code = main(["--home", str(tmp_path), "new", "26-301", "--by", "RK", "--card", str(path)])
    capsys.readouterr()
    assert code in (0, 1)
    with Book.open(folder_of(tmp_path, "26-301"), "", write=False) as book:
        assert book.job.text("job", "line") == "steel"
        assert book.job.text("job", "job_number") == "26-301"
        assert book.job.live("piece")
        assert {entry.by for entry in book.job.entries} == {"RK"}


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--work", "pull"], "a new job needs --line"),
        ([], "a new job needs --line and --work"),
        (["--line", "lead", "--work", "pull"], "write one of: pvc, steel, hose"),
        (["--line", "pvc", "--work", "pull", "--start", "now"], "write one of: plan first"),
    ],
)
def test_what_is_no_job_is_refused_and_leaves_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: list[str], says: str
) -> None:
    assert main(["--home", str(tmp_path), "new", "26-302", "--by", "RK", *words]) == 2
    assert says in capsys.readouterr().err
    assert not folder_of(tmp_path, "26-302").exists()


def test_a_number_that_is_taken_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["--home", str(tmp_path), "new", "26-303", "--by", "RK", "--line", "pvc"]
    assert main([*words, "--work", "pull"]) == 0
    assert main([*words, "--work", "pull"]) == 2
    assert "on the shelf already" in capsys.readouterr().err


def test_the_sample_book_is_written_into_a_new_folder_only(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    into = tmp_path / "samples"
    assert main(["demo", "--into", str(into)]) == 0
    assert str(into) in capsys.readouterr().out
    assert len(list((into / "jobs").iterdir())) == len(sample_names())
    assert main(["demo", "--into", str(into)]) == 2
    assert "is not empty" in capsys.readouterr().err
