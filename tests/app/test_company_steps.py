"""A company's steps: a wrong file keeps nobody from the job, and a sealed job stays sealed."""

from __future__ import annotations

import pytest

from fieldbook.app.shelf.job_status import job_status
from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, at_the_keys
from tests.app.scenes import job_in, put_job
from tests.walk.logs import step
from tests.watch.jobs import STEEL

HOLD = "after = 'arrive.crew'\nhold = 1\nrelease = ['crew lead']"


def company(home: Home, text: str) -> None:
    (home.path / "steps").mkdir(exist_ok=True)
    (home.path / "steps" / "own.toml").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_wrong_file_is_left_out_and_said_as_long_as_it_is(
    home: Home, size: tuple[int, int]
) -> None:
    folder = put_job(home, STEEL, before="arrive.crew")
    company(home, step("acme.hold", f"{HOLD}\nhue = 1"))
    async with at_the_keys(home, size) as crew:
        crew.sees("Arrive: Crew")
        await crew.press("enter")
        for words in ("own.toml: acme.hold: hue: unknown key", "NOT asked", "hold points of its"):
            assert words in " ".join(crew.screen.split())
        await crew.press("escape", "n")
        await crew.types("wind from the west", "enter")
        await crew.press("enter")
        assert job_in(folder).last("note") is not None, crew.screen
        crew.sees("COMPANY STEPS OUT")
        await crew.press("escape", "w")
        for words in ("own.toml: acme.hold: hue: unknown key", str(home.path / "steps")):
            assert words.replace(" ", "") in "".join(crew.screen.split())
        await crew.press("escape", "escape", "q")
        company(home, step("acme.hold", HOLD))
        await crew.press("enter")
        crew.sees_not("COMPANY STEPS OUT", "NOT asked")


def test_a_sealed_job_stands_as_sealed_whatever_the_company_adds(home: Home) -> None:
    job = job_in(build_job(home, "26-114-pvc"))
    assert job.last("seal") is not None
    company(home, step("acme.hold", HOLD))
    assert job_status(job, home.company_steps) == "every step is done"
    text = '[[step]]\nid = "plan.permit"\nmust = {}'
    company(home, text.format(["licence", "person_in_charge", "record_duty", "parcel"]))
    assert job_status(job, home.company_steps) == "sealed; open: Plan: Licence, permit, report"
