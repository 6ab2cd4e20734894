"""What tells no length by its weight."""

from __future__ import annotations

import pytest

from calc.drop_line.fill import Fill
from calc.drop_line.weighing import load_per_length, longer_by_weight
from calc.errors import NotFinite, OutOfRange, WrongDimension
from calc.units import quantity
from tests.published.test_string import SURFACE, WATER, feet, steel_string


@pytest.mark.parametrize("each", [0.0, -0.2])
def test_a_line_that_floats_tells_no_length(each: float) -> None:
    pounds = quantity(100, "lbf")
    with pytest.raises(OutOfRange, match="tells no length"):
        longer_by_weight(load=pounds, expected=pounds, per_length=quantity(each, "lbf/ft"))


def test_what_cannot_be_weighed_is_refused() -> None:
    pounds, each = quantity(100, "lbf"), quantity(3, "lbf/ft")
    with pytest.raises(WrongDimension):
        longer_by_weight(load=feet(3), expected=pounds, per_length=each)
    with pytest.raises(NotFinite):
        longer_by_weight(load=pounds, expected=quantity(float("nan"), "lbf"), per_length=each)
    with pytest.raises(OutOfRange, match="no piece"):
        load_per_length(
            steel_string(2), [], level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER
        )
