"""What tanks refuse, and what must hold for every one of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.check import Verdict
from calc.errors import OutOfRange
from calc.hydraulics import atmosphere, cycling, tank
from calc.hydraulics.tank import (
    drawdown_share,
)
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
SWITCH: dict[str, Any] = {
    "cut_in": quantity(30, "psi"),
    "cut_out": quantity(50, "psi"),
    "atmosphere": quantity(14.7, "psi"),
}
BOYLE: dict[str, Any] = {"precharge": quantity(28, "psi"), **SWITCH}
GALLONS, MINUTE = quantity(25, "gallon"), quantity(1, "minute")
PUMP: dict[str, Any] = {"drawdown": GALLONS, "pump_flow": quantity(10, "gpm")}
DEMAND: dict[str, Any] = {"demand": quantity(4, "gpm")}
WATER: dict[str, Any] = {
    "precharge": quantity(28, "psi"),
    "pressure": quantity(50, "psi"),
    "atmosphere": quantity(14.7, "psi"),
}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (tank.water_share, WATER),
    (tank.drawdown_share, BOYLE),
    (tank.drawdown, {"volume": GALLONS, **BOYLE}),
    (tank.plain_tank_drawdown, {"volume": GALLONS, **SWITCH}),
    (tank.volume_for_drawdown, {"drawdown": GALLONS, **BOYLE}),
    (tank.usual_precharge, {"cut_in": quantity(30, "psi")}),
    (
        tank.judge_precharge,
        {"precharge": BOYLE["precharge"], "cut_in": SWITCH["cut_in"], "caution_share": 1.0},
    ),
    (cycling.run_time, {**PUMP, **DEMAND}),
    (cycling.rest_time, {"drawdown": GALLONS, **DEMAND}),
    (cycling.cycle_time, {**PUMP, **DEMAND}),
    (cycling.shortest_cycle, PUMP),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name)


def test_an_elevation_is_held_to_its_kind() -> None:
    assert_refuses(
        atmosphere.atmosphere_at,
        {"elevation": quantity(100, "ft")},
        "elevation",
        signed={"elevation"},
    )


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (atmosphere.atmosphere_at, {"elevation": quantity(-1501, "ft")}),
        (atmosphere.atmosphere_at, {"elevation": quantity(15001, "ft")}),
        (tank.drawdown_share, {**BOYLE, "cut_out": SWITCH["cut_in"]}),
        (tank.drawdown_share, {**BOYLE, "cut_out": quantity(29, "psi")}),
        (tank.drawdown_share, {**BOYLE, "precharge": quantity(30.1, "psi")}),
        (tank.drawdown_share, {**BOYLE, "atmosphere": quantity(0, "psi")}),
        (tank.drawdown, {"volume": quantity(0, "gallon"), **BOYLE}),
        (tank.volume_for_drawdown, {"drawdown": quantity(0, "gallon"), **BOYLE}),
        (tank.usual_precharge, {"cut_in": quantity(2, "psi")}),
        (cycling.run_time, {**PUMP, **DEMAND, "drawdown": 0 * GALLONS}),
        (cycling.rest_time, {"drawdown": 0 * GALLONS, **DEMAND}),
        (cycling.run_time, {**PUMP, "demand": quantity(10, "gpm")}),
        (cycling.run_time, {**PUMP, "demand": quantity(11, "gpm")}),
        (cycling.run_time, {**PUMP, **DEMAND, "pump_flow": quantity(0, "gpm")}),
        (cycling.rest_time, {"drawdown": GALLONS, "demand": quantity(0, "gpm")}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


def precharge(value: float | None, cut_in: float | None) -> Any:
    given = {"precharge": value, "cut_in": cut_in}
    return tank.judge_precharge(
        **{name: None if each is None else quantity(each, "psi") for name, each in given.items()},
        caution_share=0.98,
    )


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0, Verdict.WITHIN), (28, Verdict.WITHIN), (30, Verdict.CAUTION), (30.1, Verdict.STOP)],
)
def test_precharge_against_cut_in(value: float, verdict: Verdict) -> None:
    assert precharge(value, 30).verdict is verdict


def test_only_a_precharge_above_cut_in_says_that_the_tank_is_empty() -> None:
    assert "empty before the pump starts" in precharge(30.1, 30).note
    assert precharge(30, 30).note == precharge(None, 30).note == ""


def test_an_unmeasured_precharge_is_unknown_and_named() -> None:
    assert precharge(None, 30).verdict is Verdict.UNKNOWN
    assert precharge(None, 30).missing == ("precharge with the tank empty",)
    assert precharge(28, None).missing == ("cut-in pressure",)
    assert precharge(None, None).verdict is Verdict.UNKNOWN


pressures = st.tuples(st.floats(0, 1), st.floats(1, 100), st.floats(0.1, 100), st.floats(8, 15))
"""Share of the cut-in that the precharge is, cut-in, switch's differential, atmosphere."""


def boyle(rows: tuple[float, float, float, float]) -> dict[str, Quantity]:
    part, cut_in, differential, air = rows
    return {
        "precharge": quantity(part * cut_in, "psi"),
        "cut_in": quantity(cut_in, "psi"),
        "cut_out": quantity(cut_in + differential, "psi"),
        "atmosphere": quantity(air, "psi"),
    }


@common
@given(pressures)
def test_a_tank_gives_some_of_itself_and_never_all(
    rows: tuple[float, float, float, float],
) -> None:
    """The share lies between nothing and the water at cut-out."""
    given = boyle(rows)
    share = tank.drawdown_share(**given)
    full = tank.water_share(
        precharge=given["precharge"], pressure=given["cut_out"], atmosphere=given["atmosphere"]
    )

    assert 0 < share <= full < 1


@common
@given(pressures, st.floats(0, 1))
def test_more_precharge_gives_more(rows: tuple[float, float, float, float], less: float) -> None:
    given = boyle(rows)

    assert tank.drawdown_share(**{**given, "precharge": given["precharge"] * less}) <= (
        tank.drawdown_share(**given) * (1 + 1e-9)
    )


@common
@given(pressures, st.floats(1, 5000))
def test_the_tank_for_a_drawdown_gives_it_back(
    rows: tuple[float, float, float, float], volume: float
) -> None:
    given = boyle(rows)
    water = tank.drawdown(volume=quantity(volume, "gallon"), **given)

    assert tank.volume_for_drawdown(drawdown=water, **given).m_as("gallon") == pytest.approx(
        volume, rel=1e-9
    )


@common
@given(pressures, st.floats(1, 5000))
def test_the_system_of_units_never_changes_the_answer(
    rows: tuple[float, float, float, float], volume: float
) -> None:
    given = boyle(rows)
    metric = {name: value.to("bar") for name, value in given.items()}
    # The precharge may equal cut-in, which rounding in another unit can pass by a hair.
    assume(rows[0] < 1 - 1e-9)

    assert tank.drawdown(volume=quantity(volume, "gallon").to("l"), **metric).m_as(
        "gallon"
    ) == pytest.approx(tank.drawdown(volume=quantity(volume, "gallon"), **given).m_as("gallon"))


@common
@given(st.floats(1, 500), st.floats(1, 200), st.floats(0.01, 0.99))
def test_no_demand_cycles_faster_than_half_the_flow(
    gallons: float, flow: float, part: float
) -> None:
    pump = {"drawdown": quantity(gallons, "gallon"), "pump_flow": quantity(flow, "gpm")}
    cycle = cycling.cycle_time(**pump, demand=quantity(part * flow, "gpm"))
    shortest = cycling.shortest_cycle(**pump)

    assert cycle.m_as("minute") >= shortest.m_as("minute") * (1 - 1e-9)
    assert shortest.m_as("minute") == pytest.approx(4 * gallons / flow)


@common
@given(st.floats(-1500, 14900), st.floats(1, 100))
def test_air_thins_with_height(feet: float, higher: float) -> None:
    low, high = (
        atmosphere.atmosphere_at(quantity(each, "ft")).m_as("psi") for each in (feet, feet + higher)
    )

    assert high < low


def psi(value: float) -> Quantity:
    return quantity(value, "psi")


def share(precharge: float, cut_in: float, cut_out: float, air: float = 14.7) -> float:
    return drawdown_share(
        precharge=psi(precharge), cut_in=psi(cut_in), cut_out=psi(cut_out), atmosphere=psi(air)
    )


def test_precharge_above_cut_in_is_no_drawdown() -> None:
    """Boyle's line would go on and promise 0.330 where the tank runs dry at 33 psi."""
    assert 47.7 / 44.7 - 47.7 / 64.7 == pytest.approx(0.330, abs=5e-4)
    with pytest.raises(OutOfRange, match="empty before the pump starts"):
        share(33, 30, 50)
