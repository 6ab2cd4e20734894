"""Text from people is shown as it is, wherever it stands."""

from __future__ import annotations

import pytest

from fieldbook.store.shelf.home import Home
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, says

_HOSTILE = ("[/]", "[@click=app.quit]x[/]", "a[b]c", "[red]warn", "\\[/jobs]", "$[/$v", "\x1b[2J!")


@pytest.mark.parametrize("words", _HOSTILE)
async def test_nothing_that_is_typed_or_read_is_markup(home: Home, words: str) -> None:
    job = [*STEEL, says("note") | {"note": words}, says("redirect", place=1, part=words)]
    job[0] = says("job", job_number=f"S-{words}", job_title=words, line="steel", work="pull",
                  owner=words, site=words, emergency=words)  # fmt: skip
    folder = put_job(home, job, before="pull.joint")
    async with at_the_keys(home) as crew:
        seen = words.replace("\x1b", "?")
        crew.sees(seen)
        await crew.press("enter")
        crew.sees(seen)
        for key in ("v", "c", "w", "l", "t", "e", "f1"):
            await crew.press("escape", key)
            assert crew.app.is_running
            await crew.press("escape")
        typed = words.replace("\x1b", "")
        await crew.press("escape", "n")
        await crew.types(typed, "enter", "enter")
        await crew.press("escape", "x")
        crew.sees(typed)
        await crew.types(typed, "enter")
        await crew.press("escape", "v", "down")
        crew.sees(f"Note: {typed}", typed)

    assert crew.job(folder).live("strike")[-1].text("reason") == typed


async def test_a_long_title_is_cut_with_a_sign_and_uses_the_whole_line(home: Home) -> None:
    title = "Two wells behind the old pump house at the north end of the long meadow"
    put_job(home, [STEEL[0] | {"values": {**STEEL[0]["values"], "job_title": title}}, *STEEL[1:]])
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        top = crew.screen.splitlines()[0]
        assert len(top) == crew.app.size.width
        assert "Two wells behind" in top
        assert "\u2026" in top


async def test_an_entry_without_figures_ends_in_its_title(home: Home) -> None:
    put_job(home, [*STEEL, says("done", step="plan.job")])
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "v")
        crew.sees("Step done, The job")
        crew.sees_not("Step done, The job:")


async def test_nothing_remembered_says_how_to_go_back(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "escape", "s")
        crew.sees("No earlier job", "Esc back")
        await crew.press("escape")
        crew.sees_not("No earlier job")


async def test_a_long_text_shows_its_beginning_once_left_and_its_end_while_typed(
    home: Home,
) -> None:
    put_job(home, STEEL, before="pull.joint")
    words = "coupling rusted on the weather side, " * 3 + "and a nick"
    async with at_the_keys(home) as crew:
        await crew.press("enter", "down", "down")
        await crew.types(words)
        crew.sees("and a nick")
        crew.sees_not("  coupling rusted on the weathe")
        await crew.press("down")
        crew.sees("  coupling rusted on the weathe")
        await crew.press("up")
        crew.sees("and a nick")
        await crew.types(" in it")
        crew.sees("and a nick in it")
