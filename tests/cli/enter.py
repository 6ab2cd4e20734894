"""Lines for `fieldbook enter`, and what it answers."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli.main import main


class Script:
    """A script that feeds a job from outside."""

    def __init__(
        self, folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ) -> None:
        self._folder = folder
        self._monkeypatch = monkeypatch
        self._capsys = capsys

    def enter(self, *documents: dict[str, Any]) -> list[dict[str, Any]]:
        """The answers to some entries, one each."""
        lines = "\n".join(map(json.dumps, documents))
        self._monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(lines.encode())))
        self._capsys.readouterr()
        code = main(["--home", str(self._folder.parents[1]), "enter", str(self._folder)])
        answers = [json.loads(line) for line in self._capsys.readouterr().out.splitlines()]
        assert code == (1 if any("refused" in answer for answer in answers) else 0)
        assert len(answers) == len(documents)
        return answers

    def refused(self, kind: str, by: str = "QA", **values: Any) -> str:
        """Why an entry is not taken; empty when it is saved."""
        return self._refused({"kind": kind, "by": by, "values": values})

    def refused_though_sure(self, kind: str, **values: Any) -> str:
        """Why an entry that says that its figures are right is not taken; empty when it is."""
        return self._refused({"kind": kind, "by": "QA", "values": values, "sure": True})

    def _refused(self, document: dict[str, Any]) -> str:
        (answer,) = self.enter(document)
        return str(answer.get("refused", ""))
