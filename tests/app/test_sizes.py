"""What the walk shows at each size: nothing that keeps people safe gives way."""

from __future__ import annotations

import re
from itertools import takewhile

import pytest

from fieldbook.app.forms.form_line import FieldLine
from fieldbook.app.walk.screen import WalkScreen
from fieldbook.office.samples import sample_lines
from fieldbook.store.shelf.home import Home
from tests.app.crew import SMALL, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says

SIZES = [(80, 24), (100, 30), (120, 36), (200, 60)]
READ = {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}


@pytest.mark.parametrize("size", SIZES)
async def test_one_glance_tells_all_with_and_without_a_field(
    home: Home, size: tuple[int, int]
) -> None:
    put_job(home, [*STEEL, READ], before="pull.joint")
    told = (
        "Joint out", "Hook load", " OK", "Weakest:", "%", "Gauge read 900 lbf", "To read",
        "STOP AT", "Pressure", "Insulation", "HOLD", "saved", "QA", "water", "pump",
        "0/18 joints out" if size[1] >= 30 else "0 of 18 joints",
    )  # fmt: skip
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        crew.sees(*told, "Length *", "Esc: more keys")
        await crew.press("escape")
        crew.sees(*told, "l lift check", "q shelf", "F1 help")
        await crew.press("enter")
        crew.sees(*told, "Length *")


async def test_a_stop_and_all_keys_fit_the_smallest_screen(home: Home) -> None:
    over = {"kind": "load", "by": "QA", "values": {"gauge_reading": 9000}}
    put_job(home, [*STEEL, over], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("STOP", "read the gauge again", "write what happened", "l lift check", "F1 help")


async def test_the_line_of_keys_is_under_the_mouse_too(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.joint")

    async def click(words: str) -> None:
        line = crew.screen.split("\n")[-1]
        await crew.pilot.click("#keys", offset=(line.index(words) + 1, 0))
        await crew.settle()

    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("21")
        await click("save")
        crew.sees("Joint 1 out saved")
        await crew.pause()
        await click("same again")
        crew.sees("Joint 2 out saved")
        await click("Esc")
        crew.sees("l lift check")
        await click("PgUp")
        crew.sees_not("Joint out")
        await click("Esc")
        await click("PgDn")
        crew.sees("Joint out")
    assert [j.values["joint_length"].number for j in crew.joints(folder)] == [21, 21]


@pytest.mark.parametrize("name", ["26-142-steel", "26-149-hose"])
async def test_the_longest_form_and_every_way_of_the_depth_fit_the_smallest_screen(
    home: Home, name: str
) -> None:
    """Where depth is agreed most is asked, beside most that has to be seen."""
    before = takewhile(
        lambda line: line["values"].get("step") != "set.depth", sample_lines(name, complete=True)
    )
    put_job(home, [{key: line[key] for key in line if key != "at"} for line in before])
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Depth agreed", "HOLD", "cable  ", "Datum *", "Setting depth *", "STOP AT")
        assert crew.app.screen.query_one("#left").max_scroll_y == 0, crew.screen
        # Another size in the middle of an entry, there and back: what is typed and where stay.
        await crew.press("down", "down")
        await crew.types("251.8")
        asked = crew.app.focused
        for size in SIZES[::-1]:
            await crew.resize(size)
            crew.sees("251.8", "Depth agreed", "STOP AT", "saved", "Setting depth *")
            assert crew.app.focused is asked


@pytest.mark.parametrize(
    ("name", "complete", "step", "size"),
    [
        ("26-142-steel", True, "set.depth", (120, 36)),
        ("26-149-hose", True, "set.depth", (120, 36)),
        ("26-114-pvc", True, "set.depth", (120, 36)),
        ("26-149-hose", True, "set.insulation_landed", (80, 24)),
        ("26-131-hose", True, "plan.rig", (80, 24)),
        ("26-149-hose", False, "set.footage", (100, 30)),  # three holds stand in its way
    ],
)
async def test_the_longest_steps_scroll_nothing(
    home: Home, name: str, complete: bool, step: str, size: tuple[int, int]
) -> None:
    """The last entries give way first: they stand in the log too."""
    said = [line for line in sample_lines(name, complete=complete) if line["kind"] != "seal"]
    put_job(home, [{key: line[key] for key in line if key != "at"} for line in said])
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        walk = crew.app.screen
        assert isinstance(walk, WalkScreen)
        await walk.show_step(step)
        await crew.settle()
        assert walk.query_one("#left").max_scroll_y == 0, crew.screen
        crew.sees("Limits")
        beside = walk.query_one("#right").region.x - 1
        # No word runs into the frame beside it; a frame of its own, as of holds, may.
        assert not any(line[beside:][:1].isalnum() for line in crew.screen.split("\n")[8:-4])


async def test_a_visit_counts_no_joints(home: Home) -> None:
    """Where nothing is lifted, a count and an intake that nobody asked for only raise doubt."""
    lines = takewhile(
        lambda line: line["kind"] != "meter", sample_lines("26-163-pvc", complete=False)
    )
    put_job(home, [{key: line[key] for key in line if key != "at"} for line in lines])
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("CHECK VISIT: nothing is lifted")
        crew.sees_not("OUT 0 of", "INTAKE unknown", "joints out", "Gauge not read")
        await crew.resize((100, 30))
        crew.sees("CHECK VISIT", "as set")
        crew.sees_not("OUT, joints")
        await crew.press("escape", "t")
        crew.sees("Check visit: nothing is lifted")
        crew.sees_not("The curves need")


async def test_with_the_pump_out_no_limit_of_the_string_is_told(home: Home) -> None:
    put_job(home, [*STEEL, READ, says("pump_out", rack_count=18)])
    async with at_the_keys(home, (120, 36)) as crew:
        await crew.press("enter")
        crew.sees("Limits", "Pump out, nothing hangs", "Insulation")
        crew.sees_not("Pressure")


@pytest.mark.parametrize(
    ("read", "told"),
    [
        ("2500 Mohm", "Insulation 2500 Mohm on bench "),
        ("0.4 Mohm", "On the bench 0.4 Mohm STOP "),
    ],
)
async def test_a_reading_of_the_motor_on_the_bench_says_so_and_what_is_wrong_with_it(
    home: Home, read: str, told: str
) -> None:
    in_the_well = says("meter", insulation="240 Mohm")
    out = (READ, says("pump_out", rack_count=18), says("meter", insulation=read))
    put_job(home, [*STEEL, in_the_well, *out])
    async with at_the_keys(home, (80, 24)) as crew:
        await crew.press("enter")
        crew.sees(told)
        await crew.resize((200, 60))
        crew.sees(f"Insulation {read} on the bench at ")


async def test_a_reading_of_the_old_motor_is_none_of_the_one_to_go_in(home: Home) -> None:
    out = (READ, says("pump_out", rack_count=18), says("meter", insulation="160 Mohm"))
    another = says("pump", pump_serial="B-2")
    put_job(home, [*STEEL, *out, another])
    async with at_the_keys(home, (80, 24)) as crew:
        await crew.press("enter")
        crew.sees("Insulation not measured")
        crew.sees_not("160 Mohm")


async def test_a_place_on_the_map_stands_whole_in_its_field(home: Home) -> None:
    put_job(home, STEEL, before="plan.reach")
    async with at_the_keys(home, (80, 24)) as crew:
        await crew.press("enter")
        line = crew.app.screen.query_one("#field-longitude", FieldLine)
        line.focus_field()
        await crew.types("-72.38402 deg")
        crew.sees(" -72.38402 deg ")


async def test_a_reading_in_the_well_that_stops_says_so(home: Home) -> None:
    put_job(home, [*STEEL, says("meter", insulation="0.4 Mohm")])
    async with at_the_keys(home, (80, 24)) as crew:
        await crew.press("enter")
        crew.sees("Insulation 0.4 Mohm STOP")
        crew.sees_not("bench")


@pytest.mark.parametrize(("size", "least"), [((120, 36), 4), ((200, 60), 12)])
async def test_the_last_entries_take_the_room_that_is_left(
    home: Home, size: tuple[int, int], least: int
) -> None:
    put_job(home, [*STEEL, READ], before="pull.joint")
    async with at_the_keys(home, size) as crew:
        await crew.press("enter")
        assert crew.screen.count("QA Step skipped") >= least, crew.screen
        assert crew.app.screen.query_one("#left").max_scroll_y == 0
        crew.sees_not(" ...")


async def test_a_screen_with_the_room_tells_all_that_is_missing_and_was_written(home: Home) -> None:
    lines = list(sample_lines("26-142-steel"))[:3]
    put_job(home, [{key: line[key] for key in line if key != "at"} for line in lines])
    async with at_the_keys(home, (200, 60)) as crew:
        await crew.press("enter")
        crew.sees("Missing: ", "needs gauge place")
        assert not re.search(r"[0-9]\smore", crew.screen), crew.screen
        await crew.resize((120, 36))
        crew.sees(" more")


async def test_what_was_said_of_a_step_does_not_go_along_to_the_next(home: Home) -> None:
    put_job(home, [*STEEL, READ], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.press("escape", "r")
        crew.sees("This step is no hold")
        await crew.press("pagedown")
        crew.sees_not("This step is no hold", "Joint out")


async def test_what_is_planned_and_not_in_yet_is_not_told_as_pulled(home: Home) -> None:
    lines = takewhile(lambda line: line["kind"] != "joint", sample_lines("26-166-pvc"))
    put_job(home, [{key: line[key] for key in line if key != "at"} for line in lines])
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        for size in SIZES:
            await crew.resize(size)
            crew.sees("NOTHING HANGS yet", "STOP AT")
            crew.sees_not("PUMP OUT", "nothing hangs", "under that")
            crew.sees("all in")
        crew.sees("  1 joint in: ")
        await crew.resize(SMALL)
        crew.sees_not("1 joint in: ")


@pytest.mark.parametrize("key", ["l", "t", "v", "w"])
async def test_every_screen_of_a_job_says_which_job_it_is(home: Home, key: str) -> None:
    named = {**STEEL[0], "values": {**STEEL[0]["values"], "job_title": "yard well"}}
    put_job(home, [named, *STEEL[1:]], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", key)
        crew.sees("S-1 yard well")


async def test_the_gauge_dialog_leaves_the_limit_in_sight(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "g")
        crew.sees("Gauge reading", "STOP AT 1,290 lbf", "To read 820 to 1,004 lbf full")
