"""The well drawn in whatever room there is."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fieldbook.app.panels.well_drawing import WellSketch, draw, well_of
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of

_WELL = WellSketch(
    bottom=520.0,
    bottom_known=True,
    tagged=None,
    water=196.0,
    water_state="",
    screen=(380.0, 420.0),
    string_top=0.0,
    string_end=424.0,
    datum="ground",
    out="0/420 ft out",
)


def test_each_depth_stands_beside_its_row_where_there_is_room() -> None:
    rows = draw(_WELL, 10, 31)

    assert [row[6:] for row in rows if len(row) > 6] == [
        "0 ground, 0/420 ft out", "196 water", "380 screen", "424 pump", "520 bottom",
    ]  # fmt: skip


def test_a_bottom_that_was_tagged_is_told_beside_the_bottom_of_the_record() -> None:
    assert draw(replace(_WELL, tagged=511.0), 10, 31)[-1] == "└───┘ 520 bottom, tagged at 511"


def test_in_two_rows_the_pump_and_the_water_are_told_whole() -> None:
    first, last = draw(_WELL, 2, 31)

    assert first.endswith("196 water, 424 pump")
    assert last == "└───┘ 520 bottom"


def test_one_row_tells_water_and_pump_without_a_shaft() -> None:
    assert draw(_WELL, 1, 31) == ["196 water, 380 screen, 424 pump"]
    assert draw(_WELL, 1, 20) == ["196 water, 424 pump"]


def test_a_pump_that_hangs_dry_is_drawn_in_no_water() -> None:
    dry = replace(_WELL, string_end=21.0)

    first, second, third = draw(dry, 4, 31)[:3]

    assert first.startswith("│ █ │")
    assert first.endswith("21 pump")
    assert second.startswith("│~~~│")
    assert second.endswith("196 water")
    assert third.startswith("¦~~~¦")


def test_water_that_stands_low_in_a_row_does_not_fill_it() -> None:
    rows = draw(replace(_WELL, water=150.0), 4, 31)

    assert rows[0].startswith("│ ║ │")
    assert rows[0].endswith("150 water")
    assert rows[1].startswith("│~║~│")


def test_depths_in_one_row_stand_in_the_order_of_their_depths() -> None:
    assert draw(replace(_WELL, string_end=375.0), 3, 31)[1].endswith("375 pump, 380 screen")


def test_the_bottom_that_was_tagged_with_the_pump_out_is_told_too() -> None:
    deep = {"kind": "well", "by": "QA", "values": {"well_depth": "440 ft"}}
    tagged = {"kind": "pump_out", "by": "QA", "values": {"tagged_depth": "431 ft"}}
    job = job_of(*STEEL, tagged)
    both = job_of(*STEEL, deep, tagged)

    assert draw(well_of(job, Watcher(job).look(), None), 5, 31)[-1].startswith("└───┘ 431 bottom")
    assert "440 bottom, tagged at 431" in draw(well_of(both, Watcher(both).look(), None), 5, 31)[-1]


def _level(at: str, state: str) -> dict[str, Any]:
    return {"kind": "level", "by": "QA", "values": {"water_level": at, "level_state": state}}


def test_the_water_is_drawn_where_it_stands_while_the_pump_runs_and_once_the_string_is_lifted() -> (
    None
):
    unread = [document for document in STEEL if document["kind"] != "level"]
    rest, pumped = _level("168 ft", "static"), _level("188 ft", "pumping")
    locked = {"kind": "arrival", "by": "QA", "values": {"lock_number": "21"}}
    read: dict[str, Any] = {"kind": "load", "by": "QA", "values": {"gauge_reading": "900 lbf"}}

    def water(*documents: dict[str, Any]) -> str:
        job = job_of(*unread, *documents)
        [row] = (r for r in draw(well_of(job, Watcher(job).look(), None), 30, 40) if " water" in r)
        return row[6:]

    assert water(rest) == "168 water"
    assert water(rest, pumped) == "188 water pumping"
    assert water(rest, pumped, read) == "168 water"
    assert water(rest, read, pumped) == "188 water pumping"
    assert water(pumped, read) == "188 water pumping"
    assert water(rest, pumped, locked) == "168 water"
