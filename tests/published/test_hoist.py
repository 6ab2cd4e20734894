"""Lift path and gauge against API RP 9B, the Wire Rope Users Manual, Navy manuals and statics."""

from __future__ import annotations

import pytest

from calc.hoisting.gauge import Gauge, GaugePlace, hook_load_from_reading, reading_for_hook_load
from calc.hoisting.hoist import (
    Motion,
    Redirect,
    Reeving,
    dead_line_pull,
    efficiency,
    jerk_allowance,
    line_pull,
    mast_load,
    navy_line_pull,
    picked_up,
    redirect_chain,
    sheave_load,
)
from calc.hoisting.wire_rope import (
    CLIP_EFFICIENCY,
    bending_efficiency,
    breaking_strength,
    clip_spacing,
    clips_needed,
    rope_allowable,
    rule_of_thumb_load,
)
from calc.units import Quantity, quantity


def pounds(value: float) -> Quantity:
    return quantity(value, "lbf")


PARTS = (2, 3, 4, 5, 6, 8, 10)
EFFICIENCY = {
    # EF = (K^N - 1)/(K^S N (K - 1)), S = N, printed to three digits.
    1.04: (0.943, 0.925, 0.907, 0.890, 0.874, 0.842, 0.811),
    1.09: (0.880, 0.844, 0.810, 0.778, 0.748, 0.692, 0.642),
}


@pytest.mark.parametrize(
    ("factor", "parts", "expected"),
    [
        (factor, parts, expected)
        for factor, row in EFFICIENCY.items()
        for parts, expected in zip(PARTS, row, strict=True)
    ],
)
def test_efficiency_table(factor: float, parts: int, expected: float) -> None:
    """API RP 9B 14th ed., its Table of efficiencies; hand calculation of EF to three digits."""
    assert efficiency(Reeving(parts, factor)) == pytest.approx(expected, abs=0.0006)


def test_api_rp_9b_example() -> None:
    """API RP 9B 14th ed. Addendum 1 (2020) 3.3.4: 10 lines, K 1.04, 400,000 lb, 49,200."""
    fast = line_pull(pounds(400_000), reeving=Reeving(10, 1.04), moving=Motion.HOISTING)

    assert fast.m_as("lbf") == pytest.approx(49_200, abs=200)
    assert fast.m_as("lbf") / 400_000 == pytest.approx(0.123, abs=0.0005)


def test_api_rp_9b_design_factor() -> None:
    """API RP 9B, same example: rope of 192,000 lb over 49,200 lb is a design factor of 3.9."""
    allowable = rope_allowable(breaking=pounds(192_000), design_factor=3.9)

    assert allowable.m_as("lbf") == pytest.approx(49_200, abs=49_200 * 0.05 / 3.9)


def test_wire_rope_users_manual_four_parts() -> None:
    """4 parts, plain bearings K 1.09: lead-line factor 0.309 (4th ed. p. 88)."""
    pull = line_pull(pounds(1000), reeving=Reeving(4, 1.09), moving=Motion.HOISTING)

    assert pull.m_as("lbf") / 1000 == pytest.approx(0.309, abs=0.0005)


def test_wire_rope_users_manual_lead_in_sheaves() -> None:
    """Wire Rope Users Manual: the same with two lead-in sheaves, 6000 lb: 0.367 and 2202 lb."""
    pull = line_pull(pounds(6000), reeving=Reeving(4, 1.09, lead_sheaves=2), moving=Motion.HOISTING)

    assert pull.m_as("lbf") == pytest.approx(2202, abs=5)
    assert pull.m_as("lbf") / 6000 == pytest.approx(0.367, abs=0.0005)


def test_wire_rope_users_manual_no_friction() -> None:
    """4 parts, no friction, 6000 lb: 1500 (4th ed. p. 86)."""
    pull = line_pull(pounds(6000), reeving=Reeving(4, None), moving=Motion.STATIC)

    assert pull.m_as("lbf") == pytest.approx(1500)


def test_navy_threefold_purchase() -> None:
    """NAVEDTRA 14043: advantage 6, 6 sheaves, line 2 tons: lifts 7.5 short tons."""
    pull = navy_line_pull(pounds(7.5 * 2000), parts=6, sheaves=6)

    assert pull.m_as("lbf") == pytest.approx(2 * 2000)


def test_navy_rule_is_the_conservative_one() -> None:
    """Hand calculation, 6,000 lb on 4 parts and 4 sheaves, by three published rules.

    NAVEDTRA 14043: 10 % of the load a sheave, 6,000 x 1.4 / 4 = 2,100. Wire Rope Users Manual, K^4
    (K - 1) / (K^4 - 1): K 1.09 0.30867, 1,852; API RP 9B, K 1.04: 0.27549, 1,653.
    """
    navy = navy_line_pull(pounds(6000), parts=4, sheaves=4)
    plain, roller = (
        line_pull(pounds(6000), reeving=Reeving(4, factor), moving=Motion.HOISTING)
        for factor in (1.09, 1.04)
    )

    assert navy.m_as("lbf") == pytest.approx(2100, abs=0.5)
    assert plain.m_as("lbf") == pytest.approx(1852, abs=0.5)
    assert roller.m_as("lbf") == pytest.approx(1653, abs=0.5)
    assert navy > plain > roller


def test_navy_rope_rules() -> None:
    """NAVEDTRA 14026: 1/2 in rope, 8 D^2 = 2 short tons, 3 D + 1 = 3 clips.

    A how-to page prints 2 D x 8, which is wrong.
    """
    half = quantity(0.5, "in")

    assert rule_of_thumb_load(half).m_as("lbf") == pytest.approx(2 * 2000)
    assert clips_needed(half) == 3
    assert clip_spacing(half).m_as("in") == pytest.approx(3.0)


@pytest.mark.parametrize(("inches", "clips"), [(0.375, 3), (0.5, 3), (0.625, 3), (0.75, 4)])
def test_clips_for_lifting(inches: float, clips: int) -> None:
    """29 CFR 1926.251 Table H-2, from memory. Provincial tables allow 2 at 3/8 in: not taken."""
    assert clips_needed(quantity(inches, "in")) == clips


def test_clip_efficiency() -> None:
    """TM 5-3810-305-10: about 80 %."""
    assert pytest.approx(0.80) == CLIP_EFFICIENCY


@pytest.mark.parametrize(
    ("inches", "fibre", "iwrc"),
    # Fibre core: Engineering ToolBox (seen); IWRC from memory, rounded to 100 lbf and more:
    # EIPS is 1.2355 times it within 0.8 %, IPS 1.075 times within 0.4 %.
    [
        (0.375, 12_200, 15_100),
        (0.4375, 16_540, 20_400),
        (0.5, 21_400, 26_600),
        (0.5625, 27_000, 33_600),
        (0.625, 33_400, 41_200),
        (0.75, 47_600, 58_800),
    ],
)
def test_wire_rope_strength(inches: float, fibre: float, iwrc: float) -> None:
    """Engineering ToolBox, fibre core, and IWRC from memory: see the rows."""
    size = quantity(inches, "in")
    extra = breaking_strength(size, construction="IWRC EIPS").m_as("lbf")
    plain = breaking_strength(size, construction="FC IPS").m_as("lbf")

    assert plain == fibre
    assert extra == iwrc
    assert extra == pytest.approx(1.2355 * fibre, rel=0.008)
    assert breaking_strength(size, construction="IWRC IPS").m_as("lbf") == pytest.approx(
        1.075 * fibre, rel=0.004
    )


@pytest.mark.parametrize(
    ("ratio", "efficiency_kept"),
    [(40, 0.95), (30, 0.93), (20, 0.91), (15, 0.89), (10, 0.86), (8, 0.83), (6, 0.79), (4, 0.75),
     (2, 0.65), (1, 0.50)],
)  # fmt: skip
def test_bending_efficiency(ratio: float, efficiency_kept: float) -> None:
    """The curve of the Wire Rope Users Manual in two trade reproductions (seen)."""
    kept = bending_efficiency(
        sheave_diameter=quantity(ratio / 2, "in"), rope_diameter=quantity(0.5, "in")
    )

    assert kept == pytest.approx(efficiency_kept, abs=1e-9)


@pytest.mark.parametrize(("turn", "factor"), [(180, 2.0), (90, 1.414), (60, 1.0), (0, 0.0)])
def test_sheave_load(turn: float, factor: float) -> None:
    """Statics: 2 T sin(half the turn); turned back on itself twice T, at 90 degrees 1.41 T."""
    load = sheave_load(tension=pounds(1000), turn=quantity(turn, "degree"))

    assert load.m_as("lbf") == pytest.approx(1000 * factor, abs=0.5)


@pytest.mark.parametrize(("parts", "at_ground"), [(1, False), (2, False), (4, False), (4, True)])
def test_mast_load_without_friction(parts: int, at_ground: bool) -> None:
    """Common practice: W (1 + 1/N), single part 2 W, and W/N more with the dead end at ground."""
    load = mast_load(
        pounds(1200),
        reeving=Reeving(parts, 1.0, dead_end_at_ground=at_ground),
        moving=Motion.HOISTING,
    )

    assert load.m_as("lbf") == pytest.approx(
        1200 * (1 + 1 / parts + (1 / parts if at_ground else 0))
    )


def test_redirect_chain_hand_calculation() -> None:
    """Hand calculation: 1,000 lbf over 90 degrees, K 1.09, then 180 degrees, K 1.04.

    1,090 hauling, 1,541.5 on the first anchor; 1,133.6 hauling, 2,267.2 on the second.
    """
    first, second = redirect_chain(
        pounds(1000),
        [
            Redirect("over the casing", quantity(90, "degree"), 1.09),
            Redirect("at the tree", quantity(180, "degree"), 1.04),
        ],
    )

    assert first.anchor.m_as("lbf") == pytest.approx(1541.5, abs=0.1)
    assert second.load_side.m_as("lbf") == pytest.approx(1090)
    assert second.hauling_side.m_as("lbf") == pytest.approx(1133.6)
    assert second.anchor.m_as("lbf") == pytest.approx(2267.2)


def test_pick_up_allowance_hand_calculation() -> None:
    """Hand calculation: 60 ft/min (1 ft/s) stopped in 1 in: 1/(2 x 32.174 x 0.08333) = 0.1865."""
    share = jerk_allowance(speed=quantity(60, "ft/min"), distance=quantity(1, "in"))

    assert share == pytest.approx(0.1865, abs=1e-4)
    assert picked_up(pounds(1000), allowance=share).m_as("lbf") == pytest.approx(1186.5, abs=0.1)


ZERO = pounds(0)


def test_deadline_reads_twelve_percent_low_while_hoisting() -> None:
    """Hand calculation: 4 parts, K 1.09: 12 % low. 0.09/(1.09^4 - 1) is 0.2187 for 0.25."""
    reeving = Reeving(4, 1.09)
    dead = dead_line_pull(pounds(4000), reeving=reeving, moving=Motion.HOISTING)
    reading = reading_for_hook_load(
        pounds(4000),
        gauge=Gauge(GaugePlace.DEADLINE, ZERO),
        reeving=reeving,
        moving=Motion.HOISTING,
    )

    assert dead.m_as("lbf") / 1000 == pytest.approx(1 - 0.12, abs=0.006)
    assert reading.low.m_as("lbf") == pytest.approx(dead.m_as("lbf"))
    assert reading.high.m_as("lbf") == pytest.approx(dead.m_as("lbf"))


def test_two_part_line_without_friction_reads_half() -> None:
    """Common practice: a gauge on the line of a two-part hoist shows 5,000 for 10,000 lbf."""
    for place in (GaugePlace.FAST_LINE, GaugePlace.DEADLINE):
        band = hook_load_from_reading(
            pounds(5000),
            gauge=Gauge(place, ZERO, error=pounds(0)),
            reeving=Reeving(2, 1.0),
            moving=Motion.STATIC,
        )

        assert (band.low.m_as("lbf"), band.high.m_as("lbf")) == pytest.approx((10_000, 10_000))
        assert band.missing == ()


def test_unknown_friction_makes_a_band_and_says_so() -> None:
    """Hand calculation, 2 parts hoisting, fast line 1,000: from 2,000 down to 2,000 x 0.880."""
    band = hook_load_from_reading(
        pounds(1000),
        gauge=Gauge(GaugePlace.FAST_LINE, ZERO, error=pounds(0)),
        reeving=Reeving(2, None),
        moving=Motion.HOISTING,
    )

    assert band.high.m_as("lbf") == pytest.approx(2000)
    assert band.low.m_as("lbf") == pytest.approx(2000 * 0.880, abs=1.5)
    assert band.missing == ("sheave factor",)
    assert "1.09" in band.note


def test_at_rest_the_line_may_hold_friction_from_either_way() -> None:
    """Hand calculation, deadline, 2 parts, K 1.09, 1,000: 1,000 x 2.09 and 1,000 x (1 + 1/1.09)."""
    band = hook_load_from_reading(
        pounds(1000),
        gauge=Gauge(GaugePlace.DEADLINE, ZERO, error=pounds(0)),
        reeving=Reeving(2, 1.09),
        moving=Motion.STATIC,
    )

    assert band.low.m_as("lbf") == pytest.approx(1917.4, abs=0.1)
    assert band.high.m_as("lbf") == pytest.approx(2090)


def test_zero_and_error_of_the_gauge() -> None:
    """Hand calculation, hook: 760 shown, zero 35, error 20: 705 to 745."""
    gauge = Gauge(GaugePlace.HOOK, pounds(35), capacity=pounds(5000), error=pounds(20))
    band = hook_load_from_reading(
        pounds(760), gauge=gauge, reeving=Reeving(1, None), moving=Motion.STATIC
    )

    assert (band.low.m_as("lbf"), band.high.m_as("lbf")) == pytest.approx((705, 745))
    assert band.missing == ()


@pytest.mark.parametrize(("wrap", "factor"), [(180, 2.0), (90, 1.414)])
def test_load_pin_on_a_roller(wrap: float, factor: float) -> None:
    """Statics, common practice: 90 degrees 1.41 T, 180 degrees 2 T, without friction."""
    gauge = Gauge(GaugePlace.LOAD_PIN, ZERO, error=pounds(0), wrap=quantity(wrap, "degree"))
    reading = reading_for_hook_load(
        pounds(1000), gauge=gauge, reeving=Reeving(1, 1.0), moving=Motion.HOISTING
    )

    assert reading.high.m_as("lbf") == pytest.approx(1000 * factor, abs=0.5)


def test_load_pin_with_friction_hand_calculation() -> None:
    """Hand calculation, single part, K 1.09, 180 degrees: the pin feels 1,000 + 1,090 hoisting."""
    gauge = Gauge(GaugePlace.LOAD_PIN, ZERO, error=pounds(0), wrap=quantity(180, "degree"))
    reading = reading_for_hook_load(
        pounds(1000), gauge=gauge, reeving=Reeving(1, 1.09), moving=Motion.HOISTING
    )

    assert reading.low.m_as("lbf") == pytest.approx(2090)


def test_mast_base_pad() -> None:
    """Common practice: single part 2 W."""
    band = hook_load_from_reading(
        pounds(2000),
        gauge=Gauge(GaugePlace.MAST_BASE, ZERO, error=pounds(0)),
        reeving=Reeving(1, 1.0),
        moving=Motion.STATIC,
    )

    assert band.high.m_as("lbf") == pytest.approx(1000)
