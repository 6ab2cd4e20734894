"""What the old program answered about its home, and what today's program answers."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli.main import main

ARCHIVE = Path(__file__).parent / "old_home.zip"


def said(name: str) -> Any:
    """What the old program answered."""
    with zipfile.ZipFile(ARCHIVE) as archive:
        return json.loads(archive.read(f"said/{name}.json"))


def logs(home: Path) -> dict[str, bytes]:
    jobs = home / "jobs"
    return {str(path.relative_to(jobs)): path.read_bytes() for path in jobs.rglob("*.jsonl")}


class Answers:
    """What today's program prints."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def text(self, home: Path, *given: str) -> str:
        """What a command prints; 1 is the code of a stop."""
        self._capsys.readouterr()
        assert main(["--home", str(home), *given]) in (0, 1)
        return self._capsys.readouterr().out

    def document(self, home: Path, *given: str) -> Any:
        """What a command prints with `--json`."""
        return json.loads(self.text(home, *given, "--json"))

    def everything(self, home: Path, job: str, out: Path, *given: str) -> Any:
        """`everything.json` of a job file."""
        self.text(home, "jobfile", job, "--out", str(out), *given)
        return json.loads((out / "everything.json").read_text(encoding="utf-8"))
