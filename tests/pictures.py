"""Draws README's pictures anew from the app itself: `python -m tests.pictures`."""

from __future__ import annotations

import asyncio
import re
import tempfile
from pathlib import Path

from fieldbook.app.app import FieldbookApp
from fieldbook.app.widgets.debounce import Debounce
from fieldbook.office.samples import build_shelf
from fieldbook.store.shelf.home import Home, Settings
from fieldbook.store.shelf.shelf import Shelf
from tests.app.crew import Crew, Watch

FOLDER = Path(__file__).parents[1] / ".readme"
SIZE = (120, 36)
TALL = (120, 52)
WIDE = (200, 60)
_NETWORK = re.compile(r"@font-face\s*\{[^}]*\}|<!--.*?-->", re.DOTALL)
_WINDOW = re.compile(r'<text [^>]*-title"[^>]*>[^<]*</text>|<circle [^>]*/>|stroke="[^"]*"')

_VIEW = re.compile(r'viewBox="0 0 ([0-9.]+) ([0-9.]+)"')
_TITLE_BAR = 33


def keep(name: str, svg: str) -> None:
    """Keep a picture of the screen alone, without a window of any system around it.

    It asks nothing of the network: the reader's own monospaced font will do.
    """
    alone = _WINDOW.sub("", _NETWORK.sub("", svg))
    width, height = map(float, _VIEW.findall(alone)[0])
    view = f'viewBox="0 {_TITLE_BAR} {width} {height - _TITLE_BAR}"'
    (FOLDER / f"{name}.svg").write_text(_VIEW.sub(view, alone, count=1), encoding="utf-8")


async def draw() -> None:
    """A steel pull at a joint, also on a wide screen, its lift, trace and plan; over its limit."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        home = Home(Path(scratch))
        build_shelf(home)
        home.keep(Settings(initials="LM", safety_seen=True))
        app = FieldbookApp(home, guard=Debounce(0.0))
        async with app.run_test(size=SIZE) as pilot:
            crew = Crew(pilot, app, Watch())
            await crew.settle()
            app.open_job(Shelf(home).find("26-127"))
            await crew.settle()
            await crew.types("20.94", "enter")
            await crew.types("680")
            keep("walk", app.export_screenshot())
            await crew.resize(WIDE)
            keep("wide", app.export_screenshot())
            await crew.resize(SIZE)
            await crew.press("escape", "l")
            keep("lift", app.export_screenshot())
            await crew.press("escape", "t")
            keep("trace", app.export_screenshot())
            await crew.press("escape", "g")
            await crew.types("1510", "enter", "enter")
            keep("stop", app.export_screenshot())
            await crew.press("o")
            await crew.resize(TALL)
            await crew.planned()
            keep("plan", app.export_screenshot())


if __name__ == "__main__":
    asyncio.run(draw())
