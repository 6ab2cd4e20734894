"""Draws README's pictures anew from the app itself: `python -m tests.pictures`."""

from __future__ import annotations

import asyncio
import re
import tempfile
from pathlib import Path

from fieldbook.app.app import FieldbookApp
from fieldbook.app.guard import Guard
from fieldbook.office.samples import build_shelf
from fieldbook.store.home import Home, Settings
from fieldbook.store.shelf import Shelf

FOLDER = Path(__file__).parents[1] / ".readme"
SIZE = (120, 36)


def keep(name: str, svg: str) -> None:
    """Keep a picture that asks nothing of the network: the reader's own monospaced font will do."""
    alone = re.sub(r"@font-face\s*\{[^}]*\}", "", svg)
    alone = re.sub(r"<!--.*?-->", "", alone, flags=re.DOTALL)
    (FOLDER / f"{name}.svg").write_text(alone, encoding="utf-8")


async def draw() -> None:
    """The walk at a joint of the steel pull, and its lift check."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        home = Home(Path(scratch))
        build_shelf(home)
        home.keep(Settings(initials="LM", safety_seen=True))
        app = FieldbookApp(home, guard=Guard(0.0))
        async with app.run_test(size=SIZE) as pilot:
            await app.workers.wait_for_complete()
            app.open_job(Shelf(home).find("26-127"))
            await pilot.pause()
            await pilot.press(*"20.94", "enter", *"640")
            await pilot.pause()
            keep("walk", app.export_screenshot())
            await pilot.press("escape", "l")
            await pilot.pause()
            keep("lift", app.export_screenshot())


if __name__ == "__main__":
    asyncio.run(draw())
