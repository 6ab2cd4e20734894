"""Voltages that the rule has no distance for."""

from __future__ import annotations

import pytest

from calc.errors import OutOfRange
from calc.hoisting.overhead import least_clearance
from calc.units import quantity


@pytest.mark.parametrize("kilovolts", [-1, 1000.1])
def test_a_voltage_outside_the_table_is_refused(kilovolts: float) -> None:
    with pytest.raises(OutOfRange):
        least_clearance(quantity(kilovolts, "kV"))
