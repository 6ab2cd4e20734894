"""A shelf that cannot be read is never shown as an empty one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.app.crew import at_the_keys
from tests.app.scenes import scratch_home


async def test_it_says_that_it_cannot_be_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    home = scratch_home(tmp_path / "home")
    home.jobs_folder.mkdir(parents=True)
    scan = os.scandir

    def scandir(path: str | Path) -> object:
        if Path(path) == home.jobs_folder:
            raise PermissionError(13, "Permission denied", str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", scandir)
    async with at_the_keys(home) as crew:
        await crew.press("escape")
        crew.sees("CANNOT READ THE SHELF: Permission denied", "Plug in the drive")
