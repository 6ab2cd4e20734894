"""Pump curve, speed and power against a handbook, another library and hand calculations.

No published curve comes with its own points and answers, so the meeting of curve and system is
checked by hand calculation.
"""

from __future__ import annotations

import pytest
from scipy.interpolate import PchipInterpolator  # type: ignore[import-untyped] # it has no stubs

from calc.hydraulics.affinity import flow_at_speed, head_at_speed, power_at_speed
from calc.hydraulics.duty import brake_power, hydraulic_power, pump_efficiency, total_dynamic_head
from calc.hydraulics.friction import hazen_williams
from calc.hydraulics.monotone import MonotoneCurve
from calc.hydraulics.pump import PumpCurve, PumpPoint
from calc.units import Quantity, quantity

SPEED = quantity(3450, "rpm")
WATER = quantity(62.4, "lbf/ft**3")
SHEET: list[tuple[float, float, float | None]] = [(0, 300, None), (5, 285, 0.40), (10, 250, 0.58),
         (15, 185, 0.60), (20, 80, 0.42)]  # fmt: skip
"""An invented pump."""


def curve(rows: list[tuple[float, float, float | None]]) -> PumpCurve:
    return PumpCurve(
        [PumpPoint(quantity(flow, "gpm"), quantity(head, "ft"), eff) for flow, head, eff in rows],
        speed=SPEED,
    )


def test_affinity_laws() -> None:
    """DOE-HDBK-1012/3 HT-03 p. 50: 1,800 rpm, 400 gpm, 48 ft, 45 kW; at 3,600 rpm 800, 192, 360."""
    speeds = {"speed": quantity(1800, "rpm"), "new_speed": quantity(3600, "rpm")}

    assert flow_at_speed(flow=quantity(400, "gpm"), **speeds).m_as("gpm") == pytest.approx(800)
    assert head_at_speed(head=quantity(48, "ft"), **speeds).m_as("ft") == pytest.approx(192)
    assert power_at_speed(power=quantity(45, "kW"), **speeds).m_as("kW") == pytest.approx(360)


def test_ten_percent_more_speed() -> None:
    """Hand calculation by DOE-HDBK-1012/3's laws: 1.1^2 = 1.21 of head, 1.1^3 = 1.331 of power."""
    speeds = {"speed": quantity(50, "Hz"), "new_speed": quantity(55, "Hz")}

    assert head_at_speed(head=quantity(100, "ft"), **speeds).m_as("ft") == pytest.approx(
        121.0, abs=1e-6
    )
    assert power_at_speed(power=quantity(100, "hp"), **speeds).m_as("hp") == pytest.approx(
        133.1, abs=1e-6
    )


def test_a_whole_curve_at_another_speed() -> None:
    """Hand calculation: at 50/60 of the speed 10 gpm, 250 ft is 8.333 gpm, 173.61 ft."""
    slower = curve(SHEET).at_speed(SPEED * (50 / 60))

    assert slower.head_at(quantity(10 * 50 / 60, "gpm")).m_as("ft") == pytest.approx(
        173.61, abs=5e-3
    )
    assert slower.shut_off_head().m_as("ft") == pytest.approx(208.33, abs=5e-3)
    assert slower.efficiency_at(quantity(12.5, "gpm")) == pytest.approx(0.60)


def test_the_curve_between_points_by_hand() -> None:
    """Hand calculation: (0, 100), (10, 90), (30, 40); slopes -0.5 and -1.3636; at 5: 96.0795."""
    between = MonotoneCurve([(0, 100), (10, 90), (30, 40)])

    assert between.at(5) == pytest.approx(96.0795, abs=5e-5)


@pytest.mark.parametrize(
    "points",
    [
        [(0, 300), (5, 285), (10, 250), (15, 185), (20, 80)],
        [(0, 300), (1, 299), (20, 80)],
        [(0, 10), (3, 10), (4, 2), (9, 1)],
        [(5, 0.40), (10, 0.58), (15, 0.60), (20, 0.42)],
        [(0, 1), (1, 0), (2, 5), (7, 5.5), (7.5, -3)],
    ],
)
def test_the_curve_against_another_library(points: list[tuple[float, float]]) -> None:
    """Fritsch and Butland's curve as scipy has it, at 101 places."""
    theirs = PchipInterpolator([x for x, _ in points], [y for _, y in points])
    ours = MonotoneCurve(points)
    first, last = points[0][0], points[-1][0]

    for step in range(101):
        x = min(first + (last - first) * step / 100, last)
        assert ours.at(x) == pytest.approx(float(theirs(x)), rel=1e-9, abs=1e-9)


def test_operating_point_of_a_straight_curve() -> None:
    """Hand calculation: 300 - 3 Q meets 100 + 0.05 Q^2 where Q = (-3 + 7)/0.1 = 40 gpm, 180 ft."""

    def system(flow: Quantity) -> Quantity:
        return quantity(100 + 0.05 * flow.m_as("gpm") ** 2, "ft")

    point = curve([(0, 300, None), (60, 120, None)]).operating_point(system)

    assert point.flow.m_as("gpm") == pytest.approx(40, abs=1e-6)
    assert point.head.m_as("ft") == pytest.approx(180, abs=1e-6)


def test_operating_point_in_a_well() -> None:
    """Hand calculation: 150 ft of lift and 400 ft of 1.278 in pipe, C 150, and the invented pump.

    At 15 gpm the pipe takes 7.652 x 4 x (15/20)^1.852 = 17.97 ft: 167.97 against the pump's 185. At
    16 gpm it takes 20.25 against about 167: they meet just below.
    """

    def system(flow: Quantity) -> Quantity:
        return total_dynamic_head(
            lift=quantity(150, "ft"),
            surface_pressure=quantity(0, "psi"),
            losses=hazen_williams(
                flow=flow,
                length=quantity(400, "ft"),
                inside_diameter=quantity(1.278, "in"),
                coefficient=150,
            ),
            water_weight=WATER,
        )

    point = curve(SHEET).operating_point(system)

    assert system(quantity(15, "gpm")).m_as("ft") == pytest.approx(167.97, abs=0.01)
    assert 15 < point.flow.m_as("gpm") < 16
    assert system(point.flow).m_as("ft") == pytest.approx(point.head.m_as("ft"), abs=1e-6)


def test_total_head() -> None:
    """Hand calculation: 200 ft lift, 60 psi x 2.3077 = 138.46 ft, 12 ft of loss: 350.5 ft."""
    head = total_dynamic_head(
        lift=quantity(200, "ft"),
        surface_pressure=quantity(60, "psi"),
        losses=quantity(12, "ft"),
        water_weight=WATER,
    )

    assert head.m_as("ft") == pytest.approx(350.46, abs=0.01)


def test_a_flowing_well_lifts_less() -> None:
    """Hand calculation: water 10 ft above the gauge, 20 psi, 3 ft of loss: 39.15 ft."""
    head = total_dynamic_head(
        lift=quantity(-10, "ft"),
        surface_pressure=quantity(20, "psi"),
        losses=quantity(3, "ft"),
        water_weight=WATER,
    )

    assert head.m_as("ft") == pytest.approx(39.15, abs=0.01)


@pytest.mark.parametrize(("weight", "constant"), [(62.4, 3956), (62.338, 3960)])
def test_water_horsepower(weight: float, constant: float) -> None:
    """Irrigation texts print 3,960, which is 33,000 / 8-1/3 lb/gal, water near 65 F.

    Merkley and Allen, lecture 11: 3,956 for 62.4 lb/ft3.
    """
    power = hydraulic_power(
        flow=quantity(100, "gpm"),
        head=quantity(250, "ft"),
        water_weight=quantity(weight, "lbf/ft**3"),
    )

    assert power.m_as("hp") == pytest.approx(100 * 250 / constant, rel=1e-4)


def test_water_power_in_kilowatts() -> None:
    """Merkley and Allen: l/s x m / 102 is kW, for 9.81 kN/m3."""
    power = hydraulic_power(
        flow=quantity(10, "l/s"), head=quantity(50, "m"), water_weight=quantity(9.81, "kN/m**3")
    )

    assert power.m_as("kW") == pytest.approx(500 / 102, rel=1e-3)


def test_brake_horsepower_and_efficiency() -> None:
    """Hand calculation, gpm x ft / (3,960 x efficiency): 100 gpm, 250 ft, 65 %: 9.71 hp."""
    water = hydraulic_power(
        flow=quantity(100, "gpm"),
        head=quantity(250, "ft"),
        water_weight=quantity(62.338, "lbf/ft**3"),
    )
    shaft = brake_power(hydraulic_power=water, efficiency=0.65)

    assert shaft.m_as("hp") == pytest.approx(9.71, abs=0.005)
    assert pump_efficiency(hydraulic_power=water, brake_power=shaft) == pytest.approx(0.65)
