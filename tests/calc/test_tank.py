"""What tanks refuse, and what must hold for every setting."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import tank
from calc.errors import OutOfRange
from calc.units import quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
GALLONS, FLOW, DEMAND = quantity(25, "gallon"), quantity(10, "gpm"), quantity(4, "gpm")
SWITCH: dict[str, Any] = {
    "precharge": quantity(28, "psi"),
    "cut_in": quantity(30, "psi"),
    "cut_out": quantity(50, "psi"),
    "atmosphere": quantity(14.7, "psi"),
}
TANK: dict[str, Any] = {"volume": quantity(85, "gallon"), **SWITCH}
CYCLE: dict[str, Any] = {"drawdown": GALLONS, "pump_flow": FLOW, "demand": DEMAND}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (tank.atmosphere_at, {"altitude": quantity(500, "ft")}),
    (tank.tank_drawdown, TANK),
    (tank.tank_for_drawdown, {**SWITCH, "drawdown": GALLONS}),
    (tank.advised_precharge, {"cut_in": quantity(30, "psi")}),
    (tank.run_time, CYCLE),
    (tank.rest_time, {"drawdown": GALLONS, "demand": DEMAND}),
    (tank.cycle_time, CYCLE),
    (tank.shortest_cycle, {"drawdown": GALLONS, "pump_flow": FLOW}),
    (tank.drawdown_for_run, {"pump_flow": FLOW, "run": quantity(1, "minute")}),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name, signed={"altitude"})


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (tank.atmosphere_at, {"altitude": quantity(20_001, "ft")}),
        (tank.atmosphere_at, {"altitude": quantity(-1501, "ft")}),
        (tank.tank_drawdown, {**TANK, "volume": 0 * GALLONS}),
        (tank.tank_drawdown, {**TANK, "precharge": quantity(30.1, "psi")}),
        (tank.tank_drawdown, {**TANK, "cut_out": quantity(30, "psi")}),
        (tank.tank_drawdown, {**TANK, "atmosphere": quantity(0, "psi")}),
        (tank.tank_for_drawdown, {**SWITCH, "drawdown": 0 * GALLONS}),
        (tank.advised_precharge, {"cut_in": quantity(1.9, "psi")}),
        (tank.run_time, {**CYCLE, "demand": FLOW}),
        (tank.run_time, {**CYCLE, "demand": 2 * FLOW}),
        (tank.run_time, {**CYCLE, "drawdown": 0 * GALLONS}),
        (tank.rest_time, {"drawdown": GALLONS, "demand": 0 * DEMAND}),
        (tank.shortest_cycle, {"drawdown": GALLONS, "pump_flow": 0 * FLOW}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


def test_the_pump_runs_with_nothing_drawn() -> None:
    run = tank.run_time(**{**CYCLE, "demand": 0 * DEMAND})

    assert run.m_as("minute") == pytest.approx(2.5)


pressures = st.floats(10, 100)
above = st.floats(1, 60)
share = st.floats(0, 1)
air = st.floats(9, 15)


def gallons(precharge: float, cut_in: float, cut_out: float, atmosphere: float) -> float:
    return tank.tank_drawdown(
        volume=quantity(80, "gallon"),
        precharge=quantity(precharge, "psi"),
        cut_in=quantity(cut_in, "psi"),
        cut_out=quantity(cut_out, "psi"),
        atmosphere=quantity(atmosphere, "psi"),
    ).m_as("gallon")


@common
@given(pressures, above, share, air)
def test_a_tank_gives_some_and_never_all(
    cut_in: float, more: float, part: float, atmosphere: float
) -> None:
    assert 0 < gallons(part * cut_in, cut_in, cut_in + more, atmosphere) < 80


@common
@given(pressures, above, share, share, air)
def test_more_precharge_gives_more(
    cut_in: float, more: float, one: float, other: float, atmosphere: float
) -> None:
    low, high = sorted((one * cut_in, other * cut_in))

    assert gallons(low, cut_in, cut_in + more, atmosphere) <= gallons(
        high, cut_in, cut_in + more, atmosphere
    )


@common
@given(pressures, above, st.floats(0.1, 40), air)
def test_a_wider_switch_gives_more(
    cut_in: float, more: float, wider: float, atmosphere: float
) -> None:
    narrow = gallons(cut_in - 2, cut_in, cut_in + more, atmosphere)

    assert gallons(cut_in - 2, cut_in, cut_in + more + wider, atmosphere) > narrow


@common
@given(pressures, above, share, air)
def test_the_system_of_units_never_changes_the_answer(
    cut_in: float, more: float, part: float, atmosphere: float
) -> None:
    metric = tank.tank_drawdown(
        volume=quantity(80, "gallon").to("l"),
        precharge=quantity(part * cut_in * (1 - 1e-12), "psi").to("kPa"),
        cut_in=quantity(cut_in, "psi").to("bar"),
        cut_out=quantity(cut_in + more, "psi").to("Pa"),
        atmosphere=quantity(atmosphere, "psi").to("mbar"),
    )

    assert metric.m_as("gallon") == pytest.approx(
        gallons(part * cut_in, cut_in, cut_in + more, atmosphere), rel=1e-6
    )


@common
@given(st.floats(1, 200), st.floats(1, 100), st.floats(0.01, 0.99))
def test_no_demand_cycles_faster_than_half_the_flow(
    drawdown: float, flow: float, part: float
) -> None:
    given_: dict[str, Any] = {
        "drawdown": quantity(drawdown, "gallon"),
        "pump_flow": quantity(flow, "gpm"),
    }
    shortest = tank.shortest_cycle(**given_).m_as("minute")
    cycle = tank.cycle_time(**given_, demand=quantity(part * flow, "gpm")).m_as("minute")

    assert cycle >= shortest * (1 - 1e-9)


@common
@given(pressures, above, share, air, st.floats(1, 500))
def test_the_tank_for_a_drawdown_gives_it(
    cut_in: float, more: float, part: float, atmosphere: float, wanted: float
) -> None:
    switch = {
        "precharge": quantity(part * cut_in, "psi"),
        "cut_in": quantity(cut_in, "psi"),
        "cut_out": quantity(cut_in + more, "psi"),
        "atmosphere": quantity(atmosphere, "psi"),
    }
    volume = tank.tank_for_drawdown(drawdown=quantity(wanted, "gallon"), **switch)

    assert tank.tank_drawdown(volume=volume, **switch).m_as("gallon") == pytest.approx(
        wanted, rel=1e-9
    )
