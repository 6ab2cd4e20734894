"""The trace beside the form: where a large screen has room for it, while the string moves."""

from __future__ import annotations

import pytest

from fieldbook.app.panels.trace_beside import TraceBeside
from fieldbook.app.screens.trace_plot import TracePlot, marks, title
from fieldbook.store.shelf.home import Home
from fieldbook.watch.lift.trace import Trace
from tests.app.crew import LARGE, SMALL, Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL

ROOMY = (200, 60)
MARKS = "X read"


def plots(crew: Crew) -> list[TracePlot]:
    return list(crew.app.screen.query(TracePlot))


async def test_each_reading_is_drawn_and_told_as_it_is_saved(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, ROOMY) as crew:
        await crew.press("enter")
        crew.sees("Joint out", MARKS, "joints out", "nothing read yet; stop at 1,290 lbf")
        crosses = crew.screen.count("X")
        await crew.types("20.98", "enter")
        await crew.types("910", "enter", "enter")
        crew.sees("last read 910 lbf", "next, 2 joints out:")
        assert crew.screen.count("X") == crosses + 1
        await crew.press("escape", "x", "1", "enter")
        crew.sees("nothing read yet")
        assert crew.screen.count("X") == crosses


async def test_it_takes_the_room_of_nothing_that_is_written(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, (184, 45)) as crew:
        await crew.press("enter")
        crew.sees(MARKS, "and n like it ", "OK        4,763/12,000 ", "STOP AT 1,290 lbf")
        await crew.resize((183, 45))
        crew.sees("OK        4,763/12,000 ")
        crew.sees_not(MARKS)
        await crew.resize(ROOMY)
        crew.sees(MARKS)


@pytest.mark.parametrize("size", [SMALL, LARGE, (160, 45)])
async def test_a_smaller_screen_loads_no_plot(home: Home, size: tuple[int, int]) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types("910", "enter", "enter")
        crew.sees("Joint 1 out")
        assert plots(crew) == []


async def test_a_step_in_which_nothing_moves_has_none(home: Home) -> None:
    put_job(home, STEEL, before="arrive.fence")
    async with at_the_keys(home, ROOMY) as crew:
        await crew.press("enter")
        crew.sees_not(MARKS)
        assert plots(crew) == []


async def test_an_entry_is_on_the_screen_before_it_is_drawn(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_job(home, STEEL, before="pull.joint")
    seen: list[str] = []
    async with at_the_keys(home, ROOMY) as crew:
        await crew.press("enter")
        draw = TracePlot.show_trace

        def look_then_draw(plot: TracePlot, drawn: Trace) -> None:
            seen.append(crew.screen)
            draw(plot, drawn)

        monkeypatch.setattr(TracePlot, "show_trace", look_then_draw)
        await crew.types("20.98", "enter")
        await crew.types("910", "enter", "enter")
        await crew.press("escape", "enter", "pageup", "pagedown")
    assert len(seen) == 1, "drawn once for the entry, and for nothing else"
    assert "Joint 1 out saved" in seen[0]


def test_marks_and_title_name_only_what_is_drawn() -> None:
    pulled, to_set = Trace("joints out", never=1290.0), Trace("joints in", counted_in=True)

    assert ("stop at" in marks(pulled), "stop at" in marks(to_set)) == (True, False)
    assert ("what is out" in title(pulled), "what is in" in title(to_set)) == (True, True)


async def test_what_the_curves_need_is_told(home: Home) -> None:
    put_job(home, [d for d in STEEL if d["kind"] != "gauge"], before="pull.joint")
    async with at_the_keys(home, ROOMY) as crew:
        await crew.press("enter")
        told = crew.app.screen.query_one(TraceBeside)
        assert told.display
        crew.sees("The curves need:")
