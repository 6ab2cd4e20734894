"""What must hold for every reeving, gauge, reel and table."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drop_line.pipe import pvc_derating
from calc.drop_line.stretch import Section, elastic_stretch, stuck_rate
from calc.errors import OutOfRange
from calc.hoisting.gauge import Gauge, GaugePlace, hook_load_from_reading, reading_for_hook_load
from calc.hoisting.hoist import Motion, Reeving, dead_line_pull, efficiency, line_pull, sheave_load
from calc.hoisting.reel import length_on_reel, wraps_for_length
from calc.interpolate import between
from calc.units import quantity

common = settings(deadline=None, max_examples=150)
factors = st.floats(1.0, 1.2)
parts = st.integers(1, 12)
loads = st.floats(0, 1e5)
reevings = st.builds(Reeving, parts, factors, st.integers(0, 4), st.booleans())
moving = st.sampled_from(list(Motion))


@common
@given(parts, factors, st.integers(0, 4))
def test_efficiency_never_exceeds_one_and_a_lead_sheave_costs_k(
    count: int, factor: float, lead: int
) -> None:
    bare, led = Reeving(count, factor), Reeving(count, factor, lead)

    assert efficiency(led) <= 1.0 + 1e-12
    assert efficiency(led) * factor**lead == pytest.approx(efficiency(bare))


@common
@given(reevings, loads)
def test_friction_helps_lowering_and_hinders_hoisting(reeving: Reeving, load: float) -> None:
    weight = quantity(load, "lbf")
    lowering, static, hoisting = (
        line_pull(weight, reeving=reeving, moving=motion).m_as("lbf")
        for motion in (Motion.LOWERING, Motion.STATIC, Motion.HOISTING)
    )
    dead = dead_line_pull(weight, reeving=reeving, moving=Motion.HOISTING).m_as("lbf")

    assert lowering <= static + 1e-6
    assert static <= hoisting + 1e-6
    assert dead <= static + 1e-6


@common
@given(reevings, moving, st.sampled_from(list(GaugePlace)), loads, st.floats(0, 500))
def test_a_load_lies_in_the_band_that_its_reading_means(
    reeving: Reeving, motion: Motion, place: GaugePlace, load: float, zero: float
) -> None:
    gauge = Gauge(
        place, quantity(zero, "lbf"), error=quantity(25, "lbf"), wrap=quantity(120, "degree")
    )
    readings = reading_for_hook_load(
        quantity(load, "lbf"), gauge=gauge, reeving=reeving, moving=motion
    )
    for reading in (readings.low, readings.high):
        band = hook_load_from_reading(reading, gauge=gauge, reeving=reeving, moving=motion)

        assert band.low.m_as("lbf") <= load + 1e-6
        assert load - 1e-6 <= band.high.m_as("lbf")


@common
@given(parts, loads, st.sampled_from(list(GaugePlace)), moving, st.floats(1.0, 1.09))
def test_the_band_without_a_factor_holds_every_factor_up_to_plain_bearings(
    count: int, load: float, place: GaugePlace, motion: Motion, factor: float
) -> None:
    gauge = Gauge(place, quantity(0, "lbf"), wrap=quantity(90, "degree"))
    unknown, known = (
        reading_for_hook_load(
            quantity(load, "lbf"), gauge=gauge, reeving=Reeving(count, k), moving=motion
        )
        for k in (None, factor)
    )

    assert unknown.low.m_as("lbf") <= known.low.m_as("lbf") + 1e-6
    assert known.high.m_as("lbf") <= unknown.high.m_as("lbf") + 1e-6


@common
@given(loads, st.floats(0, 180), st.floats(0, 180))
def test_a_larger_turn_loads_a_sheave_more(tension: float, one: float, two: float) -> None:
    small, large = sorted((one, two))
    first, second = (
        sheave_load(tension=quantity(tension, "lbf"), turn=quantity(turn, "degree"))
        for turn in (small, large)
    )

    assert first.m_as("lbf") <= second.m_as("lbf") + 1e-6
    assert second.m_as("lbf") <= 2 * tension + 1e-6


@common
@given(st.floats(6, 80), st.floats(0.1, 4), st.integers(1, 10), st.floats(0, 3000))
def test_wraps_and_length_undo_each_other(
    core: float, thickness: float, wide: int, length: float
) -> None:
    barrel, layer = quantity(core, "in"), quantity(thickness, "in")
    turns = wraps_for_length(
        core=barrel, thickness=layer, wraps_per_layer=wide, length=quantity(length, "ft")
    )
    wound = length_on_reel(core=barrel, thickness=layer, wraps_per_layer=wide, wraps=turns)

    assert wound.m_as("ft") == pytest.approx(length, rel=1e-9, abs=1e-9)


points = st.dictionaries(
    st.integers(-1000, 1000), st.floats(-1e3, 1e3), min_size=1, max_size=8
).map(lambda found: sorted((float(x), y) for x, y in found.items()))


@common
@given(points)
def test_interpolation_passes_through_its_points(table: list[tuple[float, float]]) -> None:
    for x, y in table:
        assert between(table, x, "x") == y


@common
@given(points, st.floats(0, 1))
def test_interpolation_stays_between_its_neighbours(
    table: list[tuple[float, float]], part: float
) -> None:
    for (x1, y1), (x2, y2) in pairwise(table):
        value = between(table, min(x1 + part * (x2 - x1), x2), "x")

        assert min(y1, y2) - 1e-9 <= value <= max(y1, y2) + 1e-9


@common
@given(points, st.floats(1e-3, 1e6))
def test_nothing_is_extrapolated(table: list[tuple[float, float]], past: float) -> None:
    for x in (table[0][0] - past, table[-1][0] + past, float("nan")):
        with pytest.raises(OutOfRange):
            between(table, x, "x")


@common
@given(st.floats(32, 140), st.floats(32, 140))
def test_warmer_pvc_never_stands_more(one: float, two: float) -> None:
    cold, warm = sorted((one, two))

    assert pvc_derating(quantity(warm, "degF")) <= pvc_derating(quantity(cold, "degF")) + 1e-12


sections = st.lists(
    st.builds(
        lambda feet, stiffness: Section(quantity(feet, "ft"), quantity(stiffness, "lbf")),
        st.floats(1, 1000),
        st.floats(1e3, 1e8),
    ),
    min_size=1,
    max_size=5,
)


@common
@given(sections, st.floats(1, 1e4))
def test_the_stuck_rate_undoes_the_stretch(string: list[Section], pull: float) -> None:
    stretch = elastic_stretch(load=quantity(pull, "lbf"), sections=string)

    assert stuck_rate(string).m_as("lbf/in") == pytest.approx(pull / stretch.m_as("in"))
