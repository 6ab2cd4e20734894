"""Pressure in the drop line against handbooks, surge tables and common practice."""

from __future__ import annotations

import pytest

from calc.drop_line.pipe import pvc_pipe, steel_pipe
from calc.hydraulics.pressure import (
    dead_head,
    end_thrust,
    net_of_annulus,
    open_water_speed,
    standing_pressure,
    surge,
    wave_speed,
)
from calc.units import Quantity, quantity

WATER = quantity(62.4, "lbf/ft**3")
NOTHING = quantity(0, "psi")


def head(feet: float, *, weight: Quantity = WATER, surface: float = 0.0) -> float:
    pressure = standing_pressure(
        column=quantity(feet, "ft"), water_weight=weight, surface_pressure=quantity(surface, "psi")
    )
    return pressure.m_as("psi")


def test_one_foot_of_water() -> None:
    """0.433 psi; a plumbing handbook prints .43 for 1 ft and 43.31 for 100 ft at 60 F.

    A newspaper's "2.31 psi per ft" is the inverse, and wrong.
    """
    assert head(1) == pytest.approx(0.433, abs=0.0005)
    assert head(100, weight=quantity(62.367, "lbf/ft**3")) == pytest.approx(43.31, abs=0.005)


def test_one_psi_of_water() -> None:
    """MIL-HDBK-1164 App. A: 2.31 ft of water is 1 psi."""
    assert head(2.31) == pytest.approx(1.0, abs=0.005 / 2.31)


def test_the_46_ft_row_of_the_handbook() -> None:
    """Hand calculation: 46 x 62.367 / 144 = 19.92 psi; a copied head table prints 9.92."""
    assert head(46, weight=quantity(62.367, "lbf/ft**3")) == pytest.approx(19.92, abs=0.005)


@pytest.mark.parametrize(
    ("feet", "surface", "psi"),
    # Common practice, no published source: 43.3 psi for each 100 ft; a pump at 500 ft with a
    # 60 psi tank stands at about 276; about 430 psi at 1,000 ft.
    [(100, 0, 43.3), (500, 60, 276), (1000, 0, 430)],
)
def test_common_practice(feet: float, surface: float, psi: float) -> None:
    assert head(feet, surface=surface) == pytest.approx(psi, rel=0.01)


def test_dead_head_is_shut_off_head_plus_submergence() -> None:
    """Hand calculation: 600 ft of head, 100 ft under water: 700 x 0.43333 = 303.3 psi."""
    pressure = dead_head(
        shut_off_head=quantity(600, "ft"), submergence=quantity(100, "ft"), water_weight=WATER
    )

    assert pressure.m_as("psi") == pytest.approx(303.3, abs=0.05)


def test_net_of_the_annulus() -> None:
    """Hand calculation: 173.3 psi inside, 86.7 outside leaves 86.7."""
    net = net_of_annulus(
        gross=quantity(head(400), "psi"), submergence=quantity(200, "ft"), water_weight=WATER
    )

    assert net.m_as("psi") == pytest.approx(86.7, abs=0.05)


def wave(diameter: float, wall: float, modulus: float, *, open_water: float = 4720.0) -> Quantity:
    return wave_speed(
        open_water=quantity(open_water, "ft/s"),
        bulk_modulus=quantity(300_000, "psi"),
        diameter=quantity(diameter, "in"),
        wall=quantity(wall, "in"),
        elastic_modulus=quantity(modulus, "psi"),
    )


def rise(speed: Quantity, weight: Quantity = WATER) -> float:
    return surge(wave_speed=speed, velocity_change=quantity(1, "ft/s"), water_weight=weight).m_as(
        "psi"
    )


@pytest.mark.parametrize(
    ("material", "nps", "schedule", "speed", "psi"),
    # Buried Pipe Design form a = 4720/sqrt(1 + K D/(E t)), D inside; ft/s and psi per ft/s.
    [
        ("PVC", "1-1/4", "80", 1924, 25.9),
        ("PVC", "2", "80", 1704, 23.0),
        ("PVC", "1", "40", 1795, 24.2),
        ("steel", "1-1/4", "40", 4503, 60.7),
        ("steel", "2", "40", 4432, 59.7),
    ],
)
def test_wave_speed_and_surge(
    material: str, nps: str, schedule: str, speed: float, psi: float
) -> None:
    size = (pvc_pipe if material == "PVC" else steel_pipe)(nps, schedule)
    computed = wave(
        size.inside_diameter.m_as("in"),
        size.wall.m_as("in"),
        400_000 if material == "PVC" else 30e6,
    )

    assert computed.m_as("ft/s") == pytest.approx(speed, abs=0.6)
    assert rise(computed) == pytest.approx(psi, abs=0.06)


@pytest.mark.parametrize(("ratio", "speed", "psi"), [(14, 1474, 19.8), (18, 1292, 17.4),
                                                     (25, 1091, 14.7)])  # fmt: skip
def test_awwa_surge_table(ratio: float, speed: float, psi: float) -> None:
    """The AWWA C900 surge table, from memory: 4660 form, the bore being DR - 2 walls."""
    computed = wave(ratio - 2, 1.0, 400_000, open_water=4660)

    assert computed.m_as("ft/s") == pytest.approx(speed, abs=0.6)
    assert rise(computed) == pytest.approx(psi, abs=0.05)


def test_university_worked_example() -> None:
    """NMSU Soils 456 notes ch. 8: 1 ft/s, OD 1.66, t 0.14, E 400,000: 20.3 psi.

    Its 4700 ft/s and 294,000 psi with the outside diameter; with the inside one it is 22.0.
    """
    outside, inside = (
        rise(
            wave_speed(
                open_water=quantity(4700, "ft/s"),
                bulk_modulus=quantity(294_000, "psi"),
                diameter=quantity(diameter, "in"),
                wall=quantity(0.14, "in"),
                elastic_modulus=quantity(400_000, "psi"),
            )
        )
        for diameter in (1.66, 1.38)
    )

    assert outside == pytest.approx(20.3, abs=0.05)
    assert inside == pytest.approx(22.0, abs=0.05)


def test_speed_in_open_water() -> None:
    """Buried Pipe Design p. 189: 4,720 ft/s, with 300,000 psi and 62.4 lb/ft3."""
    speed = open_water_speed(bulk_modulus=quantity(300_000, "psi"), water_weight=WATER)

    assert speed.m_as("ft/s") == pytest.approx(4720, abs=5)


def test_end_thrust() -> None:
    """Hand calculation: 60 psi on a 2.3 in bore, about 250 lbf.

    And the trade's 50 psi on 2 in pipe, about 170 lbf.
    """
    hose = end_thrust(pressure=quantity(60, "psi"), bore_area=quantity(4.1548, "in**2"))
    pipe = end_thrust(pressure=quantity(50, "psi"), bore_area=steel_pipe("2", "40").bore_area)

    assert hose.m_as("lbf") == pytest.approx(249.3, abs=0.1)
    assert pipe.m_as("lbf") == pytest.approx(170, abs=5)
