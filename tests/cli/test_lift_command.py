"""`fieldbook lift`: one verdict in text, as JSON, printed and as the exit code."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from tests.app.scenes import put_job, scratch_home
from tests.cli.cards import card
from tests.watch.jobs import STEEL, says

OVER = (*STEEL, says("load", gauge_reading=1510))
"""Never pass 1,290 lbf; every link may carry what hangs."""


@pytest.fixture
def over(tmp_path: Path) -> Path:
    return put_job(scratch_home(tmp_path / "home"), list(OVER), before="ready.load_check")


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str]:
    capsys.readouterr()
    code = main(list(arguments))
    return code, capsys.readouterr().out


def test_a_reading_over_the_limit_is_a_stop_however_it_is_asked(
    over: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = str(over)
    for more in ((), ("--drained",), ("--full",), ("--joint", "4")):
        code, text = told(capsys, "lift", job, *more)
        assert code == 1
        assert text.startswith("STOP: gauge reads 1,510, stop at 1,2"), "what was read comes first"
        governs = next(line for line in text.splitlines() if line.startswith("Governs"))
        assert "gauge 1,510 lbf of 1,2" in governs
    code, text = told(capsys, "lift", job, "--print")
    assert code == 1
    assert "STOP: gauge reads 1,510" in text
    assert "OK TO LIFT" not in text
    code, text = told(capsys, "lift", job, "--json")
    assert code == 1
    verdicts = {check["name"]: check["verdict"] for check in json.loads(text)["checks"]}
    assert verdicts["lift"] == verdicts["gauge"] == json.loads(text)["verdict"] == "stop"
    code, text = told(capsys, "watch", job)
    assert code == 1
    assert [line.split()[1] for line in text.splitlines() if line.startswith("lift")] == ["STOP"]
    code, text = told(capsys, "paper", job)
    assert "STOP: gauge reads 1,510, stop at 1,290: OVER BY 220" in " ".join(text.split())


def test_loads_and_readings_each_say_their_level(
    over: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _, text = told(capsys, "lift", str(over))

    assert "Hook load, without friction, water at its deepest, 230.0 ft" in text
    assert "water at 168.0 ft, static" in text
    _, text = told(capsys, "lift", str(over), "--print")
    assert "water at its deepest, 230.0 ft" in text
    assert "water at 168.0 ft, static" in text


@pytest.mark.parametrize("asked", ["19", "25"])
def test_more_joints_than_the_string_has_is_refused_in_words(
    asked: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = card(STEEL, tmp_path / "lift.toml")

    assert main(["lift", "--card", str(path), "--joint", "18"]) == 0
    assert main(["lift", "--card", str(path), "--joint", asked]) == 2
    said = capsys.readouterr()
    assert f"--joint {asked}: the string has 18 joints; 0 to 18 may be out" in said.err


def test_the_number_of_the_weakest_joint_is_never_cut(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The lower joints are corroded to 0.100 in; joint 19 governs, and is no joint 1."""
    thin = says("piece", place=1.5, piece="joint", nps="2", schedule="40", steel_grade="A",
                thread_design_factor=4, joint_count=6, joint_length=21, least_wall=0.1)  # fmt: skip
    pieces = [d for d in STEEL if d["kind"] == "piece"]
    others = [d for d in STEEL if d["kind"] != "piece"]
    path = card([*others, pieces[0], thin, *pieces[1:]], tmp_path / "lift.toml")
    main(["lift", "--card", str(path)])

    rows = [line for line in capsys.readouterr().out.splitlines() if line.startswith("thread")]
    assert any("joint 19 " in row for row in rows)
