"""What must hold for every string, level and fill."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.units import Quantity, quantity

WATER = 62.4


@dataclass(frozen=True)
class Tube:
    """A piece of tube in plain numbers: ft, lbf and ft2."""

    length: float
    weight: float
    bore: float
    outside: float
    valve: bool

    def piece(self, name: str, *, metric: bool = False) -> Piece:
        wall = self.outside - self.bore
        values = [
            quantity(self.length, "ft"),
            quantity(self.weight, "lbf"),
            quantity(wall * self.length, "ft**3"),
            quantity(self.bore, "ft**2"),
            quantity(self.outside, "ft**2"),
        ]
        if metric:
            units = ("m", "N", "liter", "mm**2", "cm**2")
            values = [value.to(unit) for value, unit in zip(values, units, strict=True)]
        length, weight, displaced, bore, outside = values
        return Piece(
            name, "joint", length, weight, displaced, bore, outside, holds_water=self.valve
        )


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False, allow_subnormal=False)


@st.composite
def tubes(draw: st.DrawFn) -> Tube:
    bore = draw(numbers(0.003, 0.1))
    return Tube(
        length=draw(numbers(0.5, 60)),
        weight=draw(numbers(0, 500)),
        bore=bore,
        outside=bore * draw(numbers(1.01, 2.0)),
        valve=draw(st.booleans()),
    )


strings = st.lists(tubes(), min_size=1, max_size=8)
levels = st.none() | numbers(0, 500)
tops = numbers(-60, 0)


def hang(string: list[Tube], *, metric: bool = False) -> HangingString:
    return HangingString([tube.piece(f"piece {n}", metric=metric) for n, tube in enumerate(string)])


def feet(value: float | None) -> Quantity | None:
    return None if value is None else quantity(value, "ft")


def load(string: HangingString, level: float | None, top: float, fill: Fill, out: int = 0) -> float:
    return string.hook_load(
        level=feet(level),
        top=quantity(top, "ft"),
        fill=fill,
        water_weight=quantity(WATER, "lbf/ft**3"),
        out=out,
    ).m_as("lbf")


def fills(string: list[Tube], draw: list[bool]) -> Fill:
    valves = sum(tube.valve for tube in string)
    return Fill.chambers(*(draw * (valves + 1))[:valves])


common = settings(deadline=None, max_examples=150)


@common
@given(strings, levels, tops, st.lists(st.booleans(), min_size=1, max_size=8))
def test_drained_is_never_above_full_and_chambers_lie_between(
    string: list[Tube], level: float | None, top: float, draw: list[bool]
) -> None:
    hung = hang(string)
    drained, partly, full = (
        load(hung, level, top, fill) for fill in (Fill.DRAINED, fills(string, draw), Fill.FULL)
    )

    assert drained <= partly + 1e-6
    assert partly <= full + 1e-6


@common
@given(strings, levels, tops, st.lists(st.booleans(), min_size=1, max_size=8))
def test_the_top_wall_carries_the_hook_load(
    string: list[Tube], level: float | None, top: float, draw: list[bool]
) -> None:
    hung = hang(string)
    for fill in (Fill.FULL, Fill.DRAINED, fills(string, draw)):
        for out in range(len(string)):
            cuts = hung.wall_tensions(
                level=feet(level),
                top=quantity(top, "ft"),
                fill=fill,
                water_weight=quantity(WATER, "lbf/ft**3"),
                out=out,
            )

            assert len(cuts) == 2 * (len(string) - out)
            assert cuts[0].tension_lbf == pytest.approx(load(hung, level, top, fill, out), abs=1e-6)


@common
@given(strings, levels, tops)
def test_wall_tensions_agree_with_the_pressure_on_every_shoulder(
    string: list[Tube], level: float | None, top: float
) -> None:
    """The same statics the other way: no water is weighed, its push on each surface is added.

    Going up from the closed bottom, the wall takes the weight of metal, the bore's pressure on the
    bottom and on each inside shoulder, and the outside pressure on the bottom and outer shoulders.
    """
    string = [Tube(t.length, t.weight, t.bore, t.outside, valve=False) for t in string]
    depth = top + sum(tube.length for tube in string)
    carried, below_bore, below_outside = 0.0, 0.0, 0.0
    expected: list[float] = []
    for tube in reversed(string):
        inside = WATER * (depth - top)
        outside = 0.0 if level is None else WATER * max(0.0, depth - level)
        inside = max(inside, outside)
        carried += inside * (tube.bore - below_bore) - outside * (tube.outside - below_outside)
        expected.append(carried)
        carried += tube.weight
        expected.append(carried)
        depth -= tube.length
        below_bore, below_outside = tube.bore, tube.outside
    cuts = hang(string).wall_tensions(
        level=feet(level),
        top=quantity(top, "ft"),
        fill=Fill.FULL,
        water_weight=quantity(WATER, "lbf/ft**3"),
    )

    assert [cut.tension_lbf for cut in reversed(cuts)] == pytest.approx(
        expected, rel=1e-9, abs=1e-6
    )


@common
@given(strings, levels, tops, st.sampled_from([Fill.FULL, Fill.DRAINED]))
def test_the_load_is_the_sum_of_thin_slices(
    string: list[Tube], level: float | None, top: float, fill: Fill
) -> None:
    """A slice is in the water or out of it; full, the bore holds water down to the lowest valve."""
    valves = [n for n, tube in enumerate(string) if tube.valve]
    closed = valves[-1] if valves else len(string) - 1
    total, depth, slices = 0.0, top, 400
    for n, tube in enumerate(string):
        step = tube.length / slices
        for part in range(slices):
            middle = depth + (part + 0.5) * step
            under = level is not None and middle > level
            metal = (tube.outside - tube.bore) * step
            total += tube.weight / slices - (WATER * metal if under else 0.0)
            if fill is Fill.FULL and n <= closed and not under:
                total += WATER * tube.bore * step
        depth += tube.length
    thickest = max(tube.length * tube.outside for tube in string) * WATER / slices

    assert load(hang(string), level, top, fill) == pytest.approx(total, abs=thickest + 1e-6)


@common
@given(tubes(), st.integers(1, 12), numbers(0, 300), tops, numbers(0, 300))
def test_load_falls_as_joints_come_out_except_while_the_pump_leaves_the_water(
    joint: Tube, count: int, level: float, top: float, pump_in_water: float
) -> None:
    joint = Tube(joint.length, WATER * joint.outside * joint.length, joint.bore, joint.outside,
                 valve=False)  # fmt: skip
    pump = Piece(
        "pump", "pump", quantity(3, "ft"), quantity(2 * pump_in_water + 1, "lbf"),
        quantity(pump_in_water / WATER, "ft**3"), quantity(0, "ft**2"), quantity(0.1, "ft**2"),
    )  # fmt: skip
    hung = HangingString([*(joint.piece(f"joint {n}") for n in range(count)), pump])
    for fill in (Fill.FULL, Fill.DRAINED):
        curve = hung.load_curve(
            level=feet(level),
            top=quantity(top, "ft"),
            fill=fill,
            water_weight=quantity(WATER, "lbf/ft**3"),
        ).values
        for out in range(count):
            bottom_before = top + (count - out) * joint.length + 3
            leaves = bottom_before > level > bottom_before - joint.length - 3
            assert leaves or curve[out + 1] <= curve[out] + 1e-6


@common
@given(strings, levels, tops, st.sampled_from([Fill.FULL, Fill.DRAINED]))
def test_the_curve_is_the_load_of_each_count(
    string: list[Tube], level: float | None, top: float, fill: Fill
) -> None:
    hung = hang(string)
    curve = hung.load_curve(
        level=feet(level),
        top=quantity(top, "ft"),
        fill=fill,
        water_weight=quantity(WATER, "lbf/ft**3"),
    )

    assert list(curve.values) == pytest.approx(
        [load(hung, level, top, fill, out) for out in range(len(string))], abs=1e-6
    )


@common
@given(strings, numbers(0, 500), tops, numbers(0, 60), st.sampled_from([Fill.FULL, Fill.DRAINED]))
def test_the_load_never_falls_while_the_string_is_raised(
    string: list[Tube], level: float, top: float, rise: float, fill: Fill
) -> None:
    lift = hang(string).rise_within_lift(
        level=feet(level),
        top=quantity(top, "ft"),
        fill=fill,
        water_weight=quantity(WATER, "lbf/ft**3"),
        rise=quantity(rise, "ft"),
    )

    assert lift.gain.m_as("lbf") >= -1e-6


@common
@given(strings, levels, tops, numbers(0, 1))
def test_the_unit_system_never_changes_the_answer(
    string: list[Tube], level: float | None, top: float, part: float
) -> None:
    out = quantity(part * sum(tube.length for tube in string), "ft")
    customary, metric = (
        hang(string, metric=metric).hook_load(
            level=None if level is None else quantity(level, "ft").to(length),
            top=quantity(top, "ft").to(length),
            fill=Fill.FULL,
            water_weight=quantity(WATER, "lbf/ft**3").to(weight),
            out=out.to(length),
        )
        for metric, length, weight in ((False, "ft", "lbf/ft**3"), (True, "cm", "kN/m**3"))
    )

    assert metric.m_as("kN") == pytest.approx(customary.m_as("kN"), rel=1e-9, abs=1e-9)


@common
@given(strings, levels, tops)
def test_all_of_the_footage_out_leaves_nothing(
    string: list[Tube], level: float | None, top: float
) -> None:
    hung = hang(string)
    left = hung.hook_load(
        level=feet(level),
        top=quantity(top, "ft"),
        fill=Fill.FULL,
        water_weight=quantity(WATER, "lbf/ft**3"),
        out=hung.length,
    )

    assert left.m_as("lbf") == pytest.approx(0.0, abs=1e-6)
