"""A limit that is passed: recorded, shown, and not to be waved through."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says

_OVER = "2999"  # the crew's stop load of the job is a reading of 1,290 lbf


@pytest.fixture
def pull(home: Home) -> Path:
    """A steel pull that stands before its first joint."""
    return put_job(home, STEEL, before="pull.joint")


async def test_a_reading_over_the_limit_is_recorded_and_takes_the_form_away(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types(_OVER, "enter", "enter")
        crew.sees(
            "STOP",
            "gauge 2,999, stop at 1,290",
            "OVER BY 1,709 lbf",
            "read the gauge again",
            "change rig or limit",
        )
        crew.sees_not("Length *")
        # Nothing that saves, repeats, finishes or passes over gets by it.
        await crew.press("enter", "=", "d", "p", "pagedown", "pageup", "enter")
        crew.sees("STOP")

    assert len(crew.joints(pull)) == 1
    kinds = [e.kind for e in crew.job(pull).entries[-2:]]
    assert kinds[-1] == "joint"


async def test_the_stop_goes_only_when_the_gauge_says_so(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types(_OVER, "enter", "enter")
        await crew.press("k", "1", "enter")
        crew.sees("STOP", "written down")
        await crew.press("g")
        await crew.types("1400", "enter", "enter")
        crew.sees("STOP", "1,400")
        await crew.press("g")
        await crew.types("880", "enter", "enter")
        crew.sees("Length *", "OUT 1 of 18")
        crew.sees_not("STOP:", "LIFT STOP", "OVER BY")
        await crew.press("=")

    assert len(crew.joints(pull)) == 2
    assert crew.job(pull).last("stop_noted") is not None


async def test_the_stop_goes_when_the_limit_was_wrong_and_is_changed_on_the_card(
    home: Home, pull: Path
) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types("1300", "enter", "enter")
        crew.sees("STOP")
        await crew.press("c")
        crew.sees("Job card of S-1", "Owner")
        at = next(n for n, row in enumerate(_rows(crew.app)) if "stop load  " in row.lower())
        await crew.press(*["down"] * at, "enter")
        await crew.press("down", "up", *["backspace"] * 6)
        await crew.types("2900", "enter")
        crew.sees("The crew's stop load saved", "Joint out", "Length *")
        crew.sees_not("STOP:", "LIFT STOP", "OVER BY")

    limits = crew.job(pull).live("limit")
    assert limits[-1].text("stop_load") == "2900"


def _rows(app: object) -> list[str]:
    return [row.words for row in app.screen._rows]  # type: ignore[attr-defined]


async def test_a_lift_over_a_rating_is_not_released_and_not_passed_over(home: Home) -> None:
    weak = [d if d["kind"] != "rig" else d | {"values": d["values"] | {"hook_rating": 1500}}
            for d in STEEL]  # fmt: skip
    folder = put_job(home, weak, before="ready.load_check")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Lift check before lifting", "STOP", "hook", "of 1,500 lbf")
        before = len(crew.job(folder).entries)
        await crew.press("enter", "r", "p")
        crew.sees("not skipped")
        crew.sees_not("Sign:", "Skip:")

    assert len(crew.job(folder).entries) == before


async def test_the_drained_line_and_the_next_reading_may_still_be_written_at_a_stop(
    home: Home,
) -> None:
    read = says("load", gauge_reading=2999)
    folder = put_job(home, [*STEEL, read], before="pull.drain")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("How the line empties", "Drained by")
        await crew.press("j", "enter", "enter")

    assert crew.job(folder).last("drain") is not None


async def test_a_stop_that_an_entry_raises_is_told_where_it_is_saved(home: Home) -> None:
    both = [d if d["kind"] != "job" else d | {"values": d["values"] | {"work": "pull and set"}}
            for d in STEEL]  # fmt: skip
    folder = put_job(home, both, before="choose.curve")
    raised = "STOP: pressure 611 psi of 412 psi, wall under the thread, joint 18."
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.types("1200", "enter", "enter")
        crew.sees("On its curve saved", raised)
        crew.sees("Else crew lead or", 'tech goes ahead by name at "Setting depth, signed by two"')
        await crew.types("20", "enter")
        await crew.press("y", "enter")
        crew.sees("saved", "Pressure 611/412 psi STOP")
        crew.sees_not("STOP: pressure")  # it is no news any more; what it is too much for stays
        crew.sees("wall under the thread, joint 18")
        await crew.press("escape", "pageup", "pageup", "enter")
        crew.sees("On its curve")
        await crew.types("300", "enter", "enter")
        crew.sees("On its curve saved", "Pressure 287/412 psi OK")
        crew.sees_not("STOP:", "LIFT STOP", "OVER BY")

    assert [e.text("shut_off_head") for e in crew.job(folder).live("well")[-2:]] == ["1200", "300"]


async def test_a_gauge_stop_is_told_with_the_way_out_where_the_form_stays(home: Home) -> None:
    put_job(home, STEEL, before="pull.drain")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape", "g")
        await crew.types(_OVER, "enter", "enter")
        crew.sees("Drained by *", "STOP: gauge", "of 1,290 lbf")
        crew.sees("Nothing is lifted until cleared: read the gauge again")
        await crew.press("escape", "x", "1", "enter")
        crew.sees("Gauge reading: crossed out")
        crew.sees_not("STOP:", "LIFT STOP", "OVER BY")


async def test_a_stop_that_has_its_panel_is_told_once(home: Home, pull: Path) -> None:
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types(_OVER, "enter", "enter")
        assert crew.screen.count("STOP: gauge") == 1, crew.screen
        crew.sees("Joint 1 out saved")


async def test_a_stop_that_was_measured_sends_back_to_the_meter_and_tells_the_least(
    home: Home,
) -> None:
    """A half megohm is asked of a motor in the well; the job card holds no insulation."""
    folder = put_job(home, STEEL, before="test.insulation")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.types("0.1", "enter", "enter")
        crew.sees("STOP: insulation 0.1 Mohm by the trade's bands", "at least 0.5 Mohm asked")
        crew.sees("Measure again at", '"Insulation to ground" (Esc, w), or replace what is bad')
        crew.sees_not("Change what is wrong", "goes ahead by name")

    assert crew.job(folder).last("meter") is not None


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_over_the_limit_the_whole_band_is_inverted_and_says_by_how_much(
    home: Home, size: tuple[int, int]
) -> None:
    put_job(home, [*STEEL, says("load", gauge_reading=1510)], before="pull.joint")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("OVER BY 220")
        rows = crew.screen.splitlines()
        at = next(row for row, line in enumerate(rows) if "OVER BY 220" in line)
        for row in range(at, at + (1 if size == SMALL else 4)):
            backgrounds = {
                crew.app.screen.get_style_at(column, row).bgcolor for column in (2, size[0] // 2)
            }
            assert len(backgrounds) == 1
            assert backgrounds != {crew.app.screen.get_style_at(2, len(rows) - 1).bgcolor}
