"""Length by weight: nothing is published for pump strings, these are hand calculations.

2 in schedule 40 of 3.66 lbf/ft, steel of 490 lbf/ft3, water 62.4: in water a foot weighs
3.66 x (1 - 62.4 / 490) = 3.194 lbf; its bore of 2.067 in holds 1.454 lbf of water a foot.
"""

from __future__ import annotations

from math import pi

import pytest

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.drop_line.weighing import load_per_length, longer_by_weight
from calc.units import Quantity
from tests.published.test_string import SURFACE, WATER, feet, pump, steel_2in

IN_AIR = 3.66
IN_WATER = 3.66 * (1 - 62.4 / 490)
COLUMN = pi / 4 * (2.067 / 12) ** 2 * 62.4


def string_of(joints: int) -> HangingString:
    pipes = [steel_2in(f"joint {n}", valve=n == joints) for n in range(1, joints + 1)]
    return HangingString([*pipes, pump(120, 103)])


def load(string: HangingString, level: Quantity | None, fill: Fill) -> Quantity:
    return string.hook_load(level=level, top=SURFACE, fill=fill, water_weight=WATER)


@pytest.mark.parametrize(
    ("level", "fill", "each"),
    [
        (feet(200), Fill.DRAINED, IN_WATER),
        # The column stands from the level to the surface, however far the string goes below.
        (feet(200), Fill.FULL, IN_WATER),
        (None, Fill.DRAINED, IN_AIR),
        (None, Fill.FULL, IN_AIR + COLUMN),
    ],
)
def test_a_foot_more_of_line(level: Quantity | None, fill: Fill, each: float) -> None:
    """Hand calculation at the head of the file."""
    string = string_of(20)
    found = load_per_length(
        string, string.pieces[:-1], level=level, top=SURFACE, fill=fill, water_weight=WATER
    )

    assert found.m_as("lbf/ft") == pytest.approx(each, rel=1e-6)


def test_one_joint_less_is_found_by_the_weight() -> None:
    """Hand calculation: a joint of 20 ft hangs in the water: 20 x 3.194 = 63.9 lbf."""
    book, hung = string_of(20), string_of(19)
    level = feet(200)
    expected, read = (load(each, level, Fill.DRAINED) for each in (book, hung))
    each = load_per_length(
        book, book.pieces[:-1], level=level, top=SURFACE, fill=Fill.DRAINED, water_weight=WATER
    )

    assert (expected - read).m_as("lbf") == pytest.approx(63.9, abs=0.1)
    assert longer_by_weight(load=read, expected=expected, per_length=each).m_as(
        "ft"
    ) == pytest.approx(-20)


def test_the_foot_is_the_mean_of_the_line() -> None:
    """Hand calculation: 10 ft, and 30 ft that weigh half as much a foot: (1 + 3 x 0.5) / 4."""
    heavy = steel_2in("heavy", length=10)
    light = HangingString([steel_2in("light", length=30)]).pieces[0]
    thin = type(light)(
        "thin",
        "joint",
        length=light.length,
        weight=light.weight / 2,
        displaced=light.displaced / 2,
        bore_area=light.bore_area,
        outside_area=light.outside_area,
    )
    string = HangingString([heavy, thin])
    each = load_per_length(
        string, string.pieces, level=None, top=SURFACE, fill=Fill.DRAINED, water_weight=WATER
    )

    assert each.m_as("lbf/ft") == pytest.approx(IN_AIR * 2.5 / 4)
