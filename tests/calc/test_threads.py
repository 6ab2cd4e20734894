"""The metal under a thread: the least of the common choices, or none."""

from __future__ import annotations

import pytest

from calc.drop_line.pipe import steel_pipe
from calc.drop_line.threads import (
    root_area,
)
from calc.errors import OutOfRange
from calc.units import quantity

Row = tuple[str, float, float, float, float, float, float, float, float]


ROOT_AREAS = [
    # NPS, schedule, D - 2h root diameter, its area, at yield A, at E1 - h, at K0; computed on the
    # nominal wall.
    ("1", "40", 1.1759, 0.2217, 6_651, 0.2092, 0.1637),
    ("1-1/4", "40", 1.5209, 0.3209, 9_628, 0.3041, 0.2423),
    ("1-1/2", "40", 1.7609, 0.3994, 11_983, 0.3771, 0.3053),
    ("2", "40", 2.2359, 0.5707, 17_121, 0.5386, 0.4438),
    ("2-1/2", "40", 2.6750, 0.8323, 24_968, 0.7784, 0.6016),
    ("3", "40", 3.3000, 1.1603, 34_810, 1.1008, 0.8553),
    ("4", "40", 4.3000, 1.7917, 53_752, 1.7049, 1.3519),
    ("1", "80", 1.1759, 0.3666, 10_999, 0.3541, 0.3087),
    ("1-1/4", "80", 1.5209, 0.5339, 16_016, 0.5171, 0.4552),
    ("1-1/2", "80", 1.7609, 0.6681, 20_043, 0.6458, 0.5740),
    ("2", "80", 2.2359, 0.9734, 29_202, 0.9413, 0.8466),
    ("3", "80", 3.3000, 1.9478, 58_434, 1.8883, 1.6428),
    ("4", "80", 4.3000, 3.0251, 90_754, 2.9383, 2.5853),
]


Root = tuple[str, str, float, float, float, float, float]


@pytest.mark.parametrize("row", ROOT_AREAS)
def test_ours_is_the_least_of_the_common_choices(row: Root) -> None:
    """E1 - h on the minimum wall lies below D - 2h, E1 - h and K0 on the nominal wall."""
    nps, schedule, _, *common = row

    assert root_area(steel_pipe(nps, schedule)).m_as("in**2") < min(common[0], *common[2:])


def test_a_thread_that_cuts_through_is_refused() -> None:
    with pytest.raises(OutOfRange, match="leaves no metal"):
        root_area(steel_pipe("2", "40"), wall=quantity(0.05, "in"))
