"""Hold points: a named yes, and by name with a reason where a check is unknown."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL, says


async def test_a_hold_is_released_with_initials_and_role(home: Home) -> None:
    read = [*STEEL, {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}]
    folder = put_job(home, read, before="ready.load_check")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("HOLD", "crew lead or tech")
        await crew.press("enter")
        crew.sees("Sign: ", "lift OK", "Initials")
        await crew.press("enter", "h", "enter")
        crew.sees("signed by crew lead or tech")
        assert crew.job(folder).last("hold") is None
        await crew.press("t", "enter")  # the cursor is on the role, which is empty again
        crew.sees("Lift check before lifting: signed", "Lift pipe in, head free")

    hold = crew.job(folder).last("hold")
    assert hold is not None
    assert (hold.by, hold.text("role"), hold.text("step")) == ("QA", "tech", "ready.load_check")
    assert crew.job(folder).last("check_passed") is None


async def test_what_another_one_types_takes_the_place_of_the_initials_that_stand_there(
    home: Home,
) -> None:
    folder = put_job(home, STEEL, before="ready.rig_level")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "enter")
        crew.sees("Sign: ", "Initials")
        await crew.press("up")
        await crew.types("TK", "enter", "c", "enter")

    hold = crew.job(folder).last("hold")
    assert hold is not None
    assert hold.by == "TK"


async def test_a_hold_with_a_form_says_what_comes_before_the_yes(home: Home) -> None:
    put_job(home, STEEL, before="test.lockout")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("HOLD: fill in, then crew lead")
        crew.sees_not("Enter, or r")


async def test_a_bounce_releases_nothing(home: Home) -> None:
    folder = put_job(home, STEEL, before="ready.rig_level")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.bounce("enter", "enter", "enter", "enter")
        crew.sees("Sign: ")

    assert crew.job(folder).last("hold") is None


async def test_unknown_at_a_hold_needs_a_named_person_a_reason_and_what_is_relied_on(
    home: Home,
) -> None:
    bare = [d for d in STEEL if d["kind"] != "gauge"]
    folder = put_job(home, bare, before="ready.load_check")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("unknown", "needs gauge place")
        await crew.press("enter")
        crew.sees("Sign: ", "gauge can't say", "Reason *", "Going by *")
        await crew.press("enter", "c", "enter", "enter")
        crew.sees("Reason *", "needed")
        assert crew.job(folder).last("hold") is None
        await crew.types("no gauge on this rig", "enter")
        await crew.types("the sheet of the last pull", "enter")
        crew.sees(": signed")

    job = crew.job(folder)
    passed, hold = job.last("check_passed"), job.last("hold")
    assert passed is not None
    assert hold is not None
    assert passed.order < hold.order
    assert passed.text("relies_on") == "the sheet of the last pull"
    assert "gauge" in passed.text("check")


async def test_no_joint_is_written_before_an_open_hold(home: Home) -> None:
    folder = put_job(home, STEEL, before="ready.first_lift")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        while "Joint out" not in crew.screen:
            await crew.press("pagedown")
        crew.sees("HOLD not signed: First lift")
        crew.sees_not("Length *")
        await crew.press("enter")
        crew.sees("First lift, and wait", "Gauge")

    assert crew.job(folder).last("joint") is None


async def test_a_gauge_reading_typed_for_a_mark_is_asked_about_before_it_moves_the_hose(
    home: Home,
) -> None:
    folder = put_job(home, HOSE, before="pull.footage")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("100", "enter", "down")
        await crew.types("740", "enter")
        crew.sees("the hose is 420 ft long: Enter again to")
        assert crew.job(folder).last("footage") is None
        await crew.press("ctrl+u")
        await crew.types("100", "enter", "enter")
        crew.sees("OUT 100 of 420 ft")


async def test_a_hose_pull_from_the_plug_to_the_pump(home: Home) -> None:
    folder = put_job(home, HOSE, before="pull.drain")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("Break the plug, prove it dry", "Drained by", "906 lbf")
        await crew.press("down")
        await crew.types("1150", "enter")
        await crew.types("640", "enter")
        await crew.press("y", "enter", "enter")
        crew.sees("Sign: ")
        await crew.press("enter", "c", "enter")
        crew.sees("From the bail to the reel", "drained", "474 lbf")
        while "Hose on to the reel" not in crew.screen:
            await crew.press("enter")
        await crew.types("100", "enter")
        await crew.types("540", "enter", "enter")
        crew.sees("OUT 100 of 420 ft")
        await crew.types("410", "enter", "enter")
        crew.sees("OUT 410 of 420 ft")
        await crew.press("=")
        crew.sees("no joint to repeat")
        await crew.press("escape", "d")
        while "Pump out of the well" not in crew.screen:
            await crew.press("escape", "p", "1", "enter")
        await crew.types("420", "enter", "enter")
        crew.sees("PUMP OUT", "nothing hangs")
        await crew.resize((100, 30))
        crew.sees("PUMP OUT of the well", "STOP AT: nothing hangs")

    job = crew.job(folder)
    assert [e.text("footage") for e in job.live("footage")] == ["100", "410"]
    assert job.last("pump_out") is not None


async def test_what_is_asked_at_a_hold_without_figures_goes_into_its_release(home: Home) -> None:
    folder = put_job(home, HOSE, before="pull.onto_reel")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.types("plate under the top fitting", "enter")
        crew.sees("Sign: ")
        await crew.press("enter", "c", "enter")

    hold = crew.job(folder).last("hold")
    assert hold is not None
    assert hold.text("held_by") == "plate under the top fitting"


async def test_insulation_that_fell_holds_the_string_until_it_is_passed_by_name(home: Home) -> None:
    """0.2 Mohm in the well is bad by the trade's bands: HP12 gets no yes by saving it."""
    job = (
        *(
            d | {"values": d["values"] | {"work": "set"}} if d["kind"] == "job" else d
            for d in STEEL
        ),
        says("joint", direction="in", joint_number=1, joint_length=21),
    )
    folder = put_job(home, job, before="set.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees("HOLD: saving confirms lower hold carries")
        await crew.press("escape", "b")
        crew.sees("HOLD: saving confirms a good reading")
        await crew.press("enter")
        await crew.types("0.2", "enter", "enter", "enter")
        crew.sees("HOLD: a stop cannot be signed")
        await crew.press("escape", "pageup")
        crew.sees("Joint in", "HOLD not signed: Insulation on the")
        await crew.press("enter")
        crew.sees("HOLD: a stop cannot be signed")
        await crew.press("escape", "r")
        crew.sees("Sign: ", "insulation STOP", "Reason *", "Going by *")
        await crew.press("enter", "c", "enter")
        await crew.types("out again today, the line is wanted up", "enter")
        await crew.types("owner and maker by phone", "enter")
        crew.sees_not("HOLD not signed")

    passed = crew.job(folder).last("check_passed")
    assert passed is not None
    assert (passed.text("check"), passed.text("step")) == ("insulation", "set.insulation")
    assert crew.job(folder).last("hold") is None


async def test_leads_that_are_not_dead_get_no_yes_and_no_way_round(home: Home) -> None:
    folder = put_job(home, STEEL, before="test.lockout")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.types("8", "enter")
        await crew.types("240", "enter", "enter", "enter")
        crew.sees("HOLD", "240 V on the leads: not dead", "measure again")
        crew.sees_not("Sign: ")
        await crew.press("escape", "p")
        crew.sees_not("Skip:")
        await crew.press("escape", "r")
        crew.sees_not("Sign: ")
        assert crew.job(folder).last("hold") is None


async def test_pressure_left_is_passed_by_name_and_by_whom_stays(home: Home) -> None:
    folder = put_job(home, STEEL, before="ready.relieve")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.types("3", "enter", "enter")
        crew.sees("Sign: ", "3 psi in the line: not let go", "Reason *", "Going by *")
        await crew.press("enter", "c", "enter")
        await crew.types("the needle sticks at 3", "enter")
        await crew.types("the tap runs dry", "enter")
        crew.sees(": signed")

    passed = crew.job(folder).last("check_passed")
    assert passed is not None
    assert (passed.text("check"), passed.by) == ("discharge pressure", "QA")


async def test_a_brake_that_slipped_is_set_down_first(home: Home) -> None:
    put_job(home, STEEL, before="ready.first_lift")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("After the wait *")


async def test_volts_measured_after_proved_dead_open_the_hold_again_on_the_screen(
    home: Home,
) -> None:
    dead = (
        says("arrival", step="test.lockout", lock_number="8", volts_after_lockout="0 V"),
        says("hold", step="test.lockout", role="crew lead"),
    )
    put_job(home, (*STEEL, *dead, says("meter", volts_ab="240 V")), before="")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        while "Joint out" not in crew.screen:
            await crew.press("pagedown")
        while "Locked out, proved dead" not in crew.screen:
            await crew.press("escape", "pageup")
        crew.sees("HOLD waits", "240 V between legs 1 and 2", "not dead")
