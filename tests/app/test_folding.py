"""Lines that are too wide: folded at words, with no number by itself in the last row."""

from __future__ import annotations

import pytest

from fieldbook.app.widgets.lines import folded
from fieldbook.app.widgets.row_view import TextLine


def rows(text: str, width: int) -> list[str]:
    return [row.text for row in folded(TextLine(text), width)]


@pytest.mark.parametrize(
    ("text", "width", "told"),
    [
        ("Weakest: threaded joint, joint 1", 31, ["Weakest: threaded joint,", "joint 1"]),
        ("Weakest: threaded joint, joint 1", 32, ["Weakest: threaded joint, joint 1"]),
        ("fill in, then crew lead says yes", 30, ["fill in, then crew lead", "says yes"]),
        ("a longer word ends this alone", 24, ["a longer word ends this", "alone"]),
    ],
)
def test_a_number_takes_the_word_before_it_along(text: str, width: int, told: list[str]) -> None:
    assert rows(text, width) == told


@pytest.mark.parametrize("width", range(8, 40))
def test_no_word_is_lost_or_wider_than_the_row(width: int) -> None:
    text = "Expect 831 to 923 lbf full, read 27 lbf over that 7"

    shown = rows(text, width)

    assert " ".join(" ".join(shown).split()) == text
    assert max(map(len, shown)) <= width


def test_what_hangs_in_is_kept_and_a_word_alone_in_its_row_stays_there() -> None:
    assert rows("  needs abc, 1 more", 14) == ["  needs abc, 1", "more"]
    assert rows("alone 1", 5) == ["alone", "1"]
