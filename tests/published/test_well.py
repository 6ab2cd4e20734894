"""Wells against MIL-HDBK-1164, state rules and tables; cooling against the trade's figures."""

from __future__ import annotations

import pytest

from calc.check import Verdict
from calc.hydraulics.cooling import (
    cooling_velocity,
    judge_cooling,
    least_cooling_flow,
    least_cooling_velocity,
)
from calc.hydraulics.water import head_of_pressure
from calc.hydraulics.well import (
    air_line_level,
    annulus_per_length,
    bottom_clearance,
    drawdown,
    expected_drawdown,
    recovery,
    setting_depth,
    specific_capacity,
    submergence,
    volume_per_length,
)
from calc.units import Quantity, quantity

WATER_OF_HANDBOOK = quantity(144 / 2.31, "lbf/ft**3")
"""MIL-HDBK-1164 works with 2.31 ft to the psi."""


def feet(value: float) -> Quantity:
    return quantity(value, "ft")


@pytest.mark.parametrize(
    ("inches", "gallons"),
    [(4, 0.65), (5, 1.02), (6, 1.47), (8, 2.61), (10, 4.08), (12, 5.88)],
)
def test_w8_volume_of_a_foot_of_well(inches: float, gallons: float) -> None:
    """MIL-HDBK-1164 Table 1; 5 in a hand calculation, 0.0408 x 25."""
    volume = volume_per_length(bore=quantity(inches, "in"))

    assert volume.m_as("gallon/ft") == pytest.approx(gallons, abs=0.005)


def test_the_metric_column_of_the_handbook_is_wrong() -> None:
    """MIL-HDBK-1164 Table 1 has 3.1 L/m for 100 mm. Hand calculation: 7.85, and 8.1 for 4 in."""
    assert volume_per_length(bore=quantity(100, "mm")).m_as("l/m") == pytest.approx(7.85, abs=0.005)
    assert volume_per_length(bore=quantity(4, "in")).m_as("l/m") == pytest.approx(8.1, abs=0.05)


def test_the_alberta_guide_is_in_imperial_gallons_and_doubled() -> None:
    """Alberta has 2.4 gal/ft for 6 in: twice the casing's 1.2 imperial gallons, 1.47 US."""
    volume = volume_per_length(bore=quantity(6, "in"))

    assert volume.m_as("imperial_gallon/ft") == pytest.approx(1.2, abs=0.05)
    assert volume.m_as("gallon/ft") == pytest.approx(1.47, abs=0.005)


@pytest.mark.parametrize(
    ("inches", "printed", "true"),
    # 327 IAC 8-3.4-24 Table 24-1, gal per 100 ft. Its 5 in and 60 in rows misprint the volume.
    [(6, 146.9, 146.9), (8, 261.1, 261.1), (10, 408.0, 408.0), (12, 587.5, 587.5),
     (16, 1044, 1044.5), (24, 2350, 2350), (36, 5287, 5288), (5, 106.09, 102.0),
     (60, 11_690, 14_688)],
)  # fmt: skip
def test_indiana_volumes(inches: float, printed: float, true: float) -> None:
    volume = 100 * volume_per_length(bore=quantity(inches, "in")).m_as("gallon/ft")

    assert volume == pytest.approx(true, rel=3e-4)
    assert (volume == pytest.approx(printed, rel=1e-3)) == (inches not in {5, 60})


def test_annulus() -> None:
    """Hand calculation: 6 in casing, 2.375 in pipe: 0.0408 x (36 - 5.6406) = 1.2387 gal/ft."""
    gap = annulus_per_length(bore=quantity(6, "in"), inner_diameter=quantity(2.375, "in"))

    assert gap.m_as("gallon/ft") == pytest.approx(1.2387, abs=2e-4)


def test_w8_s1_specific_capacity() -> None:
    """MIL-HDBK-1164 4.5.1, definition; hand calculation: 20 gpm at 40 ft is 0.5 gpm/ft."""
    capacity = specific_capacity(
        flow=quantity(20, "gpm"),
        drawdown=drawdown(static_level=feet(60), pumping_level=feet(100)),
    )

    assert capacity.m_as("gpm/ft") == pytest.approx(0.5, abs=1e-12)
    assert expected_drawdown(flow=quantity(15, "gpm"), specific_capacity=capacity).m_as(
        "ft"
    ) == pytest.approx(30)


@pytest.mark.parametrize(
    ("psi", "submerged", "level"), [(25, 57.7, 92.3), (18, 41.6, 108.4)], ids=["W8-a1", "W8-a2"]
)
def test_w8_air_line(psi: float, submerged: float, level: float) -> None:
    """MIL-HDBK-1164 App. A: a 150 ft line at 25 psi static, at 18 psi pumping."""
    found = air_line_level(
        line_depth=feet(150), pressure=quantity(psi, "psi"), water_weight=WATER_OF_HANDBOOK
    ).m_as("ft")

    assert found == pytest.approx(level, abs=0.06)
    assert 150 - found == pytest.approx(submerged, abs=0.06)


def test_w8_a3_drawdown_by_air_line() -> None:
    """The same line: 25 psi falls to 18 psi: 16.1 ft printed, 16.17 unrounded."""
    static, pumping = (
        air_line_level(
            line_depth=feet(150), pressure=quantity(psi, "psi"), water_weight=WATER_OF_HANDBOOK
        )
        for psi in (25, 18)
    )
    down = drawdown(static_level=static, pumping_level=pumping).m_as("ft")

    assert down == pytest.approx(16.1, abs=0.1)
    assert down == pytest.approx(16.17, abs=1e-6)


def test_how_sure_an_air_line_is() -> None:
    """Colorado: a gauge good to 1 psi is good to 2.31 ft."""
    off = head_of_pressure(pressure=quantity(1, "psi"), water_weight=WATER_OF_HANDBOOK)

    assert off.m_as("ft") == pytest.approx(2.31, abs=1e-9)


def test_setting_by_the_rule_of_south_dakota() -> None:
    """ARSD 74:02:04:60, static + flow / specific capacity + 10 ft. Hand: 60 + 15/0.5 + 10 = 100."""
    depth = setting_depth(
        static_level=feet(60),
        flow=quantity(15, "gpm"),
        specific_capacity=quantity(0.5, "gpm/ft"),
        submergence=feet(10),
    )

    assert depth.m_as("ft") == pytest.approx(100)
    assert submergence(intake_depth=depth, level=feet(90)).m_as("ft") == pytest.approx(10)


def test_setting_in_a_flowing_well() -> None:
    """Hand calculation: water 8 ft above the datum: -8 + 30 + 10 = 32 ft."""
    depth = setting_depth(
        static_level=feet(-8),
        flow=quantity(15, "gpm"),
        specific_capacity=quantity(0.5, "gpm/ft"),
        submergence=feet(10),
    )

    assert depth.m_as("ft") == pytest.approx(32)


def test_recovery_and_clearance() -> None:
    """Hand calculation: from 100 ft back to 70 of a 40 ft drawdown is 75 %; 220 - 205 = 15 ft."""
    share = recovery(static_level=feet(60), pumping_level=feet(100), level=feet(70))
    room = bottom_clearance(well_depth=feet(220), string_bottom=feet(205))

    assert share == pytest.approx(0.75)
    assert room.m_as("ft") == pytest.approx(15)


@pytest.mark.parametrize(
    ("across", "casing", "feet_a_second", "gpm"),
    # Hand calculation: pi/4 (D^2 - d^2) / 144 x ft/s x 448.83; 17.23 in2 is 13.43 gpm.
    [(3.75, 6, 0.25, 13.43), (3.75, 8, 0.25, 30.56), (5.5, 8, 0.5, 41.32), (5.5, 10, 0.5, 85.37)],
)
def test_least_flow_past_a_motor_by_hand(
    across: float, casing: float, feet_a_second: float, gpm: float
) -> None:
    """Hand calculation; which velocity a motor needs is its maker's to say."""
    least = least_cooling_flow(
        least_velocity=quantity(feet_a_second, "ft/s"),
        bore=quantity(casing, "in"),
        motor_diameter=quantity(across, "in"),
    )

    assert least.m_as("gpm") == pytest.approx(gpm, rel=1e-3)


@pytest.mark.parametrize(("size", "speed"), [(4, 0.25), (6, 0.5)])
def test_least_velocity_past_a_motor(size: int, speed: float) -> None:
    """Common practice, no published source: 0.25 ft/s round a 4 in motor, 0.5 round a 6 in."""
    least = least_cooling_velocity(nominal_size=size, water_temperature=quantity(55, "degF"))

    assert least.m_as("ft/s") == pytest.approx(speed)


def test_cooling_velocity() -> None:
    """Hand calculation: 10 gpm round 3.75 in in 6 in: 0.02228 / 0.11965 = 0.1862 ft/s."""
    speed = cooling_velocity(
        flow=quantity(10, "gpm"), bore=quantity(6, "in"), motor_diameter=quantity(3.75, "in")
    )

    assert speed.m_as("ft/s") == pytest.approx(0.1862, abs=1e-4)


@pytest.mark.parametrize(
    ("bore", "from_below", "verdict", "speed"),
    # Hand calculation, 10 gpm, 3.75 in motor, 0.25 ft/s: 0.186 in 6 in casing, 0.373 in 5 in.
    [
        (6, True, Verdict.STOP, 0.1862),
        (5, True, Verdict.WITHIN, 0.3735),
        (5, False, Verdict.STOP, None),
    ],
)
def test_whether_a_sleeve_is_needed(
    bore: float, from_below: bool, verdict: Verdict, speed: float | None
) -> None:
    """Hand calculation of the speed; that none comes from below is a stop whatever it is."""
    check = judge_cooling(
        flow=quantity(10, "gpm"),
        bore=quantity(bore, "in"),
        motor_diameter=quantity(3.75, "in"),
        least_velocity=quantity(0.25, "ft/s"),
        water_from_below=from_below,
        caution_share=0.8,
    )

    assert check.verdict is verdict
    assert (verdict is Verdict.WITHIN) or "sleeve" in check.note
    if speed is not None:
        assert check.share == pytest.approx(0.25 / speed, rel=1e-3)
