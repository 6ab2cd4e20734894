"""What must hold for any hanging string."""

from __future__ import annotations

import pytest

from calc.drop_line.fill import Fill
from calc.errors import OutOfRange
from calc.units import quantity
from tests.published.test_string import SURFACE, WATER, feet, steel_string


def test_the_pump_carries_what_the_thread_above_it_carries() -> None:
    cuts = steel_string().wall_tensions(
        level=feet(200), top=SURFACE, fill=Fill.FULL, water_weight=WATER
    )
    thread, discharge = cuts[-3:-1]

    assert (discharge.name, discharge.end) == ("pump and motor", "upper")
    assert discharge.tension_lbf == thread.tension_lbf


def test_surface_pressure_needs_a_full_string() -> None:
    with pytest.raises(OutOfRange, match="only on a full string"):
        steel_string().wall_tensions(
            level=None,
            top=SURFACE,
            fill=Fill.DRAINED,
            water_weight=WATER,
            surface_pressure=quantity(60, "psi"),
        )
