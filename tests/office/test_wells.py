"""A well over the years; the figures are hand calculations on what the jobs wrote."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.reports.well_readings import SERIES
from fieldbook.office.reports.wells import Well, all_wells
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.shelves import FIRST, says

ON = dt.date(2026, 5, 16)
WELL = {"owner": "Sallow Farm", "well_name": "Barn"}


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path / "home")


def put(
    home: Home, number: str, year: int, *drafts: Draft, work: str = "pull", **values: str
) -> None:
    time = FIRST.replace(year=year)
    named = {name: value for name, value in (WELL | values).items() if value}
    opening = says("job", job_number=number, line="steel", work=work, **named)
    folder = Shelf(home).create(opening, clock=lambda: time)
    with Book.open(folder, home.device_id(), clock=lambda: time) as book:
        for draft in drafts:
            book.record(draft)


def wells(home: Home) -> list[Well]:
    shelf = Shelf(home)
    shelf.refresh()
    return all_wells(shelf, ON)


def figures(well: Well, series: str) -> list[tuple[int, float]]:
    return [(r.time.year, round(r.value, 3)) for r in well.series[series]]


def level(feet: str, state: str = "static", **values: str) -> Draft:
    return says("level", water_level=feet, level_state=state, **values)


def test_every_job_adds_its_figures_whatever_the_unit(home: Home) -> None:
    put(home, "2", 2020, level("54 m"), says("meter", insulation="24 Mohm"), work="check")
    put(home, "1", 2014, level("160 ft"), says("meter", insulation="0.1 Gohm", amps_a="9 A"))
    put(home, "3", 2025, says("meter", amps_a="9.5", amps_b="10.5", amps_c="10"))
    (well,) = wells(home)

    assert [visit.job_number for visit in well.visits] == ["1", "2", "3"]
    assert figures(well, "static level") == [(2014, 160), (2020, 177.165)]
    assert figures(well, "insulation") == [(2014, 100), (2020, 24)]
    assert figures(well, "amps") == [(2014, 9), (2025, 10.5)]


def test_specific_capacity_is_flow_over_drawdown_of_one_test(home: Home) -> None:
    # by hand: 12 gpm over 184 - 160 ft is 0.5 gpm/ft
    pumping = level("184 ft", "pumping", flow="12 gpm", minutes_on="60 min")
    put(home, "1", 2014, level("160 ft"), pumping)
    put(home, "2", 2016, pumping)  # no static level on that job: nothing to reckon from
    put(home, "3", 2018, level("190 ft"), pumping)  # pumping above static: one of them is wrong
    put(home, "4", 2020, level("160 ft"), level("170 ft", "recovering", flow="9 gpm"))
    (well,) = wells(home)

    assert figures(well, "specific capacity") == [(2014, 0.5)]
    assert well.series["specific capacity"][0].beside == "after 60 min"


def test_a_motor_out_of_the_well_is_not_compared_with_one_in_it(home: Home) -> None:
    put(
        home, "1", 2014,
        says("meter", insulation="24 Mohm", water_temperature="56 F"),
        says("meter", insulation="120 Mohm", part="motor out of the well"),
    )  # fmt: skip
    (well,) = wells(home)

    assert figures(well, "insulation") == [(2014, 24)]
    assert well.series["insulation"][0].beside == "water 56 F"


def test_the_last_record_counts_only_where_no_earlier_job_is_known(home: Home) -> None:
    record = says(
        "prior", set_on="2006-05-01", setting_depth="378 ft", insulation="55 Mohm", datum="ground"
    )
    put(home, "1", 2014, record)
    put(home, "2", 2016, record, says("depth", datum="ground", setting_depth="380 ft"), work="set")
    (well,) = wells(home)

    assert figures(well, "setting") == [(2006, 378), (2016, 380)]
    assert figures(well, "insulation") == [(2006, 55)]
    assert well.series["setting"][0].beside == "from ground, by the last record"
    assert well.set_on == dt.date(2016, 1, 4)


def test_a_string_that_came_out_is_out_until_one_goes_in(home: Home) -> None:
    record = says("prior", set_on="2006-05-01", datum="ground")
    out = says("joint", direction="out", joint_number="1", joint_length="21 ft")
    put(home, "1", 2014, record, out)
    (well,) = wells(home)
    assert (well.set_words, well.out_on) == ("2006-05-01", None), "it is only on its way out"

    put(home, "2", 2016, out, says("pump_out"))
    (well,) = wells(home)
    assert well.set_words == "2006-05-01, out since 2016-01-04"
    assert well.document()["out_on"] == "2016-01-04"

    back = says("joint", direction="in", joint_number="1", joint_length="21 ft")
    setting = says("depth", datum="ground", setting_depth="380 ft")
    put(home, "3", 2018, says("pump_out"), back, setting, work="pull and set")
    (well,) = wells(home)
    assert (well.set_words, well.out_on) == ("2018-01-04", None)


def test_a_planned_setting_is_none_and_a_pull_sets_nothing(home: Home) -> None:
    put(home, "1", 2014, says("setting", datum="ground", setting_depth="380 ft"), work="set")
    put(home, "2", 2016, says("depth", datum="ground", setting_depth="370 ft"))
    (well,) = wells(home)

    assert figures(well, "setting") == [(2016, 370)]
    assert well.set_on is None


def test_condition_of_line_and_cable_as_it_came_out(home: Home) -> None:
    joints = [
        says("joint", direction=way, joint_number=n, joint_length="21 ft", pipe_condition=seen)
        for n, (way, seen) in enumerate([("out", "good"), ("out", "pit"), ("out", "good"),
                                         ("in", "good")], 1)
    ]  # fmt: skip
    put(home, "1", 2014, *joints)
    (well,) = wells(home)

    assert (well.visits[0].line_seen, well.visits[0].cable_seen) == ("2 good, 1 pit", "")


def test_wells_stand_apart_the_last_visited_first(home: Home) -> None:
    put(home, "1", 2014)
    put(home, "2", 2020, well_name="House")
    put(home, "3", 2016, well_id="K-9", owner="B")
    put(home, "4", 2021, owner="", well_name="Barn")

    assert [well.title for well in wells(home)] == [
        "Sallow Farm, House", "B, Barn, tag K-9", "Sallow Farm, Barn",
    ]  # fmt: skip


def test_what_is_owed_on_it_stands_with_it(home: Home) -> None:
    put(home, "1", 2014, says("follow_up", "look again", due="2026-05-15"))
    put(home, "2", 2020, says("follow_up", "elsewhere"), well_name="House")
    owed = {well.name: [debt.words for debt in well.owed] for well in wells(home)}

    assert owed == {"House": ["elsewhere"], "Barn": ["look again"]}


def test_the_command_prints_and_narrows(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    put(home, "26-1", 2014, level("160 ft"), says("follow_up", "again", due="2026-05-15"))
    put(
        home,
        "26-2",
        2020,
        level("165 ft"),
        says("finding", part="x", finding="[b]", cause="sand wear"),
    )
    put(home, "26-3", 2020, owner="Ketterby", well_name="Well\x1b[2J 1")
    given = ["wells", "--on", "2026-05-16", "--home", str(home.path)]
    assert main([*given, "sallow"]) == 0
    out = capsys.readouterr().out
    assert "2 jobs, last 2020-01-04 26-2, steel pull" in out
    assert "static level       2020-01-04  165 ft" in out
    assert "160 ft" not in out
    assert "follow-up: again" in out
    assert main([*given, "barn", "--history"]) == 0
    out = capsys.readouterr().out
    assert "160 ft" in out
    assert "2020-01-04  26-2  steel pull  sand wear" in out
    assert main([*given]) == 0
    assert "Ketterby, Well?[2J 1" in capsys.readouterr().out
    assert main([*given, "--json", "sallow"]) == 0
    (document,) = json.loads(capsys.readouterr().out)
    assert list(document["readings"]) == [f"{name} [{unit}]" for name, unit in SERIES.items()]
    assert [r["value"] for r in document["readings"]["static level [ft]"]] == [160, 165]
    assert main([*given, "nobody"]) == 0
    assert "No well is told" in capsys.readouterr().out
