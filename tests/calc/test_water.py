"""What water refuses, and what must hold at every temperature."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import table
from calc.errors import NotFinite, OutOfRange, WrongDimension
from calc.hydraulics.water import (
    density,
    head_of_pressure,
    kinematic_viscosity,
    pressure_of_head,
    weight_density,
)
from calc.units import Quantity, quantity

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=100)
WATER = quantity(62.4, "lbf/ft**3")
BY_TEMPERATURE = [weight_density, density, kinematic_viscosity]


@pytest.mark.parametrize("function", BY_TEMPERATURE)
@pytest.mark.parametrize("degrees", [31.9, 140.1, -40, 1e6])
def test_water_outside_the_table_is_refused(
    function: Callable[[Quantity], Quantity], degrees: float
) -> None:
    with pytest.raises(OutOfRange, match="temperature"):
        function(quantity(degrees, "degF"))


@pytest.mark.parametrize("function", BY_TEMPERATURE)
def test_a_temperature_must_be_one(function: Callable[[Quantity], Quantity]) -> None:
    with pytest.raises(WrongDimension):
        function(quantity(60, "ft"))
    with pytest.raises(NotFinite):
        function(quantity(float("nan"), "degF"))


@pytest.mark.parametrize("weight", [0, -62.4])
def test_water_without_weight_is_refused(weight: float) -> None:
    bad = quantity(weight, "lbf/ft**3")
    with pytest.raises(OutOfRange):
        pressure_of_head(head=quantity(1, "ft"), water_weight=bad)
    with pytest.raises(OutOfRange):
        head_of_pressure(pressure=quantity(1, "psi"), water_weight=bad)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -float("inf")])
def test_a_head_or_pressure_must_be_finite(bad: float) -> None:
    with pytest.raises(NotFinite):
        pressure_of_head(head=quantity(bad, "ft"), water_weight=WATER)
    with pytest.raises(NotFinite):
        head_of_pressure(pressure=quantity(bad, "psi"), water_weight=WATER)


def test_heads_and_pressures_do_not_mix() -> None:
    with pytest.raises(WrongDimension):
        pressure_of_head(head=quantity(1, "psi"), water_weight=WATER)
    with pytest.raises(WrongDimension):
        head_of_pressure(pressure=quantity(1, "ft"), water_weight=WATER)
    with pytest.raises(WrongDimension):
        pressure_of_head(head=quantity(1, "ft"), water_weight=quantity(62.4, "lb/ft**3"))


@pytest.mark.parametrize("row", table.rows("water"), ids=lambda row: row["temperature[degF]"])
def test_the_lines_pass_through_their_points(row: dict[str, str]) -> None:
    at = quantity(float(row["temperature[degF]"]), "degF")

    assert weight_density(at).m_as("lbf/ft**3") == float(row["weight[lbf/ft3]"])
    assert kinematic_viscosity(at).m_as("ft**2/s") == float(row["viscosity[ft2/s]"])


@common
@given(st.floats(0, 60), st.floats(0, 60))
def test_warmer_water_is_never_thicker(one: float, other: float) -> None:
    cool, warm = sorted((one, other))

    assert kinematic_viscosity(quantity(warm, "degC")) <= kinematic_viscosity(
        quantity(cool, "degC")
    )


@common
@given(st.floats(4, 60))
def test_the_scale_never_changes_the_answer(celsius: float) -> None:
    kelvin, fahrenheit = quantity(celsius + 273.15, "K"), quantity(celsius * 1.8 + 32, "degF")

    assert weight_density(kelvin).m_as("N/m**3") == pytest.approx(
        weight_density(fahrenheit).m_as("N/m**3"), rel=1e-9
    )


@common
@given(st.floats(-1e4, 1e4), st.floats(50, 70))
def test_head_and_pressure_undo_each_other(feet: float, weight: float) -> None:
    water = quantity(weight, "lbf/ft**3")
    pressure = pressure_of_head(head=quantity(feet, "ft"), water_weight=water)

    assert head_of_pressure(pressure=pressure.to("kPa"), water_weight=water).m_as(
        "ft"
    ) == pytest.approx(feet, rel=1e-9, abs=1e-9)
