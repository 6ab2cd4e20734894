"""A scratch home for each test, and a screen that does not move by itself."""

from __future__ import annotations

from pathlib import Path

import pytest
import textual.app
import textual.pilot

from fieldbook.store.shelf.home import Home
from tests.app.idle import nothing_left_to_do
from tests.app.parsed_once import parse_once
from tests.app.scenes import scratch_home


@pytest.fixture(autouse=True)
def _still(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    for module in (textual.app, textual.pilot):
        monkeypatch.setattr(module, "wait_for_idle", nothing_left_to_do)
    monkeypatch.setattr(textual.pilot.Pilot, "_wait_for_screen", nothing_left_to_do)
    parse_once(monkeypatch)
    for name in ("NO_COLOR", "FIELDBOOK_HOME", "COLORTERM"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return scratch_home(tmp_path / "home")
