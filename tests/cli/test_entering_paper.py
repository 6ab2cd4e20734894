"""Paper put in by a script says so, and is marked as it is on the screen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli.main import main
from tests.app.scenes import job_in, put_job, scratch_home
from tests.cli.enter import Script
from tests.watch.jobs import STEEL

PAPER: dict[str, Any] = {"written_by": "LM", "written_on": "2026-05-14", "written_at": "0905"}
JOINT: dict[str, Any] = {"direction": "out", "joint_number": 1, "joint_length": 21}


def test_a_joint_from_paper_is_marked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = put_job(scratch_home(tmp_path / "home"), STEEL, before="pull.joint")
    script = Script(folder, monkeypatch, capsys)
    assert "day of the paper" in script.refused("joint", **JOINT, written_by="LM")
    assert "not come yet" in script.refused(
        "joint", **JOINT, **PAPER | {"written_on": "2999-01-01"}
    )
    assert script.refused("joint", **JOINT, **PAPER) == ""

    (joint,) = job_in(folder).live("joint")
    assert joint.text("recorded") == "afterwards, hold not witnessed"
    assert joint.text("written_at") == "09:05"
    assert main(["--home", str(tmp_path / "home"), "watch", "S-1"]) == 1
    told = capsys.readouterr().out
    assert "Hold not witnessed" in told
    assert "1 recorded from paper: Joint out (hold 7)" in " ".join(told.split())
