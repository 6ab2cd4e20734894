"""Fresh water against IAPWS over a grid, and against the head factors in circulation."""

from __future__ import annotations

import pytest
from iapws import IAPWS95, IAPWS97

from calc.hydraulics.water import (
    density,
    head_of_pressure,
    kinematic_viscosity,
    pressure_of_head,
    weight_density,
)
from calc.units import quantity

ATMOSPHERE_MPA = 0.101325
STANDARD_GRAVITY = 9.80665
WATER = quantity(62.4, "lbf/ft**3")

TABLE = [
    # F, kg/m3, lb/ft3, psi/ft, ft/psi, lb/US gal, ft2/s: computed with IAPWS-95 and IAPWS-97, and
    # a second library of fluid properties agrees in every digit.
    (39.2, 999.975, 62.426, 0.43352, 2.3067, 8.3452, 1.687e-5),
    (40, 999.973, 62.426, 0.43352, 2.3067, 8.3452, 1.663e-5),
    (50, 999.702, 62.409, 0.43340, 2.3073, 8.3429, 1.406e-5),
    (55, 999.408, 62.391, 0.43327, 2.3080, 8.3405, 1.301e-5),
    (60, 999.017, 62.367, 0.43310, 2.3089, 8.3372, 1.208e-5),
    (68, 998.207, 62.316, 0.43275, 2.3108, 8.3304, 1.080e-5),
    (70, 997.971, 62.301, 0.43265, 2.3113, 8.3285, 1.052e-5),
    (80, 996.607, 62.216, 0.43206, 2.3145, 8.3171, 9.259e-6),
    (90, 994.957, 62.113, 0.43134, 2.3184, 8.3033, 8.232e-6),
    (100, 993.048, 61.994, 0.43051, 2.3228, 8.2874, 7.381e-6),
]


@pytest.mark.parametrize(("degrees", "si", "us", "head", "inverse", "gallon", "viscosity"), TABLE)
def test_reference_table(
    degrees: float,
    si: float,
    us: float,
    head: float,
    inverse: float,
    gallon: float,
    viscosity: float,
) -> None:
    """IAPWS-95 and IAPWS-97, as computed with `iapws`."""
    at = quantity(degrees, "degF")
    weight = weight_density(at)
    foot = pressure_of_head(head=quantity(1, "ft"), water_weight=weight)
    psi = head_of_pressure(pressure=quantity(1, "psi"), water_weight=weight)

    assert weight.m_as("lbf/ft**3") == pytest.approx(us, abs=5e-4)
    assert weight.m_as("kgf/m**3") == pytest.approx(si, abs=0.01)
    assert density(at).m_as("kg/m**3") == pytest.approx(si, abs=0.01)
    assert weight.m_as("lbf/gallon") == pytest.approx(gallon, abs=1e-4)
    assert foot.m_as("psi") == pytest.approx(head, abs=1e-5)
    assert psi.m_as("ft") == pytest.approx(inverse, abs=1e-4)
    assert kinematic_viscosity(at).m_as("ft**2/s") == pytest.approx(viscosity, abs=1e-8)


@pytest.mark.parametrize("celsius", [0.5 + 1.25 * step for step in range(48)])
def test_iapws_between_the_points(celsius: float) -> None:
    """Straight lines lie within 0.01 % of the density, 0.5 % of the viscosity, to 59 C."""
    kelvin = celsius + 273.15
    theirs = IAPWS95(T=kelvin, P=ATMOSPHERE_MPA).rho
    viscosity = IAPWS97(T=kelvin, P=ATMOSPHERE_MPA).mu / theirs
    at = quantity(celsius, "degC")

    assert density(at).m_as("kg/m**3") == pytest.approx(theirs, rel=1e-4)
    assert weight_density(at).m_as("N/m**3") == pytest.approx(theirs * STANDARD_GRAVITY, rel=1e-4)
    assert kinematic_viscosity(at).m_as("m**2/s") == pytest.approx(viscosity, rel=5e-3)


def test_the_viscosity_at_55_f_is_that_of_iapws() -> None:
    """IAPWS-97 gives 1.301e-5; the hydraulics vignette of Maurer 2022 has 1.318e-5."""
    assert kinematic_viscosity(quantity(55, "degF")).m_as("ft**2/s") == pytest.approx(
        1.301e-5, abs=5e-9
    )


def test_density_of_a_teaching_package() -> None:
    """997.075 kg/m3 at 25 C (hydraulics vignette, Maurer 2022); IAPWS gives 997.047."""
    weight = weight_density(quantity(25, "degC")).m_as("kgf/m**3")

    assert weight == pytest.approx(997.047, abs=0.05)
    assert weight == pytest.approx(997.075, abs=0.08)


def test_w1_1_one_foot_of_water() -> None:
    """Hand calculation: 62.4 / 144; Manual of Plumbing Practice Table I: .43, 4.33, 43.31."""
    foot = pressure_of_head(head=quantity(1, "ft"), water_weight=WATER)
    at_60 = weight_density(quantity(60, "degF"))

    assert foot.m_as("psi") == pytest.approx(0.433, abs=5e-4)
    for feet, printed, rounding in ((1, 0.43, 0.005), (10, 4.33, 0.005), (100, 43.31, 0.005)):
        column = pressure_of_head(head=quantity(feet, "ft"), water_weight=at_60)
        assert column.m_as("psi") == pytest.approx(printed, abs=rounding)


def test_w1_2_one_psi_of_water() -> None:
    """2.31 ft, as MIL-HDBK-1164 App. A works."""
    assert head_of_pressure(pressure=quantity(1, "psi"), water_weight=WATER).m_as(
        "ft"
    ) == pytest.approx(2.31, abs=0.005)


def test_the_conventional_foot_of_water() -> None:
    """NIST SP 811 App. B, from memory: 1 ft of water at 39.2 F is 2.98898 kPa."""
    foot = pressure_of_head(
        head=quantity(1, "ft"), water_weight=weight_density(quantity(39.2, "degF"))
    )

    assert foot.m_as("kPa") == pytest.approx(2.98898, rel=5e-5)


def test_head_is_not_the_inverse() -> None:
    """Hand calculation: 100 ft x 62.4 / 144 = 43.3 psi; a newspaper prints 231."""
    column = pressure_of_head(head=quantity(100, "ft"), water_weight=WATER)

    assert column.m_as("psi") == pytest.approx(43.3, abs=0.05)
