"""What no table rates or weighs."""

from __future__ import annotations

import math

import pytest

from calc.drop_line.pipe import (
    PipeSize,
    pvc_derating,
    pvc_pipe,
    steel_pipe,
    threaded_rating,
)
from calc.errors import OutOfRange
from calc.units import quantity


def test_a_coupled_weight_nobody_printed_is_unknown() -> None:
    assert steel_pipe("6", "40").threaded_coupled_weight is None


def test_threaded_schedule_40_has_no_rating() -> None:
    with pytest.raises(OutOfRange, match="schedule 40 has no rating when threaded"):
        threaded_rating(pvc_pipe("1", "40"))


def test_steel_has_no_rating_to_halve() -> None:
    with pytest.raises(OutOfRange, match="no pressure rating"):
        threaded_rating(steel_pipe("1", "80"))


@pytest.mark.parametrize("fahrenheit", [141, 200, 31])
def test_there_is_no_rating_past_the_table(fahrenheit: float) -> None:
    with pytest.raises(OutOfRange):
        pvc_derating(quantity(fahrenheit, "degF"))


@pytest.mark.parametrize(
    "pipe", [steel_pipe("2", "40"), steel_pipe("1-1/4", "80"), pvc_pipe("2", "80")]
)
def test_the_inside_is_the_outside_less_two_walls(pipe: PipeSize) -> None:
    walls = pipe.outside_diameter.m_as("in") - pipe.inside_diameter.m_as("in")
    assert walls == pytest.approx(2 * pipe.wall.m_as("in"))
    outside = pipe.outside_diameter.m_as("in")
    assert pipe.outside_area.m_as("in**2") == pytest.approx(math.pi / 4.0 * outside**2)
    areas = pipe.outside_area.m_as("in**2") - pipe.bore_area.m_as("in**2")
    assert areas == pytest.approx(pipe.metal_area.m_as("in**2"))
