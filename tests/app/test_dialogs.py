"""What a question, the list of steps and the log show at a glance."""

from __future__ import annotations

from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import HOSE, STEEL, says


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


async def test_an_older_entry_is_struck_in_the_log_and_the_cursor_stays_on_it(home: Home) -> None:
    notes = [says("note") | {"note": words} for words in ("cap tight", "cap loose", "lid lost")]
    folder = put_job(home, (*STEEL, *notes))
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "x")
        crew.sees("lid lost", "Another one: Esc, then v for the log")
        await crew.press("escape", "v", "down", "x")
        crew.sees_not("Another one")
        await crew.press("1", "enter")
        crew.sees("Crossed out, Note: reason typed wrong", "Note: cap loose  [")
        await crew.press("x")
        crew.sees("This one is crossed out already")
    assert [note.note for note in crew.job(folder).live("note")] == ["cap tight", "lid lost"]


async def test_where_no_step_goes_along_the_steps_of_any_time_are_pointed_at(home: Home) -> None:
    put_job(home, HOSE, before="test.windings")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "b")
        crew.sees("Nothing goes along with this step", "w, then End")
        await crew.press("w", "end")
        crew.sees("Material used", "Extra work approved", "Something found")


async def test_the_hint_in_the_line_for_a_file_stands_whole_on_a_small_screen(home: Home) -> None:
    put_job(home, HOSE, before="test.windings")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "f")
        crew.sees("path; right arrow completes")


async def test_holds_with_a_comma_in_their_names_are_told_apart(home: Home) -> None:
    put_job(home, HOSE, before="ready.first_lift")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "h")
        told = " ".join(line.strip(" ┃│") for line in crew.screen.splitlines())
        assert "First lift, and wait; " in told, crew.screen


async def test_a_reason_given_once_is_offered_again_on_one_key(home: Home) -> None:
    folder = put_job(home, STEEL, before="arrive.crew")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "p")
        await crew.types("ground too soft", "enter")
        await crew.press("escape", "p")
        crew.sees("5 ground too soft", "6 as on the sheet of the last crew")

        await crew.press("5", "enter")
        said = [entry.text("reason") for entry in crew.job(folder).live("passed_over")]
        assert said[-2:] == ["ground too soft"] * 2
