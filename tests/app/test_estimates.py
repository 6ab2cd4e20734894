"""`~110` and `?` are answers, and neither is taken for a figure that somebody measured."""

from __future__ import annotations

from fieldbook.record.entry import Origin
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL


async def test_about_is_an_estimate_and_a_question_mark_leaves_the_line_blank(home: Home) -> None:
    folder = put_job(
        home, [entry for entry in STEEL if entry["kind"] == "job"], before="plan.pump_size"
    )
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Pump weight and size")
        await crew.types("~110", "enter")
        crew.sees("~110")
        await crew.types("?", "enter")
        await crew.types("?", "enter")
        await crew.press("enter")
        (entry,) = crew.job(folder).live("pump")
        assert entry.values["pump_weight"].origin is Origin.ESTIMATE
        assert (entry.text("pump_weight"), entry.values["pump_weight"].number) == ("~110", 110.0)
        assert "pump_length" not in entry.values
        assert entry.text("reason").startswith("not known: ")
        crew.sees_not("Why is this not written")


async def test_an_estimate_says_so_wherever_it_is_read(home: Home) -> None:
    folder = put_job(home, STEEL, before="test.lockout")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "down")
        crew.sees("Locked out, proved dead")
        await crew.types("~0", "enter", "enter")
        assert not crew.job(folder).live("hold"), "a figure that a life hangs on is measured"
