"""Distance from overhead power lines, against the rule's own table."""

from __future__ import annotations

import pytest

from calc.hoisting.overhead import clearance_of_any_line, least_clearance
from calc.units import quantity


@pytest.mark.parametrize(
    ("kilovolts", "feet"),
    [
        (0.24, 10), (12, 10), (50, 10), (50.1, 15), (200, 15), (201, 20), (350, 20), (351, 25),
        (500, 25), (501, 35), (750, 35), (751, 45), (1000, 45),
    ],
)  # fmt: skip
def test_table_a(kilovolts: float, feet: float) -> None:
    """29 CFR 1926.1408 Table A: each row is 'over' the last and up to its own voltage."""
    assert least_clearance(quantity(kilovolts, "kV")).m_as("ft") == pytest.approx(feet)


def test_what_is_presumed_is_more_than_the_table_ever_asks() -> None:
    """29 CFR 1926.1409: 50 ft presumed over 350 kV."""
    assert clearance_of_any_line().m_as("ft") == pytest.approx(50)
    assert clearance_of_any_line() > least_clearance(quantity(1000, "kV"))
