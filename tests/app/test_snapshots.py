"""How the walk and the shelf look, kept as pictures; `pytest --snapshot-update` after a look.

The clock of the jobs is a test's own and the folder of the home is not on these screens, so a
picture changes only when the screen does.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.pilot import Pilot

from fieldbook.app.app import FieldbookApp
from fieldbook.app.widgets.debounce import Debounce
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL
from tests.app.scenes import put_job, ticking
from tests.watch.jobs import STEEL

READ = {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}
Compare = Callable[..., bool]


def book(home: Home) -> FieldbookApp:
    clock = ticking()
    return FieldbookApp(home, clock=lambda: next(clock), guard=Debounce(0.0))


async def open_the_job(pilot: Pilot[None]) -> None:
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()
    await pilot.press("enter")
    await pilot.pause()
    await pilot.press(*"20.98")
    await pilot.pause()


@pytest.mark.parametrize("size", [SMALL, LARGE])
def test_the_walk_at_a_joint(snap_compare: Compare, home: Home, size: tuple[int, int]) -> None:
    put_job(home, [*STEEL, READ], before="pull.joint")

    assert snap_compare(book(home), terminal_size=size, run_before=open_the_job)


def test_an_empty_shelf_says_what_to_do(snap_compare: Compare, home: Home) -> None:
    async def read(pilot: Pilot[None]) -> None:
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()

    assert snap_compare(book(home), terminal_size=SMALL, run_before=read)
