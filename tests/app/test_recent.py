"""The last entries in the rows there are: whole figures, those left out counted."""

from __future__ import annotations

import pytest
from textual.containers import VerticalScroll

from fieldbook.app.panels.recent import EntryRow, RecentEntries, rows_of
from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL

PARTS = ("length 20.94 ft", "gauge 715 lb", "inside wet", "pipe good", "cable ok", "ties found 2")


@pytest.mark.parametrize("rows", [1, 2])
@pytest.mark.parametrize("width", range(46, 90))
def test_figures_stand_whole_in_their_rows_or_are_counted(width: int, rows: int) -> None:
    told = EntryRow("09:48 LM Joint 7 out", PARTS)

    shown = [line.text for line in told.rows(width, rows)]

    assert len(shown) <= rows
    words = " ".join(part.strip() for part in shown)
    given = [part for part in PARTS if part in words]
    assert given == list(PARTS[: len(given)])
    left_out = len(PARTS) - len(given)
    assert words.endswith(f", {left_out} more" if left_out else PARTS[-1])


SHORT = EntryRow("09:20 LM Gauge reading", ("gauge 610 lb",))
LONG = EntryRow("09:15 LM Step skipped, Leads rolled", ("reason single phase: nothing to roll",))


def told_in(room: int, width: int, *entries: EntryRow, most: int = 1) -> list[str]:
    return [line.text.strip() for line in rows_of(entries, width, most, room)]


@pytest.mark.parametrize("width", range(40, 70))
@pytest.mark.parametrize("room", [3, 4, 5])
def test_one_long_figure_takes_the_rows_it_needs_and_the_oldest_give_way(
    width: int, room: int
) -> None:
    shown = told_in(room, width, LONG, *[SHORT] * 4)

    assert len(shown) == room
    assert " ".join(shown).startswith(f"{LONG.title}: {LONG.parts[0]} {SHORT.title}")
    assert shown[-1] == f"{SHORT.title}: {SHORT.parts[0]}"


def test_an_entry_that_does_not_stand_whole_in_what_is_left_is_not_begun() -> None:
    assert told_in(2, 60, SHORT, LONG) == ["09:20 LM Gauge reading: gauge 610 lb"]


def test_only_the_newest_is_shortened_where_the_room_does_not_take_it() -> None:
    note = EntryRow("09:20 LM Note", ("the owner asks for a sounding tube, " * 20,))
    shown = told_in(3, 60, note, SHORT)

    assert len(shown) == 3
    assert shown[-1].endswith(" ...")


@pytest.mark.parametrize("width", range(46, 70))
def test_the_rows_that_a_long_figure_takes_hold_more_where_they_can(width: int) -> None:
    told = EntryRow("09:53 RO Duty of the pump", ("water past the motor 20 ft/min", "sleeve yes"))

    shown = " ".join(told_in(5, width, told))

    assert shown.endswith(("20 ft/min, sleeve yes", "20 ft/min, 1 more"))
    if width < 58:  # one row does not hold the first, so there are two
        assert shown.endswith("sleeve yes")


def test_rows_that_are_left_hold_more_figures_of_the_newest() -> None:
    first, second = EntryRow("09:48 LM Joint 7 out", PARTS), EntryRow("09:43 LM Joint 6 out", PARTS)
    bare, roomy = told_in(2, 60, first, second), told_in(4, 60, first, second)

    assert [row[-6:] for row in bare] == ["4 more", "4 more"]
    assert "more" not in " ".join(roomy[:-1])
    assert roomy[-1] == bare[1]


async def test_where_the_form_just_fits_no_entry_makes_it_scroll(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        left = crew.app.screen.query_one("#left", VerticalScroll)
        recent = crew.app.screen.query_one(RecentEntries)
        needed = recent.virtual_region.y
        spare = crew.app.size.height - left.container_size.height

        for left_over in (2, 1, 0):
            await crew.resize((80, needed + spare + left_over))
            assert recent.size.height == left_over
            assert not left.show_vertical_scrollbar
        await crew.resize((80, needed + spare - 1))
        assert left.show_vertical_scrollbar
