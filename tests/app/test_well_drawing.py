"""The well drawn in whatever room there is."""

from __future__ import annotations

from fieldbook.app.well_drawing import Well, draw

_WELL = Well(
    bottom=520.0,
    bottom_known=True,
    water=196.0,
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


def test_in_two_rows_the_pump_and_the_water_are_told_whole() -> None:
    first, last = draw(_WELL, 2, 31)

    assert first.endswith("196 water, 424 pump")
    assert last == "└───┘ 520 bottom"


def test_one_row_tells_water_and_pump_without_a_shaft() -> None:
    assert draw(_WELL, 1, 31) == ["380 screen, 196 water, 424 pump"]
    assert draw(_WELL, 1, 20) == ["196 water, 424 pump"]
