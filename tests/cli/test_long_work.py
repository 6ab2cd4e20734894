"""Work that may take long tells how far it is, and Ctrl-C ends it in a sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.office.samples import build_job, build_shelf, sample_names
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home


def test_ctrl_c_ends_a_command_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("fieldbook.cli.commands.office.verify_path", interrupted)

    assert main(["verify", str(tmp_path)]) == 1
    assert "what was saved is saved" in capsys.readouterr().err


def test_a_check_of_many_says_how_far_it_is(tmp_path: Path) -> None:
    build_shelf(Home(tmp_path))
    said: list[tuple[int, int]] = []
    found = verify(tmp_path / "jobs", on_progress=lambda done, of: said.append((done, of)))
    assert found.whole
    assert len(said) == said[0][1] >= len(sample_names())
    assert [done for done, _ in said] == list(range(len(said)))


def test_little_is_checked_without_a_word(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for number in range(3):
        build_job(Home(tmp_path / str(number)), sample_names()[0])
    assert main(["verify", str(tmp_path)]) == 0
    assert capsys.readouterr().err == ""

    monkeypatch.setattr("fieldbook.cli.commands.office._MANY_FOLDERS", 3)
    assert main(["verify", str(tmp_path)]) == 0
    assert "folders checked: " in capsys.readouterr().err
