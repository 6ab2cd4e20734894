"""What friction and fittings refuse, and what must hold for every flow and bore."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import table
from calc.errors import OutOfRange
from calc.hydraulics import fittings, friction
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
FLOW = quantity(20, "gpm")
BORE = quantity(1.38, "in")
LENGTH = quantity(400, "ft")
VISCOSITY = quantity(1.2e-5, "ft**2/s")
PIPE: dict[str, Any] = {"flow": FLOW, "length": LENGTH, "inside_diameter": BORE}
DARCY: dict[str, Any] = {
    **PIPE,
    "roughness": quantity(5e-4, "ft"),
    "kinematic_viscosity": VISCOSITY,
}
IN_BORE: dict[str, Any] = {"flow": FLOW, "inside_diameter": BORE}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (friction.velocity, IN_BORE),
    (friction.reynolds_number, {**IN_BORE, "kinematic_viscosity": VISCOSITY}),
    (friction.hazen_williams, {**PIPE, "coefficient": 120.0}),
    (friction.darcy_weisbach, DARCY),
    (fittings.minor_loss, {**IN_BORE, "coefficient": 2.0}),
    (fittings.coefficient_of_loss, {**IN_BORE, "loss": quantity(1, "ft")}),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name)


NOTHING = quantity(0, "in")


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (friction.velocity, {**IN_BORE, "inside_diameter": NOTHING}),
        (friction.hazen_williams, {**PIPE, "coefficient": 39.9}),
        (friction.hazen_williams, {**PIPE, "coefficient": 160.1}),
        (friction.hazen_williams, {**PIPE, "coefficient": float("nan")}),
        (friction.darcy_weisbach, {**DARCY, "roughness": quantity(0.07, "in")}),
        (friction.darcy_weisbach, {**DARCY, "kinematic_viscosity": quantity(0, "ft**2/s")}),
        (friction.friction_factor, {"reynolds": 0.0, "relative_roughness": 0.0}),
        (friction.friction_factor, {"reynolds": -5.0, "relative_roughness": 0.0}),
        (friction.friction_factor, {"reynolds": float("nan"), "relative_roughness": 0.0}),
        (friction.friction_factor, {"reynolds": float("inf"), "relative_roughness": 0.0}),
        (friction.friction_factor, {"reynolds": 1.1e8, "relative_roughness": 0.0}),
        (friction.friction_factor, {"reynolds": 1e5, "relative_roughness": -1e-9}),
        (friction.friction_factor, {"reynolds": 1e5, "relative_roughness": 0.051}),
        (friction.friction_factor, {"reynolds": 1e5, "relative_roughness": float("nan")}),
        (fittings.minor_loss, {**IN_BORE, "coefficient": -0.1}),
        (fittings.minor_loss, {**IN_BORE, "coefficient": float("nan")}),
        (fittings.minor_loss, {**IN_BORE, "coefficient": float("inf")}),
        (
            fittings.coefficient_of_loss,
            {**IN_BORE, "flow": quantity(0, "gpm"), "loss": quantity(1, "ft")},
        ),
        (friction.surface, {"name": "lay-flat hose"}),
        (fittings.fitting, {"name": "spring poppet"}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize("reynolds", [2000.1, 2300, 3000, 3999.9])
def test_between_laminar_and_turbulent_nothing_is_claimed(reynolds: float) -> None:
    with pytest.raises(OutOfRange, match="may be laminar or turbulent"):
        friction.friction_factor(reynolds=reynolds, relative_roughness=1e-4)


def test_a_slow_flow_in_the_pipe_is_refused_as_well() -> None:
    """1 gpm in 1-1/4 in pipe: Re about 2,050."""
    with pytest.raises(OutOfRange, match="may be laminar or turbulent"):
        friction.darcy_weisbach(**{**DARCY, "flow": quantity(1.0, "gpm")})


def test_what_the_table_lacks_is_named() -> None:
    with pytest.raises(OutOfRange, match=r"lay-flat hose.*PVC"):
        friction.surface("lay-flat hose")


def test_still_water_loses_nothing() -> None:
    still = quantity(0, "gpm")

    assert friction.darcy_weisbach(**{**DARCY, "flow": still}).m_as("ft") == 0.0
    assert friction.hazen_williams(**{**PIPE, "flow": still}, coefficient=120).m_as("ft") == 0.0


@pytest.mark.parametrize(("coefficient", "allowed"), [(39.9, False), (40, True), (160, True),
                                                      (160.1, False)])  # fmt: skip
def test_the_limits_of_c(coefficient: float, allowed: bool) -> None:
    if allowed:
        lost = friction.hazen_williams(**PIPE, coefficient=coefficient)
        assert lost.m_as("ft") > 0
    else:
        with pytest.raises(OutOfRange, match="from 40 to 160"):
            friction.hazen_williams(**PIPE, coefficient=coefficient)


def test_a_flow_that_is_tiny_still_gives_a_k() -> None:
    """K is 2 g h / V^2 at any flow; at 0.5 gpm in 2.067 in V is 0.0478 ft/s."""
    k = fittings.coefficient_of_loss(
        loss=quantity(1e-4, "ft"),
        flow=quantity(0.5, "gpm"),
        inside_diameter=quantity(2.067, "in"),
    )

    assert k == pytest.approx(64.348e-4 / 0.047805**2, rel=1e-4)


@pytest.mark.parametrize("name", ["friction", "fittings"])
def test_every_row_can_be_read(name: str) -> None:
    """And each names where it comes from; a range in print holds its own figure."""
    for row in table.rows(name):
        if name == "friction":
            assert friction.surface(row["surface"]).source
        else:
            part = fittings.fitting(row["fitting"])
            assert part.source
            low = part.coefficient if part.lowest is None else part.lowest
            high = part.coefficient if part.highest is None else part.highest
            assert low <= part.coefficient <= high


flows = st.floats(8, 400)
bores = st.floats(0.6, 5)


def head(gpm: float, inches: float, feet: float = 100.0) -> Quantity:
    return friction.hazen_williams(
        flow=quantity(gpm, "gpm"),
        length=quantity(feet, "ft"),
        inside_diameter=quantity(inches, "in"),
        coefficient=130,
    )


@common
@given(st.lists(flows, min_size=2, max_size=5, unique=True), bores)
def test_more_flow_loses_more(many: list[float], inches: float) -> None:
    for less, more in pairwise(sorted(many)):
        assert head(less, inches) < head(more, inches)


@common
@given(flows, st.floats(0.6, 5), st.floats(1.0001, 1.3))
def test_a_wider_bore_loses_less(gpm: float, inches: float, wider: float) -> None:
    assert head(gpm, inches * wider) < head(gpm, inches)


@common
@given(flows, bores, st.floats(0, 1500), st.floats(0, 1500))
def test_lengths_add_up(gpm: float, inches: float, one: float, other: float) -> None:
    both = head(gpm, inches, one + other).m_as("ft")

    assert both == pytest.approx(
        head(gpm, inches, one).m_as("ft") + head(gpm, inches, other).m_as("ft"), abs=1e-9
    )


@common
@given(st.floats(4100, 9e7), st.floats(0, 0.045), st.floats(1.001, 1.1))
def test_the_factor_falls_with_reynolds_and_rises_with_roughness(
    reynolds: float, relative: float, more: float
) -> None:
    factor = friction.friction_factor(reynolds=reynolds, relative_roughness=relative)

    assert friction.friction_factor(reynolds=reynolds * more, relative_roughness=relative) <= factor
    assert friction.friction_factor(reynolds=reynolds, relative_roughness=relative * more) >= factor
    assert 0.005 < factor < 0.1


@common
@given(flows, bores)
def test_the_system_of_units_never_changes_the_answer(gpm: float, inches: float) -> None:
    metric = {
        "flow": quantity(gpm, "gpm").to("l/s"),
        "length": LENGTH.to("m"),
        "inside_diameter": quantity(inches, "in").to("mm"),
    }
    us = {"flow": quantity(gpm, "gpm"), "length": LENGTH, "inside_diameter": quantity(inches, "in")}
    rough: dict[str, Quantity] = {
        "roughness": quantity(5e-6, "ft"),
        "kinematic_viscosity": quantity(7e-6, "ft**2/s"),
    }
    rough_metric: dict[str, Any] = {key: value.to_base_units() for key, value in rough.items()}

    assert friction.hazen_williams(**metric, coefficient=120).m_as("ft") == pytest.approx(
        friction.hazen_williams(**us, coefficient=120).m_as("ft"), rel=1e-9
    )
    assert friction.darcy_weisbach(**metric, **rough_metric).m_as("ft") == pytest.approx(
        friction.darcy_weisbach(**us, **rough).m_as("ft"), rel=1e-9
    )


@common
@given(flows, bores, st.floats(0, 100))
def test_a_sheets_loss_gives_back_its_k(gpm: float, inches: float, loss: float) -> None:
    place = {"flow": quantity(gpm, "gpm"), "inside_diameter": quantity(inches, "in")}
    coefficient = fittings.coefficient_of_loss(loss=quantity(loss, "ft"), **place)

    assert fittings.minor_loss(coefficient=coefficient, **place).m_as("ft") == pytest.approx(
        loss, rel=1e-9, abs=1e-12
    )
