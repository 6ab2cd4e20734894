"""What a hose's sheet cannot say."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.drop_line.hose import (
    Hose,
    material_volume,
    stretched,
    swollen_bore,
    swollen_bore_area,
    water_per_length,
)
from calc.drop_line.stretch import hose_stiffness
from calc.errors import OutOfRange
from calc.units import quantity

WATER = quantity(62.4, "lbf/ft**3")


TWO_INCH = Hose(
    bore=quantity(2.0, "in"),
    weight_per_length=quantity(0.80, "lb/ft"),
    working_tension=quantity(3500, "lbf"),
    swell=0.15,
    stretch=0.02,
    specific_gravity=1.25,
)


SILENT = Hose(bore=quantity(2.0, "in"), weight_per_length=quantity(0.80, "lb/ft"))


def test_stretch_past_the_working_tension_is_refused() -> None:
    with pytest.raises(OutOfRange, match="load on the hose"):
        stretched(TWO_INCH, length=quantity(400, "ft"), load=quantity(3501, "lbf"))


def test_a_silent_sheet_gives_no_figure() -> None:
    assert swollen_bore(SILENT) is None
    assert swollen_bore_area(SILENT) is None
    assert water_per_length(SILENT, water_weight=WATER) is None
    assert stretched(SILENT, length=quantity(400, "ft"), load=quantity(0, "lbf")) is None
    assert material_volume(SILENT, length=quantity(1, "ft"), water_weight=WATER) is None
    assert hose_stiffness(SILENT) is None


def test_a_sheet_that_cannot_be_is_refused() -> None:
    wrong = replace(TWO_INCH, specific_gravity=0.0, stretch=0.0)

    with pytest.raises(OutOfRange, match="specific gravity"):
        material_volume(wrong, length=quantity(1, "ft"), water_weight=WATER)
    with pytest.raises(OutOfRange, match="stretch"):
        hose_stiffness(wrong)


@pytest.mark.parametrize("swell", [-0.01, 1.0, float("nan")])
def test_a_swell_that_is_no_fraction_is_refused(swell: float) -> None:
    hose = Hose(bore=quantity(2, "in"), weight_per_length=quantity(1, "lb/ft"), swell=swell)

    with pytest.raises(OutOfRange, match="fraction"):
        swollen_bore(hose)
