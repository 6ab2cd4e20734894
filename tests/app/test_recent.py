"""The last entries in the rows there are: whole figures, those left out counted."""

from __future__ import annotations

import pytest

from fieldbook.app.recent import Told

PARTS = ("length 20.94 ft", "gauge 715 lb", "inside wet", "pipe good", "cable ok", "ties found 2")


@pytest.mark.parametrize("rows", [1, 2])
@pytest.mark.parametrize("width", range(46, 90))
def test_figures_stand_whole_in_their_rows_or_are_counted(width: int, rows: int) -> None:
    told = Told("09:48 LM Joint 7 out", PARTS)

    shown = [line.text for line in told.rows(width, rows)]

    assert len(shown) <= rows
    words = " ".join(part.strip() for part in shown)
    given = [part for part in PARTS if part in words]
    assert given == list(PARTS[: len(given)])
    left_out = len(PARTS) - len(given)
    assert words.endswith(f", {left_out} more" if left_out else PARTS[-1])
