"""Beside a step stands what it asks after: the reel, the depth by its ways, the checks it wakes."""

from __future__ import annotations

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL, says


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_the_reel_shows_correction_and_footage_to_go(
    home: Home, size: tuple[int, int]
) -> None:
    """The mark at 100 ft passed at 98: the counter is 2 ft short, and 420 - 150 = 270 are to go."""
    put_job(home, HOSE, before="pull.footage")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("Reel not read yet, 420 ft to go")
        await crew.types("98", "enter", "down")
        await crew.types("100", "enter", "enter")
        crew.sees("correction +2.0 ft by mark")
        await crew.types("148", "enter", "enter")
        crew.sees("Reel 148.0 ft", "150.0 ft out", "270 ft to go")
        crew.sees_not("Esc, then d")
        await crew.types("418", "enter", "enter")
        crew.sees("0 ft to go", "Esc, then d")


async def test_the_hose_that_is_out_stands_beside_the_count_of_its_footage(home: Home) -> None:
    """Counter 381 passed the mark at 385, 4 ft short; it read 416 with the pump out: 420 of 420."""
    reeled = says("footage", direction="out", footage=381, mark=385)
    put_job(home, (*HOSE, reeled, says("pump_out", footage=416)), before="pull.count")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Footage against the record", "+4.0 ft by mark", "420.0 ft out, 0 ft to go")
        crew.sees_not("Esc, then d")


async def test_a_step_is_not_done_while_something_typed_into_it_is_not_saved(home: Home) -> None:
    folder = put_job(home, HOSE, before="pull.footage")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("98", "enter", "escape", "d")
        crew.sees("What is typed is not saved")
        assert crew.job(folder).last("footage") is None

        await crew.press("enter", "up", "ctrl+u", "escape", "d")
        crew.sees("Hose on to the reel: done")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_step_shows_the_checks_it_wakes_and_no_others(
    home: Home, size: tuple[int, int]
) -> None:
    nameplate = says("pump", motor_voltage=230, motor_phase="1", service_amps=12)
    read = says("meter", volts_ab=200)
    put_job(home, (*STEEL, nameplate, read), before="test.supply")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("Supply STOP: 200 V, -13.0% of nameplate")
        await crew.press("escape", "pageup")
        crew.sees_not("Supply STOP")


async def test_too_little_is_told_with_what_is_asked(home: Home) -> None:
    near = says("arrival", line_clearance="11 ft", power_line_voltage="13 kV")
    put_job(home, (*STEEL, near), before="arrive.power_lines")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("Power lines caution", "10.00 ft asked")


async def test_the_step_that_asks_for_the_depth_shows_every_way(home: Home) -> None:
    job = (
        *(
            d | {"values": d["values"] | {"work": "set"}} if d["kind"] == "job" else d
            for d in STEEL
        ),
        says("well", head_kind="well seal", stick_up=1.2),
        says("pump", intake_below=1.5),
        *(says("joint", direction="in", joint_number=n, joint_length=21) for n in range(1, 19)),
    )
    put_job(home, job, before="set.depth")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("Intake 380.5", "tally", "a second way of knowing the depth")


@pytest.mark.parametrize(
    ("step", "told", "not_asked"),
    [
        ("set.first_lift", "To read ", "Landed"),
        ("set.land", "Landed: nothing more to expect", "To read "),
    ],
)
async def test_once_landed_nothing_more_is_expected_beside_a_gauge_at_its_zero(
    home: Home, step: str, told: str, not_asked: str
) -> None:
    moved = says("joint", direction="in", joint_number=1, joint_length=21, gauge_reading=900)
    put_job(home, (*STEEL, moved, says("load", gauge_reading=30, held_by="plate", step=step)))
    async with at_the_keys(home, SMALL) as crew:
        await crew.press("enter")
        crew.sees("Gauge read 30 lbf", told, "STOP AT")
        crew.sees_not(not_asked)


@pytest.mark.parametrize("size", [SMALL, LARGE, (200, 60)])
async def test_what_the_head_carries_is_no_load_of_the_hook(
    home: Home, size: tuple[int, int]
) -> None:
    moved = says("joint", direction="in", joint_number=1, joint_length=21, gauge_reading=900)
    landed = says("load", gauge_reading=30, held_by="plate", step="set.land")
    job, *rest = STEEL
    setting = says("job", **job["values"] | {"work": "set"})
    put_job(home, (setting, *rest, moved, landed), before="start_up.head")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees("Landed: the head carries it", "INTAKE", "Pressure")
        crew.sees_not("Hook load", "STOP AT", "GAUGE", "Load path, top down")


async def test_a_stop_load_is_told_as_typed_beside_its_reading(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, SMALL) as crew:
        await crew.press("enter")
        crew.sees("STOP AT 1,290 lbf", "crew's stop load 2,600 lbf")
