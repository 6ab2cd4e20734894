"""What gauge and hoist refuse, and what they say is missing."""

from __future__ import annotations

import pytest

from calc.errors import OutOfRange
from calc.hoisting.gauge import Gauge, GaugePlace, hook_load_from_reading, reading_for_hook_load
from calc.hoisting.hoist import (
    Motion,
    Reeving,
    line_pull,
)
from calc.units import Quantity, quantity


def pounds(value: float) -> Quantity:
    return quantity(value, "lbf")


ZERO = pounds(0)


def test_an_unknown_error_is_named() -> None:
    band = hook_load_from_reading(
        pounds(760),
        gauge=Gauge(GaugePlace.HOOK, ZERO),
        reeving=Reeving(1, None),
        moving=Motion.STATIC,
    )

    assert band.missing == ("error of the gauge",)


def test_a_reading_over_the_capacity_is_refused() -> None:
    with pytest.raises(OutOfRange, match="cannot show over"):
        hook_load_from_reading(
            pounds(5001),
            gauge=Gauge(GaugePlace.HOOK, ZERO, capacity=pounds(5000)),
            reeving=Reeving(1, None),
            moving=Motion.STATIC,
        )


def test_a_reading_the_gauge_cannot_show_is_said() -> None:
    """Hand calculation: 8,000 lbf on 2 parts reads 4,000 to 4,175 on a gauge that ends at 4,100."""
    gauge = Gauge(GaugePlace.FAST_LINE, ZERO, capacity=pounds(4100), error=pounds(0))
    past, within = (
        reading_for_hook_load(
            pounds(load), gauge=gauge, reeving=Reeving(2, None), moving=Motion.HOISTING
        )
        for load in (8000, 7000)
    )

    assert past.note.endswith("past what the gauge can show")
    assert "past" not in within.note


def test_a_load_pin_without_its_angle_is_refused() -> None:
    with pytest.raises(OutOfRange, match="turn of the line"):
        reading_for_hook_load(
            pounds(1000),
            gauge=Gauge(GaugePlace.LOAD_PIN, ZERO),
            reeving=Reeving(1, 1.0),
            moving=Motion.HOISTING,
        )


def test_a_moving_line_needs_its_sheave_factor() -> None:
    with pytest.raises(OutOfRange, match="sheave factor is not known"):
        line_pull(pounds(1000), reeving=Reeving(2, None), moving=Motion.HOISTING)
