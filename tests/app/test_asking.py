"""What a question and the list of steps show at a glance."""

from __future__ import annotations

from fieldbook.store.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE


async def test_a_reason_may_be_in_words_of_ones_own_and_the_question_says_so(home: Home) -> None:
    folder = put_job(home, HOSE, before="test.running")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "p")
        crew.sees("1 not on this job", "or your own words")
        await crew.types("hums and trips", "enter")
        assert crew.job(folder).entries[-1].text("reason") == "hums and trips"


async def test_the_list_of_steps_shows_what_was_before_and_what_comes_after(home: Home) -> None:
    put_job(home, HOSE, before="test.windings")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "w")
        crew.sees("Locked out, proved dead", "Winding ohms", "Insulation to ground", "Pull it")
