"""What the electrical calculations refuse, and what must hold for every run and every leg."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import table
from calc.electric import cable, electrical, wire
from calc.electric.wire import Stranding
from calc.errors import NotFinite, OutOfRange, WrongDimension
from calc.units import quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
AMPERES = quantity(10, "ampere")
FEET = quantity(400, "ft")
EACH = quantity(1.24, "ohm/kft")
WARM = quantity(75, "degC")
RUN: dict[str, Any] = {"current": AMPERES, "length": FEET, "phases": 1}
LIMIT: dict[str, Any] = {"current": AMPERES, "allowed_drop": quantity(11.5, "volt"), "phases": 3}
SIZE: dict[str, Any] = {
    **RUN,
    "allowed_drop": quantity(11.5, "volt"),
    "stranding": Stranding.STRANDED,
    "temperature": WARM,
}
WINDING: dict[str, Any] = {
    "measured": quantity(5, "ohm"),
    "meter_leads": quantity(0.2, "ohm"),
    "cable_length": FEET,
    "resistance_per_length": EACH,
}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (wire.resistance_of, {"size": "8", "stranding": Stranding.SOLID, "temperature": WARM}),
    (wire.copper_factor, {"measured_at": WARM, "temperature": quantity(20, "degC")}),
    (cable.voltage_drop, {**RUN, "resistance_per_length": EACH}),
    (cable.longest_run, {**LIMIT, "resistance_per_length": EACH}),
    (cable.smallest_size, SIZE),
    (electrical.winding_resistance, WINDING),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name, signed={"temperature", "measured_at"})


def test_small_figures_are_figures() -> None:
    """Limits are at zero and not a little above it."""
    little = {**LIMIT, "current": quantity(0.01, "ampere"), "resistance_per_length": EACH}
    nothing = {**LIMIT, "allowed_drop": quantity(0, "volt"), "resistance_per_length": EACH}

    assert cable.longest_run(**little).m_as("ft") > cable.longest_run(
        **{**little, "current": AMPERES}
    ).m_as("ft")
    assert cable.longest_run(**nothing).m_as("ft") == 0


NONE = quantity(0, "ampere")


def test_a_drop_just_at_what_is_allowed_is_allowed() -> None:
    """With no current no drop is needed, and any size will do: the smallest is named."""
    still = {**SIZE, "current": NONE, "allowed_drop": quantity(0, "volt")}

    assert cable.smallest_size(**still) == "14"


def test_solid_conductors_are_sized_among_the_solid() -> None:
    """Hand calculation, 10 A, 11.5 V, single-phase: solid 12 AWG runs 298 ft, 10 AWG 475 ft."""
    solid = {**SIZE, "length": quantity(400, "ft"), "stranding": Stranding.SOLID}

    assert cable.smallest_size(**{**solid, "temperature": quantity(75, "degC")}) == "10"


def test_one_conductor_is_a_cable() -> None:
    one = cable.copper_weight("10", conductors=1).m_as("lb/ft")

    assert cable.copper_weight("10", conductors=4).m_as("lb/ft") == pytest.approx(4 * one)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (wire.wire, {"size": "16"}),
        (wire.wire_diameter, {"size": "5/0"}),
        (wire.resistance_of, {"size": "4", "stranding": Stranding.SOLID, "temperature": WARM}),
        (wire.copper_factor, {"measured_at": WARM, "temperature": quantity(151, "degC")}),
        (wire.copper_factor, {"measured_at": quantity(-41, "degC"), "temperature": WARM}),
        (cable.voltage_drop, {**RUN, "phases": 2, "resistance_per_length": EACH}),
        (cable.longest_run, {**LIMIT, "current": NONE, "resistance_per_length": EACH}),
        (cable.longest_run, {**LIMIT, "resistance_per_length": quantity(0, "ohm/ft")}),
        (cable.longest_run, {**LIMIT, "phases": 0, "resistance_per_length": EACH}),
        (cable.smallest_size, {**SIZE, "length": quantity(3, "mile")}),
        (cable.smallest_size, {**SIZE, "allowed_drop": quantity(0, "volt")}),
        (
            cable.smallest_size,
            {**SIZE, "length": quantity(2000, "ft"), "stranding": Stranding.SOLID},
        ),
        (cable.cable_weight, {"size": "16"}),
        (cable.copper_weight, {"size": "10", "conductors": 0}),
        (electrical.winding_resistance, {**WINDING, "measured": quantity(1.19, "ohm")}),
        (electrical.unbalance_derating, {"share": 0.0501}),
        (electrical.unbalance_derating, {"share": -0.001}),
        (electrical.unbalance_derating, {"share": float("nan")}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize(
    ("function", "unit"),
    [(electrical.voltage_unbalance, "volt"), (electrical.current_unbalance, "ampere")],
)
def test_three_legs_of_one_kind(function: Callable[..., object], unit: str) -> None:
    good = [quantity(each, unit) for each in (10, 11, 12)]
    with pytest.raises(OutOfRange, match="three legs"):
        function(good[:2])
    with pytest.raises(OutOfRange, match="every"):
        function([quantity(0, unit)] * 3)
    with pytest.raises(OutOfRange):
        function([*good[:2], quantity(-1, unit)])
    with pytest.raises(NotFinite):
        function([*good[:2], quantity(float("nan"), unit)])
    with pytest.raises(WrongDimension):
        function([*good[:2], quantity(1, "ohm")])


def test_a_dead_leg_is_the_one_named() -> None:
    found = electrical.current_unbalance([quantity(each, "ampere") for each in (10, 0, 10)])

    assert found.leg == 1
    assert found.share == pytest.approx(1.0)


def test_a_short_is_told_apart_from_a_winding() -> None:
    with pytest.raises(OutOfRange, match="less than the cable alone"):
        electrical.winding_resistance(**{**WINDING, "measured": quantity(0.5, "ohm")})


@pytest.mark.parametrize("row", table.rows("unbalance_derating"), ids=lambda r: r["unbalance[%]"])
def test_the_lines_pass_through_their_points(row: dict[str, str]) -> None:
    assert electrical.unbalance_derating(float(row["unbalance[%]"]) / 100) == float(row["factor[]"])


@pytest.mark.parametrize("row", table.rows("cable_weight"), ids=lambda r: r["size[AWG]"])
def test_every_cable_has_a_conductor(row: dict[str, str]) -> None:
    assert wire.wire(row["size[AWG]"]).stranded
    assert cable.cable_weight(row["size[AWG]"]).lowest


sizes = st.sampled_from(wire.wire_sizes())
amperes = st.floats(0.1, 200)
phases = st.sampled_from([1, 3])


@common
@given(st.floats(0, 0.05), st.floats(0, 0.05))
def test_more_unbalance_never_allows_more(one: float, other: float) -> None:
    less, more = sorted((one, other))

    assert electrical.unbalance_derating(more) <= electrical.unbalance_derating(less)


@common
@given(
    st.lists(st.floats(1, 1000), min_size=3, max_size=3),
    st.floats(0.1, 10),
    st.permutations(range(3)),
)
def test_unbalance_knows_no_scale_and_no_order(
    volts: list[float], scale: float, order: list[int]
) -> None:
    plain = electrical.voltage_unbalance([quantity(each, "volt") for each in volts])
    scaled = electrical.voltage_unbalance(
        [quantity(volts[place] * scale / 1000, "kilovolt") for place in order]
    )

    assert scaled.share == pytest.approx(plain.share, rel=1e-6, abs=1e-9)
    assert 0 <= plain.share <= 2


@common
@given(sizes, amperes, st.floats(1, 50), phases)
def test_the_longest_run_drops_what_is_allowed(
    size: str, current: float, volts: float, count: int
) -> None:
    each = wire.wire(size).stranded
    run = cable.longest_run(
        current=quantity(current, "ampere"),
        resistance_per_length=each,
        allowed_drop=quantity(volts, "volt"),
        phases=count,
    )
    drop = cable.voltage_drop(
        current=quantity(current, "ampere"),
        length=run.to("m"),
        resistance_per_length=each.to("ohm/m"),
        phases=count,
    )

    assert drop.m_as("volt") == pytest.approx(volts, rel=1e-9)


@common
@given(amperes, st.floats(1, 1000), st.floats(5, 50), phases, st.floats(0, 90))
def test_the_smallest_size_keeps_the_drop_and_the_next_smaller_does_not(
    current: float, feet: float, volts: float, count: int, celsius: float
) -> None:
    warm = quantity(celsius, "degC")
    run: dict[str, Any] = {
        "current": quantity(current, "ampere"),
        "length": quantity(feet, "ft"),
        "phases": count,
    }

    def drop(size: str) -> float:
        each = wire.resistance_of(size, stranding=Stranding.STRANDED, temperature=warm)
        return cable.voltage_drop(**run, resistance_per_length=each).m_as("volt")

    try:
        found = cable.smallest_size(
            **run,
            allowed_drop=quantity(volts, "volt"),
            stranding=Stranding.STRANDED,
            temperature=warm,
        )
    except OutOfRange:
        assert drop("4/0") > volts
        return
    place = wire.wire_sizes().index(found)
    assert drop(found) <= volts
    assert place == 0 or drop(wire.wire_sizes()[place - 1]) > volts


@common
@given(sizes, st.floats(-40, 150), st.floats(-40, 150))
def test_warmer_copper_resists_more(size: str, one: float, other: float) -> None:
    cool, warm = (
        wire.resistance_of(
            size, stranding=Stranding.STRANDED, temperature=quantity(each * 1.8 + 32, "degF")
        ).m_as("ohm/ft")
        for each in sorted((one, other))
    )

    assert cool <= warm + 1e-18


@common
@given(st.floats(0, 50), st.floats(0, 2), st.floats(0, 1000), sizes)
def test_winding_and_cable_add_up_again(
    winding: float, leads: float, feet: float, size: str
) -> None:
    each = wire.wire(size).stranded
    measured = winding + leads + 2 * feet * each.m_as("ohm/ft")
    found = electrical.winding_resistance(
        measured=quantity(measured * (1 + 1e-12), "ohm"),
        meter_leads=quantity(leads, "ohm"),
        cable_length=quantity(feet, "ft"),
        resistance_per_length=each,
    )

    assert found.m_as("ohm") == pytest.approx(winding, abs=1e-6)
