"""Only a hold that nobody witnessed is called so in what was recorded afterwards."""

from __future__ import annotations

import pytest

from fieldbook.walk.entry.entry_words import afterwards_words
from fieldbook.walk.entry.from_paper import NOT_WITNESSED
from tests.watch.jobs import entry, says


@pytest.mark.parametrize(("recorded", "expected"), [(NOT_WITNESSED, True), ("afterwards", False)])
def test_only_a_hold_that_nobody_witnessed_is_said_to_be_so(recorded: str, expected: bool) -> None:
    words = afterwards_words(entry(says("hold", step="check.dead", recorded=recorded), 1))
    assert ("hold not witnessed" in words) is expected
    assert "recorded from paper" in words
