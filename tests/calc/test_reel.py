"""What a counter is not corrected by."""

from __future__ import annotations

import pytest

from calc.errors import OutOfRange
from calc.hoisting.reel import (
    corrected_by_marks,
)
from calc.units import quantity


def test_marks_out_of_order_are_refused() -> None:
    marks = [(quantity(96, "ft"), quantity(100, "ft")), (quantity(90, "ft"), quantity(200, "ft"))]

    with pytest.raises(OutOfRange, match="each after the last"):
        corrected_by_marks(quantity(93, "ft"), marks=marks)
