"""A job whose every step is done is sealed by Enter, and then stands closed."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

from fieldbook.app.app import FieldbookApp
from fieldbook.app.widgets.debounce import Debounce
from fieldbook.office.samples import sample_lines
from fieldbook.quantities.admit import draft_from
from fieldbook.store.job.book import Book
from fieldbook.store.log.seal import broken_seals
from fieldbook.store.shelf.home import Home, Settings
from fieldbook.store.shelf.shelf import Shelf
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL


async def test_the_last_step_seals_the_log(tmp_path: Path) -> None:
    home = Home(tmp_path)
    home.keep(Settings(initials="RO", safety_seen=True))
    lines = list(sample_lines("26-131-hose", complete=True))[:-1]
    clock = iter([dt.datetime.fromisoformat(line.pop("at")) for line in lines])
    folder = Shelf(home).create(draft_from(lines[0]), clock=lambda: next(clock))
    with Book.open(folder, home.device_id(), clock=lambda: next(clock)) as book:
        for line in lines[1:]:
            book.record(draft_from(line))

    app = FieldbookApp(home, guard=Debounce(0.0))
    async with app.run_test(size=(80, 24)) as pilot:
        await app.workers.wait_for_complete()
        app.open_job(folder)
        await pilot.pause()
        asked = "\n".join(s.text for s in app.screen._compositor.render_strips(app.size))
        assert "Enter: seal the log" in asked
        await pilot.press("enter")
        await pilot.pause()
        told = "\n".join(s.text for s in app.screen._compositor.render_strips(app.size))
        assert "Every step is done" in told
        assert re.search(r"SEALED \d{4}-\d\d-\d\d \d\d:\d\d by RO", told)
        assert "What comes later: Esc, a" in told
        assert "Seal: names the last line of 1 log" in told
        for kept_back in ("step done", "release", "skip", "suspend", "hand over", "strike"):
            assert kept_back not in told
        for offered in ("v log", "a from paper", "q shelf"):
            assert offered in told
        assert "fieldbook jobfile 26-131 --out files" in told
        await pilot.press("x")
        await pilot.pause()
        asked = "\n".join(s.text for s in app.screen._compositor.render_strips(app.size))
        assert "Cross out this entry?" in asked
        assert not re.search("[0-9a-f]{9}", asked)

    with Book.open(folder, home.device_id(), write=False) as book:
        seal = book.job.last("seal")
        assert seal is not None
        assert seal.by == "RO"
        assert broken_seals(folder, seal) == []


async def test_the_last_look_counts_the_steps_that_are_open_before_it(home: Home) -> None:
    put_job(home, STEEL, before="close.open_points")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("Nothing left blank", "no step (all steps: Esc, w).")

        await crew.press("escape", "x", "2", "enter")
        crew.sees("Owner told")
        crew.sees("Nothing left blank", "Open before this: 1 step (all", "Owner told.")
