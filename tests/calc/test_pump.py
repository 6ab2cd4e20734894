"""What pumps refuse, and what must hold for every curve and every system."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import CalcError, NotFinite, OutOfRange, WrongDimension
from calc.hydraulics import affinity, duty
from calc.hydraulics.monotone import MonotoneCurve
from calc.hydraulics.pump import PumpCurve, PumpPoint
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
SPEED = quantity(3450, "rpm")
WATER = quantity(62.4, "lbf/ft**3")
FLOW, HEAD, POWER = quantity(10, "gpm"), quantity(200, "ft"), quantity(1, "hp")
SPEEDS: dict[str, Any] = {"speed": SPEED, "new_speed": quantity(2875, "rpm")}


def curve(*rows: tuple[float, float], efficiency: float | None = None) -> PumpCurve:
    return PumpCurve(
        [PumpPoint(quantity(q, "gpm"), quantity(h, "ft"), efficiency) for q, h in rows],
        speed=SPEED,
    )


PUMP = curve((0, 300), (10, 250), (20, 100))
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (affinity.speed_ratio, SPEEDS),
    (affinity.flow_at_speed, {"flow": FLOW, **SPEEDS}),
    (affinity.head_at_speed, {"head": HEAD, **SPEEDS}),
    (affinity.power_at_speed, {"power": POWER, **SPEEDS}),
    (
        duty.total_dynamic_head,
        {
            "lift": HEAD,
            "surface_pressure": quantity(50, "psi"),
            "losses": quantity(9, "ft"),
            "water_weight": WATER,
        },
    ),
    (duty.hydraulic_power, {"flow": FLOW, "head": HEAD, "water_weight": WATER}),
    (duty.brake_power, {"hydraulic_power": POWER, "efficiency": 0.6}),
    (duty.pump_efficiency, {"hydraulic_power": 0.5 * POWER, "brake_power": POWER}),
    (PUMP.head_at, {"flow": FLOW}),
    (PUMP.flow_at, {"head": HEAD}),
    (PUMP.at_speed, {"speed": SPEED}),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name, signed={"lift"})


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (affinity.speed_ratio, {"speed": SPEED, "new_speed": quantity(1724, "rpm")}),
        (affinity.speed_ratio, {"speed": SPEED, "new_speed": quantity(6901, "rpm")}),
        (affinity.speed_ratio, {"speed": SPEED, "new_speed": quantity(60, "Hz")}),
        (duty.brake_power, {"hydraulic_power": POWER, "efficiency": 0.0}),
        (duty.brake_power, {"hydraulic_power": POWER, "efficiency": 1.01}),
        (duty.brake_power, {"hydraulic_power": POWER, "efficiency": float("nan")}),
        (duty.pump_efficiency, {"hydraulic_power": 1.01 * POWER, "brake_power": POWER}),
        (PUMP.head_at, {"flow": quantity(20.01, "gpm")}),
        (PUMP.flow_at, {"head": quantity(99.9, "ft")}),
        (PUMP.flow_at, {"head": quantity(300.1, "ft")}),
        (PUMP.efficiency_at, {"flow": FLOW}),
        (curve((2, 300), (10, 250)).shut_off_head, {}),
        (MonotoneCurve, {"points": [(0.0, 1.0)]}),
        (MonotoneCurve, {"points": [(0.0, 1.0), (0.0, 2.0)]}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize(
    ("function", "arguments", "value"),
    [
        (affinity.speed_ratio, {"speed": SPEED, "new_speed": 0.5 * SPEED}, 0.5),
        (affinity.speed_ratio, {"speed": SPEED, "new_speed": 2 * SPEED}, 2),
        (duty.pump_efficiency, {"hydraulic_power": POWER, "brake_power": POWER}, 1),
    ],
)
def test_the_limits_themselves_are_allowed(
    function: Callable[..., float], arguments: dict[str, Any], value: float
) -> None:
    assert function(**arguments) == value


@pytest.mark.parametrize("speed", ["speed", "new_speed"])
def test_a_pump_at_rest_has_no_speed_to_go_by(speed: str) -> None:
    with pytest.raises(OutOfRange, match="more than 0"):
        affinity.speed_ratio(**{**SPEEDS, speed: 0 * SPEED})


def test_a_slow_pump_is_held_to_the_same_ratio() -> None:
    slow = {"speed": quantity(0.9, "rpm"), "new_speed": quantity(0.6, "rpm")}

    assert affinity.speed_ratio(**slow) == pytest.approx(2 / 3)


def test_a_slow_or_a_small_pump_is_a_pump() -> None:
    """Limits are at zero and not a little above it."""
    tenth = {"speed": quantity(0.01, "rpm"), "new_speed": quantity(0.01, "rpm")}
    small = {"hydraulic_power": quantity(0.01, "hp"), "brake_power": quantity(0.02, "hp")}
    light = quantity(0.01, "lbf/ft**3")

    assert affinity.speed_ratio(**tenth) == pytest.approx(1)
    assert duty.pump_efficiency(**small) == pytest.approx(0.5)
    assert duty.hydraulic_power(flow=FLOW, head=HEAD, water_weight=light).m_as("hp") > 0


def test_a_curve_may_end_at_no_head_and_any_efficiency() -> None:
    ends = [
        PumpPoint(quantity(0, "gpm"), HEAD, 0.0),
        PumpPoint(FLOW, quantity(0, "ft"), 1.0),
    ]
    pump = PumpCurve(ends, speed=SPEED)

    assert pump.head_at(FLOW).m_as("ft") == 0
    assert [pump.efficiency_at(end.flow) for end in ends] == [0, 1]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([(0, 300)], "two points"),
        ([(0, 300), (10, 300)], "does not fall"),
        ([(0, 290), (5, 300), (10, 200)], "does not fall"),
        ([(0, 300), (10, 250), (10, 200)], "does not rise"),
        ([(10, 300), (0, 250)], "does not rise"),
        ([(-1, 300), (10, 250)], "flow"),
        ([(0, 300), (10, -1)], "head"),
    ],
)
def test_a_curve_that_cannot_be(rows: list[tuple[float, float]], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        curve(*rows)


@pytest.mark.parametrize("efficiency", [-0.1, 1.1, float("nan")])
def test_an_efficiency_that_cannot_be(efficiency: float) -> None:
    with pytest.raises(OutOfRange, match="efficiency"):
        curve((0, 300), (10, 250), efficiency=efficiency)


def test_points_must_be_quantities_and_finite() -> None:
    with pytest.raises(NotFinite):
        curve((0, float("nan")), (10, 250))
    with pytest.raises(NotFinite):
        MonotoneCurve([(0.0, float("inf")), (1.0, 2.0)])
    with pytest.raises(WrongDimension):
        PumpCurve([PumpPoint(FLOW, FLOW), PumpPoint(2 * FLOW, FLOW)], speed=SPEED)
    with pytest.raises(CalcError):
        PumpCurve(PUMP.points, speed=0 * SPEED)


def system(lift: float, factor: float) -> Callable[[Quantity], Quantity]:
    return lambda flow: quantity(lift + factor * flow.m_as("gpm") ** 2, "ft")


def test_a_pump_that_cannot_lift_is_said_so() -> None:
    with pytest.raises(OutOfRange, match="cannot deliver"):
        PUMP.operating_point(system(301, 0.01))


def test_a_pump_off_the_end_of_its_curve_is_said_so() -> None:
    with pytest.raises(OutOfRange, match="past the end"):
        PUMP.operating_point(system(50, 0.01))


def test_what_the_system_refuses_is_passed_on() -> None:
    def gap(_: Quantity) -> Quantity:
        raise OutOfRange("not known here")

    with pytest.raises(OutOfRange, match="not known here"):
        PUMP.operating_point(gap)


@pytest.mark.parametrize(("lift", "flow"), [(300, 0), (100, 20)])
def test_the_ends_of_the_curve_are_on_it(lift: float, flow: float) -> None:
    """Shut-off head met with no flow, and the last point met with none of the system's own."""
    point = PUMP.operating_point(system(lift, 0))

    assert point.flow.m_as("gpm") == pytest.approx(flow, abs=1e-9)
    assert PUMP.flow_at(quantity(lift, "ft")).m_as("gpm") == pytest.approx(flow, abs=1e-9)


falls = st.lists(st.tuples(st.floats(0.1, 50), st.floats(0.1, 200)), min_size=2, max_size=9).map(
    lambda steps: [
        (sum(q for q, _ in steps[:k]), 10 + sum(h for _, h in steps[k:]))
        for k in range(len(steps) + 1)
    ]
)
"""Points of a curve that begins at no flow and falls to 10 ft."""
part = st.floats(0, 1)


@common
@given(falls)
def test_it_passes_through_its_points(rows: list[tuple[float, float]]) -> None:
    pump = curve(*rows)

    for flow, head in rows:
        assert pump.head_at(quantity(flow, "gpm")).m_as("ft") == pytest.approx(head, rel=1e-9)


@common
@given(falls, st.lists(part, min_size=2, max_size=20))
def test_head_never_rises_with_flow(rows: list[tuple[float, float]], parts: list[float]) -> None:
    pump, last = curve(*rows), rows[-1][0]
    heads = [
        pump.head_at(quantity(min(share * last, last), "gpm")).m_as("ft") for share in sorted(parts)
    ]

    for before, after in pairwise(heads):
        assert after <= before * (1 + 1e-9)
    assert all(rows[-1][1] * (1 - 1e-9) <= head <= rows[0][1] * (1 + 1e-9) for head in heads)


@common
@given(falls, part)
def test_flow_at_a_head_gives_the_head_back(rows: list[tuple[float, float]], share: float) -> None:
    pump = curve(*rows)
    head = min(max(rows[-1][1] + share * (rows[0][1] - rows[-1][1]), rows[-1][1]), rows[0][1])
    flow = pump.flow_at(quantity(head, "ft"))

    assert pump.head_at(flow).m_as("ft") == pytest.approx(head, rel=1e-6)


@common
@given(falls, st.floats(0.01, 0.99), st.floats(0.01, 3))
def test_a_higher_lift_delivers_less(
    rows: list[tuple[float, float]], share: float, factor: float
) -> None:
    pump = curve(*rows)
    lift = rows[-1][1] + share * (rows[0][1] - rows[-1][1])
    low, high = (
        pump.operating_point(system(each, factor / rows[-1][0])).flow.m_as("gpm")
        for each in (lift, 0.5 * (lift + rows[0][1]))
    )

    assert high <= low + 1e-9


@common
@given(falls, st.floats(0.5, 2), part)
def test_the_affinity_laws_hold_along_the_whole_curve(
    rows: list[tuple[float, float]], ratio: float, share: float
) -> None:
    """Every place on the curve moves by the laws, not only the points it was drawn through."""
    pump = curve(*rows)
    other = pump.at_speed(SPEED * ratio)
    flow = share * rows[-1][0] * (1 - 1e-9)

    assert other.head_at(quantity(flow * ratio, "gpm")).m_as("ft") == pytest.approx(
        pump.head_at(quantity(flow, "gpm")).m_as("ft") * ratio**2, rel=1e-6
    )


@common
@given(falls, part)
def test_the_system_of_units_never_changes_the_answer(
    rows: list[tuple[float, float]], share: float
) -> None:
    metric = PumpCurve(
        [PumpPoint(quantity(q, "gpm").to("m**3/hour"), quantity(h, "ft").to("m")) for q, h in rows],
        speed=SPEED.to("1/minute"),
    )
    flow = quantity(share * rows[-1][0] * (1 - 1e-9), "gpm")

    assert metric.head_at(flow.to("l/s")).m_as("ft") == pytest.approx(
        curve(*rows).head_at(flow).m_as("ft"), rel=1e-6
    )


def test_what_a_curve_tells_of_itself() -> None:
    least, greatest = PUMP.flow_range

    assert (least.m_as("gpm"), greatest.m_as("gpm")) == (0, 20)
    assert PUMP.speed == SPEED
    assert PUMP.shut_off_head().m_as("ft") == 300
    assert len(PUMP.points) == 3
