"""A crew comes back to a well that the shelf knows."""

from __future__ import annotations

from fieldbook.app.walk.screen import WalkScreen
from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import put_job

JOB = {
    "job_number": "27-003",
    "line": "pvc",
    "work": "pull and set",
    "owner": "Quillmoor Dairy",
    "site": "Quillmoor Lane 4",
    "well_id": "qm 0231",
    "step": "plan.job",
}


async def test_the_plan_is_filled_in_as_it_was_set_and_nothing_is_saved_by_itself(
    home: Home,
) -> None:
    build_job(home, "26-114-pvc")
    folder = put_job(
        home, [{"kind": "job", "by": "QA", "values": JOB}], before="plan.prior", day="2027-02-01"
    )
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter", "escape")
        walk = crew.app.screen
        assert isinstance(walk, WalkScreen)
        await walk._remembered(walk._session.memory)  # on a slow disk it comes after the Esc
        await crew.settle()
        assert walk.focused is None, "the next letter would be text"
        await crew.press("enter")
        crew.sees("Filled in as set 2026-05-14, job 26-114", "261.1 ft", "2026-05-14")
        assert not crew.job(folder).live("prior")

        await crew.press(*["enter"] * 9)
        prior = crew.job(folder).last("prior")
        assert prior is not None
        assert prior.values["prior_count"].number == 13
        crew.sees("PVC joints, top down", "20.03")


async def test_the_last_time_tells_what_was_left_and_what_differs(home: Home) -> None:
    build_job(home, "26-114-pvc")
    build_job(home, "26-163-pvc")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        crew.sees("CHECK VISIT", "INTAKE ft: ground, as set")
        crew.sees_not("OUT, joints", "STOP AT")
        await crew.resize(SMALL)
        crew.sees("CHECK VISIT: nothing is lifted   INTAKE 261.1 ft below ground, as set")
        await crew.resize(LARGE)
        await crew.press("escape", "s")
        crew.sees("as set 2026-05-14, job 26-114", "Static level: 79.8 ft; was 72.6 ft (+7.2 ft)")
        crew.sees("torque arrestor")


async def test_a_well_that_nobody_knows_says_so(home: Home) -> None:
    build_job(home, "26-131-hose")
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.press("escape", "s")
        crew.sees("No earlier job on this well")


async def test_what_sample_and_licence_promised_stands_beside_what_is_still_to_come(
    home: Home,
) -> None:
    promised = [
        {"kind": "job", "by": "QA", "values": {"job_number": "1", "line": "pvc", "work": "check"}},
        {
            "kind": "permit",
            "by": "QA",
            "values": {"record_duty": "pump record", "due": "2026-06-13"},
        },
        {"kind": "sample", "by": "QA", "values": {"sample_id": "B-7"}},
    ]
    put_job(home, promised, before="close.follow_up")
    async with at_the_keys(home, SMALL) as crew:
        await crew.press("enter")
        crew.sees("What is still to come", "Owed already: B-7 (no day named); pump", "Item", "Due")
        crew.sees("record (by 2026-06-13).")
