"""What the well and the cooling refuse, what they call unknown, and what must always hold."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.check import Verdict
from calc.errors import OutOfRange, WrongDimension
from calc.hydraulics import cooling, well
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
BORE, MOTOR = quantity(6, "in"), quantity(3.75, "in")
FLOW, CAPACITY = quantity(15, "gpm"), quantity(0.5, "gpm/ft")
WATER = quantity(62.4, "lbf/ft**3")
LEAST = quantity(0.25, "ft/s")


def feet(value: float) -> Quantity:
    return quantity(value, "ft")


PAST: dict[str, Any] = {"bore": BORE, "motor_diameter": MOTOR}
LEVELS: dict[str, Any] = {"static_level": feet(60), "pumping_level": feet(100)}
AIR: dict[str, Any] = {
    "line_depth": feet(150),
    "pressure": quantity(25, "psi"),
    "water_weight": WATER,
}
COOLING: dict[str, Any] = {
    **PAST,
    "flow": FLOW,
    "least_velocity": LEAST,
    "water_from_below": True,
    "caution_share": 0.8,
}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (well.volume_per_length, {"bore": BORE}),
    (well.annulus_per_length, {"bore": BORE, "inner_diameter": MOTOR}),
    (well.drawdown, LEVELS),
    (well.specific_capacity, {"flow": FLOW, "drawdown": feet(40)}),
    (well.expected_drawdown, {"flow": FLOW, "specific_capacity": CAPACITY}),
    (well.recovery, {**LEVELS, "level": feet(70)}),
    (well.air_line_level, AIR),
    (
        well.setting_depth,
        {
            "static_level": feet(60),
            "flow": FLOW,
            "specific_capacity": CAPACITY,
            "submergence": feet(10),
        },
    ),
    (well.submergence, {"intake_depth": feet(120), "level": feet(100)}),
    (well.bottom_clearance, {"well_depth": feet(220), "string_bottom": feet(205)}),
    (cooling.cooling_velocity, {**PAST, "flow": FLOW}),
    (cooling.least_cooling_flow, {**PAST, "least_velocity": LEAST}),
    (
        cooling.least_cooling_velocity,
        {"nominal_size": 4, "water_temperature": quantity(55, "degF")},
    ),
    (cooling.judge_cooling, COOLING),
]
SIGNED = {"static_level", "pumping_level", "level", "intake_depth", "string_bottom"}
"""Levels and depths may lie above the datum."""


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name, signed=SIGNED)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (well.volume_per_length, {"bore": quantity(0, "in")}),
        (well.annulus_per_length, {"bore": BORE, "inner_diameter": BORE}),
        (well.drawdown, {"static_level": feet(60), "pumping_level": feet(59.9)}),
        (well.specific_capacity, {"flow": FLOW, "drawdown": feet(0)}),
        (well.expected_drawdown, {"flow": FLOW, "specific_capacity": 0 * CAPACITY}),
        (well.recovery, {**LEVELS, "level": feet(101)}),
        (well.recovery, {"static_level": feet(60), "pumping_level": feet(60), "level": feet(60)}),
        (well.air_line_level, {**AIR, "pressure": quantity(66, "psi")}),
        (well.bottom_clearance, {"well_depth": feet(200), "string_bottom": feet(200.1)}),
        (well.annulus_per_length, {"bore": BORE, "inner_diameter": quantity(0, "in")}),
        (well.air_line_level, {**AIR, "line_depth": feet(0), "pressure": quantity(0, "psi")}),
        (well.bottom_clearance, {"well_depth": feet(0), "string_bottom": feet(-5)}),
        (cooling.cooling_velocity, {**PAST, "flow": FLOW, "motor_diameter": BORE}),
        (cooling.least_cooling_flow, {**PAST, "least_velocity": 0 * LEAST}),
        (
            cooling.least_cooling_velocity,
            {"nominal_size": 4, "water_temperature": quantity(87, "degF")},
        ),
        (
            cooling.least_cooling_velocity,
            {"nominal_size": 5, "water_temperature": quantity(55, "degF")},
        ),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize(
    ("function", "arguments", "expected"),
    [
        (well.drawdown, {"static_level": feet(60), "pumping_level": feet(60)}, 0),
        # 0.25 psi at 144 lbf/ft3 is 0.25 ft, in figures a computer holds exactly.
        (
            well.air_line_level,
            {
                "line_depth": feet(0.25),
                "pressure": quantity(0.25, "psi"),
                "water_weight": quantity(144, "lbf/ft**3"),
            },
            0,
        ),
        (well.bottom_clearance, {"well_depth": feet(0.5), "string_bottom": feet(0.5)}, 0),
    ],
)
def test_the_limits_themselves_are_allowed(
    function: Callable[..., Quantity], arguments: dict[str, Any], expected: float
) -> None:
    assert function(**arguments).m_as("ft") == pytest.approx(expected, abs=1e-9)


def test_what_does_not_fit_is_named_in_inches() -> None:
    with pytest.raises(OutOfRange, match=r"8 in does not go into a bore of 6 in"):
        well.annulus_per_length(bore=BORE, inner_diameter=quantity(8, "in"))


def test_a_level_at_the_pumping_level_has_not_recovered() -> None:
    assert well.recovery(**LEVELS, level=feet(100)) == 0.0


def test_water_at_freezing_cools_a_motor() -> None:
    for cold in (quantity(32, "degF"), quantity(0, "degC")):
        least = cooling.least_cooling_velocity(nominal_size=4, water_temperature=cold)
        assert least.m_as("ft/s") == 0.25
    with pytest.raises(OutOfRange):
        cooling.least_cooling_velocity(nominal_size=4, water_temperature=quantity(31.9, "degF"))


def test_a_flow_for_a_length_is_refused() -> None:
    with pytest.raises(WrongDimension):
        well.specific_capacity(flow=feet(10), drawdown=feet(40))


def test_water_of_30_c_is_still_in_the_table() -> None:
    warm = cooling.least_cooling_velocity(nominal_size=6, water_temperature=quantity(30, "degC"))

    assert warm.m_as("ft/s") == 0.5


def test_small_figures_are_figures() -> None:
    """Limits are at zero and not a little above it."""
    drip = well.specific_capacity(flow=quantity(0.01, "gpm"), drawdown=feet(0.01))
    line = well.air_line_level(**{**AIR, "line_depth": feet(0.01), "pressure": quantity(0, "psi")})
    slow = {**COOLING, "least_velocity": quantity(0.001, "ft/s")}

    assert drip.m_as("gpm/ft") == pytest.approx(1)
    assert line.m_as("ft") == pytest.approx(0.01)
    assert cooling.judge_cooling(**slow).verdict is Verdict.WITHIN


def test_water_at_freezing_is_still_in_the_table_and_below_it_is_not() -> None:
    def least(degrees: float) -> Quantity:
        return cooling.least_cooling_velocity(
            nominal_size=4, water_temperature=quantity(degrees, "degF")
        )

    assert least(32).m_as("ft/s") == 0.25
    with pytest.raises(OutOfRange):
        least(31.9)


MISSING = {
    "flow": "flow of the pump",
    "bore": "bore at the motor",
    "motor_diameter": "outside diameter of the motor",
    "least_velocity": "least velocity past the motor",
    "water_from_below": "whether water enters below the motor",
}


@pytest.mark.parametrize("gone", MISSING)
def test_what_is_missing_makes_cooling_unknown_and_is_named(gone: str) -> None:
    check = cooling.judge_cooling(**{**COOLING, gone: None})

    assert check.verdict is Verdict.UNKNOWN
    assert check.missing == (MISSING[gone],)


def test_too_little_flow_is_a_stop_even_when_its_way_is_not_known() -> None:
    slow = {**COOLING, "flow": quantity(5, "gpm"), "water_from_below": None}

    assert cooling.judge_cooling(**slow).verdict is Verdict.STOP


@pytest.mark.parametrize("gone", [None, "bore", "least_velocity", "flow"])
def test_water_that_does_not_pass_is_a_stop_whatever_is_missing(gone: str | None) -> None:
    arguments = {**COOLING, "water_from_below": False}
    if gone:
        arguments[gone] = None

    check = cooling.judge_cooling(**arguments)

    assert check.verdict is Verdict.STOP
    assert check.missing == ((MISSING[gone],) if gone else ())
    assert check.allowable == quantity(0, "ft/s")


def test_no_flow_is_a_stop() -> None:
    still = cooling.judge_cooling(**{**COOLING, "flow": quantity(0, "gpm")})

    assert still.verdict is Verdict.STOP
    assert still.share is None


sizes = st.floats(2, 30)
levels = st.floats(-50, 1500)


@common
@given(sizes, st.floats(0.05, 0.95))
def test_annulus_and_what_hangs_in_it_fill_the_casing(bore: float, share: float) -> None:
    hung = quantity(bore * share, "in")
    whole = well.volume_per_length(bore=quantity(bore, "in").to("mm"))
    parts = well.annulus_per_length(
        bore=quantity(bore, "in"), inner_diameter=hung
    ) + well.volume_per_length(bore=hung)

    assert parts.m_as("l/m") == pytest.approx(whole.m_as("l/m"), rel=1e-9)


@common
@given(st.floats(0.1, 1000), st.floats(0.1, 500))
def test_specific_capacity_gives_the_drawdown_back(gpm: float, down: float) -> None:
    flow = quantity(gpm, "gpm")
    capacity = well.specific_capacity(flow=flow.to("l/s"), drawdown=feet(down).to("m"))

    assert well.expected_drawdown(flow=flow, specific_capacity=capacity).m_as(
        "ft"
    ) == pytest.approx(down, rel=1e-9)


@common
@given(levels, st.floats(0.1, 500), st.floats(0, 1), st.floats(0, 1))
def test_recovery_grows_as_water_rises(
    static: float, down: float, one: float, other: float
) -> None:
    pumping = static + down
    shares = [
        well.recovery(
            static_level=feet(static),
            pumping_level=feet(pumping),
            level=feet(min(pumping - part * down, pumping)),
        )
        for part in sorted((one, other))
    ]

    assert shares[0] <= shares[1] + 1e-9
    assert shares[1] == pytest.approx(max(one, other), abs=1e-6)


@common
@given(st.floats(10, 1500), st.floats(0, 1))
def test_an_air_line_finds_the_level_that_pressed_on_it(depth: float, share: float) -> None:
    over = share * depth * (1 - 1e-9)
    found = well.air_line_level(
        line_depth=feet(depth),
        pressure=quantity(over * 62.4 / 144, "psi").to("kPa"),
        water_weight=WATER,
    )

    assert found.m_as("ft") == pytest.approx(depth - over, abs=1e-6)


@common
@given(levels, st.floats(0, 500), st.floats(0.05, 100), st.floats(0, 50))
def test_the_setting_keeps_its_submergence(
    static: float, gpm: float, capacity: float, over: float
) -> None:
    pumped = {"flow": quantity(gpm, "gpm"), "specific_capacity": quantity(capacity, "gpm/ft")}
    depth = well.setting_depth(static_level=feet(static), submergence=feet(over), **pumped)
    level = feet(static) + well.expected_drawdown(**pumped)

    assert well.submergence(intake_depth=depth, level=level).m_as("ft") == pytest.approx(
        over, abs=1e-6
    )


@common
@given(st.floats(0.5, 500), st.floats(4, 20), st.floats(0.2, 0.95))
def test_the_least_flow_gives_the_least_velocity(gpm: float, bore: float, share: float) -> None:
    place = {"bore": quantity(bore, "in"), "motor_diameter": quantity(bore * share, "in")}
    speed = cooling.cooling_velocity(flow=quantity(gpm, "gpm"), **place)

    assert cooling.least_cooling_flow(least_velocity=speed.to("m/s"), **place).m_as(
        "gpm"
    ) == pytest.approx(gpm, rel=1e-9)
