"""What doses refuse, and what must hold for every product and target."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import OutOfRange, WrongDimension
from calc.hydraulics import disinfection
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
WATER = quantity(150, "gallon")
FOR: dict[str, Any] = {"volume": WATER, "target": quantity(100, "mg/liter")}
DRY: dict[str, Any] = {"volume": WATER, "dose": quantity(3, "oz"), "available": 0.65}
LIQUID: dict[str, Any] = {"volume": WATER, "dose": quantity(1, "quart"), "trade_percent": 12.0}
TIMES: dict[str, Any] = {"required": quantity(24, "hour"), "elapsed": quantity(20, "hour")}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (disinfection.chlorine_needed, FOR),
    (disinfection.dry_dose, {**FOR, "available": 0.65}),
    (disinfection.liquid_dose, {**FOR, "trade_percent": 12.0}),
    (disinfection.strength_of_dry_dose, DRY),
    (disinfection.strength_of_liquid_dose, LIQUID),
    (disinfection.contact_left, TIMES),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (disinfection.chlorine_needed, {**FOR, "target": quantity(0, "mg/liter")}),
        (disinfection.chlorine_needed, {**FOR, "target": quantity(1001, "mg/liter")}),
        (disinfection.dry_dose, {**FOR, "available": 0.0}),
        (disinfection.dry_dose, {**FOR, "available": 65.0}),
        (disinfection.dry_dose, {**FOR, "available": 1.01}),
        (disinfection.trade_percent, {"weight_percent": 6.0, "specific_gravity": 0.0}),
        (disinfection.trade_percent, {"weight_percent": 6.0, "specific_gravity": 1.51}),
        (disinfection.dry_dose, {**FOR, "available": float("nan")}),
        (disinfection.liquid_dose, {**FOR, "trade_percent": 0.0}),
        (disinfection.liquid_dose, {**FOR, "trade_percent": 20.1}),
        (disinfection.liquid_dose, {**FOR, "trade_percent": float("nan")}),
        (disinfection.strength_of_dry_dose, {**DRY, "volume": 0 * WATER}),
        (disinfection.strength_of_liquid_dose, {**LIQUID, "volume": 0 * WATER}),
        (disinfection.trade_percent, {"weight_percent": 0.0, "specific_gravity": 1.1}),
        (disinfection.trade_percent, {"weight_percent": 6.0, "specific_gravity": 1.6}),
        (disinfection.trade_percent, {"weight_percent": 18.0, "specific_gravity": 1.2}),
        (disinfection.trade_percent, {"weight_percent": float("nan"), "specific_gravity": 1.2}),
        (disinfection.trade_percent, {"weight_percent": 6.0, "specific_gravity": float("nan")}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize(
    ("weight_percent", "specific_gravity", "trade"), [(0.5, 1.5, 0.75), (20, 0.5, 10), (20, 1, 20)]
)
def test_the_limits_of_a_liquid_are_allowed(
    weight_percent: float, specific_gravity: float, trade: float
) -> None:
    assert (
        disinfection.trade_percent(weight_percent=weight_percent, specific_gravity=specific_gravity)
        == trade
    )


def test_a_dry_dose_is_a_weight_and_a_liquid_one_a_volume() -> None:
    with pytest.raises(WrongDimension):
        disinfection.strength_of_dry_dose(**{**DRY, "dose": quantity(1, "quart")})
    with pytest.raises(WrongDimension):
        disinfection.strength_of_liquid_dose(**{**LIQUID, "dose": quantity(1, "oz")})


@pytest.mark.parametrize(("hours", "left"), [(0, 24), (20, 4), (24, 0), (30, 0)])
def test_contact_runs_out_and_never_below_nothing(hours: float, left: float) -> None:
    found = disinfection.contact_left(**{**TIMES, "elapsed": quantity(60 * hours, "minute")})

    assert found.m_as("hour") == pytest.approx(left, abs=1e-9)


def test_the_lightest_and_the_heaviest_liquid() -> None:
    assert disinfection.trade_percent(weight_percent=0.05, specific_gravity=1.0) == 0.05
    assert disinfection.trade_percent(weight_percent=10, specific_gravity=1.5) == 15
    with pytest.raises(OutOfRange):
        disinfection.trade_percent(weight_percent=10, specific_gravity=1.51)


gallons = st.floats(0.5, 1e5)
targets = st.floats(1, 1000)


@common
@given(gallons, targets, st.floats(0.01, 1), st.floats(0.1, 20))
def test_a_dose_gives_its_target_back(
    volume: float, target: float, available: float, percent: float
) -> None:
    us: dict[str, Any] = {
        "volume": quantity(volume, "gallon"),
        "target": quantity(target, "mg/liter"),
    }
    water = us["volume"].to("m**3")
    dry = disinfection.dry_dose(**us, available=available).to("lb")
    liquid = disinfection.liquid_dose(**us, trade_percent=percent).to("pint")

    from_dry = disinfection.strength_of_dry_dose(volume=water, dose=dry, available=available)
    from_liquid = disinfection.strength_of_liquid_dose(
        volume=water, dose=liquid, trade_percent=percent
    )
    assert from_dry.m_as("mg/liter") == pytest.approx(target, rel=1e-9)
    assert from_liquid.m_as("mg/liter") == pytest.approx(target, rel=1e-9)


@common
@given(gallons, targets, st.floats(1.001, 3))
def test_more_water_and_a_higher_target_want_more(
    volume: float, target: float, more: float
) -> None:
    def dose(gallon: float, strength: float) -> Quantity:
        return disinfection.chlorine_needed(
            volume=quantity(gallon, "gallon"), target=quantity(min(strength, 1000), "mg/liter")
        )

    assert dose(volume * more, target) > dose(volume, target)
    assert dose(volume, target * more) >= dose(volume, target)
