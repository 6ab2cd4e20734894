"""A string that parts, on the screen: what comes at once, and what is not done any more."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from fieldbook.walk.definition.loading import load
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE


async def test_after_a_hose_parts_its_footage_is_asked_and_no_phase_of_a_set_is_ticked(
    home: Home,
) -> None:
    job = [
        d | {"values": d["values"] | {"work": "pull and set"}} if d["kind"] == "job" else d
        for d in HOSE
    ]
    opened = [s.id for s in load("hose", "pull and set").steps if s.when == "any time"]
    after = len(opened) - 1 - opened.index("any_time.lost")
    folder = put_job(home, job, before="pull.footage")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "w", "end", *["up"] * after, "enter")
        crew.sees("Stop the reel", "Found at depth")
        await crew.types("hose slack, load gone", "enter")
        await crew.types("170", "enter", "enter")
        crew.sees("Nothing set, rest taken out", "Set-", "Start up-")
        crew.sees_not("Set√", "Start up√")

    lost = crew.job(folder).last("finding")
    assert lost is not None
    assert (lost.text("string_state"), lost.text("found_at")) == ("lost", "170")
