"""A word is chosen by its first letter or by its place, whichever a glove finds."""

from __future__ import annotations

from textual.app import App, ComposeResult

from fieldbook.app.forms.choice import Choice

_LINES = ("pvc", "steel", "hose")


class _Asking(App[None]):
    def __init__(self, choices: tuple[str, ...]) -> None:
        super().__init__()
        self.choice = Choice(choices)

    def compose(self) -> ComposeResult:
        yield self.choice


async def chosen(choices: tuple[str, ...], *keys: str) -> str:
    app = _Asking(choices)
    async with app.run_test() as pilot:
        app.choice.focus()
        await pilot.press(*keys)
        return app.choice.chosen


async def test_a_digit_typed_on_a_choice_of_words_chooses_none_and_changes_none() -> None:
    assert await chosen(_LINES, "3") == ""
    assert await chosen(_LINES, "s", "2", "4", "0") == "steel"


async def test_a_digit_is_the_figure_where_figures_are_chosen_from() -> None:
    assert await chosen(("1", "3"), "3") == "3"
    assert await chosen(("1", "3"), "1", "2") == "1"


async def test_a_word_typed_out_is_that_word_and_no_other_that_its_letters_begin() -> None:
    works = ("pull", "set", "pull and set", "check")

    assert await chosen(_LINES, *"hose") == "hose"
    assert await chosen(works, *"pull") == "pull"
    assert await chosen(works, *"pull", "space", *"and", "space", *"set") == "pull and set"


async def test_a_space_after_a_first_letter_still_chooses_the_next_word() -> None:
    assert await chosen(_LINES, "p", "space") == "steel"
    assert await chosen(_LINES, "p", "space", "h") == "hose"


async def test_the_same_first_letter_again_chooses_the_next_word_that_begins_so() -> None:
    assert await chosen(("pull", "set", "pull and set"), "p", "p") == "pull and set"


async def test_a_word_that_stands_alone_keeps_its_counter_as_long_as_both_are_whole() -> None:
    words = ("mended", "replaced, like for like", "replaced with another", "put back", "left out")
    shown = []
    for width in (31, 29, 28, 26):
        app = _Asking(words)
        async with app.run_test(size=(width, 4)):
            app.choice.chosen = words[1]
            shown.append(str(app.choice.render()))

    assert shown == [
        "< replaced, like for like > 2/5",
        "<replaced, like for like> 2/5",
        "< replaced, like for like >",
        "replaced, like for like",
    ]
