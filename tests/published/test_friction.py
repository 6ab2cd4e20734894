"""Friction against printed forms, a handbook example and `fluids` over a grid."""

from __future__ import annotations

from itertools import product

import pytest
from fluids.friction import friction_factor as fluids_factor

from calc.drop_line.hose import Hose, swollen_bore
from calc.drop_line.pipe import pvc_pipe, steel_pipe
from calc.hydraulics.fittings import coefficient_of_loss, fitting, minor_loss
from calc.hydraulics.friction import (
    darcy_weisbach,
    friction_factor,
    hazen_williams,
    reynolds_number,
    surface,
    velocity,
)
from calc.hydraulics.water import kinematic_viscosity
from calc.units import Quantity, quantity

AT_60 = kinematic_viscosity(quantity(60, "degF"))
HUNDRED = quantity(100, "ft")


def hazen(gpm: float, inches: float, coefficient: float, feet: float = 100) -> float:
    return hazen_williams(
        flow=quantity(gpm, "gpm"),
        length=quantity(feet, "ft"),
        inside_diameter=quantity(inches, "in"),
        coefficient=coefficient,
    ).m_as("ft")


def darcy(gpm: float, inches: float, roughness: Quantity) -> float:
    return darcy_weisbach(
        flow=quantity(gpm, "gpm"),
        length=HUNDRED,
        inside_diameter=quantity(inches, "in"),
        roughness=roughness,
        kinematic_viscosity=AT_60,
    ).m_as("ft")


def test_w5_1_and_2_hazen_williams() -> None:
    """Engineering ToolBox: 200 gpm, 3.048 in, C 140: 9 ft per 100 ft, 2.7 ft over 30 ft."""
    assert hazen(200, 3.048, 140) == pytest.approx(9.007, abs=0.0005)
    assert hazen(200, 3.048, 140, feet=30) == pytest.approx(2.7, abs=0.05)


ROWS = [
    # surface, inside diameter, gpm, ft/s, ft/100 ft by HW 0.2083, by HW in SI, by Darcy with the
    # friction factor of `fluids` and the viscosity of IAPWS at 60 F.
    ("galvanized steel", 1.049, 10, 3.71, 8.375, 8.298, 8.473),
    ("galvanized steel", 1.380, 10, 2.15, 2.205, 2.182, 2.080),
    ("galvanized steel", 1.380, 20, 4.29, 7.961, 7.878, 7.831),
    ("galvanized steel", 1.610, 20, 3.15, 3.760, 3.718, 3.544),
    ("galvanized steel", 2.067, 50, 4.78, 6.085, 6.009, 5.736),
    ("galvanized steel", 2.067, 100, 9.56, 21.966, 21.693, 22.203),
    ("galvanized steel", 3.068, 100, 4.34, 3.216, 3.169, 2.877),
    ("PVC", 0.957, 10, 4.46, 8.658, 8.583, 9.208),
    ("PVC", 1.278, 10, 2.50, 2.120, 2.098, 2.317),
    ("PVC", 1.278, 20, 5.00, 7.652, 7.574, 7.902),
    ("PVC", 1.939, 50, 5.43, 5.494, 5.427, 5.502),
]


@pytest.mark.parametrize(("inside", "inches", "gpm", "speed", "us", "si", "by_darcy"), ROWS)
def test_the_cross_check_table(
    inside: str, inches: float, gpm: float, speed: float, us: float, si: float, by_darcy: float
) -> None:
    """Hand calculation of two forms of Hazen-Williams; Darcy with the factor of `fluids`."""
    pipe = surface(inside)
    assert pipe.roughness is not None
    ours = hazen(gpm, inches, pipe.coefficient)

    assert ours == pytest.approx(us, abs=0.0006)
    assert ours == pytest.approx(si, rel=0.015)
    assert darcy(gpm, inches, pipe.roughness) == pytest.approx(by_darcy, rel=2e-3)
    assert velocity(flow=quantity(gpm, "gpm"), inside_diameter=quantity(inches, "in")).m_as(
        "ft/s"
    ) == pytest.approx(speed, abs=0.0055)


@pytest.mark.parametrize(
    ("material", "nps", "schedule", "inches"),
    [("steel", "1-1/4", "40", 1.380), ("steel", "2", "40", 2.067), ("PVC", "1-1/4", "80", 1.278)],
)
def test_the_bores_are_those_of_our_pipe(
    material: str, nps: str, schedule: str, inches: float
) -> None:
    """ASTM A53 and D1785: the printed bore is the outside diameter less two walls."""
    size = (pvc_pipe if material == "PVC" else steel_pipe)(nps, schedule)

    assert size.inside_diameter.m_as("in") == pytest.approx(inches, abs=5e-4)


REYNOLDS = [1, 100, 1999, 2000, 4000, 4001, 1e4, 3e4, 1e5, 1e6, 1e7, 1e8]
ROUGHNESS = [0, 1e-6, 1e-5, 1e-4, 1e-3, 5e-3, 0.02, 0.05]


@pytest.mark.parametrize(("reynolds", "relative"), product(REYNOLDS, ROUGHNESS))
def test_friction_factor_over_the_whole_chart(reynolds: float, relative: float) -> None:
    """64/Re, and the exact solution of Colebrook's equation by another library."""
    if reynolds <= 2000:
        expected = 64 / reynolds
    else:
        expected = fluids_factor(Re=reynolds, eD=relative, Method="Colebrook")

    ours = friction_factor(reynolds=reynolds, relative_roughness=relative)

    assert ours == pytest.approx(expected, rel=1e-9)


def test_the_factor_another_library_misprints() -> None:
    """Colebrook 1939 by `fluids` at Re 1e5 and e/D 1e-4: 0.01851; an approximation has 0.01198."""
    assert friction_factor(reynolds=1e5, relative_roughness=1e-4) == pytest.approx(
        0.01851, abs=5e-6
    )


@pytest.mark.parametrize(
    ("inches", "degrees", "gpm", "grain"),
    list(product([0.8, 1.38, 2.067, 4.026], [35, 60, 100], [10, 25, 60, 250], [5e-6, 5e-4])),
)
def test_darcy_over_a_grid(inches: float, degrees: float, gpm: float, grain: float) -> None:
    """f L/D V^2/2g worked in SI with the factor of `fluids`."""
    viscosity = kinematic_viscosity(quantity(degrees, "degF"))
    bore, speed = inches * 0.0254, gpm * 6.30902e-5 / (0.7853981634 * (inches * 0.0254) ** 2)
    reynolds = speed * bore / viscosity.m_as("m**2/s")
    factor = fluids_factor(Re=reynolds, eD=grain * 0.3048 / bore)
    expected = factor * 30.48 / bore * speed**2 / (2 * 9.80665) / 0.3048

    ours = darcy_weisbach(
        flow=quantity(gpm, "gpm"),
        length=HUNDRED,
        inside_diameter=quantity(inches, "in"),
        roughness=quantity(grain, "ft"),
        kinematic_viscosity=viscosity,
    )

    assert ours.m_as("ft") == pytest.approx(expected, rel=1e-4)


def test_laminar_flow_loses_in_proportion() -> None:
    """Hand calculation, Hagen-Poiseuille: 32 nu L V / (g D^2).

    0.2 gpm in 1.049 in at 60 F: V 0.07425 ft/s, Re 537; 32 x 1.208e-5 x 100 x 0.07425 /
    (32.174 x 0.087417^2) = 0.01167 ft.
    """
    assert darcy(0.2, 1.049, quantity(5e-4, "ft")) == pytest.approx(0.01167, abs=1e-5)


def test_velocity_constant() -> None:
    """Hand calculation: 231/1728/60 x 4/pi x 144 = 0.408498 q/d^2; 0.408709 in print is off."""
    one = velocity(flow=quantity(1, "gpm"), inside_diameter=quantity(1, "in")).m_as("ft/s")

    assert one == pytest.approx(0.408498, abs=2e-5)
    assert one != pytest.approx(0.408709, abs=2e-5)


def test_galvanized_is_120_new_and_100_aged() -> None:
    """Turf Irrigation Manual 120, a fire reference page 100: 6.085 or 8.529 ft in 100 ft.

    Hand calculation of the 0.2083 form: 2 in at 50 gpm, 40 % apart.
    """
    new, aged = surface("galvanized steel"), surface("galvanized steel, aged")

    assert hazen(50, 2.067, new.coefficient) == pytest.approx(6.085, abs=0.0006)
    assert hazen(50, 2.067, aged.coefficient) == pytest.approx(8.529, abs=0.0006)
    assert aged.roughness is None


@pytest.mark.parametrize(
    ("name", "coefficient"),
    [("PVC", 150), ("polyethylene", 140), ("copper", 150), ("steel", 120),
     ("galvanized steel", 120), ("cast iron", 100)],
)  # fmt: skip
def test_design_values_of_c(name: str, coefficient: float) -> None:
    """Turf Irrigation Manual, design values, by way of an encyclopedia (seen)."""
    assert surface(name).coefficient == coefficient


@pytest.mark.parametrize(
    ("name", "feet"),
    [("PVC", 5e-6), ("steel", 1.5e-4), ("galvanized steel", 5e-4), ("cast iron", 8.5e-4)],
)
def test_roughness_as_printed(name: str, feet: float) -> None:
    """Moody's values as sampled from Binder 1973 (seen); PVC as drawn tube."""
    grain = surface(name).roughness

    assert grain is not None
    assert grain.m_as("ft") == pytest.approx(feet, rel=1e-9)


def test_hose_is_wider_under_pressure_and_loses_less() -> None:
    """Hand calculation: 10 % more bore, 1.1^-4.8655 = 0.629 of the loss."""
    hose = Hose(bore=quantity(2, "in"), weight_per_length=quantity(0.6, "lb/ft"), swell=0.10)
    wide = swollen_bore(hose)
    assert wide is not None

    share = hazen(50, wide.m_as("in"), 140) / hazen(50, 2, 140)

    assert share == pytest.approx(0.629, abs=0.0005)


def test_minor_loss() -> None:
    """Hand calculation: K 2 at 50 gpm in 2.067 in: 4.7805^2 / 64.348 x 2 = 0.7103 ft."""
    loss = minor_loss(
        flow=quantity(50, "gpm"),
        inside_diameter=quantity(2.067, "in"),
        coefficient=fitting("swing check valve").coefficient,
    )

    assert loss.m_as("ft") == pytest.approx(0.7103, abs=1e-4)
    assert coefficient_of_loss(
        loss=loss, flow=quantity(50, "gpm"), inside_diameter=quantity(2.067, "in")
    ) == pytest.approx(2, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "coefficient"),
    [("90 elbow, threaded", 1.5), ("45 elbow, threaded", 0.4), ("tee, line flow, threaded", 0.9),
     ("tee, branch flow, threaded", 2), ("union, threaded", 0.08), ("gate valve, open", 0.15),
     ("ball valve, open", 0.05), ("globe valve, open", 10), ("swing check valve", 2)],
)  # fmt: skip
def test_fittings_as_printed(name: str, coefficient: float) -> None:
    """Engineering ToolBox, minor loss coefficients."""
    assert fitting(name).coefficient == coefficient


def test_reynolds_number() -> None:
    """Hand calculation: 10 gpm in 1.049 in at 60 F: 3.7123 x 0.087417 / 1.208e-5 = 26,860."""
    reynolds = reynolds_number(
        flow=quantity(10, "gpm"), inside_diameter=quantity(1.049, "in"), kinematic_viscosity=AT_60
    )

    assert reynolds == pytest.approx(26_860, abs=10)
