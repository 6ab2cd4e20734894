"""Chlorine doses against Indiana's table and the doses that states and handbooks print."""

from __future__ import annotations

import pytest

from calc.hydraulics.disinfection import (
    chlorine_needed,
    dry_dose,
    liquid_dose,
    strength_of_dry_dose,
    strength_of_liquid_dose,
    trade_percent,
)
from calc.hydraulics.well import volume_per_length
from calc.units import Quantity, quantity

AT_50 = quantity(50, "mg/liter")
HUNDRED = quantity(100, "gallon")
DRY, LIQUID = 0.65, 12.0
"""What Indiana's table goes by: 65 % calcium hypochlorite, 12 trade per cent (120 g/L)."""


def hundred_feet(inches: float) -> Quantity:
    return quantity(
        100 * volume_per_length(bore=quantity(inches, "in")).m_as("gallon/ft"), "gallon"
    )


@pytest.mark.parametrize(
    ("inches", "gallons", "ounces", "dry_off", "fluid_ounces", "liquid_off"),
    # 327 IAC 8-3.4-24 Table 24-1, 50 mg/L for 100 ft of water; larger rows are printed in pints and
    # gallons and in pounds, which widens the rounding. W8-c6 to W8-c16 are among them.
    [
        (6, 146.9, 1.5, 0.05, 7.8, 0.05),
        (8, 261.1, 2.7, 0.05, 13.9, 0.05),
        (10, 408.0, 4.2, 0.05, 1.4 * 16, 0.81),
        (12, 587.5, 6.0, 0.05, 2.0 * 16, 0.81),
        (16, 1044, 10.7, 0.05, 3.5 * 16, 0.81),
        (24, 2350, 24, 0.5, 1.0 * 128, 6.4),
        (36, 5287, 54, 0.5, 2.2 * 128, 6.4),
    ],
)
def test_w8_indiana_table(
    inches: float,
    gallons: float,
    ounces: float,
    dry_off: float,
    fluid_ounces: float,
    liquid_off: float,
) -> None:
    for volume in (quantity(gallons, "gallon"), hundred_feet(inches)):
        dry = dry_dose(volume=volume, target=AT_50, available=DRY)
        liquid = liquid_dose(volume=volume, target=AT_50, trade_percent=LIQUID)

        assert dry.m_as("oz") == pytest.approx(ounces, abs=dry_off)
        assert liquid.m_as("fluid_ounce") == pytest.approx(fluid_ounces, abs=liquid_off)


def test_indiana_5_in_row_follows_a_wrong_volume() -> None:
    """It prints 106.09 gal and 5.65 fl oz; 5 in holds 102.0 and wants 5.44."""
    misprinted = liquid_dose(volume=quantity(106.09, "gallon"), target=AT_50, trade_percent=LIQUID)
    true = liquid_dose(volume=hundred_feet(5), target=AT_50, trade_percent=LIQUID)

    assert misprinted.m_as("fluid_ounce") == pytest.approx(5.65, abs=0.01)
    assert true.m_as("fluid_ounce") == pytest.approx(5.44, abs=0.005)


def test_general_rule() -> None:
    """Hand calculation: a litre is 0.26417 gal, so grams = mg/L x gallons x 0.0037854."""
    assert chlorine_needed(volume=HUNDRED, target=AT_50).m_as("gram") == pytest.approx(
        50 * 100 * 0.0037854, rel=1e-5
    )


@pytest.mark.parametrize(
    ("dose", "unit", "percent", "true"),
    # Liquid per 100 gal, per cent taken as g in 100 mL, and what the dose works out to.
    [
        (0.75, "quart", 5.25, 98),  # Wisconsin DNR, stated 100
        (1.5, "quart", 5.25, 197),  # the same, stated 200
        (2, "quart", 5.25, 262),  # the same, stated 300: it does not scale
        (1, "quart", 5.25, 131),  # MIL-HDBK-1164, stated 100
        (3, "pint", 5, 187),  # Oregon State University and MWPS-14, stated 200
        (3, "cup", 5.25, 98),  # Hickory UWCD, Texas, nothing stated
    ],
)
def test_liquid_doses_in_print(dose: float, unit: str, percent: float, true: float) -> None:
    found = strength_of_liquid_dose(
        volume=HUNDRED, dose=quantity(dose, unit), trade_percent=percent
    ).m_as("mg/liter")

    assert found == pytest.approx(true, abs=0.8)


@pytest.mark.parametrize(
    ("ounces", "available", "true"),
    # Dry per 100 gal: MIL-HDBK-1164 (stated 100); North Carolina 15A NCAC 02C .0111 (stated at
    # least 100), 65 to 75 %; Hickory UWCD, Texas, 70 %.
    [(2, 0.65, 97), (3, 0.65, 146), (3, 0.75, 169), (2, 0.70, 105)],
)
def test_dry_doses_in_print(ounces: float, available: float, true: float) -> None:
    found = strength_of_dry_dose(
        volume=HUNDRED, dose=quantity(ounces, "oz"), available=available
    ).m_as("mg/liter")

    assert found == pytest.approx(true, abs=0.6)


def test_two_answers_for_100_mg_per_litre_of_bleach() -> None:
    """Wisconsin DNR prints 3/4 quart of 5.25 %, MIL-HDBK-1164 one; hand calculation: 0.762."""
    dose = liquid_dose(volume=HUNDRED, target=quantity(100, "mg/liter"), trade_percent=5.25)

    assert dose.m_as("quart") == pytest.approx(0.762, abs=0.001)


def test_a_county_table_is_labelled_wrong() -> None:
    """Mesa County (CO) Health Dept: "500 ppm", 10 cups, 6 in by 100 ft: 223 mg/L of 5.25 %."""
    found = strength_of_liquid_dose(
        volume=quantity(146.9, "gallon"), dose=quantity(10, "cup"), trade_percent=5.25
    )

    assert found.m_as("mg/liter") == pytest.approx(223, abs=1)


def test_hand_calculation_at_100() -> None:
    """Hand calculation, 6 in by 100 ft: 146.88 gal x 0.37854 = 55.60 g of chlorine.

    65 % dry: 85.54 g = 3.02 oz. 5.25 % bleach: 1.059 L = 4.48 cups.
    """
    water, strength = hundred_feet(6), quantity(100, "mg/liter")
    dry = dry_dose(volume=water, target=strength, available=DRY)
    bleach = liquid_dose(volume=water, target=strength, trade_percent=5.25)

    assert dry.m_as("oz") == pytest.approx(3.02, abs=0.005)
    assert bleach.m_as("cup") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize(
    ("inches", "ounces", "cups"), [(4, 1.3, 2.6), (6, 2.9, 5.9), (8, 5.2, 10.4)]
)
def test_the_trades_doses_at_100_are_not_100(inches: float, ounces: float, cups: float) -> None:
    """Scaled from MIL-HDBK-1164's 2 oz and 1 quart per 100 gal: 97 mg/L dry, but 131 of bleach."""
    water: Quantity = hundred_feet(inches)
    dry = strength_of_dry_dose(volume=water, dose=quantity(ounces, "oz"), available=DRY)
    bleach = strength_of_liquid_dose(volume=water, dose=quantity(cups, "cup"), trade_percent=5.25)

    # Ounces and cups are printed to a tenth.
    assert dry.m_as("mg/liter") == pytest.approx(97, rel=0.05 / ounces)
    assert bleach.m_as("mg/liter") == pytest.approx(131, rel=0.05 / cups)


def test_per_cent_by_weight_is_not_trade_per_cent() -> None:
    """Hand calculation: 10 % by weight at 1.2 is 12 trade per cent, 120 g/L."""
    assert trade_percent(weight_percent=10, specific_gravity=1.2) == pytest.approx(12)
