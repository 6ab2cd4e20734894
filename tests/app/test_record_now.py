"""A job that records at once: the first joint in a few keys, and nothing of the record lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.office.sheet.context import account_of
from fieldbook.office.sheet.sheet import sheet
from fieldbook.record.entry import Draft, Entry
from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.walk.definition.loading import as_started, load
from fieldbook.walk.definition.record_now import RECORD_NOW
from fieldbook.walk.definition.steps import Step
from fieldbook.walk.stand import WalkStatus
from tests.app.keys import Counted, counted
from tests.app.scenes import job_in

FIRST_WITHIN = 25
WHOLE_UNDER = 350
MUST_WITHIN = 45


def walked(home: Home, line: str) -> tuple[Path, Job, WalkStatus]:
    (folder,) = home.jobs_folder.iterdir()
    job = job_in(folder)
    return folder, job, as_started(load(line, "pull"), RECORD_NOW).stand(job)


async def to_the_first(crew: Counted, line: str) -> None:
    """From the shelf to the first joint or mark, with what keeps a life asked on the way."""
    await crew.press("n", line[0], "enter")
    await crew.types("1500", "enter")  # the crew's own stop load
    await crew.press("enter")  # rig is set: all good
    await crew.types("0", "enter", "enter")  # dead: 0 V, signed
    await crew.types("0", "enter", "enter")  # no pressure, signed
    await crew.press("enter", "enter")  # lift: what is unknown is passed by name
    await crew.press("enter")  # first lift: all good
    if line == "hose":
        await crew.press("enter", "enter")  # the lower hold carries, signed
        await crew.types("100", "enter", "enter")
    else:
        await crew.types("21", "enter", "enter")


@pytest.mark.parametrize("line", ["steel", "pvc", "hose"])
async def test_the_first_joint_or_mark_of_a_new_well_takes_few_keys(home: Home, line: str) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, line)
        _, job, stand = walked(home, line)
        print(f"{line}: {crew.keys} keys from n to the first joint or mark")
        assert crew.keys <= FIRST_WITHIN
        assert job.live("footage" if line == "hose" else "joint")
        signed = {entry.text("step") for entry in job.live("hold")}
        assert {"test.lockout", "ready.relieve", "ready.load_check"} <= signed
        assert ("pull.onto_reel" in signed) is (line == "hose")
        first = {"pull.joint", "pull.onto_reel"}
        assert all(h.id in first or h.phase == "close" for h in stand.open_holds)


async def test_a_whole_steel_pull_takes_fewer_keys_than_paper_has_lines(home: Home) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, "steel")
        for number in range(17):
            await crew.press("down")
            await crew.types(f"{680 - 25 * number}", "=")
        await crew.press("escape", "d", "enter")  # all out; the pump, without a reading
        await crew.types("18", "enter", "enter")  # counted on the rack
        await crew.press("enter", "enter", "enter")  # covered; inspection; closing
        await crew.press("enter", "enter")  # lock off, signed
        await crew.press("c", "enter", "enter")  # signature; record complete
        crew.sees("Still open:", "not known at the well")
        await crew.press("enter", "enter")  # signed; seal
        crew.sees("Done, but for", "things to fill in: y", "SEALED")
        _, job, stand = walked(home, "steel")
        steps = as_started(load("steel", "pull"), RECORD_NOW).steps
        must = sum(len(_asked(step, job)) for step in steps if not step.waits)
        print(f"steel, 18 joints: {crew.keys} keys, {must} fields that must be filled in")
        assert job.last("seal") is not None
        assert crew.keys < WHOLE_UNDER
        assert must <= MUST_WITHIN
        assert [entry.text("joint_number") for entry in job.live("joint")] == [
            str(number) for number in range(1, 19)
        ]
        assert len([e for e in job.live("joint") if "gauge_reading" in e.values]) == 17
        assert stand.later
        (passed,) = (e for e in job.live("check_passed") if e.text("step") == "close.record")
        assert passed.text("check") == "steps still open"


def _asked(step: Step, job: Job) -> list[str]:
    """What of a step must be filled in by hand, once for each entry it has."""
    rows = [entry for entry in job.live(step.records) if entry.text("step") == step.id]
    typed = [name for name in step.must if name != "joint_number"]  # counted on by itself
    return [name for _ in rows for name in typed]


async def test_a_page_of_ticks_takes_one_key_each_and_says_who_and_when(home: Home) -> None:
    async with counted(home) as crew:
        await crew.press("n", "s", "enter")
        await crew.types("1500", "enter")
        crew.sees("Rig is set", "1  Power lines surveyed", "3  Rig level and plumb")
        await crew.press("3")
        _, job, stand = walked(home, "steel")
        (tick,) = job.live("done")
        assert (tick.text("step"), tick.by) == ("ready.rig_level", "QA")
        crew.sees(f"x {tick.time:%H:%M} QA", "Rig is set")
        assert not stand.states["ready.rig_level"].is_open
        await crew.press("enter")
        _, job, stand = walked(home, "steel")
        assert {e.text("step") for e in job.live("done")} == {
            "arrive.power_lines", "arrive.fence", "ready.rig_level", "ready.rope", "pull.holds"
        }  # fmt: skip
        crew.sees("Locked out, proved dead")


async def test_a_key_that_bounces_ticks_no_second_page_and_signs_nothing(home: Home) -> None:
    async with counted(home) as crew:
        await crew.press("n", "s", "enter")
        await crew.types("1500", "enter")
        await crew.bounce("enter", "enter", "enter")
        _, job, _ = walked(home, "steel")
        assert len(job.live("done")) == 5
        assert not job.live("hold")


async def test_what_was_passed_is_a_list_and_leaves_the_crew_where_it_was(home: Home) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, "steel")
        before = walked(home, "steel")[2]
        crew.sees(f"y: {len(before.office_asks)} to fill in")
        await crew.press("escape")
        crew.sees("y to fill in")
        await crew.press("y")
        crew.sees(f"{len(before.office_asks)} things the office will ask", "The job", "owner, site")
        await crew.press("enter")
        crew.sees("Owner")
        await crew.press("down")
        await crew.types("A. Sample", "enter", "enter")
        _, job, after = walked(home, "steel")
        assert job.text("job", "owner") == "A. Sample"
        crew.sees("Joint out")
        assert "plan.job" in [step.id for step in after.later], "the site is still blank"
        await crew.press("escape", "y", "escape")
        crew.sees("Joint out", "joints, 21.0 ft")


@pytest.mark.parametrize("keys", ["n", "h", "w"])
async def test_a_side_task_leaves_the_crew_where_it_was(home: Home, keys: str) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, "steel")
        await crew.press("escape", keys)
        if keys == "n":
            await crew.types("rain", "enter", "enter")
        elif keys == "h":
            await crew.types("CD", "enter")
            await crew.types("1", "enter", "enter")
        else:
            await crew.press("end", "enter")
            await crew.types("seen", "enter", "enter")
        crew.sees("Joint out", "1 of ? joints")


async def test_dead_wires_stay_a_wall_and_live_ones_stop_the_string(home: Home) -> None:
    async with counted(home) as crew:
        await crew.press("n", "s", "enter")
        await crew.types("1500", "enter")
        await crew.press("enter", "escape", "p")
        crew.sees("never skipped")
        await crew.press("enter")
        await crew.types("230", "enter", "enter")
        crew.sees_not("Sign:")
        _, job, stand = walked(home, "steel")
        assert not job.live("hold")
        await crew.press("escape", *["pagedown"] * 12)
        assert "test.lockout" in [step.id for step in stand.open_holds]


async def test_a_reading_over_the_crews_stop_load_stops_a_job_recorded_at_once(home: Home) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, "steel")
        await crew.press("down")
        await crew.types("1700", "=")
        crew.sees("STOP: gauge 1,700, stop at 1,500", "OVER BY 200 lbf")


async def test_plan_first_asks_the_whole_plan(home: Home) -> None:
    async with counted(home) as crew:
        await crew.press("n", "up", "p", "down", "s", "enter")
        crew.sees("The job", "Owner")
        folder, job, _ = walked(home, "steel")
        assert job.text("job", "start") == "plan first"
        assert folder.name == "26-0514-QA"


async def test_the_next_job_of_the_day_has_its_own_number(home: Home) -> None:
    async with counted(home) as crew:
        for number in ("26-0514-QA", "26-0514-QA-2"):
            await crew.press("n")
            crew.sees(number)
            await crew.press("s", "enter", "escape", "q")


async def test_the_sheet_names_what_was_ticked_and_what_nobody_filled_in(home: Home) -> None:
    async with counted(home) as crew:
        await to_the_first(crew, "steel")
        await crew.press("escape", "q")
        crew.sees("1 of ? joints out; Pull: Joint out", "to fill in")
    folder, _, stand = walked(home, "steel")
    with Book.open(folder, home.device_id(), write=False) as book:
        page = sheet(account_of(book))
    ticked = page.partition("Ticked")[2].partition("Not recorded")[0]
    assert all(step.title in ticked for step in stand.steps if step.page == "Rig is set")
    rest = page.partition("Not recorded")[2]
    assert all(step.title in rest for step in stand.later)


async def test_what_was_saved_of_a_page_before_the_disk_failed_is_ticked(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with counted(home) as crew:
        await crew.press("n", "s", "enter")
        await crew.types("1500", "enter")
        session = crew.app._session
        assert session is not None
        real, left = session.book.record, [2]

        def fails_after_two(draft: Draft) -> Entry:
            if not left[0]:
                raise OSError(28, "No space left on device")
            left[0] -= 1
            return real(draft)

        monkeypatch.setattr(session.book, "record", fails_after_two)
        await crew.press("enter")
        crew.sees("NOT SAVED", "No space left on device", "Rig is set")
        assert crew.screen.count("x 08:") == 2
        monkeypatch.undo()
        await crew.press("enter")
        crew.sees("Locked out, proved dead")
        _, job, _ = walked(home, "steel")
        assert len(job.live("done")) == 5
