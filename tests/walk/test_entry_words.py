"""What a figure was understood to be, and names in the middle of a line."""

from __future__ import annotations

import pytest

from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import parse
from fieldbook.walk.entry_words import understood


@pytest.mark.parametrize(
    ("name", "typed", "told"),
    [
        ("latitude", "44.27718 deg", "44.27718 deg"),
        ("longitude", "-72.38400", "-72.38400 deg"),
        ("amps_a", "9.0", "9.0 A"),
        ("joint_length", ".5 m", "0.5 m"),
        ("joint_length", "12 1/2", "12.5 ft"),
        ("joint_length", "21' 3\"", "21.25 ft"),  # 21 + 3/12
        ("joint_length", "20 ft 4 in", "20.3333 ft"),  # 20 + 4/12
        ("rope_breaking", "26600 lb", "26,600 lbf"),
    ],
)
def test_what_was_understood_has_as_many_places_as_were_typed(
    name: str, typed: str, told: str
) -> None:
    assert understood(parse(typed, definition(name))) == told
